#include "passage/disabled_drift.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "given/csv_table.h"
#include "given/hulls.h"
#include "given/units.h"
#include "plan/vessel.h"
#include "units/direction.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

using given::kHulls;
using given::true_bearing;

Velocity wind_from(double deg, Speed speed) { return velocity(WindFrom{true_bearing(deg)}, speed); }
Velocity set_toward(double deg, Speed drift) {
  return velocity(SetToward{true_bearing(deg)}, drift);
}
constexpr Velocity kSlack{knots(0), knots(0)};

Speed cm_per_s(double v) { return metres_per_second(v / 100); }

LeewayFit fit_of(const given::CsvRow& row, const std::string& way) {
  return {row.number(way + "_slope_pct") / 100, cm_per_s(row.number(way + "_offset_cms")),
          cm_per_s(row.number(way + "_std_cms"))};
}

given::CsvRow row_of(const std::string& craft) {
  for (const given::CsvRow& row : given::csv_table("leeway_craft.csv")) {
    if (row.text("craft") == craft) return row;
  }
  throw std::runtime_error("no craft " + craft);
}

void expect_same_fit(const LeewayFit& ours, const LeewayFit& published) {
  EXPECT_DOUBLE_EQ(ours.slope, published.slope);
  EXPECT_DOUBLE_EQ(ours.offset.si(), published.offset.si());
  EXPECT_DOUBLE_EQ(ours.scatter.si(), published.scatter.si());
}

TEST(DriftingCraft, RowsAreThePublishedOnes) {
  for (const Hull hull : kHulls) {
    const CraftForHull chosen = craft_for(hull);
    ASSERT_FALSE(chosen.craft.empty()) << in_words(hull);
    EXPECT_FALSE(chosen.because.empty()) << in_words(hull);
    for (const DriftingCraft& craft : chosen.craft) {
      SCOPED_TRACE(craft.name);
      const given::CsvRow row = row_of(std::string(craft.name));
      expect_same_fit(craft.downwind, fit_of(row, "downwind"));
      expect_same_fit(craft.crosswind, fit_of(row, "crosswind"));
    }
  }
}

// The publication gives total slope and divergence apart from the two slopes: they must agree.
TEST(DriftingCraft, PublishedTotalsAgreeWithTheSlopes) {
  for (const given::CsvRow& row : given::csv_table("leeway_craft.csv")) {
    SCOPED_TRACE(row.place() + " " + row.text("craft"));
    const double down = row.number("downwind_slope_pct");
    const double cross = row.number("crosswind_slope_pct");
    EXPECT_NEAR(std::hypot(down, cross), row.number("total_pct"), 0.06);
    EXPECT_NEAR(std::atan2(cross, down) * 180 / std::numbers::pi, row.number("divergence_deg"),
                0.1);
  }
}

TEST(DriftingCraft, LeewayAtOneWindAgreesWithTheTable) {
  for (const given::CsvRow& row : given::csv_table("disabled_drift.csv")) {
    SCOPED_TRACE(row.place() + " " + row.text("craft"));
    const given::CsvRow craft = row_of(row.text("craft"));
    const Speed wind = knots(row.number("wind10_kn"));
    const Speed down = leeway_of(fit_of(craft, "downwind"), wind);
    const Speed cross = leeway_of(fit_of(craft, "crosswind"), wind);
    EXPECT_NEAR(in_knots(down), row.number("downwind_kn"), 0.002);
    EXPECT_NEAR(in_knots(cross), row.number("crosswind_kn"), 0.002);
    EXPECT_NEAR(std::hypot(in_knots(down), in_knots(cross)), row.number("total_kn"), 0.002);
  }
}

// 0.32 % of 10 kn is 0.0320 kn = 1.646 cm/s, less 2.93 cm/s: -1.284 cm/s, taken as 1.284.
TEST(DriftingCraft, OffsetThatTurnsTheSignLeavesAMagnitude) {
  const LeewayFit cross = fit_of(row_of("skiff-v-hull"), "crosswind");
  EXPECT_NEAR(leeway_of(cross, knots(10)).si(), 0.01284, 0.00001);
}

// Motor planing at 20 kn. Sport boat 6.54 % = 1.308 kn, scatter 3.0 cm/s = 0.0583 kn; sport fisher
// 5.55 % = 1.110 kn, 3.3 cm/s = 0.0641 kn. Crosswind 2.27 % = 0.454 kn and 3.0 cm/s = 0.0583 kn.
TEST(DriftFan, CoversItsRowsAndTheirScatter) {
  const DriftFan fan = drift_fan(Hull::motor_planing, knots(20));
  EXPECT_NEAR(in_knots(fan.downwind), 1.308, 0.0005);
  EXPECT_NEAR(in_knots(fan.crosswind), 0.454, 0.0005);
  EXPECT_NEAR(in_knots(fan.downwind_least), 1.110 - 0.0641, 0.0005);
  EXPECT_NEAR(in_knots(fan.downwind_most), 1.308 + 0.0583, 0.0005);
  EXPECT_NEAR(in_knots(fan.crosswind_most), 0.454 + 0.0583, 0.0005);
}

// Bare mast at 5 kn: 5.23 % = 0.2615 kn; its scatter 18.52 cm/s = 0.360 kn is held to half: 0.1308.
TEST(DriftFan, ScatterIsNeverMoreThanHalfTheLeeway) {
  EXPECT_NEAR(in_knots(drift_fan(Hull::sail_fin_keel, knots(5)).downwind_most), 0.2615 + 0.1308,
              0.0005);
}

TEST(DriftFan, CalmLeavesABoatWhereTheCurrentTakesHer) {
  for (const Hull hull : kHulls) {
    SCOPED_TRACE(in_words(hull));
    EXPECT_EQ(drift_fan(hull, knots(0)).downwind_most, knots(0));
    EXPECT_EQ(drift_fan(hull, knots(0)).crosswind_most, knots(0));
    // Wind and water moving together are a calm to the boat.
    const Speed along = greatest_drift_toward(true_bearing(90), hull, wind_from(270, knots(2)),
                                              set_toward(90, knots(2)));
    EXPECT_NEAR(in_knots(along), 2, 1e-9);
  }
}

TEST(DriftFan, GrowsWithTheWind) {
  for (const Hull hull : kHulls) {
    SCOPED_TRACE(in_words(hull));
    Speed before = knots(0);
    for (double wind_kn = 1; wind_kn <= 40; ++wind_kn) {
      const DriftFan fan = drift_fan(hull, knots(wind_kn));
      EXPECT_GT(fan.downwind_most, before);
      EXPECT_GE(fan.downwind_least, knots(0));
      EXPECT_LE(fan.downwind_least, fan.downwind);
      EXPECT_LE(fan.downwind, fan.downwind_most);
      EXPECT_LE(fan.crosswind, fan.crosswind_most);
      before = fan.downwind_most;
    }
  }
}

// Planing boat, southerly 20 kn, no current: toward north the most downwind (1.366 kn), toward east
// or west the crosswind (0.512), toward south never: the least downwind carries her away (-1.046).
TEST(GreatestDriftToward, FollowsTheFanRoundTheCompass) {
  const Velocity southerly = wind_from(180, knots(20));
  const auto toward_kn = [&](double deg, Velocity current) {
    return in_knots(
        greatest_drift_toward(true_bearing(deg), Hull::motor_planing, southerly, current));
  };
  EXPECT_NEAR(toward_kn(0, kSlack), 1.366, 0.001);
  EXPECT_NEAR(toward_kn(90, kSlack), 0.512, 0.001);
  EXPECT_NEAR(toward_kn(270, kSlack), 0.512, 0.001);
  EXPECT_NEAR(toward_kn(180, kSlack), -1.046, 0.001);
  // 45 degrees: (1.366 + 0.512) / sqrt 2 = 1.328.
  EXPECT_NEAR(toward_kn(45, kSlack), 1.328, 0.001);
}

// The same boat with a 2 kn current setting south, against the wind. She feels 22 kn: least
// downwind 5.55 % of 22 = 1.221 less 0.0641 = 1.157 kn; toward south 2 - 1.157 = 0.843 kn.
TEST(GreatestDriftToward, LeastLeewayCountsWhereTheCurrentSetsToWindward) {
  EXPECT_NEAR(in_knots(greatest_drift_toward(true_bearing(180), Hull::motor_planing,
                                             wind_from(180, knots(20)), set_toward(180, knots(2)))),
              0.843, 0.001);
}

}  // namespace
}  // namespace passage_brief
