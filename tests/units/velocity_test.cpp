#include "units/velocity.h"

#include <gtest/gtest.h>

#include "given/csv_table.h"
#include "given/units.h"
#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using given::true_bearing;

TEST(Velocity, WindGoesAwayFromWhereItComesFromAndCurrentTowardItsSet) {
  const Velocity southerly = velocity(WindFrom{true_bearing(180)}, knots(10));
  const Velocity northgoing = velocity(SetToward{true_bearing(0)}, knots(10));
  EXPECT_NEAR(in_knots(southerly.north), 10, 1e-9);
  EXPECT_NEAR(in_knots(southerly.east), 0, 1e-9);
  EXPECT_NEAR(in_knots(speed_of(southerly - northgoing)), 0, 1e-9);
}

// 3 kn east and 4 kn north: 5 kn toward atan(3/4) = 36.870 degrees.
TEST(Velocity, SumOfThreeAndFourIsFive) {
  const Velocity sum = velocity(true_bearing(90), knots(3)) + velocity(true_bearing(0), knots(4));
  EXPECT_NEAR(in_knots(speed_of(sum)), 5, 1e-9);
  EXPECT_NEAR(bearing_of(sum).in_degrees(), 36.870, 0.001);
  EXPECT_NEAR(in_knots(component_toward(true_bearing(270), sum)), -3, 1e-9);
}

// Bowditch (NGA Pub. 9), Dead Reckoning, current example 1 (from memory): course 080 at 10 kn in a
// current setting 140 at 2 kn makes good 089 at 11.2 kn, drawn; the arithmetic gives 88.95 and
// 11.14. Tolerance 0.6 deg and 0.1 kn.
TEST(Velocity, CoursePlusCurrentIsTheTrackMadeGood) {
  const Velocity made_good =
      velocity(true_bearing(80), knots(10)) + velocity(SetToward{true_bearing(140)}, knots(2));
  EXPECT_NEAR(bearing_of(made_good).in_degrees(), 89, 0.6);
  EXPECT_NEAR(in_knots(speed_of(made_good)), 11.2, 0.1);
  EXPECT_NEAR(bearing_of(made_good).in_degrees(), 88.95, 0.005);
  EXPECT_NEAR(in_knots(speed_of(made_good)), 11.14, 0.005);
}

// The other way round, every row of the triangle: what is steered, plus the current, is the track.
TEST(Velocity, PublishedTriangles) {
  int steered = 0;
  for (const given::CsvRow& row : given::csv_table("course_to_steer.csv")) {
    if (row.text("answer") != "steer" || row.text("case").starts_with("bowditch")) continue;
    SCOPED_TRACE(row.place() + " " + row.text("case"));
    const Velocity made_good =
        velocity(true_bearing(row.number("course_deg")), knots(row.number("speed_kn"))) +
        velocity(SetToward{true_bearing(row.number("set_deg"))}, knots(row.number("drift_kn")));
    // The course is printed to 0.01 deg, the speed to 0.001 kn; over a slower ground track a little
    // more: 0.01 x 6.55 / 2.9.
    EXPECT_NEAR((bearing_of(made_good) - true_bearing(row.number("track_deg"))).in_degrees(), 0,
                0.023);
    EXPECT_NEAR(in_knots(speed_of(made_good)), row.number("made_good_kn"), 0.0015);
    ++steered;
  }
  EXPECT_EQ(steered, 6);
}

TEST(Velocity, AtRestHasBearingNorthAndNoSpeed) {
  const Velocity rest{knots(0), knots(0)};
  EXPECT_EQ(speed_of(rest), knots(0));
  EXPECT_EQ(bearing_of(rest).in_degrees(), 0);
}

}  // namespace
}  // namespace passage_brief
