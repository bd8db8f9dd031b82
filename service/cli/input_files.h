// The files named on a command line, read into plan, facts and rules.
#pragma once

#include <expected>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "plan/plan.h"
#include "reading/problem.h"
#include "rules/rule_set.h"
#include "units/clock.h"
#include "units/time.h"

namespace CLI {
class App;
}

namespace passage_brief {

/// Paths, and the time of departure as written: RFC 3339, or wall time in the waterway's zone.
struct InputFiles {
  std::string vessel;
  std::string route;
  std::string waterway;
  std::vector<std::string> tides;
  std::vector<std::string> currents;
  std::vector<std::string> winds;
  std::string rules;
  std::string depart;
  std::vector<std::string> holidays = {};
  std::string sure = {};  // "95", or empty
  std::vector<std::string> observed = {};
  std::string stay = {};                   // "2 h", with a way back
  std::string back = {};                   // "reversed", or a route file
  std::string depart_option = "--depart";  // where a problem with it is said to be
  std::string live = {};                   // sources file; empty: nothing is fetched
  std::string now = {};  // time the brief is made, as written; empty: by the clock
};

struct Inputs {
  Plan plan;
  Facts facts;
  RuleSet rules;
  Instant now;  // the time the brief is made
};

/// The options for all files but the time of departure.
void add_input_options(CLI::App& command, InputFiles& files);

/// Every problem of every file at once; a forecast issued after the time the brief is made is one,
/// and a draft measured later than that day, for an age below zero would pass for a fresh one. What
/// is fetched is fetched as of that time, and does not take the place of what files give. What a
/// rules file builds on: see rules_files.h.
[[nodiscard]] std::expected<Inputs, Problems> read_inputs(const InputFiles& files,
                                                          const Clock& clock);

}  // namespace passage_brief
