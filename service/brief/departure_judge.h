// One departure after another along the same route, through judge_departure.
//
// Past the forecast (a part of the way beyond its hours, or older at departure than the rules
// allow) a departure is judged by the hours the forecast has, however old, and as if calm and clear
// past them, which leaves the limits that need no forecast: tide, bridges, current and light. It is
// then no more than that: JudgedOn says so.
#pragma once

#include <optional>

#include "brief/judge_departure.h"
#include "brief/window.h"
#include "facts/facts.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "rules/rule_set.h"
#include "units/time.h"

namespace passage_brief {

/// Where the rules are asked to be sure the findings are at_their_least().
struct JudgedMinute {
  JudgedDeparture departure;
  JudgedOn judged_on;
  bool good;  // every limit is kept
};

class DepartureJudge {
 public:
  /// Departures are asked for within `span`. All arguments must outlive the judge.
  DepartureJudge(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                 const RuleSet& rules, Span span);

  [[nodiscard]] JudgedMinute at(Instant departs) const;
  /// As if calm and clear past the hours of the forecast, which is never old.
  [[nodiscard]] const Facts& calm_facts() const { return calm_; }
  [[nodiscard]] const Facts& facts() const { return facts_; }
  [[nodiscard]] const RuleSet& rules() const { return rules_; }

 private:
  const RouteSurvey& survey_;
  const Plan& plan_;
  const Facts& facts_;
  const RuleSet& rules_;
  Facts calm_;
};

/// What is left beyond its margin at every place where something is measured against one, in order
/// of kind and passing. A bridge that opens for the boat is none.
[[nodiscard]] std::vector<ToSpare> all_to_spare(const Findings& findings);
/// The least of them, the first of equals; empty where there is none.
[[nodiscard]] std::optional<ToSpare> tightest(const Findings& findings);

/// The limits that are not kept: broken ones by grade and in order of passing, then those that
/// cannot tell.
[[nodiscard]] std::vector<WindowEdge> limits_not_kept(const Judgement& judgement);

}  // namespace passage_brief
