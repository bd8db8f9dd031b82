// Marks in order of passing: the side each lies on by geometry, and the side it should lie on.
//
// Going with the direction of buoyage (inbound, from seaward) a port-hand mark is left to port and
// a starboard-hand mark to starboard; against it the hands change (IALA Maritime Buoyage System; 33
// CFR 62.25). A preferred-channel mark gives its side for the main channel; who takes the secondary
// keeps it on the other hand. A yellow triangle or square of the intracoastal waterway overrides
// the mark's own hand: triangle to starboard, square to port, along the waterway's own direction
// (33 CFR 62.49); a yellow band has no side. Where no direction of buoyage is stated the side is
// not known, whatever the colour. An unofficial mark proves nothing and has no side.
#pragma once

#include <optional>
#include <vector>

#include "facts/waterway/waterway.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "passage/timeline.h"
#include "units/direction.h"
#include "units/known.h"

namespace passage_brief {

[[nodiscard]] std::vector<MarkFinding> marks_on(const RouteSurvey& survey,
                                                const Timeline& timeline);

/// The side a mark should lie on for a boat on that course, `takes_main` saying which branch she
/// takes at a preferred-channel mark. Empty: either side.
[[nodiscard]] Known<std::optional<Side>> should_lie_to(const Mark& mark,
                                                       const Known<TrueBearing>& buoyage,
                                                       TrueBearing course,
                                                       const Known<bool>& takes_main);

}  // namespace passage_brief
