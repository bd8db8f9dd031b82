#include "passage/crossed_piece.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "given/units.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

using given::kTen;

const TrueBearing kNorth = TrueBearing::from_degrees(0);

using CurrentAt = std::function<Known<Velocity>(const Known<Instant>&)>;

/// From the north, so many knots at 10:00 and so many more each hour.
CurrentAt foul(double kn, double more_each_hour) {
  return [=](const Known<Instant>& at) -> Known<Velocity> {
    const double hours = in_seconds(*at - kTen) / 3600;
    return velocity(TrueBearing::from_degrees(180), knots(kn + more_each_hour * hours));
  };
}

// 6 kn less 2 kn is 4 kn: a mile takes 15 minutes.
TEST(CrossedPiece, OfAnEvenCurrentIsTheTriangle) {
  const CrossedPiece found = crossed_piece(kNorth, knots(6), nautical_miles(1), kTen, foul(2, 0));
  EXPECT_NEAR(in_seconds(*found.ends - kTen), 900, 0.01);
  EXPECT_NEAR(in_knots(*found.over_ground), 4, 1e-9);
  EXPECT_EQ(found.makes_headway, Known<bool>(true));
}

// Found on 2026-11-26: a fair current was in the times and not in the speed over the ground. 6 kn
// and 2 kn: a mile takes 7.5 minutes.
TEST(CrossedPiece, AFairCurrentCountsInTheSpeedOverTheGround) {
  const CrossedPiece found = crossed_piece(kNorth, knots(6), nautical_miles(1), kTen, foul(-2, 0));
  EXPECT_NEAR(in_seconds(*found.ends - kTen), 450, 0.01);
  EXPECT_NEAR(in_knots(*found.over_ground), 8, 1e-9);
  EXPECT_NEAR(in_knots(*found.over_ground_most), 8, 1e-9);
}

// A boat of 3 kn against 2.5 kn that grows 1.5 kn an hour makes 0.5 - 1.5 t: she stops after 20 min
// and 0.5^2 / (2 x 1.5) = 0.083 nm = 154 m.
TEST(CrossedPiece, StopsWhereAForeignCurrentOutgrowsHer) {
  const CurrentAt current = foul(2.5, 1.5);
  const CrossedPiece there = crossed_piece(kNorth, knots(3), metres(140), kTen, current);
  EXPECT_EQ(there.makes_headway, Known<bool>(true));
  EXPECT_GT(*there.ends, kTen + std::chrono::minutes(12));
  const CrossedPiece farther = crossed_piece(kNorth, knots(3), metres(170), kTen, current);
  EXPECT_EQ(farther.makes_headway, Known<bool>(false));
  EXPECT_FALSE(farther.ends.has_value());
}

// Against 2 kn that falls 3 kn an hour: the way made is 1 t + 1.5 t^2 miles in t hours; one mile
// takes (-1 + sqrt(7)) / 3 = 0.5486 h.
TEST(CrossedPiece, FollowsACurrentThatSlackens) {
  const CrossedPiece found = crossed_piece(kNorth, knots(3), nautical_miles(1), kTen, foul(2, -3));
  EXPECT_NEAR(in_seconds(*found.ends - kTen), 3600 * (std::sqrt(7.0) - 1) / 3, 5);
  EXPECT_NEAR(in_knots(*found.over_ground), 1.05, 0.01);  // the least: in the first two minutes
  EXPECT_NEAR(in_knots(*found.over_ground_most), 2.65, 0.01);  // from the 32nd on: 1 + 3 x 33 / 60
}

TEST(CrossedPiece, WhoLeavesLaterComesLater) {
  const CurrentAt current = [](const Known<Instant>& at) -> Known<Velocity> {
    const double hours = in_seconds(*at - kTen) / 3600;
    return velocity(TrueBearing::from_degrees(180), knots(2.6 * std::sin(8 * hours)));
  };
  Instant last = kTen;
  for (int minute = 0; minute < 120; ++minute) {
    const CrossedPiece found =
        crossed_piece(kNorth, knots(3), metres(480), kTen + std::chrono::minutes(minute), current);
    ASSERT_TRUE(found.ends.has_value());
    EXPECT_GE(*found.ends, last) << minute;
    last = *found.ends;
  }
}

TEST(CrossedPiece, ACurrentNotKnownAnywhereOnItLeavesHeadwayNotKnown) {
  const CurrentAt until_quarter_past = [](const Known<Instant>& at) -> Known<Velocity> {
    if (*at > kTen + std::chrono::minutes(15)) return not_known("the prediction ends");
    return velocity(TrueBearing::from_degrees(180), knots(2));
  };
  const CrossedPiece found =
      crossed_piece(kNorth, knots(6), nautical_miles(2), kTen, until_quarter_past);
  EXPECT_FALSE(found.makes_headway.has_value());
  EXPECT_FALSE(found.current.has_value());
  EXPECT_FALSE(found.over_ground.has_value());
  EXPECT_FALSE(found.over_ground_most.has_value());
  EXPECT_TRUE(found.ends.has_value());
}

// 6 kn held across 2 kn from the beam: a third of her speed.
TEST(CrossedPiece, TellsWhatTheCurrentTakesAcross) {
  const CurrentAt across = [](const Known<Instant>&) -> Known<Velocity> {
    return velocity(TrueBearing::from_degrees(90), knots(2));
  };
  const CrossedPiece found = crossed_piece(kNorth, knots(6), metres(500), kTen, across);
  EXPECT_NEAR(found.across, 1.0 / 3, 1e-9);
  const CrossedPiece weak = crossed_piece(kNorth, knots(1.5), metres(500), kTen, across);
  EXPECT_EQ(weak.holds_line, Known<bool>(false));
}

}  // namespace
}  // namespace passage_brief
