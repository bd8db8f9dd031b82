#include "passage/hull.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <string_view>

#include "given/hulls.h"
#include "plan/vessel.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using given::kHulls;

Vessel bare(Hull hull) {
  return {.name = "Test",
          .hull = hull,
          .engines = 1,
          .length = metres(10),
          .waterline = {},
          .beam = metres(3.5),
          .draft = metres(1.5),
          .draft_is = {Basis::measured, {}},
          .deepest_part = {},
          .block_coefficient = {},
          .air_draft = {{Antennas::up, metres(8)}},
          .air_draft_is = {Basis::measured, {}},
          .windage_area = {},
          .lateral_plane = {},
          .slow = knots(4),
          .cruise = knots(6),
          .sounder = {},
          .anchor = {},
          .deviation = {},
          .design_category = {},
          .base = {}};
}

TEST(HullForm, StatedFiguresAreTakenAsTheyStand) {
  Vessel vessel = bare(Hull::motor_displacement);
  vessel.waterline = metres(9.2);
  vessel.block_coefficient = 0.47;
  vessel.windage_area = square_metres(21);
  vessel.lateral_plane = square_metres(8);
  const HullForm hull = hull_form(vessel);
  EXPECT_EQ(hull.waterline, metres(9.2));
  EXPECT_EQ(hull.block_coefficient, 0.47);
  EXPECT_EQ(hull.windage, square_metres(21));
  EXPECT_EQ(hull.lateral_plane, square_metres(8));
  EXPECT_EQ(hull.draft, metres(1.5));
  EXPECT_EQ(hull.canoe_draft, metres(1.5));
  EXPECT_TRUE(hull.estimated.empty());
}

// Motor displacement, 10 m: waterline 0.90 x 10 = 9 m; windage 0.23 x 10^2 = 23 m2; lateral plane
// 0.75 x 9 x 1.5 = 10.125 m2; block coefficient 0.60, the upper end of the usual range.
TEST(HullForm, EveryEstimateIsNamedWithItsRule) {
  const HullForm hull = hull_form(bare(Hull::motor_displacement));
  EXPECT_NEAR(in_metres(hull.waterline), 9, 1e-12);
  EXPECT_NEAR(in_square_metres(hull.windage), 23, 1e-12);
  EXPECT_NEAR(in_square_metres(hull.lateral_plane), 10.125, 1e-12);
  EXPECT_EQ(hull.block_coefficient, 0.60);
  ASSERT_EQ(hull.estimated.size(), 4U);
  for (const std::string_view what :
       {"waterline: 0.90 of", "block coefficient 0.60", "windage area", "lateral plane"}) {
    EXPECT_TRUE(std::any_of(hull.estimated.begin(), hull.estimated.end(),
                            [&](const std::string& how) { return how.starts_with(what); }))
        << what;
  }
  for (const std::string& how : hull.estimated) {
    EXPECT_NE(how.find("no source"), std::string::npos) << how;
  }
}

TEST(HullForm, KeelIsLeftOutOfTheVolumeButNotOfTheClearance) {
  const HullForm hull = hull_form(bare(Hull::sail_fin_keel));
  EXPECT_EQ(hull.draft, metres(1.5));
  EXPECT_NEAR(in_metres(hull.canoe_draft), 0.4 * 1.5, 1e-12);
  EXPECT_EQ(hull.estimated.size(), 5U);
}

// The usual ranges (common practice, no source): fin keel 0.35 to 0.40, long keel 0.40 to 0.45,
// planing at rest 0.40 to 0.50, displacement motor hull 0.45 to 0.60; the upper end is taken.
TEST(HullForm, BlockCoefficientIsTheUpperEndOfItsRange) {
  EXPECT_EQ(hull_form(bare(Hull::sail_fin_keel)).block_coefficient, 0.40);
  EXPECT_EQ(hull_form(bare(Hull::sail_long_keel)).block_coefficient, 0.45);
  EXPECT_EQ(hull_form(bare(Hull::motor_planing)).block_coefficient, 0.50);
  EXPECT_EQ(hull_form(bare(Hull::motor_displacement)).block_coefficient, 0.60);
}

TEST(HullForm, EveryHullIsAPossibleBoat) {
  for (const Hull hull : kHulls) {
    SCOPED_TRACE(in_words(hull));
    const HullForm form = hull_form(bare(hull));
    EXPECT_GT(form.waterline, metres(0));
    EXPECT_LE(form.waterline, metres(10));
    EXPECT_LE(form.canoe_draft, form.draft);
    EXPECT_GT(form.block_coefficient, 0);
    EXPECT_LE(form.block_coefficient, 1);
    EXPECT_LE(in_square_metres(form.lateral_plane),
              in_metres(form.waterline) * in_metres(form.draft));
  }
}

}  // namespace
}  // namespace passage_brief
