// The commands heights, currents, sun and variation as a person runs them.

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "given/csv_table.h"
#include "given/run_program.h"
#include "given/stations.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::at;
using given::run_program;
using nlohmann::json;

/// The rows a command prints as CSV, by time.
std::map<std::string, given::CsvRow> rows_by_time(const given::ProgramRun& run) {
  EXPECT_EQ(run.status, 0) << run.err;
  EXPECT_EQ(run.err, "");
  std::map<std::string, given::CsvRow> rows;
  for (const given::CsvRow& row : given::csv_rows("output", run.out)) {
    rows.emplace(row.text("time"), row);
  }
  return rows;
}

TEST(HeightsCommand, PrintsPublishedHeightsInFeet) {
  const auto ours = rows_by_time(
      run_program({"heights", "--tide", given::tide_file("san_francisco"), "--at",
                   "San Francisco (Golden Gate)", "--from", "2018-06-01T00:00:00Z", "--to",
                   "2018-06-30T23:54:00Z", "--every", "6min", "--units", "ft", "--as", "csv"}));
  EXPECT_EQ(ours.size(), 7200u);
  for (const given::CsvRow& row : given::csv_table("tide_san_francisco_2018_06.csv")) {
    EXPECT_NEAR(ours.at(row.text("time")).number("height_ft"), row.number("height_ft"), 0.0033)
        << row.place();
  }
}

TEST(HeightsCommand, PrintsPublishedHeightsAboveAnotherPlane) {
  const auto ours = rows_by_time(
      run_program({"heights", "--tide", given::tide_file("eastport"), "--at", "Eastport", "--from",
                   "2020-04-08T00:00:00Z", "--to", "2020-04-12T23:54:00Z", "--every", "6 min",
                   "--above", "MHHW", "--as", "csv"}));
  for (const given::CsvRow& row : given::csv_table("tide_eastport_2020_04.csv")) {
    ASSERT_TRUE(ours.contains(row.text("time"))) << row.place();
    EXPECT_NEAR(ours.at(row.text("time")).number("height_m"), row.number("height_m"), 0.001)
        << row.place();
  }
}

TEST(HeightsCommand, PrintsHighAndLowWaters) {
  const auto run = run_program({"heights", "--tide", given::tide_file("edgartown"), "--at",
                                "Edgartown", "--from", "2026-10-09T00:00", "--to",
                                "2026-10-10T00:00", "--high-low", "--units", "ft", "--as", "json"});
  ASSERT_EQ(run.status, 0) << run.err;
  const json heights = json::parse(run.out)["heights"];
  const auto published = given::csv_table("high_low.csv");  // its first four rows
  ASSERT_EQ(heights.size(), 4u);
  for (std::size_t i = 0; i < heights.size(); ++i) {
    EXPECT_EQ(heights[i]["what"], published[i].text("what"));
    EXPECT_NEAR(heights[i]["height_ft"].get<double>(), published[i].number("height_ft"), 0.001);
    EXPECT_LE(std::abs(in_seconds(at(heights[i]["time"]) - at(published[i].text("time")))), 31);
  }
}

TEST(HeightsCommand, ASubordinateStationComesWithItsReference) {
  const auto run = run_program({"heights", "--tide", given::tide_file("swain_channel"),
                                given::tide_file("atlantic_city"), "--at",
                                "Swain Channel, Taylor Sound", "--from", "2020-01-01T05:00:00Z",
                                "--to", "2020-01-02T12:30:00Z", "--high-low", "--as", "csv"});
  ASSERT_EQ(run.status, 0) << run.err;
  const auto rows = given::csv_rows("output", run.out);
  ASSERT_EQ(rows.size(), 6u);
  EXPECT_EQ(rows.front().text("what"), "high");
  const auto alone = run_program({"heights", "--tide", given::tide_file("swain_channel"), "--at",
                                  "Swain Channel, Taylor Sound", "--from", "2020-01-01T05:00:00Z",
                                  "--to", "2020-01-02T12:30:00Z", "--high-low"});
  EXPECT_EQ(alone.status, 2);
  EXPECT_NE(alone.err.find("/reference: no tide station file called \"Atlantic City (Ocean)\""),
            std::string::npos)
      << alone.err;
  const auto no_plane = run_program(
      {"heights", "--tide", given::tide_file("swain_channel"), given::tide_file("atlantic_city"),
       "--at", "Swain Channel, Taylor Sound", "--from", "2020-01-01T05:00:00Z", "--to",
       "2020-01-02T12:30:00Z", "--high-low", "--above", "MHW"});
  EXPECT_EQ(no_plane.status, 2);
  EXPECT_NE(no_plane.err.find("--above: "), std::string::npos) << no_plane.err;
  EXPECT_NE(no_plane.err.find("gives no MHW, being subordinate to Atlantic City (Ocean)"),
            std::string::npos)
      << no_plane.err;
}

TEST(HeightsCommand, WallTimeIsTheStations) {
  // Edgartown keeps New York time: noon on 2026-10-09 is 16:00 UTC (EDT, 4 h behind).
  const auto wall = run_program({"heights", "--tide", given::tide_file("edgartown"), "--at",
                                 "Edgartown", "--from", "2026-10-09T12:00", "--to",
                                 "2026-10-09T12:06", "--every", "6min", "--as", "csv"});
  EXPECT_EQ(wall.out.rfind("time,height_m\n2026-10-09T16:00:00Z,", 0), 0u) << wall.out;
  const auto text =
      run_program({"heights", "--tide", given::tide_file("edgartown"), "--at", "Edgartown",
                   "--from", "2026-10-09T12:00", "--to", "2026-10-09T12:06", "--every", "6min"});
  EXPECT_NE(text.out.find("2026-10-09T12:00:00-04:00"), std::string::npos) << text.out;
  // 01:30 comes twice on 2026-11-01.
  const auto twice =
      run_program({"heights", "--tide", given::tide_file("edgartown"), "--at", "Edgartown",
                   "--from", "2026-11-01T01:30", "--to", "2026-11-01T03:00", "--every", "6min"});
  EXPECT_EQ(twice.status, 2);
  EXPECT_NE(twice.err.find("--from: 2026-11-01T01:30:00 comes twice"), std::string::npos)
      << twice.err;
}

TEST(HeightsCommand, EveryProblemIsSaidAndExitIsTwo) {
  const auto run = run_program({"heights", "--tide", given::tide_file("edgartown"), "nowhere.json",
                                "--from", "yesterday", "--to", "2026-10-10T00:00", "--every", "6",
                                "--units", "yards", "--as", "xml"});
  EXPECT_EQ(run.status, 2);
  EXPECT_EQ(run.out, "");
  for (const char* place :
       {"nowhere.json: ", "--at: must be given", "--from: \"yesterday\"",
        "--every: ", "--units: found \"yards\"; expected m or ft", "--as: found \"xml\""}) {
    EXPECT_NE(run.err.find(place), std::string::npos) << place << "\nin\n" << run.err;
  }
}

TEST(HeightsCommand, OddArgumentsAreRefused) {
  const std::vector<std::string> good{
      "heights",          "--tide", given::tide_file("edgartown"), "--at",
      "Edgartown",        "--from", "2026-10-09T00:00Z",           "--to",
      "2026-10-10T00:00Z"};
  const auto refused = [&](std::vector<std::string> more, const char* words) {
    std::vector<std::string> all = good;
    all.insert(all.end(), more.begin(), more.end());
    const auto run = run_program(all);
    EXPECT_EQ(run.status, 2) << words;
    EXPECT_NE(run.err.find(words), std::string::npos) << words << "\nin\n" << run.err;
  };
  refused({}, "--every: must be given");
  refused({"--every", "6min", "--high-low"}, "--every: means nothing where the rows are events");
  refused({"--every", "0.5 s"}, "--every: is less than 1 s");
  refused({"--every", "-6 min"}, "--every: is less than 1 s");
  refused({"--every", "6min", "--above", "MHHHW"},
          "--above: tide station Edgartown: it gives no MHHHW");
  refused({"--every", "6min", "--nonsense"}, "--nonsense");
  std::vector<std::string> backward = good;
  backward[6] = "2026-10-11T00:00Z";
  backward.insert(backward.end(), {"--every", "6min"});
  EXPECT_EQ(run_program(backward).status, 2);
  std::vector<std::string> late = good;
  late[8] = "2038-10-11T00:00Z";
  late.insert(late.end(), {"--every", "6h"});
  EXPECT_NE(run_program(late).err.find("--to: 2038-10-11T00:00Z is not within the years"),
            std::string::npos);
  std::vector<std::string> many = good;
  many[8] = "2027-10-10T00:00Z";
  many.insert(many.end(), {"--every", "1s"});
  EXPECT_NE(run_program(many).err.find("at most 100000 are printed"), std::string::npos);
  std::vector<std::string> other = good;
  other[4] = "Edgarton";
  other.insert(other.end(), {"--every", "6min"});
  EXPECT_NE(run_program(other).err.find("did you mean \"Edgartown\"?"), std::string::npos);
}

TEST(HeightsCommand, AHeightThatIsNotKnownIsNullAndSaid) {
  // A station file without MSL: its constituents stand above no plane.
  const std::string file = testing::TempDir() + "no_msl.tide.json";
  std::ofstream(file) << R"({"kind": "tide station", "name": "Creek", "zone": "UTC",
    "chart_datum": "CD", "datums": {"unit": "m", "CD": 0},
    "constituents": {"unit": "m", "phase": "GMT", "rows": [["S2", 1, 0]]}})";
  const auto run =
      run_program({"heights", "--tide", file, "--at", "Creek", "--from", "2026-06-14T00:00", "--to",
                   "2026-06-14T00:00", "--every", "1h", "--as", "json"});
  EXPECT_EQ(run.status, 0);
  const json row = json::parse(run.out)["heights"][0];
  EXPECT_TRUE(row["height_m"].is_null());
  EXPECT_EQ(row["not_known"]["height_m"], "tide station Creek: its datums give no MSL");
  EXPECT_EQ(run.err, "not known: tide station Creek: its datums give no MSL\n");
}

TEST(CurrentsCommand, PrintsPublishedSlacksAndFlows) {
  const auto run = run_program({"currents", "--current", given::current_file("hell_gate"), "--at",
                                "Hell Gate", "--from", "2023-01-01T07:00:00Z", "--to",
                                "2023-01-08T00:00:00Z", "--slack-max", "--as", "csv"});
  ASSERT_EQ(run.status, 0) << run.err;
  const auto rows = given::csv_rows("output", run.out);
  const auto published = given::csv_table("current_hell_gate_2023.csv");
  ASSERT_GE(rows.size(), 50u);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    EXPECT_EQ(rows[i].text("what"), published[i].text("what")) << published[i].place();
    EXPECT_NEAR(rows[i].number("speed_kn"), published[i].number("speed_kn"), 0.054)
        << published[i].place();
  }
}

TEST(CurrentsCommand, PrintsATableOfTimes) {
  const auto rows =
      rows_by_time(run_program({"currents", "--current", given::current_file("hell_gate"), "--at",
                                "Hell Gate", "--from", "2023-01-01T14:00:00Z", "--to",
                                "2023-01-01T15:00:00Z", "--every", "30 min", "--as", "csv"}));
  ASSERT_EQ(rows.size(), 3u);
  // Greatest ebb published: 14:00, -4.3 kn.
  EXPECT_NEAR(rows.at("2023-01-01T14:00:00Z").number("speed_kn"), -4.3, 0.054);
  EXPECT_EQ(run_program({"currents", "--at", "Hell Gate"}).status, 2);
}

TEST(SunCommand, PrintsTheLocalDay) {
  // sun.csv, Boston harbor, 2025-06-21; New York time is 4 h behind UTC.
  const auto run = run_program({"sun", "--at", "42.36,-71.05", "--on", "2025-06-21", "--zone",
                                "America/New_York", "--as", "json"});
  ASSERT_EQ(run.status, 0) << run.err;
  const json sun = json::parse(run.out);
  const given::CsvRow boston = given::csv_table("sun.csv").front();
  for (const char* key :
       {"sunrise", "sunset", "civil_dawn", "civil_dusk", "nautical_dawn", "nautical_dusk"}) {
    EXPECT_LE(std::abs(in_seconds(at(sun[key]) - at(boston.text(key)))), 60) << key;
    EXPECT_TRUE(sun[key].get<std::string>().ends_with("-04:00")) << key;
  }
  EXPECT_EQ(sun["moon_phase"], "waning crescent");  // last quarter 18 June, new 25 June 2025
  EXPECT_GT(sun["moon_illuminated"], 0.1);
  EXPECT_LT(sun["moon_illuminated"], 0.35);
}

TEST(SunCommand, AnEventThatDoesNotOccurIsNull) {
  const auto run =
      run_program({"sun", "--at", "78.223,15.65", "--on", "2025-06-15", "--as", "json"});
  const json sun = json::parse(run.out);
  EXPECT_TRUE(sun["sunrise"].is_null());
  EXPECT_TRUE(sun["nautical_dusk"].is_null());
  const auto text = run_program({"sun", "--at", "78.223,15.65", "--on", "2025-06-15"});
  EXPECT_NE(text.out.find("sunset         does not occur"), std::string::npos) << text.out;
}

TEST(SunCommand, BadArgumentsExitTwo) {
  const auto run =
      run_program({"sun", "--at", "95,0", "--on", "2025-02-30", "--zone", "Mars/Base"});
  EXPECT_EQ(run.status, 2);
  for (const char* place : {"--at: ", "--on: ", "--zone: "}) {
    EXPECT_NE(run.err.find(place), std::string::npos) << place << "\nin\n" << run.err;
  }
  EXPECT_EQ(run_program({"sun"}).status, 2);
}

TEST(VariationCommand, PrintsTheTable) {
  for (const given::CsvRow& row : given::csv_table("magnetic_field.csv")) {
    // Whole years and their middle as dates; sea level only.
    const double part = row.number("decimal_year") - std::floor(row.number("decimal_year"));
    if (row.number("height_km") != 0) continue;
    const std::string date =
        row.text("decimal_year").substr(0, 4) + (part > 0 ? "-07-02" : "-01-01");
    const auto run =
        run_program({"variation", "--at", row.text("latitude") + "," + row.text("longitude"),
                     "--on", date, "--as", "json"});
    ASSERT_EQ(run.status, 0) << run.err;
    const json variation = json::parse(run.out);
    EXPECT_NEAR(variation["variation_deg"].get<double>(), row.number("D_deg"), 0.01) << row.place();
    EXPECT_EQ(variation["model"], "WMM2025");
    EXPECT_EQ(variation["valid_from"], "2025-01-01");
    EXPECT_EQ(variation["valid_to"], "2030-01-01");
  }
}

TEST(VariationCommand, OutsideTheModelItIsNullAndSaid) {
  const auto run =
      run_program({"variation", "--at", "42.36,-71.05", "--on", "2031-06-14", "--as", "json"});
  EXPECT_EQ(run.status, 0);
  const json variation = json::parse(run.out);
  EXPECT_TRUE(variation["variation_deg"].is_null());
  EXPECT_NE(variation["not_known"]["variation_deg"].get<std::string>().find("WMM2025 is valid"),
            std::string::npos);
  EXPECT_EQ(run_program({"variation", "--at", "north", "--on", "soon"}).status, 2);
}

}  // namespace
}  // namespace passage_brief
