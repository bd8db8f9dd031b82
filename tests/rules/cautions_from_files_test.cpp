// Every caution of the shipped files, through the command line: files on which it fires, on which
// it just does not, and on which it cannot tell. The table is cautions_from_files.json.
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "given/csv_table.h"
#include "given/passage_case.h"

namespace passage_brief {
namespace {

using given::at_hour;
using given::kGround;
using given::PassageRun;
using nlohmann::json;

constexpr int kHoursOfDay = 24;

json project_file(const std::string& name) {
  return json::parse(given::contents_of(std::filesystem::path(PROJECT_DIR) / name));
}

const json& table() {
  static const json whole = project_file("tests/rules/cautions_from_files.json");
  return whole;
}

std::string label(const json& row) {
  return row.at("edition").get<std::string>() + ": " + row.at("id").get<std::string>();
}

std::vector<std::pair<double, double>> points_of(const json& drawn) {
  return drawn.get<std::vector<std::pair<double, double>>>();
}

json waterway(const json& features) {
  json whole = {{"type", "FeatureCollection"},
                {"kind", "waterway"},
                {"name", "Straight Channel (invented)"},
                {"zone", "Etc/UTC"},
                {"chart_datum", "MLLW"},
                {"clearance_datum", "MHW"},
                {"notices_read", "2026-06-13"},
                {"source", "Invented for tests and drawn in the open ocean"},
                {"features", json::array()}};
  for (json properties : features) {
    json geometry;
    if (properties.contains("point")) {
      const json& point = properties.at("point");
      geometry = kGround.point(point.at(0), point.at(1));
    } else {
      geometry = kGround.line(points_of(properties.at("line")));
    }
    properties.erase("point");
    properties.erase("line");
    whole["features"].push_back(
        {{"type", "Feature"}, {"properties", properties}, {"geometry", geometry}});
  }
  return whole;
}

json route(const json& points) {
  json names = json::array();
  for (std::size_t i = 0; i < points.size(); ++i) names.push_back("point " + std::to_string(i + 1));
  return {{"type", "Feature"},
          {"properties", {{"name", "Up the straight channel"}, {"points", names}}},
          {"geometry", kGround.line(points_of(points))}};
}

json station(const char* kind, const char* name) {
  return {{"kind", kind},
          {"name", name},
          {"position", {{"latitude", 40.0}, {"longitude", -40.0}}},
          {"zone", "Etc/UTC"},
          {"source", "Invented for tests"}};
}

/// A level that rises or falls evenly all day.
json tide(const json& given) {
  json rows = json::array();
  for (int hour = 0; hour <= kHoursOfDay; ++hour) {
    rows.push_back({at_hour(hour), given.at("noon_m").get<double>() +
                                       (hour - 12) * given.at("rise_m_per_h").get<double>()});
  }
  json whole = station("tide station", "Here");
  whole["datums"] = {{"unit", "m"}, {"MLLW", 0}, {"MSL", 1}, {"MHW", 2}, {"HAT", 2.6}};
  whole["chart_datum"] = "MLLW";
  whole["heights"] = {{"unit", "m"}, {"rows", rows}};
  whole["uncertainty"] = "0.1 m";
  return whole;
}

json current(const json& given) {
  json rows = json::array();
  for (int hour = 0; hour <= kHoursOfDay; ++hour) rows.push_back({at_hour(hour), given.at("kn")});
  const double flood = given.at("flood_toward").get<double>();
  json whole = station("current station", "Still");
  whole["flood_toward"] = flood;
  whole["ebb_toward"] = flood < 180 ? flood + 180 : flood - 180;
  whole["speeds"] = {{"unit", "kn"}, {"rows", rows}};
  whole["uncertainty"] = "0.1 kn";
  return whole;
}

/// The same hour over and over, up to the last one given.
json wind(json given) {
  json whole = {{"kind", "wind forecast"},
                {"source", "Invented for tests"},
                {"position", {{"latitude", 40.0}, {"longitude", -40.0}}},
                {"hours", json::array()}};
  if (given.contains("issued")) whole["issued"] = given.at("issued");
  const int last = given.at("last").get<int>();
  given.erase("issued");
  given.erase("last");
  for (int hour = 0; hour <= last; ++hour) {
    given["at"] = at_hour(hour);
    whole["hours"].push_back(given);
  }
  return whole;
}

/// The brief made of the base changed by one patch, under an edition of the rules.
PassageRun made(const std::string& edition, const json& patch) {
  json whole = table().at("base");
  whole.merge_patch(patch);
  given::PassageCase passage("tests/situations/straight");
  passage.departs = whole.at("departs");
  passage.now = whole.at("now");
  passage.vessel = whole.at("vessel");
  passage.route = route(whole.at("points"));
  passage.waterway = waterway(whole.at("features"));
  passage.tides = {tide(whole.at("tide"))};
  passage.currents = {current(whole.at("current"))};
  passage.winds.clear();
  if (whole.contains("wind")) passage.winds.push_back(wind(whole.at("wind")));
  passage.rules = {
      {"kind", "rules"}, {"name", "as shipped"}, {"edition", "test"}, {"builds_on", edition}};
  return passage.make();
}

std::set<std::string> ids(const PassageRun& run, const char* list) {
  std::set<std::string> all;
  for (const json& entry : run.brief.at(list)) all.insert(entry.at("id"));
  return all;
}

const std::vector<std::string> kShipped = {"small_craft", "renters", "learners"};

/// The caution as its own file has it.
json shipped(const json& row) {
  for (const std::string& name : kShipped) {
    const json file = project_file("rules/" + name + ".json");
    if (file.at("name") != row.at("edition")) continue;
    for (const json& caution : file.at("cautions")) {
      if (caution.at("id") == row.at("id")) return caution;
    }
  }
  throw std::runtime_error("no such caution ships: " + label(row));
}

bool is_limit(const json& row) { return shipped(row).value("limit", false); }

TEST(CautionsFromFiles, NothingIsSaidWhereNothingIsWrong) {
  for (const char* edition : {"small craft", "renters", "learners"}) {
    const PassageRun run = made(edition, json::object());
    ASSERT_EQ(run.program.status, 0) << run.program.err;
    EXPECT_EQ(run.brief.at("verdict"), "within limits") << edition << "\n" << run.cautions();
    EXPECT_EQ(run.cautions(), "") << edition;
  }
}

TEST(CautionsFromFiles, EachFires) {
  for (const json& row : table().at("rows")) {
    if (row.at("fires").is_string()) continue;
    const PassageRun run = made(row.at("edition"), row.at("fires"));
    ASSERT_EQ(run.program.status, 0) << label(row) << "\n" << run.program.err;
    EXPECT_TRUE(ids(run, "cautions").contains(row.at("id"))) << label(row) << "\n"
                                                             << run.cautions();
    const json& verdict = run.brief.at("verdict");
    if (is_limit(row)) {
      EXPECT_EQ(verdict, "outside limits") << label(row) << "\n" << run.cautions();
    } else if (shipped(row).at("grade") != "notice") {
      EXPECT_NE(verdict, "within limits") << label(row);
    }
  }
}

TEST(CautionsFromFiles, EachIsSilentWhereItsHazardIsJustNotThere) {
  for (const json& row : table().at("rows")) {
    const PassageRun run = made(row.at("edition"), row.at("does_not"));
    ASSERT_EQ(run.program.status, 0) << label(row) << "\n" << run.program.err;
    for (const char* list : {"cautions", "not_checked"}) {
      EXPECT_FALSE(ids(run, list).contains(row.at("id"))) << label(row) << "\n" << run.cautions();
    }
  }
}

TEST(CautionsFromFiles, EachIsNamedAsNotCheckedWhereItCannotTell) {
  for (const json& row : table().at("rows")) {
    if (row.at("unknown").is_string()) continue;
    const PassageRun run = made(row.at("edition"), row.at("unknown"));
    ASSERT_EQ(run.program.status, 0) << label(row) << "\n" << run.program.err;
    EXPECT_TRUE(ids(run, "not_checked").contains(row.at("id"))) << label(row) << "\n"
                                                                << run.cautions();
    const json& verdict = run.brief.at("verdict");
    if (is_limit(row)) {
      EXPECT_TRUE(verdict == "cannot tell" || verdict == "outside limits")
          << label(row) << ": " << verdict;
    }
  }
}

TEST(CautionsFromFiles, ATextStandsOnlyWhereThereIsNoSuchCase) {
  for (const json& row : table().at("rows")) {
    EXPECT_TRUE(row.at("does_not").is_object()) << label(row);
    EXPECT_FALSE(row.at("fires").is_string() && row.at("unknown").is_string()) << label(row);
  }
}

TEST(CautionsFromFiles, EveryCautionThatShipsHasItsRowOnce) {
  std::multiset<std::string> rows;
  for (const json& row : table().at("rows")) rows.insert(label(row));
  std::size_t shipped_in_all = 0;
  for (const std::string& name : kShipped) {
    const json file = project_file("rules/" + name + ".json");
    for (const json& caution : file.at("cautions")) {
      const std::string wanted =
          file.at("name").get<std::string>() + ": " + caution.at("id").get<std::string>();
      EXPECT_EQ(rows.count(wanted), 1U) << wanted;
      ++shipped_in_all;
    }
  }
  EXPECT_EQ(rows.size(), shipped_in_all);
}

TEST(CautionsFromFiles, EveryFactIsAskedAndSaidByTheProgram) {
  json whole = table().at("base");
  given::PassageCase passage("tests/situations/straight");
  passage.rules = project_file("tests/rules/every_fact.json");
  passage.departs = whole.at("departs");
  passage.now = whole.at("now");
  passage.vessel = whole.at("vessel");
  passage.route = route(whole.at("points"));
  json features = whole.at("features");
  features["bar"] = {{"line", {{-100, 1300}, {100, 1300}}},
                     {"feature", "bar"},
                     {"name", "The Bar"},
                     {"depth", "5 m"},
                     {"tide", "Here"}};
  features["ledge"]["point"] = {150, 900};
  passage.waterway = waterway(features);
  passage.tides = {tide(whole.at("tide"))};
  passage.currents = {current(whole.at("current"))};
  whole["wind"]["from"] = 270;
  whole["wind"]["speed"] = "12 kn";
  whole["wind"]["gust"] = "13 kn";
  passage.winds = {wind(whole.at("wind"))};
  const PassageRun run = passage.make();
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  const std::set<std::string> fired = ids(run, "cautions");
  for (const json& caution : passage.rules.at("cautions")) {
    EXPECT_TRUE(fired.contains(caution.at("id"))) << caution.at("id");
  }
  EXPECT_TRUE(run.brief.at("not_checked").empty());
}

}  // namespace
}  // namespace passage_brief
