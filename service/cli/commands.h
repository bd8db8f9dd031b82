// The command line: reads arguments and files, calls the same functions as every other door.
#pragma once

namespace passage_brief {

/// Runs one command. Exit status: 0 a result was made, whatever its verdict; 1 machinery failed or
/// a page cannot fit; 2 the input is wrong (every problem is on standard error).
int run_command_line(int argc, char** argv);

}  // namespace passage_brief
