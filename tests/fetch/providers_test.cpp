// Replies in the documented shapes, written by us (tests/given/replies; places invented): each
// figure where it belongs, and one change at a time that must be refused or lost, never believed.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "facts/tide/tide_station.h"
#include "fetch/asked.h"
#include "fetch/co_ops_currents_provider.h"
#include "fetch/co_ops_levels_provider.h"
#include "fetch/co_ops_predictions_provider.h"
#include "fetch/co_ops_station_provider.h"
#include "fetch/nws_alerts_provider.h"
#include "fetch/nws_grid_provider.h"
#include "fetch/nws_hourly_provider.h"
#include "fetch/nws_layers.h"
#include "fetch/nws_points_provider.h"
#include "fetch/open_meteo_provider.h"
#include "given/files.h"
#include "given/open_water.h"
#include "given/replies.h"
#include "given/stations.h"
#include "units/position.h"

namespace passage_brief {
namespace {

using given::asked;
using given::reply_text;

Asked here() {
  Asked asked;
  asked.place = given::at(0, 0);
  return asked;
}

const WindHour& hour_at(const WindSeries& winds, const std::string& rfc3339) {
  return *std::ranges::find(winds.hours(), given::at(rfc3339), &WindHour::at);
}

TEST(Asked, IsTheQueryOfARequest) {
  const auto told = asked_in(
      "product=predictions&station=9999001&datum=MLLW&units=english&time_zone=gmt&interval=hilo");
  ASSERT_TRUE(told) << told.error();
  EXPECT_EQ(told->station, "9999001");
  EXPECT_EQ(told->datum, "MLLW");
  EXPECT_EQ(told->height_unit, feet(1));
  EXPECT_TRUE(told->gmt);
  EXPECT_FALSE(asked("station=9999001&datum=MLLW&units=english").gmt);
  for (const char* wrong : {"time_zone=lst_ldt", "time_zone=lst", "units=furlongs",
                            "datum=", "stattion=1", "zone=Nowhere/Here", "at=91,0", "uncertainty=3",
                            "datum=MLLW&datum=MSL", "time_zone=gmt&name=A&time_zone=gmt"}) {
    EXPECT_FALSE(asked_in(wrong)) << wrong;
  }
}

TEST(CoOpsPredictions, HighsAndLows) {
  const auto file =
      co_ops_predictions("r", reply_text("co_ops_predictions_high_low.json"),
                         asked("station=9999001&datum=MLLW&units=metric&time_zone=gmt"));
  ASSERT_TRUE(file) << given::listed(file.error());
  const TideStation station(file->parts);
  const auto events =
      station.high_low({given::at("2026-06-14T03:10:00Z"), given::at("2026-06-14T22:02:00Z")});
  ASSERT_TRUE(events);
  ASSERT_EQ(events->size(), 4U);
  EXPECT_NEAR(in_metres(events->front().height.above_datum()), 0.920, 1e-12);
  EXPECT_FALSE((*events)[1].high);
  EXPECT_NEAR(in_metres(events->back().height.above_datum()), -0.031, 1e-12);
  EXPECT_EQ(*station.chart_datum(), "MLLW");
  EXPECT_FALSE(station.datum("MHW"));
}

TEST(CoOpsPredictions, SeriesInFeet) {
  const auto file =
      co_ops_predictions("r", reply_text("co_ops_predictions_6min.json"),
                         asked("station=9999001&datum=MLLW&units=english&time_zone=gmt"));
  ASSERT_TRUE(file) << given::listed(file.error());
  const auto height = TideStation(file->parts).height(given::at("2026-06-14T12:12:00Z"));
  EXPECT_NEAR(in_feet(height->above_datum()), 0.540, 1e-9);
}

// Times carry no offset in any of these replies, and time_zone=lst_ldt is offered beside gmt (NOAA
// CO-OPS, data API): one asked in local time and read as GMT is hours off.
TEST(CoOpsPredictions, AreNotKnownWithoutDatumUnitAndZone) {
  for (const char* query : {"station=1", "datum=MLLW&time_zone=gmt", "units=metric&time_zone=gmt",
                            "datum=MLLW&units=metric"}) {
    const auto file =
        co_ops_predictions("r", reply_text("co_ops_predictions_6min.json"), asked(query));
    ASSERT_TRUE(file);
    const auto height = TideStation(file->parts).height(given::at("2026-06-14T12:12:00Z"));
    ASSERT_FALSE(height) << query;
    EXPECT_NE(in_words(height.error()).find("the zone of its times"), std::string::npos);
  }
}

TEST(CoOpsLevels, AreNotKnownWithoutTheirZone) {
  const std::string text = reply_text("co_ops_levels.json");
  const Asked untold = asked("station=9999001&datum=MLLW&units=metric");
  EXPECT_FALSE(co_ops_levels("r", text, untold));
  const auto file = co_ops_levels_as_station("r", text, untold);
  ASSERT_TRUE(file) << given::listed(file.error());
  EXPECT_FALSE(TideStation(file->parts).height(given::at("2026-06-14T11:18:00Z")));
  EXPECT_FALSE(file->parts.source.issued);
}

TEST(CoOpsCurrents, AreNotKnownWithoutTheirZone) {
  const auto station =
      co_ops_currents("r", reply_text("co_ops_currents.json"), asked("station=INV0101"));
  ASSERT_TRUE(station) << given::listed(station.error());
  EXPECT_FALSE(station->along_flood(given::at("2026-06-13T01:00:00Z")));
}

TEST(CoOpsLevels, FlaggedAndEmptyOnesAreLeftOut) {
  const auto observed =
      co_ops_levels("r", reply_text("co_ops_levels.json"),
                    asked("station=9999001&datum=MLLW&units=metric&time_zone=gmt"));
  ASSERT_TRUE(observed) << given::listed(observed.error());
  ASSERT_EQ(observed->levels.size(), 2U);
  EXPECT_EQ(observed->levels.back().at, given::at("2026-06-14T11:18:00Z"));
}

TEST(CoOpsCurrents, FloodAndEbbInKnots) {
  const auto station = co_ops_currents("r", reply_text("co_ops_currents.json"),
                                       asked("station=INV0101&time_zone=gmt"));
  ASSERT_TRUE(station) << given::listed(station.error());
  // 103.0 cm/s at 2026-06-13 01:00 is 2.0022 kn; the ebb is 6 h 12 min later.
  EXPECT_NEAR(in_knots(*station->along_flood(given::at("2026-06-13T01:00:00Z"))), 2.0022, 1e-3);
  const auto ebb = station->at(given::at("2026-06-13T07:12:00Z"));
  EXPECT_NEAR(in_metres_per_second(ebb->speed), 1.543, 1e-9);
  EXPECT_EQ(ebb->toward.bearing.in_degrees(), 234);
}

// The constants are San Francisco's as NOAA publishes them (tests/given/stations), put into the
// shape of the metadata service: a station file made of them gives the same heights to a
// millimetre.
TEST(CoOpsStation, GivesTheHeightsOfItsConstants) {
  const auto file =
      co_ops_station("r", reply_text("co_ops_station.json"), asked("station=9999001"));
  ASSERT_TRUE(file) << given::listed(file.error());
  const TideStation made(file->parts);
  const TideStation published = given::published_tide("san_francisco");
  for (int hour = 0; hour < 24 * 40; ++hour) {
    const Instant at = given::at("2026-12-10T00:00:00Z") + std::chrono::hours(hour);
    EXPECT_NEAR(in_metres(made.height(at)->above_datum()),
                in_metres(published.height(at)->above_datum()), 0.001);
  }
  for (const char* plane : {"MHW", "MHHW", "MSL", "HAT"}) {
    EXPECT_EQ(made.datum(plane), published.datum(plane)) << plane;
  }
}

TEST(CoOpsStation, SubordinateNamesItsReferenceByNumber) {
  auto reference = co_ops_station("r", reply_text("co_ops_station.json"), Asked{});
  auto subordinate = co_ops_station("s", reply_text("co_ops_station_subordinate.json"), Asked{});
  ASSERT_TRUE(subordinate) << given::listed(subordinate.error());
  const auto stations = link_tide_stations({*subordinate, *reference});
  ASSERT_TRUE(stations) << given::listed(stations.error());
  const Span day{given::at("2026-06-14T00:00:00Z"), given::at("2026-06-15T06:00:00Z")};
  const auto highs = (*stations)[1].high_low(day);
  const auto moved = (*stations)[0].high_low(day);
  // High waters 55 min later and 1.09 times as high, above MLLW.
  const auto is_high = [](const TideEvent& event) { return event.high; };
  const TideEvent first = *std::ranges::find_if(*highs, is_high);
  const auto later = std::ranges::find(*moved, first.at + std::chrono::minutes(55), &TideEvent::at);
  ASSERT_NE(later, moved->end());
  EXPECT_NEAR(in_metres(later->height.above_datum()), 1.09 * in_metres(first.height.above_datum()),
              1e-9);
}

TEST(NwsGrid, MergedHoursNullsAndThunderInWords) {
  const auto winds = nws_grid("r", reply_text("nws_grid.json"), here());
  ASSERT_TRUE(winds) << given::listed(winds.error());
  EXPECT_EQ(winds->source().issued, given::at("2026-06-14T10:12:00Z"));
  EXPECT_NEAR(in_knots(*hour_at(*winds, "2026-06-14T11:00:00Z").speed), 10, 1e-9);
  EXPECT_FALSE(hour_at(*winds, "2026-06-14T12:00:00Z").speed);
  EXPECT_NEAR(in_knots(*hour_at(*winds, "2026-06-15T23:00:00Z").speed), 15, 1e-9);
  EXPECT_NEAR(in_knots(*hour_at(*winds, "2026-06-14T12:00:00Z").gust), 20, 1e-9);
  EXPECT_NEAR(in_feet(*hour_at(*winds, "2026-06-14T12:00:00Z").wave), 2, 1e-9);
  EXPECT_EQ(hour_at(*winds, "2026-06-14T13:00:00Z").thunder, 0.0);
  EXPECT_EQ(hour_at(*winds, "2026-06-14T14:00:00Z").thunder, 0.54);
  EXPECT_FALSE(winds->wind(given::at("2026-06-14T11:30:00Z")));
}

TEST(NwsGrid, DurationsOfIso8601) {
  const auto length = [](const char* text) {
    const auto span = valid_time(std::string("2026-06-14T10:00:00+00:00/") + text);
    return span ? in_hours(span->end - span->begin) : -1;
  };
  EXPECT_EQ(length("PT3H"), 3);
  EXPECT_EQ(length("P6DT4H"), 148);
  EXPECT_EQ(length("P1D"), 24);
  EXPECT_EQ(length("PT30M"), 0.5);
  for (const char* wrong : {"", "P", "PT", "3H", "PT0H", "P3H", "PT3D", "PT3", "P-1D", "P99999999D",
                            "P31D", "PT1HT1H"}) {
    EXPECT_EQ(length(wrong), -1) << wrong;
  }
}

TEST(NwsHourly, TakesTheGreaterOfARange) {
  const auto winds = nws_hourly("r", reply_text("nws_hourly.json"), Asked{});
  ASSERT_TRUE(winds) << given::listed(winds.error());
  // 15 statute miles an hour are 13.0346 kn.
  EXPECT_NEAR(in_knots(*hour_at(*winds, "2026-06-14T13:00:00Z").speed), 13.0346, 1e-3);
  EXPECT_EQ(hour_at(*winds, "2026-06-14T13:00:00Z").from->bearing.in_degrees(), 157.5);
}

TEST(NwsPoints, AddressHasFourDecimalsAtMost) {
  EXPECT_EQ(nws_points_path(position_at(38.123456, -76.4)), "/points/38.1235,-76.4");
  EXPECT_EQ(nws_points_path(position_at(38, -0.00001)), "/points/38,0");
}

TEST(NwsAlerts, OnlyActualOnesOfTheZoneThatStillStand) {
  const auto alerts = nws_alerts("r", reply_text("nws_alerts.json"), "ANZ999");
  ASSERT_TRUE(alerts) << given::listed(alerts.error());
  ASSERT_EQ(alerts->size(), 2U);
  EXPECT_EQ(alerts->front().event, "Small Craft Advisory");
  EXPECT_EQ(alerts->front().instruction, "Stay in port.");
  EXPECT_EQ(alerts->front().ends, given::at("2026-06-14T23:00:00Z"));
  EXPECT_EQ(alerts->back().event, "Gale Warning");
  EXPECT_FALSE(alerts->back().ends);
}

// From the published schema of the service alone: no recorded reply was at hand.
TEST(OpenMeteo, UnitsFromTheReplyAndThunderByCode) {
  const auto winds = open_meteo("r", reply_text("open_meteo_forecast.json"), here());
  ASSERT_TRUE(winds) << given::listed(winds.error());
  EXPECT_FALSE(winds->source().issued);
  EXPECT_EQ(hour_at(*winds, "2026-06-14T10:00:00Z").speed, knots(10));
  EXPECT_FALSE(hour_at(*winds, "2026-06-14T12:00:00Z").speed);
  EXPECT_EQ(hour_at(*winds, "2026-06-14T15:00:00Z").thunder, 1.0);
  EXPECT_EQ(hour_at(*winds, "2026-06-14T16:00:00Z").thunder, 0.0);
  const auto marine = open_meteo("r", reply_text("open_meteo_marine.json"), here());
  ASSERT_TRUE(marine) << given::listed(marine.error());
  EXPECT_EQ(hour_at(with_waves(*winds, *marine), "2026-06-14T15:00:00Z").wave, metres(0.6));
}

TEST(OpenMeteo, MilesAnHour) {
  const std::string text =
      given::replaced(reply_text("open_meteo_forecast.json"), R"("wind_speed_10m": "kn")",
                      R"("wind_speed_10m": "mp/h")");
  const auto winds = open_meteo("r", text, here());
  EXPECT_NEAR(in_knots(*winds->hours().front().speed), 8.6898, 1e-3);
}

/// One change to a good reply, as a JSON Patch, after which it must be refused with these words.
struct Defect {
  const char* reply;
  const char* patch;
  const char* words;
};

std::string problems_of(const std::string& reply, const std::string& text) {
  using given::problems_of_reading;
  if (reply == "co_ops_predictions_high_low.json" || reply == "co_ops_predictions_6min.json") {
    return problems_of_reading(co_ops_predictions(
        "r", text, asked("station=9999001&datum=MLLW&units=metric&time_zone=gmt")));
  }
  if (reply == "co_ops_levels.json") {
    return problems_of_reading(
        co_ops_levels("r", text, asked("station=9999001&datum=MLLW&units=metric&time_zone=gmt")));
  }
  if (reply == "co_ops_currents.json")
    return problems_of_reading(co_ops_currents("r", text, asked("station=X")));
  if (reply == "co_ops_station.json") {
    return problems_of_reading(co_ops_station("r", text, asked("station=9999001")));
  }
  if (reply == "co_ops_station_subordinate.json") {
    return problems_of_reading(co_ops_station("r", text, asked("station=9999002")));
  }
  if (reply == "nws_points.json") {
    return problems_of_reading(nws_point("r", text, given::at(0, 0)));
  }
  if (reply == "nws_grid.json") return problems_of_reading(nws_grid("r", text, here()));
  if (reply == "nws_hourly.json") return problems_of_reading(nws_hourly("r", text, Asked{}));
  if (reply == "nws_alerts.json") return problems_of_reading(nws_alerts("r", text, "ANZ999"));
  return problems_of_reading(open_meteo("r", text, here()));
}

const std::vector<Defect> kDefects = {
    {"co_ops_predictions_high_low.json",
     R"([{"op":"replace","path":"/predictions/1/t","value":"2026-06-14 03:10"}])",
     "not after the one before"},
    {"co_ops_predictions_high_low.json",
     R"([{"op":"replace","path":"/predictions/1/t","value":"2026-06-14 25:00"}])",
     "/predictions/1/t"},
    {"co_ops_predictions_high_low.json",
     R"([{"op":"replace","path":"/predictions/1/v","value":"NaN"}])", "expected a"},
    {"co_ops_predictions_high_low.json",
     R"([{"op":"replace","path":"/predictions/1/v","value":"1e400"}])", "expected a"},
    {"co_ops_predictions_high_low.json",
     R"([{"op":"replace","path":"/predictions/1/v","value":"0.2 ft"}])", "expected a number"},
    {"co_ops_predictions_high_low.json",
     R"([{"op":"replace","path":"/predictions/1/v","value":"99"}])", "no tide on Earth"},
    {"co_ops_predictions_high_low.json",
     R"([{"op":"replace","path":"/predictions/1/v","value":null}])", "has no height"},
    {"co_ops_predictions_high_low.json",
     R"([{"op":"replace","path":"/predictions/1/type","value":"H"}])", "both high water"},
    {"co_ops_predictions_high_low.json",
     R"([{"op":"replace","path":"/predictions/1/type","value":"X"}])", "neither H nor L"},
    {"co_ops_predictions_high_low.json", R"([{"op":"replace","path":"/predictions","value":[]}])",
     "no predictions"},
    {"co_ops_predictions_high_low.json", R"([{"op":"replace","path":"/predictions","value":{}}])",
     "no predictions"},
    {"co_ops_predictions_high_low.json",
     R"([{"op":"add","path":"/error","value":{"message":"Busy."}}])", "Busy."},
    {"co_ops_predictions_6min.json",
     R"([{"op":"replace","path":"/predictions/1/v","value":"9.000"}])",
     "/predictions/1/v: the height at 2026-06-14T12:06:00Z lies"},
    {"co_ops_predictions_6min.json", R"([{"op":"replace","path":"/predictions/0","value":7}])",
     "/predictions/0/t"},
    {"co_ops_levels.json", R"([{"op":"replace","path":"/metadata/id","value":"9999002"}])",
     "9999001 was asked"},
    {"co_ops_levels.json", R"([{"op":"remove","path":"/metadata"}])", "9999001 was asked"},
    {"co_ops_levels.json", R"([{"op":"replace","path":"/data/3/t","value":"2026-06-14 11:00"}])",
     "not after the one before"},
    {"co_ops_levels.json", R"([{"op":"replace","path":"/data/3/v","value":"-99"}])",
     "no tide on Earth"},
    {"co_ops_currents.json",
     R"([{"op":"replace","path":"/current_predictions/units","value":"furlongs"}])",
     "neither cm/s nor knots"},
    {"co_ops_currents.json", R"([{"op":"remove","path":"/current_predictions/units"}])",
     "neither cm/s nor knots"},
    {"co_ops_currents.json",
     R"([{"op":"replace","path":"/current_predictions/cp/0/Velocity_Major","value":-100}])",
     "sign of the other"},
    {"co_ops_currents.json",
     R"([{"op":"replace","path":"/current_predictions/cp/1/Velocity_Major","value":50}])",
     "slack with a speed"},
    {"co_ops_currents.json",
     R"([{"op":"replace","path":"/current_predictions/cp/0/Velocity_Major","value":9000}])",
     "no tidal current on Earth"},
    {"co_ops_currents.json",
     R"([{"op":"replace","path":"/current_predictions/cp/2/Time","value":"2026-06-13 01:00"}])",
     "not after the one before"},
    {"co_ops_currents.json",
     R"([{"op":"replace","path":"/current_predictions/cp/2/Type","value":"surge"}])",
     "not flood, ebb or slack"},
    {"co_ops_currents.json", R"([{"op":"remove","path":"/current_predictions/cp/2/Type"}])",
     "mixes"},
    {"co_ops_currents.json",
     R"([{"op":"replace","path":"/current_predictions/cp/0/meanFloodDir","value":700}])",
     "no direction"},
    {"co_ops_currents.json", R"([{"op":"replace","path":"/current_predictions","value":null}])",
     "no predictions"},
    {"co_ops_station.json", R"([{"op":"replace","path":"/stations/0/id","value":"9999009"}])",
     "9999001 was asked"},
    {"co_ops_station.json", R"([{"op":"replace","path":"/stations","value":[]}])",
     "holds no station"},
    {"co_ops_station.json",
     R"([{"op":"replace","path":"/stations/0/datums/datums/4/value","value":9.67}])",
     "MTL stands 6.254 m above MHW"},
    {"co_ops_station.json",
     R"([{"op":"replace","path":"/stations/0/datums/datums/4/value","value":2.773},
         {"op":"replace","path":"/stations/0/datums/datums/1/value","value":-9}])",
     "LAT lies 11.77 m from MSL, further than the constituents reach"},
    {"co_ops_station.json",
     R"([{"op":"replace","path":"/stations/0/datums/units","value":"fathoms"}])",
     "neither feet nor meters"},
    {"co_ops_station.json", R"([{"op":"remove","path":"/stations/0/harmonicConstituents/units"}])",
     "neither feet nor meters"},
    {"co_ops_station.json",
     R"([{"op":"replace","path":"/stations/0/harmonicConstituents/HarmonicConstituents/0/speed","value":30}])",
     "not the speed of M2"},
    {"co_ops_station.json",
     R"([{"op":"replace","path":"/stations/0/harmonicConstituents/HarmonicConstituents/0/name","value":"Q9"}])",
     "none of the constituents"},
    {"co_ops_station.json",
     R"([{"op":"replace","path":"/stations/0/harmonicConstituents/HarmonicConstituents/1/name","value":"M2"},{"op":"replace","path":"/stations/0/harmonicConstituents/HarmonicConstituents/1/speed","value":28.984104}])",
     "twice"},
    {"co_ops_station.json",
     R"([{"op":"replace","path":"/stations/0/harmonicConstituents/HarmonicConstituents/0/amplitude","value":-1}])",
     "constituents/rows/0"},
    {"co_ops_station.json",
     R"([{"op":"replace","path":"/stations/0/harmonicConstituents/HarmonicConstituents/0/amplitude","value":900}])",
     "too large"},
    {"co_ops_station.json", R"([{"op":"replace","path":"/stations/0/lat","value":98}])",
     "latitude"},
    {"co_ops_station_subordinate.json",
     R"([{"op":"replace","path":"/stations/0/tidePredOffsets/heightAdjustedType","value":"?"}])",
     "ratio or an addition"},
    {"co_ops_station_subordinate.json",
     R"([{"op":"replace","path":"/stations/0/tidePredOffsets/timeOffsetHighTide","value":90000}])",
     "high_time"},
    {"nws_points.json", R"([{"op":"replace","path":"/geometry/coordinates","value":[-44,30]}])",
     "another place"},
    {"nws_points.json", R"([{"op":"remove","path":"/geometry"}])", "which place"},
    {"nws_points.json", R"([{"op":"replace","path":"/properties/gridId","value":"../"}])",
     "no grid cell"},
    {"nws_points.json", R"([{"op":"replace","path":"/properties/gridX","value":null}])",
     "no grid cell"},
    {"nws_points.json", R"([{"op":"replace","path":"/properties/gridY","value":-3}])",
     "no grid cell"},
    {"nws_grid.json", R"([{"op":"remove","path":"/properties/updateTime"}])", "updateTime"},
    {"nws_grid.json",
     R"([{"op":"replace","path":"/properties/windSpeed/uom","value":"wmoUnit:furlong"}])",
     "is not known here"},
    {"nws_grid.json", R"([{"op":"remove","path":"/properties/windSpeed/uom"}])",
     "no wind speed with a unit"},
    {"nws_grid.json", R"([{"op":"replace","path":"/properties/windSpeed/values","value":[]}])",
     "no wind speed with a unit"},
    {"nws_grid.json", R"([{"op":"remove","path":"/properties/windSpeed"}])",
     "no layer of wind speed"},
    {"nws_grid.json",
     R"([{"op":"replace","path":"/properties/windSpeed/values/0/value","value":900}])",
     "cannot be right"},
    {"nws_grid.json",
     R"([{"op":"replace","path":"/properties/windSpeed/values/0/value","value":-1}])",
     "cannot be right"},
    {"nws_grid.json",
     R"([{"op":"replace","path":"/properties/windSpeed/values/0/value","value":"brisk"}])",
     "expected a number"},
    {"nws_grid.json",
     R"([{"op":"replace","path":"/properties/windDirection/values/0/value","value":400}])",
     "cannot be right"},
    {"nws_grid.json",
     R"([{"op":"replace","path":"/properties/waveHeight/values/0/value","value":40}])",
     "cannot be right"},
    {"nws_grid.json",
     R"([{"op":"replace","path":"/properties/windSpeed/values/1/validTime","value":"2026-06-14T11:00:00+00:00/PT1H"}])",
     "out of order or overlaps"},
    {"nws_grid.json",
     R"([{"op":"replace","path":"/properties/windSpeed/values/1/validTime","value":"2026-06-14T12:00:00/PT1H"}])",
     "validTime"},
    {"nws_grid.json",
     R"([{"op":"replace","path":"/properties/windSpeed/values/1/validTime","value":"yesterday"}])",
     "no time and duration"},
    {"nws_grid.json",
     R"([{"op":"replace","path":"/geometry/coordinates/0/0","value":[-85,29.9]},{"op":"replace","path":"/geometry/coordinates/0/1","value":[-85,30]},{"op":"replace","path":"/geometry/coordinates/0/2","value":[-84.9,30]}])",
     "nm from the place"},
    {"nws_grid.json", R"([{"op":"replace","path":"/geometry","value":null}])",
     "where the cell lies"},
    {"nws_hourly.json",
     R"([{"op":"replace","path":"/properties/periods/1/windSpeed","value":"brisk"}])", "windSpeed"},
    {"nws_hourly.json",
     R"([{"op":"replace","path":"/properties/periods/1/windDirection","value":"UP"}])",
     "compass words"},
    {"nws_hourly.json",
     R"([{"op":"replace","path":"/properties/periods/1/startTime","value":"2026-06-14T12:00:00+00:00"}])",
     "overlaps"},
    {"nws_alerts.json", R"([{"op":"replace","path":"/features","value":{}}])", "no list of alerts"},
    {"nws_alerts.json", R"([{"op":"remove","path":"/features/0/properties/status"}])",
     "its status"},
    {"nws_alerts.json", R"([{"op":"remove","path":"/features/0/properties/sent"}])",
     "when it was issued"},
    {"nws_alerts.json", R"([{"op":"remove","path":"/features/0/properties/event"}])",
     "what it warns of"},
    {"nws_alerts.json", R"([{"op":"replace","path":"/features/0/properties/ends","value":"soon"}])",
     "/ends"},
    {"open_meteo_forecast.json",
     R"([{"op":"replace","path":"/utc_offset_seconds","value":-14400}])", "not in GMT"},
    {"open_meteo_forecast.json", R"([{"op":"remove","path":"/utc_offset_seconds"}])", "not in GMT"},
    {"open_meteo_forecast.json",
     R"([{"op":"replace","path":"/hourly_units/wind_speed_10m","value":"furlongs"}])",
     "is not known here"},
    {"open_meteo_forecast.json", R"([{"op":"remove","path":"/hourly_units"}])",
     "is not known here"},
    {"open_meteo_forecast.json", R"([{"op":"remove","path":"/hourly/wind_speed_10m/0"}])",
     "a value for each time"},
    {"open_meteo_forecast.json",
     R"([{"op":"replace","path":"/hourly/time/1","value":"2026-06-14T10:00"}])",
     "an hour or more after"},
    {"open_meteo_forecast.json",
     R"([{"op":"replace","path":"/hourly/time/1","value":"2026-06-14T10:00+02:00"}])",
     "/hourly/time/1"},
    {"open_meteo_forecast.json",
     R"([{"op":"replace","path":"/hourly/wind_gusts_10m/1","value":999}])", "cannot be right"},
    {"open_meteo_forecast.json", R"([{"op":"replace","path":"/latitude","value":31}])",
     "far from the place"},
    {"open_meteo_forecast.json", R"([{"op":"replace","path":"/latitude","value":null}])",
     "where the cell lies"},
    {"open_meteo_forecast.json", R"([{"op":"replace","path":"/hourly","value":{}}])", "no hours"},
    {"open_meteo_forecast.json",
     R"([{"op":"add","path":"/error","value":true},{"op":"add","path":"/reason","value":"Daily API request limit exceeded."}])",
     "request limit exceeded"},
    {"open_meteo_marine.json", R"([{"op":"replace","path":"/hourly/wave_height/1","value":-2}])",
     "cannot be right"},
};

TEST(Providers, RefuseEveryDefectInWords) {
  for (const Defect& defect : kDefects) {
    const std::string text = given::patched(reply_text(defect.reply), defect.patch);
    EXPECT_NE(problems_of(defect.reply, text).find(defect.words), std::string::npos)
        << defect.reply << " " << defect.patch << "\nsaid: " << problems_of(defect.reply, text);
  }
}

TEST(Providers, TakeEachReplyAsItStands) {
  for (const Defect& defect : kDefects) {
    EXPECT_EQ(problems_of(defect.reply, reply_text(defect.reply)), "") << defect.reply;
  }
}

TEST(Providers, RefuseWhatIsNoReplyAtAll) {
  for (const Defect& defect : kDefects) {
    EXPECT_EQ(problems_of(defect.reply, ""), "the reply is empty\n");
    EXPECT_EQ(problems_of(defect.reply, "\n <!DOCTYPE html><p>Service unavailable"),
              "the reply is a web page or XML, and no data\n");
    EXPECT_EQ(problems_of(defect.reply, "[]"), "the reply is no JSON object\n");
    EXPECT_NE(problems_of(defect.reply, "{}"), "") << defect.reply;
    const std::string whole = reply_text(defect.reply);
    EXPECT_NE(problems_of(defect.reply, whole.substr(0, whole.size() / 2)), "") << defect.reply;
  }
}

// Waves of 0 from first to last come from a cell that is no sea: not known, and not flat calm.
TEST(Providers, WavesOfNothingAllWeekAreNotKnown) {
  const std::string text = given::patched(
      reply_text("nws_grid.json"),
      R"([{"op": "replace", "path": "/properties/waveHeight/values/0/value", "value": 0}])");
  EXPECT_FALSE(nws_grid("r", text, here())->wave(given::at("2026-06-14T13:00:00Z")));
}

}  // namespace
}  // namespace passage_brief
