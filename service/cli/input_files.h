// The files named on a command line, read into plan, facts and rules.
#pragma once

#include <expected>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "plan/plan.h"
#include "reading/problem.h"
#include "rules/rule_set.h"

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
  std::string depart_option = "--depart";  // where a problem with it is said to be
};

struct Inputs {
  Plan plan;
  Facts facts;
  RuleSet rules;
};

/// Forecasts issued after `now`, and drafts measured later than that day: wrong input, for an age
/// below zero would pass for a fresh one.
[[nodiscard]] Problems dated_after(const Inputs& inputs, Instant now);

/// The options for all files but the time of departure.
void add_input_options(CLI::App& command, InputFiles& files);

/// Every problem of every file at once. What a rules file builds on: see rules_files.h.
[[nodiscard]] std::expected<Inputs, Problems> read_inputs(const InputFiles& files);

}  // namespace passage_brief
