#include "passage/stretch.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include "facts/waterway/feature.h"
#include "passage/plane_shape.h"
#include "plan/route.h"
#include "units/check.h"
#include "units/direction.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

constexpr Length kLongestStretch = nautical_miles(10);

std::vector<Position> vertices(const Shape& shape) {
  struct Visitor {
    std::vector<Position> operator()(const PointShape& point) const { return {point}; }
    std::vector<Position> operator()(const LineShape& line) const { return line; }
    std::vector<Position> operator()(const PolygonShape& polygon) const {
      return polygon.rings.front();
    }
  };
  return std::visit(Visitor{}, shape);
}

}  // namespace

Stretch::Stretch(std::size_t leg, Position begin, Position end, Length along, TrueBearing course,
                 Length distance)
    : leg_(leg),
      begin_(begin),
      end_(end),
      along_(along),
      course_(course),
      distance_(distance),
      plane_(along_rhumb(begin, course, distance / 2)),
      origin_(plane_.project(begin)),
      sin_course_(std::sin(in_radians(degrees(course.in_degrees())))),
      cos_course_(std::cos(in_radians(degrees(course.in_degrees())))) {}

PlanePoint Stretch::project(Position position) const {
  const ChartPlane::Point point = plane_.project(position);
  const double east_m = in_metres(point.east - origin_.east);
  const double north_m = in_metres(point.north - origin_.north);
  return {east_m * sin_course_ + north_m * cos_course_,
          east_m * cos_course_ - north_m * sin_course_};
}

Position Stretch::position(PlanePoint point) const {
  const double east_m = point.x_m * sin_course_ + point.y_m * cos_course_;
  const double north_m = point.x_m * cos_course_ - point.y_m * sin_course_;
  return plane_.position({origin_.east + metres(east_m), origin_.north + metres(north_m)});
}

std::vector<PlanePoint> Stretch::project(const LineShape& line) const {
  std::vector<PlanePoint> points;
  points.reserve(line.size());
  for (const Position& position : line) points.push_back(project(position));
  return points;
}

PlaneShape Stretch::project(const PolygonShape& polygon) const {
  std::vector<std::vector<PlanePoint>> rings;
  rings.reserve(polygon.rings.size());
  for (const LineShape& ring : polygon.rings) rings.push_back(project(ring));
  return PlaneShape::polygon(rings);
}

PlaneShape Stretch::project(const Shape& shape) const {
  struct Visitor {
    const Stretch& stretch;
    PlaneShape operator()(const PointShape& point) const {
      return PlaneShape::point(stretch.project(point));
    }
    PlaneShape operator()(const LineShape& line) const {
      return PlaneShape::line(stretch.project(line));
    }
    PlaneShape operator()(const PolygonShape& polygon) const { return stretch.project(polygon); }
  };
  return std::visit(Visitor{*this}, shape);
}

bool Stretch::may_come_within(const Shape& shape, Length distance) const {
  double low_x = INFINITY;
  double low_y = INFINITY;
  double high_x = -INFINITY;
  double high_y = -INFINITY;
  for (const Position& vertex : vertices(shape)) {
    if (std::abs(vertex.latitude.in_degrees()) > 85) return true;
    const PlanePoint point = project(vertex);
    low_x = std::min(low_x, point.x_m);
    low_y = std::min(low_y, point.y_m);
    high_x = std::max(high_x, point.x_m);
    high_y = std::max(high_y, point.y_m);
  }
  const double reach_m = in_metres(distance);
  return low_x <= in_metres(distance_) + reach_m && high_x >= -reach_m && low_y <= reach_m &&
         high_y >= -reach_m;
}

PlaneVelocity Stretch::in_plane(Velocity v) const {
  const double east_m_s = in_metres_per_second(v.east);
  const double north_m_s = in_metres_per_second(v.north);
  return {east_m_s * sin_course_ + north_m_s * cos_course_,
          east_m_s * cos_course_ - north_m_s * sin_course_};
}

PlaneShape Stretch::line() const { return PlaneShape::line({{0, 0}, {in_metres(distance_), 0}}); }

const Stretch& Track::stretch_at(Length along) const {
  const auto after = std::ranges::upper_bound(
      stretches, along, {}, [](const Stretch& stretch) { return stretch.begins_along(); });
  return after == stretches.begin() ? stretches.front() : *(after - 1);
}

Position Track::position_at(Length along) const {
  const Stretch& stretch = stretch_at(along);
  const Length within = std::clamp(along - stretch.begins_along(), metres(0), stretch.length());
  return along_rhumb(stretch.begin(), stretch.course(), within);
}

Track track_of(const Route& route) {
  check(route.points.size() >= 2, "a route has two points or more");
  Track track{{}, {}, metres(0)};
  for (std::size_t i = 0; i + 1 < route.points.size(); ++i) {
    const RoutePoint& from = route.points[i];
    const RoutePoint& to = route.points[i + 1];
    const RhumbLine line = rhumb_line(from.position, to.position);
    check(in_metres(line.distance) > 0, "two points in a row are apart");
    track.legs.push_back(
        {from.name, to.name, from.position, to.position, line.course, line.distance, track.length});
    const auto cuts = static_cast<int>(std::ceil(line.distance / kLongestStretch));
    Position begin = from.position;
    for (int cut = 1; cut <= cuts; ++cut) {
      const Position end = cut == cuts ? to.position
                                       : along_rhumb(from.position, line.course,
                                                     line.distance * (double(cut) / cuts));
      track.stretches.emplace_back(i, begin, end,
                                   track.length + line.distance * ((cut - 1.0) / cuts), line.course,
                                   line.distance / cuts);
      begin = end;
    }
    track.length += line.distance;
  }
  return track;
}

}  // namespace passage_brief
