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
  // From the first to the last place of the track where it lies over or under the corridor; both
  // are `along` unless it lies along the track.
  Length begin;
  Length end;
};

/// Every time the track comes over or under a line: crosses it, or comes within `near` of it. A
/// thing exactly at the end of a leg is met once. What is met again less than 100 m on along the
/// track is one meeting, unless the track crosses it, turns back by 135 degrees and more (our
/// rules) and crosses it again. A meeting that goes on for 50 m and more is with a line that lies
/// along the track, and told of where it begins; a shorter one is at one place, the nearest (our
/// rule: the tide moves a centimetre meanwhile).
[[nodiscard]] std::vector<Meeting> meetings_with(const Track& track, std::size_t index,
                                                 const Shape& shape, Length near);

/// The one place where the track comes nearest to the shape, if within `near` and not before the
/// start or beyond the end of the track.
[[nodiscard]] std::vector<Meeting> nearest_passing(const Track& track, std::size_t index,
                                                   const Shape& shape, Length near);

}  // namespace passage_brief
