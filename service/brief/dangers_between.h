// Whether what a boat adrift comes to in a departure between two judged ones is near at one of
// them.
//
// Dangers come and go: as the wind swings, and shoals with the tide. Those told of at neither end
// are looked for here.
#pragma once

#include "brief/current_between.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"

namespace passage_brief {

/// Wind and current stray so little that a drift between is much like those at both ends, no shoal
/// is a danger at a low water between alone, and nothing at the corridor's edge is pushed to that
/// was not (our rules).
[[nodiscard]] bool no_danger_between_alone(const Findings& earlier, const Findings& later,
                                           const RouteSurvey& survey, const Facts& facts,
                                           const CurrentBetween& currents);

}  // namespace passage_brief
