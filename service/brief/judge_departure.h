// One departure: plan and facts to findings, findings and rules to a verdict.
#pragma once

#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"

namespace passage_brief {

struct JudgedDeparture {
  Findings findings;
  Judgement judgement;
};

/// Pure. `survey` is that of the plan's route over the facts' waterway with the rules' margins; it
/// serves every departure along the same route. Where the rules are asked to be sure the findings
/// are with_antennas_to_be_sure().
[[nodiscard]] JudgedDeparture judge_departure(const RouteSurvey& survey, const Plan& plan,
                                              const Facts& facts, const RuleSet& rules);

/// For whether every limit is kept, what keeps it from being so, and what is left at the places
/// measured against a margin. Dangers no limit asks for are left out; all of them, where a limit
/// that hangs on none is not kept.
[[nodiscard]] JudgedDeparture judge_limits(const RouteSurvey& survey, const Plan& plan,
                                           const Facts& facts, const RuleSet& rules);

[[nodiscard]] bool keeps_every_limit(const Judgement& judgement);

}  // namespace passage_brief
