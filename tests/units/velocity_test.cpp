#include "units/velocity.h"

#include <gtest/gtest.h>

#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

TrueBearing true_bearing(double deg) { return TrueBearing::from_degrees(deg); }

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

TEST(Velocity, AtRestHasBearingNorthAndNoSpeed) {
  const Velocity rest{knots(0), knots(0)};
  EXPECT_EQ(speed_of(rest), knots(0));
  EXPECT_EQ(bearing_of(rest).in_degrees(), 0);
}

}  // namespace
}  // namespace passage_brief
