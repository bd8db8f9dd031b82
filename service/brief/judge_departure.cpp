#include "brief/judge_departure.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <variant>

#include "brief/alert_cautions.h"
#include "facts/facts.h"
#include "passage/dangers.h"
#include "passage/find.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "rules/judge.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// Beyond what time a danger is none to the test, whatever else there is to it; an hour at most.
Interval asked_within(const Test& test) {
  if (const auto* comparison = std::get_if<Comparison>(&test.what)) {
    const bool no_later = comparison->op == Comparison::Operator::less_than ||
                          comparison->op == Comparison::Operator::at_most;
    if (comparison->fact->name != "reached_in" || !no_later || comparison->against_margin) {
      return kDangersWithin;
    }
    return std::get<Interval>(comparison->values.front());
  }
  const Joined& joined = std::get<Joined>(test.what);
  if (joined.by == Joined::By::none) return kDangersWithin;
  const auto sooner = [](const Test& a, const Test& b) {
    return asked_within(a) < asked_within(b);
  };
  return asked_within(joined.by == Joined::By::all
                          ? *std::ranges::min_element(joined.parts, sooner)
                          : *std::ranges::max_element(joined.parts, sooner));
}

/// Within what time dangers are looked for where only limits count: longer than they ask for, so
/// that those which come as near between two departures are seen at both (sure_between.h). Nothing
/// where no limit asks for a danger.
std::optional<Interval> dangers_wanted_within(const RuleSet& rules) {
  constexpr int kBeyond = 3;
  std::optional<Interval> within;
  for (const Rule& rule : rules.rules) {
    if (!rule.limit || rule.for_each != SubjectKind::danger) continue;
    const Interval one = std::min<Interval>(asked_within(rule.when) * kBeyond, kDangersWithin);
    within = std::max(within.value_or(one), one);
  }
  return within;
}

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
  if (const auto within = dangers_wanted_within(rules)) finding.add_dangers(*within);
  return judged(finding.take(), facts, rules);
}

bool keeps_every_limit(const Judgement& judgement) {
  return judgement.verdict == Verdict::within_limits || judgement.verdict == Verdict::cautions;
}

}  // namespace passage_brief
