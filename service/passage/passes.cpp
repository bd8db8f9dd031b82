#include "passage/passes.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "passage/plane_shape.h"
#include "units/direction.h"

namespace passage_brief {
namespace {

// A mark abreast of a berth a little astern of the first point is still seen on leaving.
constexpr double kPastTheEnds_m = 25;
constexpr double kTurnedBack_deg = 135;
constexpr Length kOnePlace = metres(1);

}  // namespace

std::vector<Meeting> passes_of(const Track& track, std::size_t index, const Shape& shape,
                               Length near) {
  std::vector<Meeting> passes;
  TrueBearing course = track.stretches.front().course();  // of the latest pass
  bool farther_off = true;
  for (const Stretch& stretch : track.stretches) {
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
    const Meeting next{index,
                       stretch.begins_along() + metres(std::clamp(nearest.x_m, 0.0, length_m)), off,
                       nearest.y_m};
    const bool same_place =
        !passes.empty() && next.along - passes.back().along < kOnePlace;  // met at a turn
    const bool turned_back =
        std::abs((stretch.course() - course).in_degrees()) >= kTurnedBack_deg && !same_place;
    const bool another = passes.empty() || farther_off || turned_back;
    if (!before_start && !past_end && (another || off < passes.back().off)) {
      if (!another) passes.pop_back();
      passes.push_back(next);
      course = stretch.course();
    }
    farther_off = drawn.distance_to(PlaneShape::point({length_m, 0})) > near;
  }
  return passes;
}

}  // namespace passage_brief
