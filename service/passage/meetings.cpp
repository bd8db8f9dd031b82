#include "passage/meetings.h"

#include <algorithm>
#include <cstddef>
#include <vector>

#include "facts/waterway/feature.h"
#include "passage/passes.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"
#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr Length kOneMeeting = metres(100);
constexpr Length kLiesAlong = metres(50);
constexpr Length kOneCrossing = metres(1);  // where two stretches join

bool lies_along(Length begin, Length end) { return end - begin >= kLiesAlong; }

/// Where a line cuts the centre line of one stretch, by rising x.
std::vector<double> cuts_m(const PlaneShape& shape, const PlaneShape& centre_line) {
  std::vector<double> cuts;
  const PlaneShape common = shape.common_with(centre_line);
  for (const Reaches& piece : common.pieces()) cuts.push_back(in_metres(piece.begin));
  return cuts;
}

/// The meetings with one stretch, by rising begin.
std::vector<Meeting> met_in(const Stretch& stretch, std::size_t index, const Shape& shape,
                            Length near) {
  std::vector<Meeting> met;
  if (!stretch.may_come_within(shape, near)) return met;
  const PlaneShape drawn = stretch.project(shape);
  const PlaneShape centre_line = stretch.line();
  const Length off = drawn.distance_to(centre_line);
  if (off > near) return met;
  const Length from = stretch.begins_along();
  const PlanePoint nearest = drawn.nearest_to(centre_line);
  const PlaneShape in_corridor = drawn.common_with(centre_line.grown(near));
  for (const Reaches& piece : in_corridor.pieces()) {
    const Length begin = std::clamp(piece.begin, metres(0), stretch.length());
    const Length end = std::clamp(piece.end, metres(0), stretch.length());
    if (!lies_along(begin, end)) continue;
    met.push_back({index, from + begin, off, nearest.y_m, from + begin, from + end});
  }
  const std::size_t lying = met.size();
  const std::vector<double> cuts = cuts_m(drawn, centre_line);
  for (const double x_m : cuts) {
    const Length along = from + metres(x_m);
    const bool told =
        std::any_of(met.begin(), met.begin() + static_cast<std::ptrdiff_t>(lying),
                    [along](const Meeting& one) { return one.begin <= along && along <= one.end; });
    if (!told) met.push_back({index, along, metres(0), 0, along, along});
  }
  if (met.empty()) {
    const Length along = from + metres(centre_line.nearest_to(drawn).x_m);
    met.push_back({index, along, off, nearest.y_m, along, along});
  }
  std::ranges::stable_sort(met, {}, &Meeting::begin);
  return met;
}

/// One meeting of two: at the nearer, from the first to the last place of both.
Meeting joined(const Meeting& first, const Meeting& next) {
  Meeting both = next.off < first.off ? next : first;
  both.begin = first.begin;
  both.end = std::max(first.end, next.end);
  return both;
}

/// At one place, or told of where it begins.
void put_in_place(Meeting& meeting) {
  if (lies_along(meeting.begin, meeting.end)) {
    meeting.along = meeting.begin;
  } else {
    meeting.begin = meeting.along;
    meeting.end = meeting.along;
  }
}

}  // namespace

std::vector<Meeting> meetings_with(const Track& track, std::size_t index, const Shape& shape,
                                   Length near) {
  std::vector<Meeting> meetings;
  TrueBearing course = track.stretches.front().course();  // of the latest meeting
  for (const Stretch& stretch : track.stretches) {
    for (const Meeting& next : met_in(stretch, index, shape, near)) {
      const bool close = !meetings.empty() && next.begin - meetings.back().end < kOneMeeting;
      const bool back_again = close && turned_back(course, stretch.course()) &&
                              next.off == metres(0) && meetings.back().off == metres(0) &&
                              next.begin - meetings.back().end >= kOneCrossing;
      if (close && !back_again) {
        meetings.back() = joined(meetings.back(), next);
      } else {
        meetings.push_back(next);
      }
      course = stretch.course();
    }
  }
  std::ranges::for_each(meetings, put_in_place);
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
