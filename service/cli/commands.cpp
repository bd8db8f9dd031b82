#include "cli/commands.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <iostream>

#include "cli/check_command.h"
#include "cli/currents_command.h"
#include "cli/heights_command.h"
#include "cli/make_command.h"
#include "cli/station_command.h"
#include "cli/sun_command.h"
#include "cli/variation_command.h"
#include "cli/windows_command.h"
#include "units/clock.h"

namespace passage_brief {

namespace {

/// A command whose words did not all reach standard output has not done what was asked (a full disk
/// tells of it only when the last of them is written out).
int status_once_written(int status) {
  std::cout.flush();
  const bool written = std::cout.good() && std::fflush(stdout) == 0 && std::ferror(stdout) == 0;
  if (written) return status;
  fmt::print(stderr, "passage-brief failed: cannot write to standard output\n");
  return 1;
}

}  // namespace

int run_command_line(int argc, char** argv) {
  CLI::App program{"Works out a one-page brief for a passage in shoal water."};
  program.require_subcommand(1);
  const SystemClock clock;
  int status = 0;
  add_make_command(program, clock, status);
  add_windows_command(program, clock, status);
  add_check_command(program, status);
  add_heights_command(program, status);
  add_currents_command(program, status);
  add_station_command(program, clock, status);
  add_sun_command(program, status);
  add_variation_command(program, status);
  try {
    program.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return status_once_written(program.exit(error) == 0 ? 0 : 2);
  } catch (const std::exception& failure) {
    fmt::print(stderr, "passage-brief failed: {}\n", failure.what());
    return 1;
  }
  return status_once_written(status);
}

}  // namespace passage_brief
