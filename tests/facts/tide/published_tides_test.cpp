// Predictions computed and published by NOAA CO-OPS, against ours from the published constants.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iostream>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "facts/tide/tide_station.h"
#include "given/csv_table.h"
#include "given/stations.h"
#include "units/height.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// The goal for every series: NOAA's rounding and no more.
constexpr double kMostMm = 1.0;
constexpr double kMostRmsMm = 0.4;

struct Difference {
  double most_mm = 0;
  double sum_of_squares = 0;
  int n = 0;
  void add(double mm) {
    most_mm = std::max(most_mm, std::abs(mm));
    sum_of_squares += mm * mm;
    ++n;
  }
  void expect_goal(const std::string& what) const {
    const double rms = std::sqrt(sum_of_squares / n);
    std::cout << fmt::format("{}: {} heights, max {:.2f} mm, RMS {:.2f} mm\n", what, n, most_mm,
                             rms);
    EXPECT_LE(most_mm, kMostMm) << what;
    EXPECT_LE(rms, kMostRmsMm) << what;
  }
};

double metres_above(const TideStation& station, const std::string& plane, TideHeight height) {
  return in_metres(height - station.datum(plane).value());
}

class PublishedTable : public testing::TestWithParam<std::pair<const char*, const char*>> {};

TEST_P(PublishedTable, HeightsAgree) {
  const auto& [table, name] = GetParam();
  const TideStation station = given::published_tide(name);
  Difference difference;
  for (const given::CsvRow& row : given::csv_table(std::string(table) + ".csv")) {
    const bool feet_given = std::string(table).find("eastport") == std::string::npos &&
                            std::string(table).find("newport") == std::string::npos;
    const Length published =
        feet_given ? feet(row.number("height_ft")) : metres(row.number("height_m"));
    const TideHeight ours = station.height(given::at(row.text("time"))).value();
    const double mm =
        1000 * (metres_above(station, row.text("above"), ours) - in_metres(published));
    EXPECT_LE(std::abs(mm), kMostMm) << row.place();
    difference.add(mm);
  }
  difference.expect_goal(table);
}

INSTANTIATE_TEST_SUITE_P(Noaa, PublishedTable,
                         testing::Values(std::pair("tide_san_francisco_2017", "san_francisco"),
                                         std::pair("tide_san_francisco_2018_06", "san_francisco"),
                                         std::pair("tide_san_francisco_new_year", "san_francisco"),
                                         std::pair("tide_eastport_2020_04", "eastport"),
                                         std::pair("tide_newport_2021_01", "newport"),
                                         std::pair("tide_dauphin_island_2020",
                                                   "dauphin_island_2020")),
                         [](const auto& row) { return std::string(row.param.first); });

class WholeSeries : public testing::TestWithParam<std::pair<const char*, const char*>> {};

TEST_P(WholeSeries, HeightsAgreeByTheTimelineToo) {
  const auto& [series_name, name] = GetParam();
  const auto file =
      given::reference_file("tides/predictions-" + std::string(series_name) + ".json");
  if (!file) return;
  const auto series = nlohmann::json::parse(given::contents_of(*file));
  const TideStation station = given::published_tide(name);
  const auto& values = series["values"];
  const auto heights = station.heights(given::at(series["start"]),
                                       std::chrono::seconds(series["step_seconds"]), values.size());
  ASSERT_TRUE(heights);
  Difference difference;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i].is_null()) continue;
    const double published = values[i].get<double>() * series["unit_to_metre"].get<double>();
    difference.add(1000 * (metres_above(station, series["datum"], (*heights)[i]) - published));
  }
  EXPECT_EQ(difference.n + std::ranges::count(values, nlohmann::json()), series["count"]);
  difference.expect_goal(series_name);
}

INSTANTIATE_TEST_SUITE_P(Noaa, WholeSeries,
                         testing::Values(std::pair("9414290-2017-hourly", "san_francisco"),
                                         std::pair("9414290-2018-06-6min", "san_francisco"),
                                         std::pair("9414290-newyear-2017-2018-6min",
                                                   "san_francisco"),
                                         std::pair("8410140-2020-04-6min", "eastport"),
                                         std::pair("8452660-2021-01-6min", "newport"),
                                         std::pair("8735180-2020-hourly", "dauphin_island_2020")),
                         [](const auto& row) {
                           std::string letters = row.param.first;
                           std::ranges::replace(letters, '-', '_');
                           return letters;
                         });

TEST(PublishedHighLow, EventsAgree) {
  std::map<std::string, std::vector<given::CsvRow>> by_station;
  for (const given::CsvRow& row : given::csv_table("high_low.csv")) {
    by_station[row.text("station")].push_back(row);
  }
  for (const auto& [name, rows] : by_station) {
    const TideStation station = given::published_tide(name);
    const auto events =
        station.high_low({given::at(rows.front().text("time")) - std::chrono::hours(1),
                          given::at(rows.back().text("time")) + std::chrono::hours(1)});
    ASSERT_TRUE(events) << name;
    ASSERT_EQ(events->size(), rows.size()) << name;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const TideEvent& ours = (*events)[i];
      EXPECT_EQ(ours.high, rows[i].text("what") == "high") << rows[i].place();
      const double minutes = 60 * in_hours(ours.at - given::at(rows[i].text("time")));
      EXPECT_LE(std::abs(minutes), rows[i].number("tolerance_min")) << rows[i].place();
      EXPECT_NEAR(in_metres(ours.height.above_datum()),
                  in_metres(feet(rows[i].number("height_ft"))), rows[i].number("tolerance_m"))
          << rows[i].place();
    }
  }
}

TEST(PublishedHighLow, EdgartownAgreesToThePrintedMinute) {
  const TideStation station = given::published_tide("edgartown");
  const auto rows = given::csv_table("high_low.csv");
  const auto events =
      station.high_low({given::at("2026-10-09T04:00:00Z"), given::at("2026-10-10T04:00:00Z")});
  ASSERT_TRUE(events);
  ASSERT_EQ(events->size(), 4u);
  for (std::size_t i = 0; i < events->size(); ++i) {
    EXPECT_EQ(std::chrono::round<std::chrono::minutes>((*events)[i].at),
              given::at(rows[i].text("time")))
        << rows[i].place();
  }
}

TEST(PublishedHighLow, SwainChannelIsTheReferenceMovedByHand) {
  // Atlantic City with today's constants, worked by an independent script: H 04:27 0.926 m, L 10:21
  // 0.199 m, H 16:34 1.098 m, L 23:06 0.086 m on 2020-01-01. H +55 min x 1.09, L +40 min x 1.06.
  const TideStation station = given::published_tide("swain_channel");
  const auto events =
      station.high_low({given::at("2020-01-01T05:00:00Z"), given::at("2020-01-02T00:00:00Z")});
  ASSERT_TRUE(events);
  const std::vector<std::pair<const char*, double>> by_hand{{"2020-01-01T05:22:00Z", 1.009},
                                                            {"2020-01-01T11:01:00Z", 0.211},
                                                            {"2020-01-01T17:29:00Z", 1.197},
                                                            {"2020-01-01T23:46:00Z", 0.091}};
  ASSERT_EQ(events->size(), by_hand.size());
  for (std::size_t i = 0; i < by_hand.size(); ++i) {
    EXPECT_EQ(std::chrono::round<std::chrono::minutes>((*events)[i].at),
              given::at(by_hand[i].first));
    EXPECT_NEAR(in_metres((*events)[i].height.above_datum()), by_hand[i].second, 0.0011);
  }
}

}  // namespace
}  // namespace passage_brief
