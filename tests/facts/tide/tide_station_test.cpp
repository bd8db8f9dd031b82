// Stations small enough for arithmetic by hand. S2 is the hand's constituent: 30 degrees an hour, f
// = 1, u = 0, V0 = 0, so that with phase 0 and amplitude A the height is mean + A cos(30 t), t in
// hours from midnight GMT: high water at 00 and 12, low water at 06 and 18.
#include "facts/tide/tide_station.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string>
#include <thread>
#include <vector>

#include "given/stations.h"
#include "given/units.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::at;
using given::why;
using std::chrono::hours;
using std::chrono::minutes;

std::string station_text(const std::string& name, const std::string& rest) {
  return fmt::format(R"({{"kind": "tide station", "name": "{}", "zone": "UTC", {}}})", name, rest);
}

/// Chart datum 1 m and mean level 3 m above zero: heights of 2 m + 1 m cos(30 t).
const std::string kTideOfS2 =
    R"("datums": {"unit": "m", "CD": 1.0, "MSL": 3.0, "MHW": 4.0, "HAT": null}, "chart_datum": "CD",
       "constituents": {"unit": "m", "phase": "GMT", "rows": [["S2", 1.0, 0]]})";

TideStation s2() { return given::tides_of({station_text("Harbor", kTideOfS2)}).front(); }

double metres_at(const TideStation& station, const std::string& time) {
  return in_metres(station.height(at(time)).value().above_datum());
}

TEST(TideStation, HeightIsTheCosineAboveChartDatum) {
  EXPECT_NEAR(metres_at(s2(), "2026-06-14T00:00:00Z"), 3.0, 1e-9);
  EXPECT_NEAR(metres_at(s2(), "2026-06-14T02:00:00Z"), 2.5, 1e-9);  // cos 60 = 0.5
  EXPECT_NEAR(metres_at(s2(), "2026-06-14T06:00:00Z"), 1.0, 1e-9);
}

TEST(TideStation, PhaseLagsAndUnitsAreRead) {
  // 1 ft, phase 90 deg: high water three hours later.
  const TideStation station =
      given::tides_of({station_text("Harbor", R"("datums": {"unit": "ft", "CD": 0, "MSL": 2},
          "chart_datum": "CD",
          "constituents": {"unit": "ft", "phase": "GMT", "rows": [["S2", 1.0, 90]]})")})
          .front();
  EXPECT_NEAR(metres_at(station, "2026-06-14T03:00:00Z"), 3 * 0.3048, 1e-9);
  EXPECT_NEAR(metres_at(station, "2026-06-14T09:00:00Z"), 1 * 0.3048, 1e-9);
}

TEST(TideStation, DatumsAreHeightsAboveChartDatum) {
  EXPECT_EQ(s2().chart_datum().value(), "CD");
  EXPECT_NEAR(in_metres(s2().datum("MHW").value().above_datum()), 3.0, 1e-12);
  EXPECT_NEAR(in_metres(s2().datum("CD").value().above_datum()), 0.0, 1e-12);
  EXPECT_EQ(why(s2().datum("HAT")), "tide station Harbor: it gives no HAT");  // null in the file
  EXPECT_EQ(why(s2().datum("LAT")), "tide station Harbor: it gives no LAT");
}

TEST(TideStation, HighAndLowWatersAreTheTurns) {
  const auto events = s2().high_low({at("2026-06-14T01:00:00Z"), at("2026-06-15T00:00:00.500Z")});
  ASSERT_TRUE(events);
  const std::vector<TideEvent> by_hand{
      {at("2026-06-14T06:00:00Z"), TideHeight::above(metres(1)), false},
      {at("2026-06-14T12:00:00Z"), TideHeight::above(metres(3)), true},
      {at("2026-06-14T18:00:00Z"), TideHeight::above(metres(1)), false},
      {at("2026-06-15T00:00:00Z"), TideHeight::above(metres(3)), true}};
  ASSERT_EQ(events->size(), by_hand.size());
  for (std::size_t i = 0; i < by_hand.size(); ++i) {
    EXPECT_LE(std::abs(((*events)[i].at - by_hand[i].at).count()), 2);  // ms
    EXPECT_NEAR(in_metres((*events)[i].height - by_hand[i].height), 0, 1e-9);
    EXPECT_EQ((*events)[i].high, by_hand[i].high);
  }
}

TEST(TideStation, StandingIsWithinATenthOfAFootAnHour) {
  // Rate = -(pi/6) sin(30 t) m/h; 0.1 ft/h = 0.03048 m/h when sin = 0.05821: 3.337 deg, 6.67
  // minutes either side of high water.
  EXPECT_EQ(s2().trend(at("2026-06-14T12:06:00Z")), Trend::standing);
  EXPECT_EQ(s2().trend(at("2026-06-14T12:07:00Z")), Trend::falling);
  EXPECT_EQ(s2().trend(at("2026-06-14T11:54:00Z")), Trend::standing);
  EXPECT_EQ(s2().trend(at("2026-06-14T11:53:00Z")), Trend::rising);
  EXPECT_EQ(in_words(Trend::standing), "standing");
}

TEST(TideStation, LowestAndHighestLookInsideTheSpan) {
  // Low water at 06:00 inside: 1 m; the ends are higher, 2 + cos(30 * 5.9) and cos(30 * 6.2).
  const Span over_low{at("2026-06-14T05:54:00Z"), at("2026-06-14T06:12:00Z")};
  EXPECT_NEAR(in_metres(s2().lowest(over_low).value().above_datum()), 1.0, 1e-9);
  EXPECT_NEAR(in_metres(s2().highest(over_low).value().above_datum()),
              2 + std::cos(186 * std::acos(-1.0) / 180), 1e-9);
  // Rising all through: the ends.
  const Span rising{at("2026-06-14T08:00:00Z"), at("2026-06-14T10:00:00Z")};
  EXPECT_NEAR(in_metres(s2().lowest(rising).value().above_datum()), 1.5, 1e-9);
  EXPECT_NEAR(in_metres(s2().highest(rising).value().above_datum()), 2.5, 1e-9);
  const Span instant{rising.begin, rising.begin};
  EXPECT_NEAR(in_metres(s2().lowest(instant).value().above_datum()), 1.5, 1e-9);
}

TEST(TideStation, ExtremesEqualAScanAtAStationWithOvertides) {
  const TideStation station = given::published_tide("edgartown");
  const Instant begin = at("2026-10-09T00:00:00Z");
  for (int k = 0; k < 60; ++k) {
    const Span span{begin + minutes(37 * k), begin + minutes(37 * k + 11 * (k % 7) + 1)};
    TideHeight least = station.height(span.begin).value();
    TideHeight greatest = least;
    for (Instant t = span.begin; t <= span.end; t += std::chrono::seconds(10)) {
      least = std::min(least, station.height(t).value());
      greatest = std::max(greatest, station.height(t).value());
    }
    // Within 5 s of a turn the level is within 1e-6 m of it.
    EXPECT_NEAR(in_metres(station.lowest(span).value() - least), 0, 1e-6) << k;
    EXPECT_NEAR(in_metres(station.highest(span).value() - greatest), 0, 1e-6) << k;
    EXPECT_LE(station.lowest(span).value(), least + metres(1e-12)) << k;
    EXPECT_GE(station.highest(span).value(), greatest - metres(1e-12)) << k;
  }
}

TEST(TideStation, TheYearIsSteppedAtNewYear) {
  // NOAA's own constants step by 9 mm at San Francisco at 2018-01-01 00:00 GMT.
  const TideStation station = given::published_tide("san_francisco");
  const Instant new_year = at("2018-01-01T00:00:00Z");
  const TideHeight before = station.height(new_year - Interval(1)).value();
  const TideHeight after = station.height(new_year).value();
  EXPECT_NEAR(std::abs(in_metres(after - before)), 0.009, 0.0006);
  const Span around{new_year - Interval(1), new_year};
  EXPECT_NEAR(in_metres(station.lowest(around).value() - std::min(before, after)), 0, 1e-9);
  EXPECT_NEAR(in_metres(station.highest(around).value() - std::max(before, after)), 0, 1e-9);
}

TEST(TideStation, TurnsAlternateThroughEveryNewYear) {
  for (const char* name : {"san_francisco", "eastport", "newport", "dauphin_island_2020"}) {
    const TideStation station = given::published_tide(name);
    for (int year = 1901; year <= 2037; ++year) {
      const Instant new_year = std::chrono::sys_days(std::chrono::year(year) / 1 / 1);
      const auto events = station.high_low({new_year - hours(36), new_year + hours(36)});
      ASSERT_TRUE(events);
      for (std::size_t i = 1; i < events->size(); ++i) {
        EXPECT_NE((*events)[i].high, (*events)[i - 1].high) << name << " " << year;
        EXPECT_LT((*events)[i - 1].at, (*events)[i].at) << name << " " << year;
      }
    }
  }
}

TEST(TideStation, TheTimelineIsTheHeightsOneByOne) {
  const TideStation station = given::published_tide("newport");
  // Across New Year, with a step that does not divide the day.
  const Instant begin = at("2020-12-30T03:07:11Z");
  const auto heights = station.heights(begin, std::chrono::seconds(137), 3000);
  ASSERT_TRUE(heights);
  ASSERT_EQ(heights->size(), 3000u);
  for (std::size_t i = 0; i < heights->size(); ++i) {
    const Instant t = begin + std::chrono::seconds(137) * static_cast<int>(i);
    EXPECT_NEAR(in_metres((*heights)[i] - station.height(t).value()), 0, 1e-9) << i;
  }
}

TEST(TideStation, YearsWithoutNodalCorrectionsAreNotKnown) {
  EXPECT_TRUE(s2().height(at("1900-01-01T00:00:00Z")));
  EXPECT_TRUE(s2().height(at("2037-12-31T23:59:59Z")));
  const std::string words =
      "tide station Harbor: harmonic constants are worked out for the years 1900 to 2037 only";
  EXPECT_EQ(why(s2().height(at("2038-01-01T00:00:00Z"))), words);
  EXPECT_EQ(why(s2().height(at("1899-12-31T23:59:59Z"))), words);
  EXPECT_EQ(why(s2().trend(at("2038-01-01T00:00:00Z"))), words);
  const Span over_the_end{at("2037-12-31T00:00:00Z"), at("2038-01-01T00:00:00Z")};
  EXPECT_EQ(why(s2().high_low(over_the_end)), words);
  EXPECT_EQ(why(s2().lowest(over_the_end)), words);
  EXPECT_EQ(why(s2().heights(over_the_end.begin, hours(1), 25)), words);
}

TEST(TideStation, WhatTheFileLeavesOutIsNotKnown) {
  const std::string rows =
      R"("constituents": {"unit": "m", "phase": "GMT", "rows": [["S2", 1.0, 0]]})";
  const auto height_reason = [&](const std::string& rest) {
    const TideStation station = given::tides_of({station_text("Harbor", rest)}).front();
    return why(station.height(at("2026-06-14T00:00:00Z")));
  };
  EXPECT_EQ(height_reason(R"("chart_datum": "CD", "datums": {"unit": "m", "CD": 1},)" + rows),
            "tide station Harbor: its datums give no MSL");
  EXPECT_EQ(height_reason(R"("chart_datum": "CD", "datums": {"unit": "m", "CD": null, "MSL": 1},)" +
                          rows),
            "tide station Harbor: its datums give no CD");
  EXPECT_EQ(height_reason(R"("datums": {"unit": "m", "MSL": 1},)" + rows),
            "tide station Harbor: the tide station file gives no chart datum for Harbor");
  EXPECT_EQ(height_reason(R"("chart_datum": "CD", "datums": {"unit": "m", "CD": 0, "MSL": 1},
      "constituents": {"unit": "m", "phase": "GMT", "rows": [["M2", null, 3]]})"),
            "tide station Harbor: its constituent M2 has no amplitude");
  EXPECT_EQ(height_reason(R"("chart_datum": "CD")"),
            "tide station Harbor: the tide station file gives no constituents, reference, heights "
            "or high and low waters for Harbor");
  const TideStation station = s2();
  EXPECT_EQ(why(station.uncertainty()), "the tide station file gives no uncertainty for Harbor");
  EXPECT_EQ(why(station.position()), "the tide station file gives no position for Harbor");
  EXPECT_EQ(station.source().from, "source not stated");
  EXPECT_FALSE(station.source().issued);
}

// Subordinate stations: high water 30 min later and half as high, low water 10 min earlier, 0.1 m
// up.
std::string landing(const std::string& offsets) {
  return station_text("Landing",
                      R"("chart_datum": "CD", "reference": "Harbor", "offsets": )" + offsets);
}
const std::string kOffsets =
    R"({"high_time": "30 min", "low_time": "-10 min", "high": {"ratio": 0.5}, "low": {"add": "0.1 m"}})";

TideStation subordinate() {
  return given::tides_of({landing(kOffsets), station_text("Harbor", kTideOfS2)}).front();
}

TEST(SubordinateStation, MovesTheEventsAndJoinsThemByAHalfCosine) {
  const auto events =
      subordinate().high_low({at("2026-06-14T01:00:00Z"), at("2026-06-14T13:00:00Z")});
  ASSERT_TRUE(events);
  ASSERT_EQ(events->size(), 2u);
  EXPECT_LE(std::abs(((*events)[0].at - at("2026-06-14T05:50:00Z")).count()), 2);
  EXPECT_NEAR(in_metres((*events)[0].height.above_datum()), 1.1, 1e-9);
  EXPECT_LE(std::abs(((*events)[1].at - at("2026-06-14T12:30:00Z")).count()), 2);
  EXPECT_NEAR(in_metres((*events)[1].height.above_datum()), 1.5, 1e-9);
  // Half way in time, 09:10, half way in height; a third of the way, 08:03:20, cos 60 = 0.5.
  EXPECT_NEAR(metres_at(subordinate(), "2026-06-14T09:10:00Z"), 1.3, 1e-6);
  EXPECT_NEAR(metres_at(subordinate(), "2026-06-14T08:03:20Z"), 1.3 - 0.2 * 0.5, 1e-6);
  EXPECT_EQ(subordinate().trend(at("2026-06-14T09:10:00Z")), Trend::rising);
}

TEST(SubordinateStation, IsOneCurveThroughManyMonths) {
  const TideStation station = subordinate();
  const Span span{at("2026-01-10T00:00:00Z"), at("2026-07-10T00:00:00Z")};
  const auto events = station.high_low(span);
  ASSERT_TRUE(events);
  // 181 days of 4 events, lows at 05:50 and 17:50, highs at 00:30 and 12:30.
  ASSERT_EQ(events->size(), 181u * 4);
  for (std::size_t i = 1; i < events->size(); ++i) {
    EXPECT_NE((*events)[i].high, (*events)[i - 1].high) << i;
    const double apart = in_hours((*events)[i].at - (*events)[i - 1].at);
    EXPECT_NEAR(apart, (*events)[i].high ? 6 + 2.0 / 3 : 5 + 1.0 / 3, 0.001) << i;
  }
  EXPECT_NEAR(in_metres(station.lowest(span).value().above_datum()), 1.1, 1e-9);
  EXPECT_NEAR(in_metres(station.highest(span).value().above_datum()), 1.5, 1e-9);
}

TEST(SubordinateStation, GivesTheSameToManyThreads) {
  const TideStation station = subordinate();
  std::vector<double> heights(8);
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < heights.size(); ++i) {
    threads.emplace_back([&, i] { heights[i] = metres_at(station, "2026-06-14T09:10:00Z"); });
  }
  for (std::thread& thread : threads) thread.join();
  for (const double height : heights) EXPECT_EQ(height, heights.front());
}

TEST(SubordinateStation, HasNoDatumButItsOwn) {
  EXPECT_NEAR(in_metres(subordinate().datum("CD").value().above_datum()), 0, 1e-12);
  EXPECT_EQ(why(subordinate().datum("MHW")),
            "tide station Landing: it gives no MHW, being subordinate to Harbor");
}

TEST(SubordinateStation, HeightsAreAboveTheSharedPlane) {
  // The reference's heights are above CD, the subordinate's above LOW, 0.5 m higher: high water
  // (3 - 0.5) * 0.5 = 1.25 m, low water 1 - 0.5 + 0.1 = 0.6 m.
  const std::string harbor = station_text(
      "Harbor", R"("datums": {"unit": "m", "CD": 1.0, "LOW": 1.5, "MSL": 3.0}, "chart_datum": "CD",
       "constituents": {"unit": "m", "phase": "GMT", "rows": [["S2", 1.0, 0]]})");
  const std::string own = station_text(
      "Landing", R"("chart_datum": "LOW", "reference": "Harbor", "offsets": )" + kOffsets);
  const TideStation station = given::tides_of({own, harbor}).front();
  EXPECT_NEAR(metres_at(station, "2026-06-14T12:30:00Z"), 1.25, 1e-9);
  EXPECT_NEAR(metres_at(station, "2026-06-14T05:50:00Z"), 0.6, 1e-9);
}

TEST(SubordinateStation, OffsetsThatChangeTheOrderAreRefused) {
  // High to low takes 6 h: high water 6 h later is at the low water; a minute less is not.
  const auto offsets = [](const char* high_time) {
    return fmt::format(
        R"({{"high_time": "{}", "low_time": "0 min", "high": {{"ratio": 1}}, "low": {{"ratio": 1}}}})",
        high_time);
  };
  EXPECT_EQ(
      given::problems_of_tides({landing(offsets("5 h 59 min")), station_text("Harbor", kTideOfS2)}),
      "");
  const std::string refused =
      given::problems_of_tides({landing(offsets("6 h 1 min")), station_text("Harbor", kTideOfS2)});
  EXPECT_NE(refused.find("station 1.json: /offsets: its offsets change the order of high and low "
                         "water"),
            std::string::npos)
      << refused;
  // Heights turned over: high water 3 * 0.1 below low water 1 * 1.
  const std::string over = given::problems_of_tides(
      {landing(
           R"({"high_time": "0 s", "low_time": "0 s", "high": {"ratio": 0.1}, "low": {"ratio": 1}})"),
       station_text("Harbor", kTideOfS2)});
  EXPECT_NE(over.find("/offsets"), std::string::npos) << over;
}

TEST(SubordinateStation, NeedsAReferenceItCanStandOn) {
  EXPECT_EQ(given::problems_of_tides({landing(kOffsets)}),
            "station 1.json: /reference: no tide station file called \"Harbor\" was given; give it "
            "too\n");
  const std::string chain = station_text(
      "Harbor", R"("chart_datum": "CD", "reference": "Landing", "offsets": )" + kOffsets);
  EXPECT_EQ(given::problems_of_tides({landing(kOffsets), chain}),
            "station 1.json: /reference: Harbor is a subordinate station itself\n"
            "station 2.json: /reference: Landing is a subordinate station itself\n");
  const std::string series = station_text("Harbor", R"("chart_datum": "CD", "heights": {"unit": "m",
      "rows": [["2026-06-14T00:00Z", 1], ["2026-06-14T00:06Z", 1.1]]})");
  EXPECT_NE(given::problems_of_tides({landing(kOffsets), series})
                .find("/reference: Harbor gives a "
                      "series of heights"),
            std::string::npos);
  const std::string twice = given::problems_of_tides(
      {station_text("Harbor", kTideOfS2), station_text("Harbor", kTideOfS2)});
  EXPECT_EQ(twice,
            "station 2.json: /name: \"Harbor\" is the name of the station in station 1.json too\n");
  const std::string plane = given::problems_of_tides(
      {station_text("Landing",
                    R"("chart_datum": "LOW", "reference": "Harbor", "offsets": )" + kOffsets),
       station_text("Harbor", kTideOfS2)});
  EXPECT_NE(plane.find("/chart_datum: heights are above LOW"), std::string::npos) << plane;
}

TEST(SubordinateStation, WithoutOffsetsItIsNotKnown) {
  const auto stations = given::tides_of({landing("null"), station_text("Harbor", kTideOfS2)});
  EXPECT_EQ(why(stations.front().height(at("2026-06-14T00:00:00Z"))),
            "tide station Landing: the tide station file gives no offsets for Landing");
  const auto half = given::tides_of(
      {landing(R"({"high_time": "30 min", "high": {"ratio": 0.5}, "low": {"ratio": 0.5}})"),
       station_text("Harbor", kTideOfS2)});
  EXPECT_EQ(why(half.front().height(at("2026-06-14T00:00:00Z"))),
            "tide station Landing: the tide station file gives no low time for its offsets");
}

TEST(SubordinateStation, StandsOnATableOfHighAndLowWatersToo) {
  const std::string table = station_text("Harbor", R"("chart_datum": "CD", "high_low": {"unit": "m",
      "rows": [["2026-06-14T00:00Z", 3, "high"], ["2026-06-14T06:00Z", 1, "low"],
               ["2026-06-14T12:00Z", 3, "high"]]})");
  const TideStation station = given::tides_of({landing(kOffsets), table}).front();
  EXPECT_NEAR(metres_at(station, "2026-06-14T05:50:00Z"), 1.1, 1e-9);
  EXPECT_NEAR(metres_at(station, "2026-06-14T12:30:00Z"), 1.5, 1e-9);
  EXPECT_EQ(why(station.height(at("2026-06-14T12:31:00Z"))),
            "tide station Landing: its high and low waters run from 2026-06-14T00:30:00Z to "
            "2026-06-14T12:30:00Z, which leaves out 2026-06-14T12:31:00Z");
}

}  // namespace
}  // namespace passage_brief
