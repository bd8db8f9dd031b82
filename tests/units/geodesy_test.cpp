#include "units/geodesy.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "given/csv_table.h"
#include "given/units.h"
#include "units/check.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::true_bearing;

constexpr double kDeg = std::numbers::pi / 180;
// WGS 84 (NIMA TR8350.2, table 3.1): semi-major axis and flattening.
constexpr double kEquator_m = 6378137.0;
constexpr double kFlattening = 1 / 298.257223563;
constexpr double kE2 = kFlattening * (2 - kFlattening);

Position from_of(const given::CsvRow& row) {
  return position_at(row.number("latitude1"), row.number("longitude1"));
}
Position to_of(const given::CsvRow& row) {
  return position_at(row.number("latitude2"), row.number("longitude2"));
}

/// Meridional parts in radians of longitude: ln[tan(45 + L/2) ((1 - e sin L)/(1 + e sin L))^(e/2)]
/// (Bowditch, American Practical Navigator, NGA Pub. 9, explanation of table 6; from memory).
double meridional_parts(double latitude_deg) {
  const double L = latitude_deg * kDeg;
  const double e = std::sqrt(kE2);
  return std::log(std::tan(std::numbers::pi / 4 + L / 2)) +
         e / 2 * std::log((1 - e * std::sin(L)) / (1 + e * std::sin(L)));
}

/// Metres along the meridian from the equator: the integral of its radius of curvature
/// a (1 - e^2) / (1 - e^2 sin^2 L)^(3/2) by Simpson's rule (any textbook of geodesy), in steps of
/// 0.05 degrees: good to far below 1 mm.
double meridian_arc_m(double latitude_deg) {
  const auto radius = [](double L) {
    const double s = std::sin(L);
    return kEquator_m * (1 - kE2) / std::pow(1 - kE2 * s * s, 1.5);
  };
  constexpr int kSteps = 2000;
  const double h = latitude_deg * kDeg / kSteps;
  double sum = 0;
  for (int i = 0; i < kSteps; ++i) {
    const double L = i * h;
    sum += radius(L) + 4 * radius(L + h / 2) + radius(L + h);
  }
  return sum * h / 6;
}

struct ByTheHandbook {
  double distance_m;
  double course_deg;
};

/// Mercator sailing: tan C = DLo / m; distance = the meridian's arc / cos C, or, along a parallel,
/// DLo times its radius (Bowditch, The Sailings; from memory), with the ellipsoid's own arc where
/// the book takes a minute of latitude for a mile.
ByTheHandbook mercator_sailing(Position from, Position to) {
  const double dlo = folded_180(to.longitude.in_degrees() - from.longitude.in_degrees()) * kDeg;
  const double lat1 = from.latitude.in_degrees();
  const double lat2 = to.latitude.in_degrees();
  const double m = meridional_parts(lat2) - meridional_parts(lat1);
  const double C = std::atan2(dlo, m);
  if (lat1 == lat2) {
    const double s = std::sin(lat1 * kDeg);
    const double radius = kEquator_m * std::cos(lat1 * kDeg) / std::sqrt(1 - kE2 * s * s);
    return {std::abs(dlo) * radius, folded_360(C / kDeg)};
  }
  return {(meridian_arc_m(lat2) - meridian_arc_m(lat1)) / std::cos(C), folded_360(C / kDeg)};
}

TEST(RhumbLine, PublishedRows) {
  for (const given::CsvRow& row : given::csv_table("geodesy.csv")) {
    SCOPED_TRACE(row.place() + " " + row.text("case"));
    EXPECT_NEAR(in_metres(geodesic_distance(from_of(row), to_of(row))), row.number("geodesic_m"),
                row.number("tolerance_m"));
    if (row.is_empty("rhumb_m")) continue;
    const RhumbLine line = rhumb_line(from_of(row), to_of(row));
    EXPECT_NEAR(in_metres(line.distance), row.number("rhumb_m"), row.number("tolerance_m"));
    EXPECT_NEAR((line.course - true_bearing(row.number("rhumb_course_deg"))).in_degrees(), 0,
                row.number("tolerance_deg"));
  }
}

// An independent way to the same figures: 1 mm and 1e-6 deg, far inside the goal of 1 m and 0.01.
TEST(RhumbLine, AgreesWithMercatorSailing) {
  for (const given::CsvRow& row : given::csv_table("geodesy.csv")) {
    SCOPED_TRACE(row.place() + " " + row.text("case"));
    const RhumbLine line = rhumb_line(from_of(row), to_of(row));
    const ByTheHandbook by_hand = mercator_sailing(from_of(row), to_of(row));
    EXPECT_NEAR(in_metres(line.distance), by_hand.distance_m, 0.001);
    EXPECT_NEAR((line.course - true_bearing(by_hand.course_deg)).in_degrees(), 0, 1e-6);
  }
}

// On WGS 84 a minute of latitude is 1843 m at the equator and 1862 m at the pole (Bowditch, table
// of the length of a degree; from memory), a degree of longitude on the equator a x pi/180 =
// 111319.491 m; the quarter of the meridian is 10001965.729 m (NIMA TR8350.2; from memory).
TEST(RhumbLine, MeridianAndEquatorHaveTheirPublishedLengths) {
  const auto between = [](double lat1, double lon1, double lat2, double lon2) {
    return rhumb_line(position_at(lat1, lon1), position_at(lat2, lon2));
  };
  EXPECT_NEAR(in_metres(between(0, 20, 1.0 / 60, 20).distance), 1843, 0.5);
  EXPECT_NEAR(in_metres(between(90 - 1.0 / 60, 20, 90, 20).distance), 1862, 0.5);
  EXPECT_NEAR(in_metres(between(0, 0, 0, 1).distance), 111319.491, 0.001);
  EXPECT_NEAR(in_metres(between(0, 20, 90, 20).distance), 10001965.729, 0.001);
  EXPECT_EQ(between(10, 20, 15, 20).course.in_degrees(), 0);
  EXPECT_EQ(between(15, 20, 10, 20).course.in_degrees(), 180);
  EXPECT_NEAR(between(-40, 0, -40, 1).course.in_degrees(), 90, 1e-9);
  EXPECT_NEAR(between(-40, 1, -40, 0).course.in_degrees(), 270, 1e-9);
}

TEST(RhumbLine, CrossesTheDateLineByTheShorterWay) {
  const RhumbLine eastward = rhumb_line(position_at(0, 179.5), position_at(0, -179.5));
  EXPECT_NEAR(in_metres(eastward.distance), 111319.491, 0.001);
  EXPECT_NEAR(eastward.course.in_degrees(), 90, 1e-9);
  const RhumbLine westward = rhumb_line(position_at(0, -179.5), position_at(0, 179.5));
  EXPECT_NEAR(westward.course.in_degrees(), 270, 1e-9);
  const Position beyond = along_rhumb(position_at(0, 179.5), true_bearing(90), metres(111319.491));
  EXPECT_NEAR(beyond.longitude.in_degrees(), -179.5, 1e-8);
}

TEST(RhumbLine, NowhereToGoIsNoDistanceAndCourseNorth) {
  const RhumbLine none = rhumb_line(position_at(42, -71), position_at(42, -71));
  EXPECT_EQ(none.distance, metres(0));
  EXPECT_EQ(none.course.in_degrees(), 0);
  EXPECT_EQ(rhumb_line(position_at(10, 180), position_at(10, -180)).distance, metres(0));
}

TEST(AlongRhumb, LeadsFromEndToEndOfEveryRow) {
  for (const given::CsvRow& row : given::csv_table("geodesy.csv")) {
    SCOPED_TRACE(row.place() + " " + row.text("case"));
    const RhumbLine line = rhumb_line(from_of(row), to_of(row));
    const Position end = along_rhumb(from_of(row), line.course, line.distance);
    EXPECT_NEAR(in_metres(geodesic_distance(end, to_of(row))), 0, 1e-4);
  }
  const Position here = position_at(42, -71);
  const Position still_here = along_rhumb(here, true_bearing(123), metres(0));
  EXPECT_LT(in_metres(geodesic_distance(still_here, here)), 1e-8);
}

// Bowditch, The Sailings, example of middle-latitude sailing: from 15-17.7 N 151-37.9 E, 070 for
// 1253 miles, to 22-26.3 N 172-22.2 E (from memory). That is on a sphere where a minute of latitude
// is a mile. On WGS 84 the mile is longer than the minute at that latitude, so the boat ends
// farther along: 22.46515 N 172.34365 E (computed apart with GeographicLib 2.1.2 RhumbSolve).
TEST(AlongRhumb, BowditchsExampleOnTheEllipsoid) {
  const Position end =
      along_rhumb(position_at(15.295, 151.631667), true_bearing(70), nautical_miles(1253));
  EXPECT_NEAR(end.latitude.in_degrees(), 22.46515, 0.00001);
  EXPECT_NEAR(end.longitude.in_degrees(), 172.34365, 0.00001);
  EXPECT_NEAR(end.latitude.in_degrees(), 22.4383, 0.05);  // the book's, 0.5 % of 1253 miles off
  EXPECT_NEAR(end.longitude.in_degrees(), 172.37, 0.05);
}

TEST(AlongRhumb, EndsBeforeThePole) {
  // From 89 N a degree of latitude is 111.7 km.
  EXPECT_NEAR(
      along_rhumb(position_at(89, 20), true_bearing(0), kilometres(111)).latitude.in_degrees(),
      89.994, 0.001);
  EXPECT_THROW((void)along_rhumb(position_at(89, 20), true_bearing(30), kilometres(200)),
               BrokenPromise);
  EXPECT_THROW((void)along_rhumb(position_at(0, 0), true_bearing(30), metres(-1)), BrokenPromise);
}

// 60 D = S T: 6.5 kn for 50 minutes is 5.417 nm (handbook rule; arithmetic).
TEST(DistanceRun, SixtyDIsST) {
  EXPECT_NEAR(in_nautical_miles(knots(6.5) * std::chrono::minutes(50)), 5.417, 0.001);
}

TEST(ChartPlane, ThereAndBackIsTheSamePlace) {
  for (const double lat : {-84.0, -33.8, 0.0, 41.5, 60.1, 84.0}) {
    for (const double lon : {-180.0, -71.3, 0.0, 179.99}) {
      const ChartPlane plane(position_at(lat, lon));
      EXPECT_EQ(plane.origin(), position_at(lat, lon));
      const ChartPlane::Point origin = plane.project(plane.origin());
      EXPECT_NEAR(in_metres(origin.east), 0, 1e-9);
      EXPECT_NEAR(in_metres(origin.north), 0, 1e-9);
      for (const double east_km : {-20.0, 0.5, 20.0}) {
        const ChartPlane::Point point{kilometres(east_km), kilometres(3)};
        const ChartPlane::Point back = plane.project(plane.position(point));
        EXPECT_NEAR(in_metres(back.east - point.east), 0, 1e-4) << lat << " " << lon;
        EXPECT_NEAR(in_metres(back.north - point.north), 0, 1e-4) << lat << " " << lon;
      }
    }
  }
}

// The origin on one side of the date line, the place on the other: 0.02 deg on the equator is
// 2226.390 m.
TEST(ChartPlane, SpansTheDateLine) {
  const ChartPlane plane(position_at(0, 179.99));
  EXPECT_NEAR(in_metres(plane.project(position_at(0, -179.99)).east), 2226.390, 0.001);
  EXPECT_NEAR(plane.position({metres(2226.390), metres(0)}).longitude.in_degrees(), -179.99, 1e-8);
}

// A rhumb line of 3 nm: its middle lies on the straight line between its ends, halfway to the
// scale error: tan(41.5) x 3 nm / R = 0.08 %.
TEST(ChartPlane, RhumbLinesAreStraight) {
  const Position begin = position_at(41.5, -71.32);
  const ChartPlane plane(begin);
  for (const double course : {17.0, 90.0, 141.0, 200.0, 318.0}) {
    const auto at = [&](Length along) {
      return plane.project(along_rhumb(begin, true_bearing(course), along));
    };
    const ChartPlane::Point middle = at(nautical_miles(1.5));
    const ChartPlane::Point end = at(nautical_miles(3));
    const double cross = in_metres(middle.east) * in_metres(end.north) -
                         in_metres(middle.north) * in_metres(end.east);
    EXPECT_NEAR(cross / in_metres(nautical_miles(3)), 0, 1e-4) << course;
    EXPECT_NEAR(std::hypot(in_metres(end.east), in_metres(end.north)), 3 * 1852.0, 3 * 1852 * 8e-4)
        << course;
  }
}

// Meridional parts of 42.36 N on WGS 84 are 2795.34 minutes (closed formula; arithmetic): on a
// plane true at the equator, north over the length of a minute of longitude.
TEST(ChartPlane, NorthIsMeridionalParts) {
  const ChartPlane plane(position_at(0, 0));
  const Length minute = plane.project(position_at(0, 1.0 / 60)).east;
  EXPECT_NEAR(plane.project(position_at(42.36, 0)).north / minute, 2795.34, 0.01);
}

TEST(ChartPlane, HasNoPlaceNearThePoles) {
  EXPECT_NO_THROW(ChartPlane(position_at(85, 0)));
  EXPECT_THROW(ChartPlane(position_at(85.001, 0)), BrokenPromise);
  EXPECT_THROW(ChartPlane(position_at(-90, 0)), BrokenPromise);
}

}  // namespace
}  // namespace passage_brief
