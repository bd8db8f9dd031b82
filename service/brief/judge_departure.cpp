#include "brief/judge_departure.h"

#include <optional>
#include <utility>

#include "brief/alert_cautions.h"
#include "brief/danger_horizon.h"
#include "facts/facts.h"
#include "passage/find.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "rules/at_their_least.h"
#include "rules/judge.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"
#include "units/time.h"

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
  Findings found = find(survey, plan, facts, rules.margins);
  // What keeps the limits is what the page tells her to do.
  if (rules.sure_95) found = with_antennas_to_be_sure(std::move(found));
  return judged(std::move(found), facts, rules);
}

JudgedDeparture judge_limits(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                             const RuleSet& rules) {
  Finding finding(survey, plan, facts, rules.margins);
  // Facts of dangers are facts of nothing else (rules/fact_table.h): without them all the other
  // limits stand as they would.
  Judgement judgement = judge(rules, finding.findings());
  if (!keeps_every_limit(judgement)) return {finding.take(), std::move(judgement)};
  const std::optional<Interval> within = dangers_wanted_within(rules);
  if (!within) return {finding.take(), std::move(judgement)};
  finding.add_dangers(*within);
  return judged(finding.take(), facts, rules);
}

bool keeps_every_limit(const Judgement& judgement) {
  return judgement.verdict == Verdict::within_limits || judgement.verdict == Verdict::cautions;
}

}  // namespace passage_brief
