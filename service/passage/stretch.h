// The track cut into straight stretches, each with a plane of its own: x metres along the track
// from the stretch's begin, y metres to starboard.
//
// A leg longer than 10 nm is cut, so that the plane's scale error across a corridor stays below
// 0.15 % (units/geodesy.h, ChartPlane) as far as latitude 60.
#pragma once

#include <vector>

#include "facts/waterway/feature.h"
#include "passage/plane_shape.h"
#include "plan/route.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {

class Stretch {
 public:
  Stretch(std::size_t leg, Position begin, Position end, Length along, TrueBearing course,
          Length distance);

  [[nodiscard]] std::size_t leg() const { return leg_; }
  /// From the start of the track to the begin and end of this stretch.
  [[nodiscard]] Length begins_along() const { return along_; }
  [[nodiscard]] Length ends_along() const { return along_ + distance_; }
  [[nodiscard]] Length length() const { return distance_; }
  [[nodiscard]] TrueBearing course() const { return course_; }
  [[nodiscard]] Position begin() const { return begin_; }
  [[nodiscard]] Position end() const { return end_; }

  [[nodiscard]] PlanePoint project(Position position) const;
  [[nodiscard]] Position position(PlanePoint point) const;
  [[nodiscard]] PlaneShape project(const Shape& shape) const;
  [[nodiscard]] PlaneShape project(const PolygonShape& polygon) const;
  [[nodiscard]] std::vector<PlanePoint> project(const LineShape& line) const;
  /// Whether any part of the shape's bounding box comes within `distance` of the stretch; a quick
  /// test that errs toward yes.
  [[nodiscard]] bool may_come_within(const Shape& shape, Length distance) const;
  [[nodiscard]] PlaneVelocity in_plane(Velocity v) const;
  /// The centre line.
  [[nodiscard]] PlaneShape line() const;

 private:
  std::size_t leg_;
  Position begin_;
  Position end_;
  Length along_;
  TrueBearing course_;
  Length distance_;
  ChartPlane plane_;
  ChartPlane::Point origin_;  // of begin_ in plane_
  double sin_course_;
  double cos_course_;
};

struct LegOfTrack {
  std::string from;
  std::string to;
  Position begin;
  Position end;
  TrueBearing course;
  Length distance;
  Length begins_along;
};

struct Track {
  std::vector<LegOfTrack> legs;
  std::vector<Stretch> stretches;  // in order; every leg has one or more
  Length length;

  /// The stretch that holds a place along the track; at a joint, the later one.
  [[nodiscard]] const Stretch& stretch_at(Length along) const;
  [[nodiscard]] Position position_at(Length along) const;
};

[[nodiscard]] Track track_of(const Route& route);

}  // namespace passage_brief
