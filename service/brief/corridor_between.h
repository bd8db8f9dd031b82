// How wide the corridor is in the departures between two judged ones, by the hours of the forecast.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "brief/current_between.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"

namespace passage_brief {

/// Of what is not `may_be_wider` the departures between come to each place between the times of
/// both ends.
enum class CorridorBetween { the_same, within_that_of_the_ends, may_be_wider };

/// Of two departures along one route.
class CorridorsBetween {
 public:
  /// All must outlive it.
  CorridorsBetween(const RouteSurvey& survey, const Facts& facts, const CurrentBetween& currents,
                   const std::vector<TrackPiece>& earlier, const std::vector<TrackPiece>& later);

  /// Along pieces of both, next to each other in the track, over the same part of the way.
  [[nodiscard]] CorridorBetween over(std::span<const TrackPiece> earlier,
                                     std::span<const TrackPiece> later) const;

 private:
  struct Pair {
    const TrackPiece* earlier;
    const TrackPiece* later;
    std::optional<CorridorBetween> found;  // worked out once
  };

  const RouteSurvey& survey_;
  const Facts& facts_;
  const CurrentBetween& currents_;
  mutable std::vector<Pair> pairs_;
};

}  // namespace passage_brief
