// Distances, courses and points on the WGS 84 ellipsoid. The only file that sees GeographicLib.
//
// A leg steered on one course is a rhumb line: its distance and course come from here, never from
// the geodesic (Sydney to Wellington they differ by 5.9 km and 7 degrees of initial course).
// Accuracy of GeographicLib's series: far below 1 mm for any leg a small craft sails (Karney,
// "On auxiliary latitudes", Survey Review 56, 2024, doi:10.1080/00396265.2023.2217604).
#pragma once

#include "units/direction.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {

struct RhumbLine {
  Length distance;
  TrueBearing course;  // 000 where the two ends are one point
};

/// The rhumb line from one position to another by the shorter way round (so across the date line
/// when that is shorter).
[[nodiscard]] RhumbLine rhumb_line(Position from, Position to);

/// The point a given distance along a rhumb line. Distance zero or more; a line that would pass the
/// pole throws BrokenPromise.
[[nodiscard]] Position along_rhumb(Position from, TrueBearing course, Length distance);

/// Shortest distance on the ellipsoid (Karney 2013, doi:10.1007/s00190-012-0578-z).
[[nodiscard]] Length geodesic_distance(Position from, Position to);

/// Beyond these latitudes, in degrees north and south, nothing is worked out: Mercator's scale
/// grows without bound toward the poles (our limit, no source).
inline constexpr double kMostLatitude_deg = 85;

/// A plane in which the rhumb lines near one place are straight: the Mercator projection of the
/// ellipsoid, scaled to be true at the origin's latitude. x east, y north, both lengths. Scale
/// error at a distance d north or south of the origin is about tan(latitude) d / R: 0.1 % at 4 nm
/// in latitude 40. Longitudes are taken by the shorter way from the origin, so the plane spans the
/// date line.
class ChartPlane {
 public:
  /// Origin within kMostLatitude_deg of the equator; throws BrokenPromise beyond.
  explicit ChartPlane(Position origin);

  struct Point {
    Length east;
    Length north;
    friend bool operator==(const Point&, const Point&) = default;
  };
  [[nodiscard]] Point project(Position position) const;
  [[nodiscard]] Position position(Point point) const;
  [[nodiscard]] Position origin() const { return origin_; }

 private:
  Position origin_;
  double metres_in_degree_;      // of longitude, at the origin's latitude
  double origin_isometric_deg_;  // isometric latitude of the origin, degrees
};

}  // namespace passage_brief
