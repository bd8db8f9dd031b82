#include "units/direction.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <type_traits>
#include <vector>

#include "given/units.h"
#include "units/check.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

using given::Addable;
using given::Subtractable;
using given::true_bearing;

static_assert(Subtractable<TrueBearing, TrueBearing>);
static_assert(!Subtractable<TrueBearing, MagneticBearing>);
static_assert(!Subtractable<MagneticBearing, CompassBearing>);
static_assert(!Addable<TrueBearing, TrueBearing>);
static_assert(!Addable<TrueBearing, Variation>);
static_assert(!std::is_convertible_v<TrueBearing, MagneticBearing>);
static_assert(!std::is_convertible_v<WindFrom, SetToward>);
static_assert(!std::is_convertible_v<TrueBearing, WindFrom>);
static_assert(!std::is_default_constructible_v<TrueBearing>);

TEST(Direction, FoldsIntoOneCircle) {
  struct Row {
    double deg, in_360, in_180;
  };
  for (const Row& row : std::vector<Row>{{0, 0, 0},
                                         {359.5, 359.5, -0.5},
                                         {360, 0, 0},
                                         {-0.5, 359.5, -0.5},
                                         {180, 180, -180},
                                         {-180, 180, -180},
                                         {179.5, 179.5, 179.5},
                                         {540, 180, -180},
                                         {-720, 0, 0},
                                         {36010, 10, 10}}) {
    EXPECT_DOUBLE_EQ(folded_360(row.deg), row.in_360) << row.deg;
    EXPECT_DOUBLE_EQ(folded_180(row.deg), row.in_180) << row.deg;
  }
}

// -1e-20 + 360 is 360 in double precision, which is outside [0, 360).
TEST(Direction, AHairWestOfNorthIsNorth) { EXPECT_EQ(true_bearing(-1e-20).in_degrees(), 0); }

TEST(Direction, NotANumberIsNoDirection) {
  EXPECT_THROW((void)folded_360(std::nan("")), BrokenPromise);
  EXPECT_THROW((void)true_bearing(std::numeric_limits<double>::infinity()), BrokenPromise);
}

TEST(Bearing, ReversedTwiceIsItself) {
  for (double deg = 0; deg < 360; deg += 0.25) {
    EXPECT_EQ(true_bearing(deg).reversed().reversed(), true_bearing(deg)) << deg;
    EXPECT_DOUBLE_EQ(std::abs((true_bearing(deg).reversed() - true_bearing(deg)).in_degrees()),
                     180);
  }
  EXPECT_EQ(true_bearing(10).reversed(), true_bearing(190));
  EXPECT_EQ(true_bearing(190).reversed(), true_bearing(10));
}

TEST(Bearing, DifferenceIsTheShorterTurnClockwisePositive) {
  EXPECT_DOUBLE_EQ((true_bearing(10) - true_bearing(350)).in_degrees(), 20);
  EXPECT_DOUBLE_EQ((true_bearing(350) - true_bearing(10)).in_degrees(), -20);
  EXPECT_DOUBLE_EQ((true_bearing(90) - true_bearing(270)).in_degrees(), -180);
  EXPECT_EQ(true_bearing(350) + degrees(20), true_bearing(10));
  EXPECT_EQ(true_bearing(10) - degrees(20), true_bearing(350));
}

// Published example: true 080, variation 14 W, deviation 3 E makes magnetic 094 and compass 091
// (compass = true - variation - deviation, east positive: Bowditch, NGA Pub. 9; rule from memory,
// the rest arithmetic).
TEST(Bearing, TrueToMagneticToCompass) {
  const MagneticBearing by_the_world = magnetic(true_bearing(80), {degrees(-14)});
  EXPECT_NEAR(by_the_world.in_degrees(), 94, 0.001);
  EXPECT_NEAR(compass(by_the_world, {degrees(3)}).in_degrees(), 91, 0.001);
  // Across north: 005 true, variation 10 E, is 355 magnetic.
  EXPECT_NEAR(magnetic(true_bearing(5), {degrees(10)}).in_degrees(), 355, 0.001);
  EXPECT_NEAR(magnetic(true_bearing(355), {degrees(-10)}).in_degrees(), 5, 0.001);
}

// 350 and 010 at one speed: the arithmetic mean of the numbers is 180, that of the winds 000.
TEST(Bearing, WindsEitherSideOfNorthAverageToNorth) {
  const Velocity mean = (velocity(WindFrom{true_bearing(350)}, knots(10)) +
                         velocity(WindFrom{true_bearing(10)}, knots(10))) *
                        0.5;
  const TrueBearing from = bearing_of(mean).reversed();
  EXPECT_NEAR((from - true_bearing(0)).in_degrees(), 0, 1e-9);
  EXPECT_NEAR(in_knots(speed_of(mean)), 10 * std::cos(10 * std::numbers::pi / 180), 1e-9);
}

TEST(Angle, RadiansAndDegreesAgree) {
  EXPECT_DOUBLE_EQ(in_radians(degrees(180)), std::numbers::pi);
  EXPECT_DOUBLE_EQ(radians(std::numbers::pi / 2).in_degrees(), 90);
  EXPECT_DOUBLE_EQ((degrees(350) + degrees(20)).in_degrees(), 370);  // a turn is not folded
  EXPECT_DOUBLE_EQ((-degrees(20) * 2 - degrees(5)).in_degrees(), -45);
}

TEST(Side, TheOtherIsTheOther) {
  EXPECT_EQ(other(Side::port), Side::starboard);
  EXPECT_EQ(other(Side::starboard), Side::port);
  EXPECT_EQ(in_words(Side::port), "port");
  EXPECT_EQ(in_words(Side::starboard), "starboard");
}

}  // namespace
}  // namespace passage_brief
