// Clocks: a passage over the hour they change, over midnight, over New Year and over the 180th
// meridian. Clock changes by Uniform Time Act, 15 U.S.C. 260a: 2 a.m. on the second Sunday of March
// and the first Sunday of November (14 March 2027, 1 November 2026).

#include <gtest/gtest.h>

#include <chrono>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "given/demo.h"
#include "given/open_water.h"
#include "given/run_program.h"
#include "passage/find.h"
#include "passage/route_survey.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using nlohmann::json;

given::ProgramRun brief(const std::string& departs, const std::string& as) {
  return given::run_program(given::demo_arguments("make", {{"--rules", "rules/small_craft.json"},
                                                           {"--now", "2026-10-20T12:00"},
                                                           {"--depart", departs},
                                                           {"--windows", "0"},
                                                           {"--as", as}}));
}

TEST(LocalTime, AnHourThatIsSkippedOrComesTwiceIsRefusedWithBothOffsets) {
  for (const char* departs : {"2027-03-14T02:30", "2026-11-01T01:30"}) {
    const given::ProgramRun made = brief(departs, "text");
    EXPECT_EQ(made.status, 2) << departs;
    EXPECT_TRUE(made.err.contains("-04:00") && made.err.contains("-05:00")) << made.err;
  }
}

TEST(LocalTime, LettersFollowTheClockWhileSheIsUnderWay) {
  const given::ProgramRun autumn = brief("2026-11-01T01:45-04:00", "json");
  ASSERT_EQ(autumn.status, 0) << autumn.err;
  const json fell = json::parse(autumn.out);
  EXPECT_EQ(fell["departs"], "2026-11-01T01:45:00-04:00");
  const auto arrives = fell["arrives"].get<std::string>();
  EXPECT_TRUE(arrives.ends_with("-05:00")) << arrives;
  const std::string text = brief("2026-11-01T01:45-04:00", "text").out;
  EXPECT_TRUE(text.contains("01:45 EDT")) << text;
  EXPECT_TRUE(text.contains(" EST")) << text;

  const given::ProgramRun spring = brief("2027-03-14T01:45-05:00", "json");
  ASSERT_EQ(spring.status, 0) << spring.err;
  const json sprang = json::parse(spring.out);
  EXPECT_TRUE(sprang["arrives"].get<std::string>().ends_with("-04:00")) << sprang["arrives"];
  // No time on the page is one that no clock showed.
  const std::string spring_text = brief("2027-03-14T01:45-05:00", "text").out;
  for (const char* minute : {"02:00", "02:15", "02:30", "02:45"}) {
    EXPECT_FALSE(spring_text.contains(std::string(minute) + " E")) << minute << '\n' << spring_text;
  }
}

TEST(LocalTime, PastMidnightTheDayStandsBesideTheTime) {
  // 14 June 2026 was a Sunday (ISO 8601 day 7 of week 24).
  const given::ProgramRun made = brief("2026-06-14T23:45", "text");
  ASSERT_EQ(made.status, 0) << made.err;
  EXPECT_TRUE(made.out.contains("EDT: 23:45 to Mon 00:")) << made.out;
  EXPECT_FALSE(made.out.contains("\n  00:")) << made.out;
}

TEST(LocalTime, OverNewYearEachHeightIsThatOfItsOwnYear) {
  // The year of a prediction is that of UTC: it steps at 19:00 in New York. The heights the brief
  // rests on are those the tide command gives for the same instants.
  const given::ProgramRun made = brief("2026-12-31T18:40-05:00", "json");
  ASSERT_EQ(made.status, 0) << made.err;
  const json found = json::parse(made.out);
  EXPECT_TRUE(found["arrives"].get<std::string>() > "2026-12-31T19:00:00-05:00");
  int compared = 0;
  for (const json& bridge : found["bridges"]) {
    const auto at = bridge["at"].get<std::string>();
    const given::ProgramRun height = given::run_program(
        {"heights", "--tide", "examples/tansel_point.tide.json", "--tide",
         "examples/upper_tansel.tide.json", "--at", bridge["tide_station"], "--from", at, "--to",
         at, "--every", "1min", "--units", "m", "--as", "json"});
    ASSERT_EQ(height.status, 0) << height.err;
    const json rows = json::parse(height.out);
    EXPECT_NEAR(rows["heights"][0]["height_m"].get<double>(),
                bridge["height_of_tide_m"].get<double>(), 0.02)
        << bridge["name"] << " at " << at;
    ++compared;
  }
  EXPECT_GE(compared, 1);
}

// The same water twice, once where the 180th meridian crosses it: nothing may differ. What is drawn
// stands on one side or the other of the meridian, as RFC 7946 section 3.1.9 asks.
TEST(LocalTime, The180thMeridianChangesNothing) {
  const auto findings_at = [](double east_deg) {
    const auto there = [east_deg](double east_m, double north_m) {
      const Position p = given::at(east_m, north_m);
      double longitude_deg = p.longitude.in_degrees() + east_deg;
      if (longitude_deg >= 180) longitude_deg -= 360;
      return position_at(p.latitude.in_degrees(), longitude_deg);
    };
    Waterway water = given::empty_waterway();
    water.reaches.push_back(given::plain_reach(
        "West Cut", LineShape{there(-1500, 0), there(-0.01, 0)}, metres(60), metres(4)));
    water.reaches.push_back(given::plain_reach(
        "East Cut", LineShape{there(0.01, 0), there(1500, 0)}, metres(60), metres(3)));
    water.hazards.push_back({{"snag", water.stations},
                             Shape(there(200, 5)),
                             "snag",
                             metres(1.9),
                             false,
                             std::nullopt,
                             Bottom::rock});
    Plan plan = given::plan_along({there(-1200, 0), there(1200, 0)});
    Facts facts = given::facts_over(water, metres(0.5));
    facts.winds.push_back(given::steady_wind(0, knots(10)));
    const Margins margins = given::plain_margins();
    const RouteSurvey survey(plan, facts.waterway, margins);
    return find(survey, plan, facts, margins);
  };
  const Findings here = findings_at(0);
  const Findings there = findings_at(225);  // 45 W is then 180
  ASSERT_EQ(here.depths.size(), there.depths.size());
  EXPECT_NEAR(in_metres(here.passage.distance), in_metres(there.passage.distance), 0.001);
  for (std::size_t i = 0; i < here.depths.size(); ++i) {
    EXPECT_EQ(here.depths[i].name, there.depths[i].name);
    EXPECT_EQ(here.depths[i].controlled_by, there.depths[i].controlled_by);
    ASSERT_EQ(here.depths[i].under_keel.has_value(), there.depths[i].under_keel.has_value());
    if (here.depths[i].under_keel.has_value()) {
      EXPECT_NEAR(in_metres(*here.depths[i].under_keel), in_metres(*there.depths[i].under_keel),
                  0.001);
    }
    EXPECT_NEAR(in_metres(here.depths[i].passing.along), in_metres(there.depths[i].passing.along),
                0.01);
  }
  ASSERT_EQ(here.dangers.size(), there.dangers.size());
  EXPECT_EQ(here.passage.arrives, there.passage.arrives);
}

}  // namespace
}  // namespace passage_brief
