// Runs the built program as a person would, and keeps what it said.
#pragma once

#include <string>
#include <vector>

namespace passage_brief::given {

struct ProgramRun {
  int status;       // exit status; throws instead when the program was ended by a signal
  std::string out;  // standard output
  std::string err;  // standard error
};

/// passage-brief with these arguments, in the project's folder, standard input empty.
[[nodiscard]] ProgramRun run_program(const std::vector<std::string>& arguments);

/// The same with standard output on a full disk (/dev/full).
[[nodiscard]] ProgramRun run_program_on_a_full_disk(const std::vector<std::string>& arguments);

}  // namespace passage_brief::given
