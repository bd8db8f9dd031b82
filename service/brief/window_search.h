// Windows of a span, and where there is none, why and what would give one.
#pragma once

#include "brief/window.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "rules/rule_set.h"
#include "units/time.h"

namespace passage_brief {

/// Pure. The span at most kLongestSpan (departure_windows.h). `survey` as for judge_departure.
[[nodiscard]] WindowList windows_in(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                                    const RuleSet& rules, Span span);

/// The brief's own departure `found`, left 30 minutes late and run 20 % slow.
[[nodiscard]] std::vector<Otherwise> late_and_slow(const RouteSurvey& survey, const Plan& plan,
                                                   const Facts& facts, const RuleSet& rules,
                                                   const Findings& found);

}  // namespace passage_brief
