// What the boat comes to with her engines stopped: carried by the wind, by the current, or by both.
//
// From every piece of the track she drifts with any velocity of the fan of
// passage/disabled_drift.h, current included (45 of them: 5 down the wind, 9 across it; between two
// neighbours 1 nm away lie at most 250 m). She starts from the lee edge of the corridor, half a
// length nearer still. A hazard, a bridge, water shoaler than her draft at that time, and water of
// unknown depth count. What takes longer than an hour is left out (our rule, no source). Each thing
// is given once for each leg, where it is reached soonest; a point abeam of the joint of two legs
// is given for one of them. Where wind or current is not known, things within 0.25 nm are given and
// the time is not known.
//
// An anchor holds in water up to rode / scope less the height of the bow roller: scope 4 for chain,
// 7 for rope (common practice, no source).
#pragma once

#include <chrono>
#include <vector>

#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/margins.h"
#include "passage/route_survey.h"
#include "passage/timeline.h"
#include "plan/plan.h"
#include "units/time.h"

namespace passage_brief {

inline constexpr Interval kDangersWithin = std::chrono::hours(1);

/// By leg, then soonest first; those whose time is not known come first in their leg. `within`:
/// what takes longer is left out; an hour at most.
[[nodiscard]] std::vector<Danger> dangers_on(const RouteSurvey& survey, const Timeline& timeline,
                                             const Plan& plan, const Facts& facts,
                                             const Margins& margins,
                                             Interval within = kDangersWithin);

/// The greatest depth of water the vessel's anchor holds in.
[[nodiscard]] Known<Length> anchor_holds_in(const Vessel& vessel);

}  // namespace passage_brief
