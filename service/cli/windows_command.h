// `windows`: between when and when one can leave.
#pragma once

#include "units/clock.h"

namespace CLI {
class App;
}

namespace passage_brief {

/// Adds the command; its exit status goes to `status`. The clock is asked only where --now is left
/// out.
void add_windows_command(CLI::App& program, const Clock& clock, int& status);

}  // namespace passage_brief
