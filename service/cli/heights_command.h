// `heights`: height of tide at a station, on a regular table of times or at high and low water.
#pragma once

namespace CLI {
class App;
}

namespace passage_brief {

/// Adds the command to the program; when run it sets the exit status.
void add_heights_command(CLI::App& program, int& status);

}  // namespace passage_brief
