// Out, a stay, and back: the way back is a passage of its own, left so long after arrival.
#pragma once

#include "brief/brief.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "plan/plan.h"
#include "rules/rule_set.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {

/// The same boat along the way back; the plan has one.
[[nodiscard]] Plan plan_of_way_back(const Plan& plan, Instant leaves);

/// Not known, with the reason, where the arrival is not.
[[nodiscard]] Known<Instant> leaves_again(const Findings& way_out, Interval stay);

[[nodiscard]] Verdict worse_of(Verdict a, Verdict b);

/// The plan has a way back; `way_out` is what was found for the way there.
[[nodiscard]] WayBack way_back_of(const Plan& plan, const Facts& facts, const RuleSet& rules,
                                  Instant now, const Findings& way_out);

}  // namespace passage_brief
