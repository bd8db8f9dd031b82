// `station`: writes a tide station file from the metadata of a service.
#pragma once

#include "units/clock.h"

namespace CLI {
class App;
}

namespace passage_brief {

/// Adds the command to the program; when run it sets the exit status.
void add_station_command(CLI::App& program, const Clock& clock, int& status);

}  // namespace passage_brief
