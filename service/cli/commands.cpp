#include "cli/commands.h"

#include <CLI/CLI.hpp>

namespace passage_brief {

int run_command_line(int argc, char** argv) {
  CLI::App app{"Works out a one-page brief for a passage in shoal water."};
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    const int status = app.exit(error);
    return status == 0 ? 0 : 2;
  }
  return 0;
}

}  // namespace passage_brief
