// The point of no return: until when what was passed can be passed back with every margin kept, and
// until when a refuge or a turning place ahead can be reached with enough water.
//
//   level needed = draft + squat + half the wave (or the wash) + margin - charted depth
//   level allowed under a bridge or a cable
//                = clearance datum + charted clearance - air draft - half the wave - margin (- gap)
//
// Both of the prediction: what is observed or pressed beside it (water_level.h) is put to the
// limit, at its worst in each hour, of what was observed in each ten minutes.
//
// From the time of passing (at a place ahead, of coming to it) on, the first instant within 24 h at
// which the level at the place's own station falls below what is needed, or rises above what is
// allowed, by the curve itself (level_until.h); then down to the full minute. It is never later
// than the tide is predicted, nor, where waves count, than they are forecast: they are taken hour
// by hour, the greater of the two around. Not known where anything it hangs on is not.
//
// Overhead the antennas are up where the margin is kept so as she passes, else in their lowest
// state; what the lowest state adds to the former is told beside it. In a reach, and on a bar that
// lies along the way, the soonest of all that charts a depth there counts, and is named.
//
// It speaks of depth and room only, over the water she came by: wind, sea and current may shut a
// place sooner, a bar above all. Back through a reach she is to be clear of it by then. A place
// ahead is looked at where it is drawn, with the squat of slow speed; the water between it and the
// track is not.
#pragma once

#include <vector>

#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/margins.h"
#include "passage/route_survey.h"
#include "plan/plan.h"

namespace passage_brief {

/// In order of passing: the berth left, every reach and stretch of unnamed water, bar, bridge and
/// cable, refuge and turning place.
[[nodiscard]] std::vector<BackUntil> back_until_on(const RouteSurvey& survey, const Plan& plan,
                                                   const Facts& facts, const Margins& margins);

}  // namespace passage_brief
