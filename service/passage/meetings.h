// Where a track passes something: over it, under it, or near it.
#pragma once

#include <vector>

#include "facts/waterway/feature.h"
#include "passage/stretch.h"
#include "units/quantity.h"

namespace passage_brief {

/// Where the track passes under, over or near something, once for each time it does.
struct Meeting {
  std::size_t index;  // into the waterway's list
  Length along;
  Length off;   // distance from the centre line; zero where crossed
  double side;  // negative to port, positive to starboard, of the nearest point
};

/// Every place where a line crosses the track's corridor, or one point comes within `near` of the
/// centre line. A thing exactly at the end of a leg is met once. Two meetings less than 100 m apart
/// along the track are one, the nearer.
[[nodiscard]] std::vector<Meeting> meetings_with(const Track& track, std::size_t index,
                                                 const Shape& shape, Length near);

/// The one place where the track comes nearest to the shape, if within `near` and not before the
/// start or beyond the end of the track.
[[nodiscard]] std::vector<Meeting> nearest_passing(const Track& track, std::size_t index,
                                                   const Shape& shape, Length near);

}  // namespace passage_brief
