#include "passage/squat.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "given/csv_table.h"
#include "passage/hull.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr ChannelSection kWideWater{.narrow = false, .width = {}};
constexpr ChannelSection kNarrowUnknown{.narrow = true, .width = {}};

HullForm box(double cb, Length waterline, Length beam, Length draft) {
  return {waterline, beam, draft, draft, cb, square_metres(30), square_metres(10), {}};
}

/// The twin-screw motor boat of the worked examples: 36.5 ft by 13.5 ft by 4 ft, Cb 0.5.
HullForm motor_boat() { return box(0.5, feet(36.5), feet(13.5), feet(4)); }

TEST(Squat, FormulasGiveTheTabledValues) {
  for (const given::CsvRow& row : given::csv_table("squat.csv")) {
    SCOPED_TRACE(row.place() + " " + row.text("case"));
    const double cb = row.number("block_coefficient");
    const HullForm hull = box(cb, metres(row.number("waterline_m")), metres(row.number("beam_m")),
                              metres(row.number("draft_m")));
    const Speed V = knots(row.number("speed_kn"));
    const Length h = metres(row.number("water_m"));
    EXPECT_NEAR(depth_froude(V, h), row.number("depth_froude"), 0.0005);
    EXPECT_NEAR(in_metres(barrass_open(cb, V)), row.number("barrass_open_m"), 0.0005);
    EXPECT_NEAR(in_metres(barrass_confined(cb, V)), row.number("barrass_confined_m"), 0.0005);
    EXPECT_NEAR(in_metres(icorels(hull, V, h)), row.number("icorels_m"), 0.0005);
  }
}

// Other published formulas, one worked value each (arithmetic, A; forms from memory but the
// second):
//   Barrass 2004: K Cb V^2/100, K = 5.74 s^0.76; Cb 0.5, 6 kn, s 0.18: K 1.5593, 0.2807 m.
//   Barrass 1979/81: Cb/30 (As/(Ac-As))^(2/3) V^2.08; Cb 0.8, 8 kn, 330 of 3300 m2: 0.4658 m.
//   Huuska/Guliev (PIANC Report 121): ICORELS x (7.45 s1 + 0.76); 120 x 18 x 7 m, Cb 0.7, 9 kn, 9 m
//   of water, s1 0.08: 1.356 x ICORELS = 0.6677 m.
// None is used; what is used in confined water is never less than they are.
TEST(Squat, ConfinedFigureIsNotLessThanOtherPublishedFormulas) {
  EXPECT_NEAR(in_metres(barrass_open(0.5, knots(6))) * 1.5593, 0.2807, 0.0005);
  EXPECT_GT(in_metres(barrass_confined(0.5, knots(6))), 0.2807);
  EXPECT_GT(in_metres(barrass_confined(0.8, knots(8))), 0.4658);
  const HullForm ship = box(0.7, metres(120), metres(18), metres(7));
  EXPECT_NEAR(in_metres(icorels(ship, knots(9), metres(9))) * 1.356, 0.6677, 0.0005);
  EXPECT_GT(in_metres(squat_of(ship, knots(9), metres(9), kNarrowUnknown).value().sinkage), 0.6677);
}

// By hand, 7.5 ft of water (2.286 m): sqrt(g h) = sqrt(9.80665 x 2.286) = 4.7348 m/s.
// 7.5 kn = 3.8583 m/s: Fnh 0.815, beyond 0.7. 4.5 kn = 2.3150 m/s: Fnh 0.4889, squared 0.2391,
// over sqrt(1 - 0.2391) = 0.8723 makes 0.2741; 2.4 x 0.5 x 13.5 x 4 / 36.5 = 1.7753 ft;
// ICORELS 0.487 ft. Barrass open 0.5 x 4.5^2 / 100 = 0.10125 m = 0.332 ft. The greater controls.
TEST(Squat, GreaterOfBarrassAndIcorelsControls) {
  const Known<Squat> squat = squat_of(motor_boat(), knots(4.5), feet(7.5), kWideWater);
  ASSERT_TRUE(squat.has_value());
  EXPECT_NEAR(squat->depth_froude, 0.489, 0.0005);
  EXPECT_NEAR(in_feet(squat->sinkage), 0.487, 0.0005);
  EXPECT_NEAR(in_feet(barrass_open(0.5, knots(4.5))), 0.332, 0.0005);
  EXPECT_NEAR(in_feet(squat->one_sigma), 0.3 * 0.487, 0.0005);
  EXPECT_EQ(squat->formula.substr(0, 7), "ICORELS");

  const Known<Squat> too_fast = squat_of(motor_boat(), knots(7.5), feet(7.5), kWideWater);
  ASSERT_FALSE(too_fast.has_value());
  EXPECT_NE(in_words(too_fast.error()).find("0.81"), std::string::npos);
}

// Deep water makes ICORELS vanish (Fnh small) and leaves Barrass: 60 m at 4.5 kn, Fnh 0.095,
// ICORELS 2.4 x 0.5 x 13.5 x 4 / 36.5 ft x 0.0091 = 0.016 ft against 0.332 ft.
TEST(Squat, BarrassControlsWhereTheWaterIsDeep) {
  const Known<Squat> squat = squat_of(motor_boat(), knots(4.5), metres(60), kWideWater);
  ASSERT_TRUE(squat.has_value());
  EXPECT_NEAR(in_feet(squat->sinkage), 0.332, 0.0005);
  EXPECT_EQ(squat->formula, "Barrass, open water: Cb V^2 / 100");
}

// As = 0.98 x 13.5 x 4 = 52.92 ft2; blockage 0.1 where the section is 529.2 ft2: at 7.5 ft of water
// a width of 70.56 ft. Confined Barrass at 4.5 kn is 2 x 0.332 = 0.664 ft.
TEST(Squat, ConfinedFormulaBeginsAtATenthOfTheSection) {
  EXPECT_NEAR(blockage(motor_boat(), feet(7.5), feet(70.56)), 0.1, 1e-6);
  const auto squat_ft = [](const ChannelSection& section) {
    const Known<Squat> squat = squat_of(motor_boat(), knots(4.5), feet(7.5), section);
    return in_feet(squat.value().sinkage);
  };
  EXPECT_NEAR(squat_ft({.narrow = true, .width = feet(70.6)}), 0.487, 0.0005);
  EXPECT_NEAR(squat_ft({.narrow = true, .width = feet(70.5)}), 0.664, 0.0005);
  EXPECT_NEAR(squat_ft({.narrow = false, .width = feet(70.5)}), 0.664, 0.0005);
  EXPECT_NEAR(squat_ft(kNarrowUnknown), 0.664, 0.0005);
}

TEST(Squat, GreatestSpeedIsTheLastWithAFigure) {
  // Shoal water: 0.7 x 4.7348 m/s = 3.3144 m/s = 6.443 kn. Deep: 2.43 sqrt(11.125 m) = 8.105 kn.
  const Speed shoal = greatest_speed_with_a_squat_figure(motor_boat(), feet(7.5));
  const Speed deep = greatest_speed_with_a_squat_figure(motor_boat(), metres(60));
  EXPECT_NEAR(in_knots(shoal), 6.443, 0.001);
  EXPECT_NEAR(in_knots(deep), 8.105, 0.001);
  EXPECT_TRUE(squat_of(motor_boat(), shoal, feet(7.5), kWideWater).has_value());
  EXPECT_FALSE(squat_of(motor_boat(), shoal * 1.001, feet(7.5), kWideWater).has_value());
  EXPECT_TRUE(squat_of(motor_boat(), deep, metres(60), kWideWater).has_value());
  EXPECT_FALSE(squat_of(motor_boat(), deep * 1.001, metres(60), kWideWater).has_value());
}

TEST(Squat, EveryDepthHasAFigureAtItsGreatestSpeed) {
  for (double h_m = 0.01; h_m < 40; h_m *= 1.05) {
    const Length h = metres(h_m);
    const Speed V = greatest_speed_with_a_squat_figure(motor_boat(), h);
    const Known<Squat> squat = squat_of(motor_boat(), V, h, kWideWater);
    ASSERT_TRUE(squat.has_value()) << h_m << " m";
    EXPECT_GT(in_metres(squat->sinkage), 0) << h_m << " m";
  }
}

// A squat not known over a drying patch would make the water under the keel not known too, and the
// verdict "cannot tell" where it is plainly "outside limits".
TEST(Squat, AgroundCountsAsJustAfloat) {
  const Speed V = greatest_speed_with_a_squat_figure(motor_boat(), feet(4));
  const Length just_afloat = squat_of(motor_boat(), V, feet(4), kWideWater).value().sinkage;
  EXPECT_GT(just_afloat, metres(0));
  for (const double water_ft : {3.9, 0.5, 0.0, -1.0}) {
    SCOPED_TRACE(water_ft);
    EXPECT_EQ(greatest_speed_with_a_squat_figure(motor_boat(), feet(water_ft)), V);
    EXPECT_EQ(squat_of(motor_boat(), V, feet(water_ft), kWideWater).value().sinkage, just_afloat);
  }
}

TEST(Squat, GreatestSpeedSquattingIsTheOneThatSquatsSo) {
  for (const ChannelSection& section : {kWideWater, kNarrowUnknown}) {
    for (const double water_ft : {5.0, 8.0, 12.0, 60.0}) {
      for (const double knots_made : {0.5, 2.0, 4.0, 4.9}) {
        const Length squat =
            squat_of(motor_boat(), knots(knots_made), feet(water_ft), section).value().sinkage;
        EXPECT_NEAR(
            in_knots(greatest_speed_squatting(motor_boat(), squat, feet(water_ft), section)),
            knots_made, 1e-9);
      }
    }
  }
  EXPECT_EQ(greatest_speed_squatting(motor_boat(), metres(0), feet(8), kWideWater), knots(0));
}

TEST(Squat, NoneAtRest) {
  EXPECT_EQ(squat_of(motor_boat(), knots(0), feet(7.5), kNarrowUnknown).value().sinkage, metres(0));
}

// Trade's figure: 2 m of water, sqrt(g h) = 4.429 m/s = 8.6 kn, half of it 4.3, "about 4 kn".
TEST(Squat, HalfWaveSpeedInTwoMetresIsAboutFourKnots) {
  EXPECT_NEAR(in_knots(half_wave_speed(metres(2))), 4.30, 0.005);
  EXPECT_EQ(half_wave_speed(metres(-1)), knots(0));
}

}  // namespace
}  // namespace passage_brief
