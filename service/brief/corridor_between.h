// How wide the corridor is in the departures between two judged ones, and how a boat drifts there:
// by the hours of the forecast.
#pragma once

#include <span>

#include "brief/current_between.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"

namespace passage_brief {

/// Of what is not `may_be_wider` the departures between come to each place between the times of
/// both ends.
enum class CorridorBetween { the_same, within_that_of_the_ends, may_be_wider };

/// Along the pieces of both departures over the same part of the way.
[[nodiscard]] CorridorBetween corridor_between(const RouteSurvey& survey, const Facts& facts,
                                               const CurrentBetween& currents,
                                               std::span<const TrackPiece> earlier,
                                               std::span<const TrackPiece> later);

/// Whether the wind strays so little that a drift between is much like those at both ends.
[[nodiscard]] bool drift_stays(const Facts& facts, std::span<const TrackPiece> earlier,
                               std::span<const TrackPiece> later);

}  // namespace passage_brief
