// `sun`: sunrise, sunset, twilight and Moon of one day.
#pragma once

namespace CLI {
class App;
}

namespace passage_brief {

/// Adds the command to the program; when run it sets the exit status.
void add_sun_command(CLI::App& program, int& status);

}  // namespace passage_brief
