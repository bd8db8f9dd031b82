// Replies recorded from the services themselves (reference/formats), field by field. Each figure
// below was read off the recorded file by eye; they are not committed, so without REFERENCE_DIR
// these tests are left out.

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "facts/tide/tide_station.h"
#include "fetch/asked.h"
#include "fetch/co_ops_levels_provider.h"
#include "fetch/grib2_provider.h"
#include "fetch/nws_alerts_provider.h"
#include "fetch/nws_points_provider.h"
#include "fetch/read_reply.h"
#include "given/csv_table.h"
#include "given/files.h"
#include "given/replies.h"
#include "given/run_program.h"
#include "given/stations.h"
#include "units/position.h"

namespace passage_brief {
namespace {

using given::asked;

class RecordedReplies : public testing::Test {
 protected:
  void SetUp() override {
    if (!given::reference_file("formats/README.md")) GTEST_SKIP() << "no recorded replies here";
  }
  static std::string path(const std::string& name) {
    return given::reference_file("formats/" + name)->string();
  }
  static std::string text(const std::string& name) { return given::contents_of(path(name)); }
};

TEST_F(RecordedReplies, CurrentsOfMaxAndSlack) {
  const auto station =
      read_current_reply("currents", text("coops/currents_predictions_max_slack_metric_gmt.json"),
                         asked("name=Inlet&time_zone=gmt"));
  ASSERT_TRUE(station) << given::listed(station.error());
  EXPECT_EQ(station->name(), "Inlet");
  EXPECT_EQ(station->flood_toward()->bearing.in_degrees(), 260);
  EXPECT_EQ(station->ebb_toward()->bearing.in_degrees(), 90);
  // "2026-09-26 01:02", Velocity_Major 119.9 with units "meters, cm/s".
  EXPECT_NEAR(in_metres_per_second(*station->along_flood(given::at("2026-09-26T01:02:00Z"))), 1.199,
              1e-9);
  EXPECT_NEAR(in_metres_per_second(*station->along_flood(given::at("2026-09-26T07:02:00Z"))),
              -1.397, 1e-9);
  // A listed slack is slack, whatever 0.4 cm/s its row says.
  EXPECT_NEAR(in_knots(*station->along_flood(given::at("2026-09-26T03:33:00Z"))), 0, 1e-9);
  const auto events =
      station->slack_max({given::at("2026-09-26T01:02:00Z"), given::at("2026-09-26T22:14:00Z")});
  ASSERT_TRUE(events);
  EXPECT_EQ(events->size(), 8U);
  EXPECT_FALSE(station->along_flood(given::at("2026-09-26T00:00:00Z")));
}

TEST_F(RecordedReplies, StationMetadataInFeet) {
  const auto file = read_tide_reply("station", text("coops/mdapi_station_9447130_expanded.json"),
                                    asked("station=9447130"));
  ASSERT_TRUE(file) << given::listed(file.error());
  const TideStation station(file->parts);
  EXPECT_EQ(station.name(), "Seattle");
  EXPECT_EQ(file->number, "9447130");
  EXPECT_EQ(station.zone().name(), "America/Los_Angeles");
  EXPECT_NEAR(station.position()->latitude.in_degrees(), 47.60264, 1e-9);
  EXPECT_NEAR(station.position()->longitude.in_degrees(), -122.3393, 1e-9);
  EXPECT_EQ(*station.chart_datum(), "MLLW");
  // Feet above STND: MHW 18.43, MSL 14.58, HAT 21.174; MLLW 7.94.
  EXPECT_NEAR(in_feet(station.datum("MHW")->above_datum()), 18.43 - 7.94, 1e-9);
  EXPECT_NEAR(in_feet(station.datum("MSL")->above_datum()), 14.58 - 7.94, 1e-9);
  EXPECT_NEAR(in_feet(station.datum("HAT")->above_datum()), 21.174 - 7.94, 1e-9);
  // Ranges and intervals that stand among the datums are no planes.
  EXPECT_FALSE(station.datum("GT"));
  EXPECT_FALSE(station.datum("HWI"));
  EXPECT_FALSE(station.uncertainty());
  ASSERT_TRUE(station.height(given::at("2026-06-14T12:00:00Z")));
}

TEST_F(RecordedReplies, StationMetadataWithoutConstants) {
  const auto file =
      read_tide_reply("station", text("coops/mdapi_station_8557863_subordinate.json"), Asked{});
  ASSERT_TRUE(file) << given::listed(file.error());
  EXPECT_EQ(file->parts.name, "REHOBOTH BEACH");
  EXPECT_EQ(file->parts.zone.name(), "America/New_York");
  EXPECT_FALSE(TideStation(file->parts).height(given::at("2026-06-14T12:00:00Z")));
  EXPECT_FALSE(file->parts.chart_datum);
}

TEST_F(RecordedReplies, ObservedLevels) {
  const std::string body = text("coops/water_level_9447130_20150101.json");
  const auto observed =
      co_ops_levels("levels", body, asked("station=9447130&datum=MLLW&units=metric&time_zone=gmt"));
  ASSERT_TRUE(observed) << given::listed(observed.error());
  EXPECT_EQ(observed->name, "Seattle");
  EXPECT_EQ(observed->levels.size(), 240U);
  EXPECT_EQ(observed->levels.front().at, given::at("2015-01-01T00:00:00Z"));
  EXPECT_NEAR(in_metres(observed->levels.front().height.above_datum()), 1.798, 1e-9);
  EXPECT_EQ(observed->levels.back().at, given::at("2015-01-01T23:54:00Z"));
  EXPECT_NEAR(in_metres(observed->levels.back().height.above_datum()), 2.504, 1e-9);
  // Datum, unit and zone are not in the reply: nothing is read without, nor for another station.
  const auto untold = read_tide_reply("levels", body, Asked{});
  ASSERT_TRUE(untold);
  EXPECT_FALSE(TideStation(untold->parts).height(given::at("2015-01-01T00:00:00Z")));
  EXPECT_FALSE(co_ops_levels("levels", body,
                             asked("station=9447131&datum=MLLW&units=metric&time_zone=gmt")));
}

TEST_F(RecordedReplies, ErrorsAreSaidInTheServicesWords) {
  const auto words = [](const std::string& name) {
    return given::problems_of_reading(read_tide_reply("r", text(name), Asked{}));
  };
  EXPECT_EQ(words("coops/error_invalid_station_400.json"),
            "the service answered: \"The station is not a valid station or there is system "
            "error.\"\n");
  EXPECT_NE(words("coops/error_no_predictions_200.json").find("No Predictions data was found"),
            std::string::npos);
  EXPECT_NE(words("coops/error_product_not_offered_200.json").find("may not be offered"),
            std::string::npos);
  EXPECT_NE(words("nws/problem_ForecastGridExpired_503.json").find("Forecast Grid Expired"),
            std::string::npos);
  EXPECT_NE(words("nws/problem_MarineForecastNotSupported_404.json").find("not yet supported"),
            std::string::npos);
}

TEST_F(RecordedReplies, RawGridWithMergedHours) {
  const auto winds = read_wind_reply("grid", text("nws/gridpoints_TAE_58_65.json"), Asked{});
  ASSERT_TRUE(winds) << given::listed(winds.error());
  EXPECT_EQ(winds->source().from, "US National Weather Service, grid TAE 58,65");
  EXPECT_EQ(winds->source().issued, given::at("2022-02-04T03:15:41Z"));
  // Corners 84.9924374, 84.9943745, 84.9681768 and 84.9662324 W: their mean by hand.
  EXPECT_NEAR(winds->position()->latitude.in_degrees(), 30.019382, 1e-6);
  EXPECT_NEAR(winds->position()->longitude.in_degrees(), -84.9803053, 1e-6);
  const auto hour = [&](const std::string& at) {
    return *std::ranges::find(winds->hours(), given::at(at), &WindHour::at);
  };
  // windSpeed 20.372 km/h for 21:00/PT2H, 16.668 at 23:00; gust 29.632; direction 170 for
  // 22:00/PT6H.
  EXPECT_NEAR(in_knots(*hour("2022-02-03T21:00:00Z").speed), 11, 1e-6);
  EXPECT_NEAR(in_knots(*hour("2022-02-03T22:00:00Z").speed), 11, 1e-6);
  EXPECT_NEAR(in_knots(*hour("2022-02-03T23:00:00Z").speed), 9, 1e-6);
  EXPECT_NEAR(in_knots(*hour("2022-02-03T22:00:00Z").gust), 16, 1e-6);
  EXPECT_EQ(hour("2022-02-03T21:00:00Z").from->bearing.in_degrees(), 160);
  EXPECT_EQ(hour("2022-02-04T03:00:00Z").from->bearing.in_degrees(), 170);
  EXPECT_NEAR(in_metres(*hour("2022-02-03T22:00:00Z").visibility), 15932.5056, 1e-6);
  // Waves of 0 for six days: no marine cell. No unit, no pressure.
  EXPECT_FALSE(hour("2022-02-03T22:00:00Z").wave);
  EXPECT_FALSE(hour("2022-02-03T22:00:00Z").pressure);
}

TEST_F(RecordedReplies, RawGridWhoseTimesWereRounded) {
  const auto winds = read_wind_reply("grid", text("nws/gridpoints_MTR_coastal_retimed.json"), {});
  ASSERT_TRUE(winds) << given::listed(winds.error());
  EXPECT_NEAR(in_knots(*winds->hours().front().speed), 8, 1e-6);  // 14.816 km/h
  EXPECT_EQ(winds->hours().front().from->bearing.in_degrees(), 260);
  EXPECT_FALSE(winds->hours().front().wave);
  EXPECT_FALSE(winds->hours().front().visibility);
}

TEST_F(RecordedReplies, HourlyForecastInWords) {
  const auto winds = read_wind_reply("hourly", text("nws/forecast_hourly_BMX_32_69.json"), {});
  ASSERT_TRUE(winds) << given::listed(winds.error());
  // First period: "10 mph" from NW at 2024-02-23T18:00.
  EXPECT_EQ(winds->hours().front().at, given::at("2024-02-23T18:00:00Z"));
  EXPECT_NEAR(in_knots(*winds->hours().front().speed), 8.6898, 1e-3);
  EXPECT_EQ(winds->hours().front().from->bearing.in_degrees(), 315);
  EXPECT_FALSE(winds->hours().front().gust);
}

TEST_F(RecordedReplies, PointsGiveACell) {
  const std::string body = text("nws/points_33.211_-87.566.json");
  const auto point = nws_point("points", body, position_at(33.211, -87.566));
  ASSERT_TRUE(point) << given::listed(point.error());
  EXPECT_EQ(nws_grid_path(*point), "/gridpoints/BMX/32,69");
  EXPECT_FALSE(nws_point("points", body, position_at(33.3, -87.566)));
}

TEST_F(RecordedReplies, AlertsOfOneZone) {
  const auto alerts = nws_alerts("alerts", text("nws/alerts_active_marine.json"), "PZZ545");
  ASSERT_TRUE(alerts) << given::listed(alerts.error());
  ASSERT_EQ(alerts->size(), 1U);
  const Alert& gale = alerts->front();
  EXPECT_EQ(gale.event, "Gale Warning");
  EXPECT_EQ(gale.headline,
            "Gale Warning issued May 14 at 8:46AM PDT until May 17 at 9:00PM PDT by NWS San "
            "Francisco CA");
  EXPECT_EQ(gale.issuer, "NWS San Francisco CA");
  EXPECT_EQ(gale.severity, Severity::moderate);
  EXPECT_EQ(gale.issued, given::at("2026-05-14T16:10:37Z"));
  EXPECT_EQ(gale.begins, given::at("2026-05-15T04:24:36Z"));
  EXPECT_EQ(gale.ends, given::at("2026-05-18T04:24:36Z"));
  EXPECT_TRUE(gale.instruction.starts_with("Mariners should alter plans"));
  EXPECT_EQ(nws_alerts("alerts", text("nws/alerts_active_marine.json"), "")->size(), 4U);
  EXPECT_TRUE(nws_alerts("alerts", text("nws/alerts_active_marine.json"), "ANZ230")->empty());
}

TEST_F(RecordedReplies, GribWindAtANode) {
  const std::string bytes = text("grib2/gfs_2p5deg_f120_10u_10v_gust_prmsl.grib2");
  EXPECT_TRUE(is_grib(bytes));
  const auto winds = grib2_winds("gfs", bytes, asked("at=42.5,-70"));
  if (!winds && given::listed(winds.error()).find("without ecCodes") != std::string::npos) {
    GTEST_SKIP() << "built without ecCodes";
  }
  ASSERT_TRUE(winds) << given::listed(winds.error());
  ASSERT_EQ(winds->hours().size(), 1U);  // one forecast time, 120 h after its issue
  EXPECT_EQ(winds->hours().front().at - *winds->source().issued, std::chrono::hours(120));
  EXPECT_TRUE(winds->hours().front().speed && winds->hours().front().gust);
  EXPECT_GE(*winds->hours().front().gust, *winds->hours().front().speed);
  EXPECT_FALSE(grib2_winds("gfs", bytes, Asked{}));
  EXPECT_FALSE(grib2_winds("gfs", bytes.substr(0, bytes.size() - 5), asked("at=42.5,-70")));
}

TEST_F(RecordedReplies, AreInputsOfTheCommands) {
  const auto heights = given::run_program(
      {"heights", "--tide", path("coops/mdapi_station_9447130_expanded.json"), "--at", "Seattle",
       "--from", "2026-06-14T00:00Z", "--to", "2026-06-14T01:00Z", "--every", "1h", "--as", "csv"});
  EXPECT_EQ(heights.status, 0) << heights.err;
  const auto currents = given::run_program(
      {"currents", "--current",
       path("coops/currents_predictions_max_slack_metric_gmt.json") + "?name=Inlet&time_zone=gmt",
       "--at", "Inlet", "--from", "2026-09-26T01:02Z", "--to", "2026-09-26T01:02Z", "--every", "1h",
       "--as", "csv"});
  EXPECT_EQ(currents.out, "time,speed_kn\n2026-09-26T01:02:00Z,2.3307\n") << currents.err;
  for (const char* good :
       {"coops/water_level_9447130_20150101.json", "coops/mdapi_station_8557863_subordinate.json",
        "nws/gridpoints_TAE_58_65.json", "nws/alerts_active_marine.json"}) {
    EXPECT_EQ(given::run_program({"check", path(good)}).status, 0) << good;
  }
  for (const char* bad :
       {"coops/error_no_predictions_200.json", "nws/problem_ForecastGridExpired_503.json"}) {
    EXPECT_EQ(given::run_program({"check", path(bad)}).status, 2) << bad;
  }
}

}  // namespace
}  // namespace passage_brief
