// How much water is under the keel, reach by reach, at the place and time where it is least.
//
//   water = least charted depth in the corridor + height of tide
//   under the keel = water - draft - squat - half the wave height (the wash where waves do not
//   count)
//
// The tide is the lowest while any part of the hull is over the place. Error terms: tide (the
// station's), survey (CATZOC of S-57: 95 % figures, 1.96 standard deviations; a channel survey 1 ft
// at 95 %, USACE EM 1110-2-1003, from memory; a captain's own sounding likewise, common practice,
// no source), squat. Less, one way, an allowance for shoaling since the survey where the bottom
// moves. A depth without survey date or quality has a figure, but what it could be as little as is
// not known.
#pragma once

#include <vector>

#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/hull.h"
#include "passage/margins.h"
#include "passage/route_survey.h"
#include "passage/timeline.h"
#include "plan/plan.h"

namespace passage_brief {

/// In order of passing: the berth left, every reach and stretch of unnamed water, every bar, the
/// berth reached.
[[nodiscard]] std::vector<Depth> depths_on(const RouteSurvey& survey, const Timeline& timeline,
                                           const Plan& plan, const HullForm& hull,
                                           const Facts& facts, const Margins& margins);

}  // namespace passage_brief
