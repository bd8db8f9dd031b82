#include "passage/relative_wind.h"

#include <gtest/gtest.h>

#include <string>

#include "given/csv_table.h"
#include "given/units.h"
#include "units/direction.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

using given::true_bearing;

std::string word(double deg) { return in_words(relative_direction(degrees(deg))); }

TEST(RelativeWind, AgreesWithTheTable) {
  for (const given::CsvRow& row : given::csv_table("relative_wind.csv")) {
    SCOPED_TRACE(row.place());
    const TrueBearing heading = true_bearing(row.number("heading_deg"));
    const RelativeWind felt =
        relative_wind(velocity(WindFrom{true_bearing(row.number("true_wind_from_deg"))},
                               knots(row.number("true_wind_kn"))),
                      velocity(heading, knots(row.number("speed_kn"))), heading);
    EXPECT_NEAR(in_knots(felt.speed), row.number("relative_kn"), 0.002);
    EXPECT_NEAR(felt.from.in_degrees(), row.number("relative_deg"), 0.02);
    EXPECT_NEAR((heading + felt.from).in_degrees(), row.number("relative_from_deg"), 0.02);
    EXPECT_EQ(in_words(relative_direction(felt.from)), row.text("words"));
  }
}

// Carried along by the very wind's own speed a boat feels none; a current counts as way.
TEST(RelativeWind, BoatCarriedAsFastAsTheWindFeelsNone) {
  const Velocity wind = velocity(WindFrom{true_bearing(270)}, knots(3));
  const Velocity current = velocity(SetToward{true_bearing(90)}, knots(3));
  EXPECT_NEAR(in_knots(relative_wind(wind, current, true_bearing(0)).speed), 0, 1e-9);
}

// 22.5 degrees abaft the beam, 112.5 off the bow, is COLREG's limit; the others repeat it.
TEST(RelativeDirection, SectorsEndWhereTheSidelightDoes) {
  EXPECT_EQ(word(0), "ahead");
  EXPECT_EQ(word(22.5), "ahead");
  EXPECT_EQ(word(22.6), "starboard bow");
  EXPECT_EQ(word(67.6), "starboard beam");
  EXPECT_EQ(word(112.5), "starboard beam");
  EXPECT_EQ(word(112.6), "starboard quarter");
  EXPECT_EQ(word(157.6), "astern");
  EXPECT_EQ(word(180), "astern");
  EXPECT_EQ(word(-180), "astern");
  EXPECT_EQ(word(-157.4), "port quarter");
  EXPECT_EQ(word(-112.5), "port beam");
  EXPECT_EQ(word(-112.6), "port quarter");
  EXPECT_EQ(word(-67.4), "port bow");
  EXPECT_EQ(word(-22.5), "ahead");
  EXPECT_EQ(word(292.4), "port beam");
  EXPECT_EQ(word(350), "ahead");
}

}  // namespace
}  // namespace passage_brief
