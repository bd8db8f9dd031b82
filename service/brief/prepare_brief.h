// THE FLOW: plan, facts and rules to one brief. Open this file first.
//
//   plan    the vessel, her route and the hour she leaves
//   facts   the waterway as drawn, tides, currents and wind, each with its source
//   rules   margins and cautions of the house, as data
//
// Every door (command line, and later HTTP and mail) calls prepare_brief and gives the Brief to a
// printer of service/page.
#pragma once

#include "brief/brief.h"
#include "facts/facts.h"
#include "plan/plan.h"
#include "rules/rule_set.h"
#include "units/time.h"

namespace passage_brief {

/// Pure: the same inputs give the same brief. `now` is when it is made: it dates the brief and the
/// age of its sources.
[[nodiscard]] Brief prepare_brief(const Plan& plan, const Facts& facts, const RuleSet& rules,
                                  Instant now);

}  // namespace passage_brief
