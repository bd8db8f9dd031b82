#include "brief/out_and_back.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "brief/brief.h"
#include "brief/prepare_brief.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "plan/plan.h"
#include "rules/rule_set.h"
#include "units/check.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {

Plan plan_of_way_back(const Plan& plan, Instant leaves) {
  check(plan.back.has_value(), "a way back is planned");
  Plan back = plan;
  back.route = plan.back->route;
  back.departure.at = leaves;
  back.back.reset();
  return back;
}

Known<Instant> leaves_again(const Findings& way_out, Interval stay) {
  return join([stay](Instant arrives) { return arrives + stay; }, way_out.passage.arrives);
}

Verdict worse_of(Verdict a, Verdict b) { return std::max(a, b); }

WayBack way_back_of(const Plan& plan, const Facts& facts, const RuleSet& rules, Instant now,
                    const Findings& way_out) {
  const Interval stay = plan.back->stay;
  WayBack back{stay, leaves_again(way_out, stay), std::nullopt, Verdict::cannot_tell};
  if (!back.leaves.has_value()) return back;
  back.brief = prepare_brief(plan_of_way_back(plan, *back.leaves), facts, rules, now);
  back.verdict = back.brief->judgement.verdict;
  return back;
}

}  // namespace passage_brief
