#include "cli/observed_option.h"

#include <gtest/gtest.h>

#include <chrono>
#include <string>

#include "given/open_water.h"
#include "given/stations.h"

namespace passage_brief {
namespace {

const std::chrono::year_month_day kDay = std::chrono::year(2026) / 6 / 14;

ObservedReading reading_in(const std::string& text) {
  const auto reading = parse_observed(text, *Zone::named("America/New_York"), kDay);
  if (!reading) throw std::runtime_error(reading.error());
  return *reading;
}

bool refused(const std::string& text) {
  return !parse_observed(text, *Zone::named("America/New_York"), kDay).has_value();
}

TEST(ObservedOption, AsAPersonSaysIt) {
  const ObservedReading bar = reading_in("Oyster Bar 10:05 sounder 3.1 ft");
  EXPECT_EQ(bar.place, "Oyster Bar");
  EXPECT_EQ(bar.by, ObservedBy::sounder);
  EXPECT_EQ(bar.at, given::at("2026-06-14T10:05:00-04:00"));
  EXPECT_EQ(bar.reading, feet(3.1));
  const ObservedReading bridge = reading_in("Town Bridge 10:20 gauge 54 ft");
  EXPECT_EQ(bridge.by, ObservedBy::clearance_gauge);
  EXPECT_EQ(bridge.reading, feet(54));
  const ObservedReading level = reading_in("station Town Landing 9:00 level -0.2 m");
  EXPECT_EQ(level.place, "Town Landing");
  EXPECT_EQ(level.by, ObservedBy::water_level);
  EXPECT_EQ(level.at, given::at("2026-06-14T09:00:00-04:00"));
  EXPECT_EQ(level.reading, metres(-0.2));
}

// Found 2026-11: with two places of a name the first was taken, and a real lack of water was none.
TEST(ObservedOption, ANameOfTwoPlacesIsRefused) {
  Facts facts = given::facts_over(given::empty_waterway(), metres(1));
  for (const double least_m : {0.3, 5.0}) {
    facts.waterway.depth_areas.push_back(
        given::plain_area("Basin", given::oblong(0, 0, 10, 10), metres(least_m)));
  }
  const auto found = with_place_found(reading_in("Basin 10:05 sounder 3 ft"), facts);
  ASSERT_FALSE(found.has_value());
  EXPECT_NE(found.error().find("more than one place"), std::string::npos) << found.error();
}

TEST(ObservedOption, NoSounderOrGaugeReadsBelowZero) {
  EXPECT_TRUE(refused("Bar 10:05 sounder -3.1 ft"));
  EXPECT_TRUE(refused("Town Bridge 10:20 gauge -5 ft"));
}

TEST(ObservedOption, ADateMayStandWithTheTime) {
  EXPECT_EQ(reading_in("Bar 2026-06-13T22:10 sounder 3 ft").at,
            given::at("2026-06-13T22:10:00-04:00"));
  EXPECT_EQ(reading_in("Bar 2026-06-14T14:05:00Z sounder 3 ft").at,
            given::at("2026-06-14T14:05:00Z"));
}

TEST(ObservedOption, APlaceMayBeNamedLikeAnInstrument) {
  EXPECT_EQ(reading_in("Old gauge house 10:05 sounder 3 ft").place, "Old gauge house");
}

TEST(ObservedOption, ThePlaceIsFoundWhateverItsCapitals) {
  Facts facts = given::facts_over(given::empty_waterway(), metres(1));
  facts.waterway.bars.push_back({{"Oyster Bar", facts.waterway.stations},
                                 {given::at(-50, 800), given::at(50, 800)},
                                 metres(2),
                                 std::chrono::year(2026) / 4 / 1,
                                 SurveyQuality::channel_survey,
                                 Bottom::shell,
                                 std::nullopt});
  EXPECT_EQ(with_place_found(reading_in("oyster bar 10:05 sounder 3 ft"), facts)->place,
            "Oyster Bar");
  const auto other = with_place_found(reading_in("Oister Bar 10:05 sounder 3 ft"), facts);
  ASSERT_FALSE(other.has_value());
  EXPECT_NE(other.error().find("did you mean \"Oyster Bar\"?"), std::string::npos);
  EXPECT_FALSE(with_place_found(reading_in("Oyster Bar 10:05 gauge 30 ft"), facts).has_value());
}

TEST(ObservedOption, WhatIsNotOneIsRefused) {
  for (const char* wrong :
       {"", "Oyster Bar", "Oyster Bar 10:05 3.1 ft", "Oyster Bar sounder 3.1 ft",
        "Oyster Bar 25:05 sounder 3.1 ft", "Oyster Bar 10:05 sounder 3.1",
        "Oyster Bar 10:05 sounder", "Town Landing 10:00 level 3.2 ft", "10:05 sounder 3 ft"}) {
    EXPECT_TRUE(refused(wrong)) << wrong;
  }
}

}  // namespace
}  // namespace passage_brief
