// What is put to a prediction, each figure by hand: still water 1 m above chart datum at two
// stations, "Gauge" and "Other". The rules are our own, no source; 1 cm for each hPa is the inverse
// barometer (any handbook of oceanography, from memory).
#include "passage/water_level.h"

#include <gtest/gtest.h>

#include <chrono>
#include <string>
#include <vector>

#include "given/open_water.h"
#include "given/stations.h"

namespace passage_brief {
namespace {

const Margins kMargins = given::plain_margins();

Instant june(const std::string& time) { return given::at("2026-06-" + time + ":00Z"); }

SeenLevel seen(const std::string& station, double above_m,
               ObservedBy by = ObservedBy::water_level) {
  return {station,         by,          metres(1), metres(1), station, june("14T12:00"),
          metres(above_m), std::nullopt};
}

Facts facts_observed(std::vector<SeenLevel> observed) {
  Facts facts = given::facts_over(given::empty_waterway(), metres(1));
  facts.tides.push_back(given::still_tide("Other", metres(1)));
  facts.observed = std::move(observed);
  return facts;
}

WindSeries weather(double pressure_hpa, double wind_kn) {
  std::vector<WindHour> hours;
  for (int h = 0; h < 48; ++h) {
    hours.push_back({june("14T00:00") + std::chrono::hours(h),
                     WindFrom{TrueBearing::from_degrees(270)}, knots(wind_kn), knots(wind_kn),
                     hectopascals(pressure_hpa), std::nullopt, std::nullopt, std::nullopt});
  }
  return {{"wind forecast", "invented", june("14T00:00")}, std::nullopt, hours};
}

double depth_level_m(const Facts& facts, const std::string& station, const std::string& when) {
  const FeatureStations stations{station, "none", "CD", "MHW"};
  return in_metres(level_at(facts, kMargins, stations, june(when)).value().above_datum());
}
double bridge_level_m(const Facts& facts, const std::string& station, const std::string& when) {
  return in_metres(level_below_bridges(facts, kMargins, station, june(when)).value().above_datum());
}

TEST(WaterLevel, AsPredictedWithoutMore) {
  EXPECT_DOUBLE_EQ(depth_level_m(facts_observed({}), "Gauge", "14T12:00"), 1);
  EXPECT_DOUBLE_EQ(bridge_level_m(facts_observed({}), "Gauge", "14T12:00"), 1);
}

TEST(WaterLevel, HigherIsOffEveryClearanceAllTheWay) {
  const Facts facts = facts_observed({seen("Gauge", 0.3)});
  for (const char* station : {"Gauge", "Other"}) {
    for (const char* when : {"14T11:00", "14T12:00", "14T15:00", "16T12:00"}) {
      EXPECT_DOUBLE_EQ(bridge_level_m(facts, station, when), 1.3) << station << when;
    }
  }
}

TEST(WaterLevel, HigherAddsDepthOnlyThereAndForAShortTime) {
  // 2 h: 0.3 m at once, half of it after an hour, a quarter of it after an hour and a half.
  const Facts facts = facts_observed({seen("Gauge", 0.3)});
  EXPECT_DOUBLE_EQ(depth_level_m(facts, "Gauge", "14T12:00"), 1.3);
  EXPECT_DOUBLE_EQ(depth_level_m(facts, "Gauge", "14T13:00"), 1.15);
  EXPECT_DOUBLE_EQ(depth_level_m(facts, "Gauge", "14T13:30"), 1.075);
  EXPECT_DOUBLE_EQ(depth_level_m(facts, "Gauge", "14T14:00"), 1);
  EXPECT_DOUBLE_EQ(depth_level_m(facts, "Gauge", "14T11:59"), 1);
  EXPECT_DOUBLE_EQ(depth_level_m(facts, "Other", "14T12:00"), 1);
}

// Found 2026-11: "32 ft" for 3.2 made ten feet of water and "you may go".
TEST(WaterLevel, FarFromThePredictionNothingCountsInHerFavour) {
  const Facts high = facts_observed({seen("Gauge", 1.001)});
  EXPECT_DOUBLE_EQ(depth_level_m(high, "Gauge", "14T12:00"), 1);
  EXPECT_NEAR(bridge_level_m(high, "Gauge", "14T12:00"), 2.001, 1e-9);
  const Facts low = facts_observed({seen("Gauge", -1.001)});
  EXPECT_DOUBLE_EQ(bridge_level_m(low, "Gauge", "14T12:00"), 1);
  EXPECT_NEAR(depth_level_m(low, "Gauge", "14T12:00"), -0.001, 1e-9);
  EXPECT_DOUBLE_EQ(depth_level_m(facts_observed({seen("Gauge", 1)}), "Gauge", "14T12:00"), 2);
}

TEST(WaterLevel, LowerIsOffEveryDepthWhileItsWindLasts) {
  SeenLevel low = seen("Gauge", -0.4);
  low.wind_over = june("14T16:00");
  const Facts facts = facts_observed({low});
  for (const char* station : {"Gauge", "Other"}) {
    EXPECT_DOUBLE_EQ(depth_level_m(facts, station, "14T11:00"), 0.6);
    EXPECT_DOUBLE_EQ(depth_level_m(facts, station, "14T16:00"), 0.6);
    // Gone in 24 h: after 6 h a quarter less, 0.3 m.
    EXPECT_DOUBLE_EQ(depth_level_m(facts, station, "14T22:00"), 0.7);
    EXPECT_DOUBLE_EQ(depth_level_m(facts, station, "15T16:00"), 1);
  }
  low.wind_over.reset();  // what holds it is not known: it stays
  EXPECT_DOUBLE_EQ(depth_level_m(facts_observed({low}), "Other", "16T12:00"), 0.6);
}

TEST(WaterLevel, LowerAddsClearanceOnlyThereAndForAShortTime) {
  const Facts facts = facts_observed({seen("Gauge", -0.4)});
  EXPECT_DOUBLE_EQ(bridge_level_m(facts, "Gauge", "14T12:30"), 0.7);  // 0.4 x 3/4
  EXPECT_DOUBLE_EQ(bridge_level_m(facts, "Gauge", "14T14:00"), 1);
  EXPECT_DOUBLE_EQ(bridge_level_m(facts, "Other", "14T12:30"), 1);
}

TEST(WaterLevel, ASounderOnlyLowersDepths) {
  const Facts less = facts_observed({seen("Gauge", -0.2, ObservedBy::sounder)});
  EXPECT_DOUBLE_EQ(depth_level_m(less, "Gauge", "14T12:30"), 0.8);
  EXPECT_DOUBLE_EQ(depth_level_m(less, "Other", "15T12:00"), 0.8);
  EXPECT_DOUBLE_EQ(bridge_level_m(less, "Gauge", "14T12:30"), 1);
  const Facts more = facts_observed({seen("Gauge", 0.2, ObservedBy::sounder)});
  EXPECT_DOUBLE_EQ(depth_level_m(more, "Gauge", "14T12:30"), 1);
  EXPECT_DOUBLE_EQ(bridge_level_m(more, "Gauge", "14T12:30"), 1);
}

TEST(WaterLevel, OfTwoReadingsTheWorseCountsEachWay) {
  const Facts unlike = facts_observed({seen("Gauge", 0.3), seen("Other", -0.2)});
  EXPECT_DOUBLE_EQ(depth_level_m(unlike, "Gauge", "14T12:00"), 0.8);
  EXPECT_DOUBLE_EQ(bridge_level_m(unlike, "Other", "14T12:00"), 1.3);
  const Facts alike = facts_observed({seen("Gauge", 0.3), seen("Gauge", 0.1)});
  EXPECT_DOUBLE_EQ(depth_level_m(alike, "Gauge", "14T12:00"), 1.1);
  EXPECT_DOUBLE_EQ(bridge_level_m(alike, "Gauge", "14T12:00"), 1.3);
}

TEST(WaterLevel, AirPressureOnlyAgainstHer) {
  Facts high = facts_observed({});
  high.winds.push_back(weather(1023.25, 5));
  EXPECT_NEAR(depth_level_m(high, "Gauge", "14T12:00"), 0.9, 1e-9);
  EXPECT_NEAR(bridge_level_m(high, "Gauge", "14T12:00"), 1, 1e-9);
  Facts low = facts_observed({});
  low.winds.push_back(weather(993.25, 5));
  EXPECT_NEAR(depth_level_m(low, "Gauge", "14T12:00"), 1, 1e-9);
  EXPECT_NEAR(bridge_level_m(low, "Gauge", "14T12:00"), 1.2, 1e-9);
}

TEST(WaterLevel, AirPressureNeverOnTopOfAnObservedLevel) {
  // 10 hPa too much: 0.1 m. The worse of both, not their sum; nothing where freshly observed.
  const auto level_m = [](double above_m, const std::string& station) {
    Facts facts = facts_observed({seen("Gauge", above_m)});
    facts.winds.push_back(weather(1023.25, 5));
    return depth_level_m(facts, station, "14T12:00");
  };
  EXPECT_NEAR(level_m(-0.3, "Other"), 0.7, 1e-9);
  EXPECT_NEAR(level_m(-0.05, "Other"), 0.9, 1e-9);
  EXPECT_NEAR(level_m(-0.05, "Gauge"), 0.95, 1e-9);
  EXPECT_NEAR(level_m(0.3, "Gauge"), 1.3, 1e-9);
  EXPECT_NEAR(level_m(0.3, "Other"), 0.9, 1e-9);
}

// Found 2026-11: pressure not known counted as none, and 10 cm against her were gone in silence.
TEST(WaterLevel, WherePressureIsNotKnownTheWorstGivenCounts) {
  Facts facts = facts_observed({});
  WindSeries gives = weather(1013.25, 5);
  std::vector<WindHour> hours = gives.hours();
  hours[3].pressure = hectopascals(1023.25);
  hours[12].pressure = std::nullopt;
  facts.winds = {{gives.source(), std::nullopt, hours}};
  EXPECT_NEAR(depth_level_m(facts, "Gauge", "14T09:00"), 1, 1e-9);
  EXPECT_NEAR(depth_level_m(facts, "Gauge", "14T12:00"), 0.9, 1e-9);
  EXPECT_NEAR(depth_level_m(facts, "Gauge", "17T12:00"), 0.9, 1e-9);  // past its hours
  const FeatureStations stations{"Gauge", "none", "CD", "MHW"};
  const auto lowest_m = [&](const char* from, const char* to) {
    return in_metres(
        lowest_level(facts, kMargins, stations, Span{june(from), june(to)}).value().above_datum());
  };
  EXPECT_NEAR(lowest_m("14T11:00", "14T13:00"), 0.9, 1e-9);
  EXPECT_NEAR(lowest_m("14T08:00", "14T09:00"), 1, 1e-9);
  // A second forecast, nearer but without pressure, takes nothing away.
  for (WindHour& hour : hours) hour.pressure = std::nullopt;
  facts.winds.insert(facts.winds.begin(), {gives.source(), std::nullopt, hours});
  EXPECT_NEAR(depth_level_m(facts, "Gauge", "14T12:00"), 0.9, 1e-9);
}

std::vector<std::string> error_names(const Facts& facts, const std::string& when,
                                     const std::string& until = "") {
  std::vector<std::string> names;
  const Span over{june(when), june(until.empty() ? when : until)};
  const auto errors = level_errors(facts, kMargins, "Gauge", over);
  for (const ErrorTerm& error : errors.value()) names.push_back(error.name);
  return names;
}

TEST(WaterLevel, AFreshObservationReplacesTheErrorOfTheTide) {
  const Facts facts = facts_observed({seen("Gauge", 0.3)});
  EXPECT_EQ(error_names(facts, "14T12:30"), std::vector<std::string>{"observed level"});
  EXPECT_EQ(error_names(facts, "14T14:00"), std::vector<std::string>{"tide"});
  EXPECT_EQ(error_names(facts_observed({seen("Other", 0.3)}), "14T12:30"),
            std::vector<std::string>{"tide"});
  EXPECT_EQ(error_names(facts_observed({seen("Gauge", -0.3, ObservedBy::sounder)}), "14T12:30"),
            std::vector<std::string>{"tide"});
}

TEST(WaterLevel, AStrongWindWidensTheError) {
  Facts facts = facts_observed({});
  facts.winds.push_back(weather(1013.25, 20));
  EXPECT_EQ(error_names(facts, "14T12:00"),
            (std::vector<std::string>{"tide", "water held up or down by wind"}));
  facts.winds = {weather(1013.25, 19.9)};
  EXPECT_EQ(error_names(facts, "14T12:00"), std::vector<std::string>{"tide"});
}

// Found 2026-11: the error of the first moment was taken for a whole stay in a berth.
TEST(WaterLevel, AnErrorIsTheWidestOfItsSpan) {
  const std::vector<std::string> widest{"tide", "water held up or down by wind"};
  const std::vector<std::string> fresh_and_wind{"observed level", "water held up or down by wind"};
  Facts facts = facts_observed({seen("Gauge", 0)});
  std::vector<WindHour> hours = weather(1013.25, 5).hours();
  hours[13].speed = knots(30);
  facts.winds = {{weather(1013.25, 5).source(), std::nullopt, hours}};
  EXPECT_EQ(error_names(facts, "14T12:00", "14T12:10"), std::vector<std::string>{"observed level"});
  EXPECT_EQ(error_names(facts, "14T12:00", "14T13:30"),
            fresh_and_wind);  // it was calm as it was seen
  EXPECT_EQ(error_names(facts, "14T12:00", "14T20:00"), widest);
  EXPECT_EQ(error_names(facts, "14T15:00", "14T20:00"), std::vector<std::string>{"tide"});
  // A wind that blew already has its share in what was seen; one that is not known may be any.
  facts.winds = {weather(1013.25, 30)};
  EXPECT_EQ(error_names(facts, "14T12:30"), std::vector<std::string>{"observed level"});
  EXPECT_EQ(error_names(facts, "17T12:00"), widest);
}

TEST(WaterLevel, LowestOfASpanIsNoHigherThanAnyMomentOfIt) {
  SeenLevel low = seen("Gauge", -0.4);
  low.wind_over = june("14T13:00");
  Facts facts = facts_observed({low, seen("Gauge", 0.3)});
  facts.winds.push_back(weather(1020, 5));
  const FeatureStations stations{"Gauge", "none", "CD", "MHW"};
  const Span span{june("14T11:00"), june("14T18:00")};
  const TideHeight lowest = lowest_level(facts, kMargins, stations, span).value();
  const TideHeight lowest_under = lowest_below_bridges(facts, kMargins, "Gauge", span).value();
  for (Instant t = span.begin; t <= span.end; t += std::chrono::minutes(1)) {
    EXPECT_LE(lowest, level_at(facts, kMargins, stations, t).value());
    EXPECT_LE(lowest_under, level_below_bridges(facts, kMargins, "Gauge", t).value());
  }
}

}  // namespace
}  // namespace passage_brief
