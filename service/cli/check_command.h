// `check`: runs the readers alone over files of any kind, told apart by their content.
#pragma once

namespace CLI {
class App;
}

namespace passage_brief {

/// Adds the command to the program; when run it sets the exit status.
void add_check_command(CLI::App& program, int& status);

}  // namespace passage_brief
