#include "units/geodesy.h"

#include <GeographicLib/Ellipsoid.hpp>
#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/Math.hpp>
#include <GeographicLib/Rhumb.hpp>
#include <cmath>
#include <numbers>

#include "units/check.h"

namespace passage_brief {

RhumbLine rhumb_line(Position from, Position to) {
  double distance_m = 0;
  double azimuth_deg = 0;
  GeographicLib::Rhumb::WGS84().Inverse(from.latitude.in_degrees(), from.longitude.in_degrees(),
                                        to.latitude.in_degrees(), to.longitude.in_degrees(),
                                        distance_m, azimuth_deg);
  return {metres(distance_m), TrueBearing::from_degrees(distance_m == 0 ? 0 : azimuth_deg)};
}

Position along_rhumb(Position from, TrueBearing course, Length distance) {
  check(in_metres(distance) >= 0, "distance along a rhumb line is not negative");
  double latitude_deg = 0;
  double longitude_deg = 0;
  GeographicLib::Rhumb::WGS84().Direct(from.latitude.in_degrees(), from.longitude.in_degrees(),
                                       course.in_degrees(), in_metres(distance), latitude_deg,
                                       longitude_deg);
  check(std::isfinite(longitude_deg), "a rhumb line ends before the pole");
  return position_at(latitude_deg, longitude_deg);
}

Length geodesic_distance(Position from, Position to) {
  double distance_m = 0;
  GeographicLib::Geodesic::WGS84().Inverse(from.latitude.in_degrees(), from.longitude.in_degrees(),
                                           to.latitude.in_degrees(), to.longitude.in_degrees(),
                                           distance_m);
  return metres(distance_m);
}

namespace {
const GeographicLib::Ellipsoid& ellipsoid() { return GeographicLib::Ellipsoid::WGS84(); }
}  // namespace

ChartPlane::ChartPlane(Position origin)
    : origin_(origin),
      metres_in_degree_(ellipsoid().CircleRadius(origin.latitude.in_degrees()) * std::numbers::pi /
                        180.0),
      origin_isometric_deg_(ellipsoid().IsometricLatitude(origin.latitude.in_degrees())) {
  check(std::abs(origin.latitude.in_degrees()) <= kMostLatitude_deg,
        "a chart plane lies within 85 degrees");
}

ChartPlane::Point ChartPlane::project(Position position) const {
  const double east_deg =
      folded_180(position.longitude.in_degrees() - origin_.longitude.in_degrees());
  const double north_deg =
      ellipsoid().IsometricLatitude(position.latitude.in_degrees()) - origin_isometric_deg_;
  return {metres(east_deg * metres_in_degree_), metres(north_deg * metres_in_degree_)};
}

Position ChartPlane::position(Point point) const {
  const double latitude_deg = ellipsoid().InverseIsometricLatitude(
      origin_isometric_deg_ + in_metres(point.north) / metres_in_degree_);
  const double longitude_deg =
      origin_.longitude.in_degrees() + in_metres(point.east) / metres_in_degree_;
  return position_at(latitude_deg, folded_180(longitude_deg));
}

}  // namespace passage_brief
