// `currents`: the tidal current at a station, on a regular table of times or at slack and greatest
// flow.
#pragma once

namespace CLI {
class App;
}

namespace passage_brief {

/// Adds the command to the program; when run it sets the exit status.
void add_currents_command(CLI::App& program, int& status);

}  // namespace passage_brief
