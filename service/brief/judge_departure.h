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
/// serves every departure along the same route.
[[nodiscard]] JudgedDeparture judge_departure(const RouteSurvey& survey, const Plan& plan,
                                              const Facts& facts, const RuleSet& rules);

/// The same where every limit is kept. Where one is not that hangs on no danger, the dangers are
/// not looked for: then it stands for whether every limit is kept, and what is left at the places
/// measured against a margin, and for no more.
[[nodiscard]] JudgedDeparture judge_limits(const RouteSurvey& survey, const Plan& plan,
                                           const Facts& facts, const RuleSet& rules);

[[nodiscard]] bool keeps_every_limit(const Judgement& judgement);

}  // namespace passage_brief
