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
namespace {

JudgedDeparture judged(Findings findings, const Facts& facts, const RuleSet& rules) {
  Judgement judgement = judge(rules, findings);
  add_alert_cautions(facts, findings, judgement);
  return {std::move(findings), std::move(judgement)};
}

}  // namespace

JudgedDeparture judge_departure(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                                const RuleSet& rules) {
  return judged(find(survey, plan, facts, rules.margins), facts, rules);
}

JudgedDeparture judge_limits(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                             const RuleSet& rules) {
  Finding finding(survey, plan, facts, rules.margins);
  // Facts of dangers are facts of nothing else (rules/fact_table.h): without them all the other
  // limits stand as they would.
  Judgement judgement = judge(rules, finding.findings());
  if (!keeps_every_limit(judgement)) return {finding.take(), std::move(judgement)};
  finding.add_dangers();
  return judged(finding.take(), facts, rules);
}

bool keeps_every_limit(const Judgement& judgement) {
  return judgement.verdict == Verdict::within_limits || judgement.verdict == Verdict::cautions;
}

}  // namespace passage_brief
