// The whole program from its files to all its pages, against a process that only starts.
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

#include "ratio.h"

namespace passage_brief::bench {
namespace {

void run(const std::vector<std::string>& command) {
  std::vector<char*> arguments;
  for (const std::string& word : command) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  pid_t child = 0;
  if (posix_spawn(&child, command.front().c_str(), nullptr, nullptr, arguments.data(), environ) !=
      0) {
    throw std::runtime_error("cannot start " + command.front());
  }
  int ended = 0;
  waitpid(child, &ended, 0);
  if (!WIFEXITED(ended) || WEXITSTATUS(ended) != 0) {
    throw std::runtime_error(command.front() + " failed");
  }
}

std::vector<std::string> make_all(const std::string& formats) {
  const std::string examples = PROJECT_DIR "/examples/";
  const std::string into = std::filesystem::path(START_ONLY).parent_path() / "pages";
  return {PROGRAM,      "make",
          "--vessel",   examples + "sedge_wren.vessel.json",
          "--route",    examples + "upriver.gpx",
          "--waterway", examples + "tansel.waterway.json",
          "--tide",     examples + "tansel_point.tide.json",
          "--tide",     examples + "upper_tansel.tide.json",
          "--current",  examples + "tansel_narrows.current.json",
          "--current",  examples + "heron_creek.current.json",
          "--wind",     examples + "tansel.wind.json",
          "--rules",    PROJECT_DIR "/rules/renters.json",
          "--depart",   "2026-06-14T08:15",
          "--now",      "2026-06-14T07:00",
          "--as",       formats,
          "--into",     into};
}

}  // namespace

void add_processes(Plan& plan) {
  plan.floor_of_processes("process that only starts", [] { run({START_ONLY}); });
  plan.measure_processes({"whole process, JSON", "process that only starts"},
                         [] { run(make_all("json")); });
  plan.measure_processes({"whole process, every page", "process that only starts"},
                         [] { run(make_all("pdf,text,json")); });
}

}  // namespace passage_brief::bench
