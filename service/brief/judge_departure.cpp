#include "brief/judge_departure.h"

#include <utility>

#include "brief/alert_cautions.h"
#include "facts/facts.h"
#include "passage/find.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "rules/judge.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"

namespace passage_brief {

JudgedDeparture judge_departure(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                                const RuleSet& rules) {
  Findings findings = find(survey, plan, facts, rules.margins);
  Judgement judgement = judge(rules, findings);
  add_alert_cautions(facts, findings, judgement);
  return {std::move(findings), std::move(judgement)};
}

}  // namespace passage_brief
