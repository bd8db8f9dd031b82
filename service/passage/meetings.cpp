#include "passage/meetings.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "facts/waterway/feature.h"
#include "passage/passes.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr Length kOneMeeting = metres(100);

void add_meeting(std::vector<Meeting>& meetings, const Meeting& next) {
  if (!meetings.empty() && next.along - meetings.back().along < kOneMeeting) {
    if (next.off < meetings.back().off) meetings.back() = next;
    return;
  }
  meetings.push_back(next);
}

/// Where a line cuts the centre line of one stretch, by rising x.
std::vector<double> cuts_m(const PlaneShape& shape, const PlaneShape& centre_line) {
  std::vector<double> cuts;
  const PlaneShape common = shape.common_with(centre_line);
  for (const Reaches& piece : common.pieces()) cuts.push_back(in_metres(piece.begin));
  return cuts;
}

}  // namespace

std::vector<Meeting> meetings_with(const Track& track, std::size_t index, const Shape& shape,
                                   Length near) {
  std::vector<Meeting> meetings;
  for (const Stretch& stretch : track.stretches) {
    if (!stretch.may_come_within(shape, near)) continue;
    const PlaneShape drawn = stretch.project(shape);
    const PlaneShape centre_line = stretch.line();
    const std::vector<double> cuts = cuts_m(drawn, centre_line);
    for (const double x_m : cuts) {
      add_meeting(meetings, {index, stretch.begins_along() + metres(x_m), metres(0), 0});
    }
    if (!cuts.empty()) continue;
    const Length off = drawn.distance_to(centre_line);
    if (off > near) continue;
    const PlanePoint on_track = centre_line.nearest_to(drawn);
    const PlanePoint nearest = drawn.nearest_to(centre_line);
    add_meeting(meetings, {index, stretch.begins_along() + metres(on_track.x_m), off, nearest.y_m});
  }
  return meetings;
}

std::vector<Meeting> nearest_passing(const Track& track, std::size_t index, const Shape& shape,
                                     Length near) {
  const std::vector<Meeting> passes = passes_of(track, index, shape, near);
  const auto nearest = std::ranges::min_element(passes, {}, &Meeting::off);
  if (nearest == passes.end()) return {};
  return {*nearest};
}

}  // namespace passage_brief
