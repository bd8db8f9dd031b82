// Readings held against predictions, by hand: still water 1 m above chart datum, MHW 1 m above it.
#include "passage/observed_reading.h"

#include <gtest/gtest.h>

#include <chrono>
#include <string>
#include <vector>

#include "given/open_water.h"
#include "given/stations.h"

namespace passage_brief {
namespace {

const Instant kRead = given::at("2026-06-14T10:20:00Z");

Facts river() {
  Facts facts = given::facts_over(given::empty_waterway(), metres(1));
  Waterway& water = facts.waterway;
  water.bridges.push_back({{"Town Bridge", water.stations},
                           given::at(0, 500),
                           BridgeKind::fixed,
                           metres(8),
                           ClearanceOf::low_steel,
                           not_known("fixed"),
                           false,
                           metres(30),
                           true,
                           std::nullopt,
                           std::nullopt,
                           std::nullopt});
  water.bars.push_back({{"Oyster Bar", water.stations},
                        {given::at(-50, 800), given::at(50, 800)},
                        metres(2),
                        std::chrono::year(2026) / 4 / 1,
                        SurveyQuality::channel_survey,
                        Bottom::shell,
                        std::nullopt});
  return facts;
}

SeenLevel read(const std::string& place, ObservedBy by, double metres_read,
               const Facts& facts = river()) {
  const auto level = observed_level({place, by, kRead, metres(metres_read)}, given::plain_vessel(),
                                    facts, given::plain_margins());
  if (!level) throw std::runtime_error(in_words(level.error()));
  return *level;
}

std::string refused(const std::string& place, ObservedBy by, const Facts& facts = river()) {
  const auto level = observed_level({place, by, kRead, metres(1)}, given::plain_vessel(), facts,
                                    given::plain_margins());
  return level ? "" : in_words(level.error());
}

TEST(ObservedReading, GaugeThatShowsLessMeansMoreWater) {
  // Expected 8 + 1 - 1 = 8 m over the water.
  const SeenLevel level = read("Town Bridge", ObservedBy::clearance_gauge, 7.7);
  EXPECT_NEAR(in_metres(*level.expected), 8, 1e-9);
  EXPECT_NEAR(in_metres(level.above_predicted), 0.3, 1e-9);
  EXPECT_EQ(level.station, "Gauge");
  EXPECT_EQ(std::get<Length>(working_of(level).result), level.above_predicted);
}

TEST(ObservedReading, SounderIsReadLyingStill) {
  // 2 + 1 - 1.2 = 1.8 m under the keel, which the sounder measures from.
  const SeenLevel level = read("Oyster Bar", ObservedBy::sounder, 1.5);
  EXPECT_EQ(level.place, "Oyster Bar");
  EXPECT_NEAR(in_metres(*level.expected), 1.8, 1e-9);
  EXPECT_NEAR(in_metres(level.above_predicted), -0.3, 1e-9);
  EXPECT_FALSE(level.wind_over.has_value());
}

TEST(ObservedReading, LevelAtAStation) {
  EXPECT_NEAR(in_metres(read("Gauge", ObservedBy::water_level, 0.4).above_predicted), -0.6, 1e-9);
}

TEST(ObservedReading, WhatIsNotThereIsSaid) {
  EXPECT_NE(refused("Town Brigde", ObservedBy::clearance_gauge), "");
  EXPECT_NE(refused("Town Bridge", ObservedBy::sounder), "");
  EXPECT_NE(refused("Nowhere", ObservedBy::water_level), "");
}

TEST(ObservedReading, WhatCannotBeHeldAgainstAPredictionIsSaid) {
  Facts arch = river();
  arch.waterway.bridges.front().clearance_of = ClearanceOf::centre_of_arch;
  EXPECT_NE(refused("Town Bridge", ObservedBy::clearance_gauge, arch).find("low steel"),
            std::string::npos);
  Facts unsounded = river();
  unsounded.waterway.bars.front().depth = not_known("no depth is on file for Oyster Bar");
  EXPECT_NE(refused("Oyster Bar", ObservedBy::sounder, unsounded).find("no depth is on file"),
            std::string::npos);
  Facts later = river();  // the tide table begins an hour after the reading
  later.tides = given::tides_of({R"({"kind": "tide station", "name": "Gauge", "zone": "Etc/UTC",
      "datums": {"unit": "m", "CD": 0, "MHW": 1}, "chart_datum": "CD", "uncertainty": "0.1 m",
      "heights": {"unit": "m", "rows": [["2026-06-14T11:20:00Z", 1], ["2026-06-14T12:20:00Z", 1],
      ["2026-06-14T13:20:00Z", 1]]}})"});
  EXPECT_NE(refused("Oyster Bar", ObservedBy::sounder, later), "");
}

/// Wind hour by hour from 10:00.
Facts blown(const std::vector<std::pair<double, double>>& from_and_kn) {
  Facts facts = river();
  std::vector<WindHour> hours;
  for (std::size_t i = 0; i < from_and_kn.size(); ++i) {
    hours.push_back({given::at("2026-06-14T10:00:00Z") + std::chrono::hours(i),
                     WindFrom{TrueBearing::from_degrees(from_and_kn[i].first)},
                     knots(from_and_kn[i].second), std::nullopt, std::nullopt, std::nullopt,
                     std::nullopt, std::nullopt});
  }
  facts.winds = {WindSeries({"wind forecast", "invented", hours.front().at}, std::nullopt, hours)};
  return facts;
}

std::optional<Instant> over(const Facts& facts) {
  return wind_over_after("Gauge", kRead, facts, given::plain_margins());
}

TEST(ObservedReading, TheWindThatHoldsItIsOver) {
  // 24 kn from west: over where less than 12 kn of it are left: at 13:00, when it has dropped
  // to 11.
  EXPECT_EQ(over(blown({{270, 24}, {270, 24}, {270, 13}, {270, 11}})),
            given::at("2026-06-14T13:00:00Z"));
  // Veered to north by 12:00: 24 kn x cos 90 = 0 from the west.
  EXPECT_EQ(over(blown({{270, 24}, {270, 24}, {360, 24}, {360, 24}})),
            given::at("2026-06-14T12:00:00Z"));
}

TEST(ObservedReading, ALullIsNotItsEnd) {
  // 11 kn at 12:00, and 24 kn again from 13:00: over at 15:00.
  EXPECT_EQ(
      over(blown({{270, 24}, {270, 24}, {270, 11}, {270, 24}, {270, 20}, {270, 11}, {270, 5}})),
      given::at("2026-06-14T15:00:00Z"));
  EXPECT_FALSE(over(blown({{270, 24}, {270, 24}, {270, 11}, {270, 24}})).has_value());
}

TEST(ObservedReading, AWindThatIsNotKnownToEndDoesNot) {
  EXPECT_FALSE(over(blown({{270, 24}, {270, 24}, {270, 24}})).has_value());  // forecast ends
  EXPECT_FALSE(over(blown({{270, 10}, {270, 10}, {270, 1}})).has_value());   // held by what?
  EXPECT_FALSE(over(river()).has_value());                                   // no forecast
}

}  // namespace
}  // namespace passage_brief
