// `variation`: magnetic variation at a place and date.
#pragma once

namespace CLI {
class App;
}

namespace passage_brief {

/// Adds the command to the program; when run it sets the exit status.
void add_variation_command(CLI::App& program, int& status);

}  // namespace passage_brief
