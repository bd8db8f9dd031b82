#include "given/run_program.h"

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

#include "given/csv_table.h"

namespace passage_brief::given {
namespace {

std::string shell_word(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

ProgramRun run(const std::vector<std::string>& arguments, const std::string& output) {
  std::string err_file = std::filesystem::temp_directory_path() / "passage-brief-err-XXXXXX";
  const int descriptor = mkstemp(err_file.data());
  if (descriptor < 0) throw std::runtime_error("no temporary file");
  close(descriptor);

  std::string command = "cd " + shell_word(PROJECT_DIR) + " && exec " + shell_word(PROGRAM);
  for (const std::string& argument : arguments) command += " " + shell_word(argument);
  command += " </dev/null" + output + " 2>" + shell_word(err_file);
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot start: " + command);
  ProgramRun made{};
  std::array<char, 4096> part{};
  for (std::size_t n = 0; (n = std::fread(part.data(), 1, part.size(), pipe)) > 0;) {
    made.out.append(part.data(), n);
  }
  const int ended = pclose(pipe);
  made.err = contents_of(err_file);
  std::filesystem::remove(err_file);
  if (!WIFEXITED(ended))
    throw std::runtime_error("ended by a signal: " + command + "\n" + made.err);
  made.status = WEXITSTATUS(ended);
  return made;
}

}  // namespace

ProgramRun run_program(const std::vector<std::string>& arguments) { return run(arguments, ""); }

ProgramRun run_program_on_a_full_disk(const std::vector<std::string>& arguments) {
  return run(arguments, " >/dev/full");
}

}  // namespace passage_brief::given
