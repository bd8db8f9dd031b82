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
/// age of its sources, and is the earliest time that notice can be given to a bridge.
/// `windows_over`: so many local days from that of departure on, less what is past, are looked over
/// for windows (7 at most); none: neither windows nor what being late or slow costs are looked for.
[[nodiscard]] Brief prepare_brief(const Plan& plan, const Facts& facts, const RuleSet& rules,
                                  Instant now,
                                  std::chrono::days windows_over = std::chrono::days(0));

}  // namespace passage_brief
