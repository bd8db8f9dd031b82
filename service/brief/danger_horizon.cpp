#include "brief/danger_horizon.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <variant>

#include "passage/dangers.h"
#include "rules/fact_table.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"
#include "units/time.h"

namespace passage_brief {
namespace {

Interval wanted_by(const Rule& limit) {
  return asked_within(limit.when) * 3 + std::chrono::minutes(1);
}

}  // namespace

Interval asked_within(const Test& test) {
  if (const auto* comparison = std::get_if<Comparison>(&test.what)) {
    const bool no_later = comparison->op == Comparison::Operator::less_than ||
                          comparison->op == Comparison::Operator::at_most;
    if (comparison->fact->name != "reached_in" || !no_later || comparison->against_margin) {
      return kDangersWithin;
    }
    return std::min(std::get<Interval>(comparison->values.front()), kDangersWithin);
  }
  const Joined& joined = std::get<Joined>(test.what);
  if (joined.by == Joined::By::none) return kDangersWithin;
  Interval within = asked_within(joined.parts.front());
  for (const Test& part : joined.parts) {
    const Interval one = asked_within(part);
    within = joined.by == Joined::By::all ? std::min(within, one) : std::max(within, one);
  }
  return within;
}

std::optional<Interval> dangers_wanted_within(const RuleSet& rules) {
  std::optional<Interval> within;
  for (const Rule& rule : rules.rules) {
    if (!rule.limit || rule.for_each != SubjectKind::danger) continue;
    const Interval one = std::min(wanted_by(rule), kDangersWithin);
    within = std::max(within.value_or(one), one);
  }
  return within;
}

bool is_seen_at_both(const Rule& limit) { return wanted_by(limit) <= kDangersWithin; }

}  // namespace passage_brief
