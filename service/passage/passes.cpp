#include "passage/passes.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "passage/plane_shape.h"
#include "units/direction.h"

namespace passage_brief {
namespace {

// A mark abreast of a berth a little astern of the first point is still seen on leaving; a bridge
// as near beyond the last may hang over the bow.
constexpr double kPastTheEnds_m = 25;
constexpr double kTurnedBack_deg = 135;
constexpr Length kOnePlace = metres(1);

/// Whether it is the nearest of a stretch only for want of track: its neighbour comes nearer.
bool nearer_next_door(const Track& track, std::size_t stretch, const Shape& shape, Length off,
                      double nearest_x_m) {
  const auto comes_nearer = [&](const Stretch& other) {
    return other.project(shape).distance_to(other.line()) < off;
  };
  if (nearest_x_m < 0) return stretch > 0 && comes_nearer(track.stretches[stretch - 1]);
  return nearest_x_m > in_metres(track.stretches[stretch].length()) &&
         stretch + 1 < track.stretches.size() && comes_nearer(track.stretches[stretch + 1]);
}

}  // namespace

bool turned_back(TrueBearing first, TrueBearing second) {
  return std::abs((second - first).in_degrees()) >= kTurnedBack_deg;
}

std::vector<Meeting> passes_of(const Track& track, std::size_t index, const Shape& shape,
                               Length near) {
  std::vector<Meeting> passes;
  TrueBearing course = track.stretches.front().course();  // of the latest pass
  bool farther_off = true;
  for (std::size_t i = 0; i < track.stretches.size(); ++i) {
    const Stretch& stretch = track.stretches[i];
    if (!stretch.may_come_within(shape, near)) {
      farther_off = true;
      continue;
    }
    const PlaneShape drawn = stretch.project(shape);
    const PlaneShape centre_line = stretch.line();
    const Length off = drawn.distance_to(centre_line);
    if (off > near) {
      farther_off = true;
      continue;
    }
    const PlanePoint nearest = drawn.nearest_to(centre_line);
    const double length_m = in_metres(stretch.length());
    const bool before_start = &stretch == &track.stretches.front() && nearest.x_m < -kPastTheEnds_m;
    const bool past_end =
        &stretch == &track.stretches.back() && nearest.x_m > length_m + kPastTheEnds_m;
    const Length along = stretch.begins_along() + metres(std::clamp(nearest.x_m, 0.0, length_m));
    const Meeting next{index, along, off, nearest.y_m, along, along};
    const bool ends_near = drawn.distance_to(PlaneShape::point({length_m, 0})) <= near;
    if (nearer_next_door(track, i, shape, off, nearest.x_m)) {
      farther_off = farther_off || !ends_near;
      continue;
    }
    const bool same_place =
        !passes.empty() && next.along - passes.back().along < kOnePlace;  // met at a turn
    const bool another =
        passes.empty() || farther_off || (turned_back(course, stretch.course()) && !same_place);
    if (!before_start && !past_end && (another || off < passes.back().off)) {
      if (!another) passes.pop_back();
      passes.push_back(next);
      course = stretch.course();
    }
    farther_off = !ends_near;
  }
  return passes;
}

}  // namespace passage_brief
