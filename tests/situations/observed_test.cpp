// Observed levels through the whole program, from files, with the arithmetic by hand.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "given/passage_case.h"

namespace passage_brief {
namespace {

using given::feet_of;
using given::kFoot_m;
using given::kGround;
using given::kPrinted_ft;
using given::PassageCase;
using given::PassageRun;
using nlohmann::json;

/// Still water 4.0 ft above MLLW; MHW 5.0 ft above it.
json still_station() {
  json rows = json::array();
  for (int hour = 6; hour <= 20; ++hour) {
    rows.push_back(
        {(hour < 10 ? "2026-06-14T0" : "2026-06-14T") + std::to_string(hour) + ":00:00Z", 4.0});
  }
  return {{"kind", "tide station"},
          {"name", "Here"},
          {"position", {{"latitude", 40.0}, {"longitude", -40.0}}},
          {"zone", "Etc/UTC"},
          {"datums", {{"unit", "ft"}, {"MLLW", 0}, {"MSL", 2.5}, {"MHW", 5.0}}},
          {"chart_datum", "MLLW"},
          {"heights", {{"unit", "ft"}, {"rows", rows}}},
          {"uncertainty", "0.5 ft"},
          {"source", "Invented for tests"}};
}

/// A straight channel with a bridge, run at 12:00.
PassageRun with_observed(const std::vector<std::string>& observed) {
  PassageCase passage("tests/situations/straight");
  passage.departs = "2026-06-14T12:00";
  passage.now = "2026-06-14T12:00:00Z";
  passage.tides = {still_station()};
  passage.add_feature({{"feature", "bridge"},
                       {"name", "Town Bridge"},
                       {"what", "fixed"},
                       {"clearance", "60 ft"},
                       {"clearance_of", "low steel"},
                       {"clearance_gauge", true},
                       {"width", "100 ft"},
                       {"tide", "Here"}},
                      kGround.line({{-300, 900}, {300, 900}}));
  for (const std::string& one : observed) {
    passage.more_arguments.insert(passage.more_arguments.end(), {"--observed", one});
  }
  return passage.make();
}

double clearance_ft(const PassageRun& run) {
  return feet_of(run.named("bridges", "Town Bridge").at("clearance_m"));
}
double tide_ft(const PassageRun& run) {
  return feet_of(run.named("depths", "Straight Channel").at("height_of_tide_m"));
}

/// Gauge expected 60 + 5 - 4 = 61 ft. It shows 60: the water is 1.0 ft above prediction. Passed at
/// 12:07: clearance 60. At 10:12 (longer ago than 2 h) no depth is left of it.
TEST(Observed, GaugeThatShowsLessIsOffTheClearance) {
  const PassageRun run = with_observed({"Town Bridge 10:00 gauge 60 ft"});
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  EXPECT_NEAR(clearance_ft(run), 60.0, kPrinted_ft);
  EXPECT_NEAR(tide_ft(run), 4.0, kPrinted_ft);
  const json& seen = run.brief.at("observed").at(0);
  EXPECT_NEAR(feet_of(seen.at("above_predicted_m")), 1.0, kPrinted_ft);
  EXPECT_NE(run.text.find("Observed"), std::string::npos);
  EXPECT_NE(run.text.find("1.0 ft above prediction"), std::string::npos) << run.text;
  bool worked = false;
  for (const json& working : run.brief.at("working")) {
    worked = worked || working.at("figure") == "observed, Town Bridge";
  }
  EXPECT_TRUE(worked);
}

/// Read at 11:30, half an hour before the channel's begin: 1.0 ft x 3/4 of it are left at 12:00,
/// and less as she goes on: 12:13 when she comes to its end, 43 of 120 minutes gone: 1 - 0.358.
TEST(Observed, FreshHighWaterAddsDepthForAWhile) {
  const PassageRun run = with_observed({"station Here 11:30 level 5 ft"});
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  EXPECT_GT(tide_ft(run), 4.0 + 0.55);
  EXPECT_LT(tide_ft(run), 4.0 + 0.75);
  EXPECT_NEAR(clearance_ft(run), 60.0, kPrinted_ft);
}

/// 0.3 m below prediction, as in the grounding on a falling tide below prediction (MAIB safety
/// digest, retold; incident C2): off the depth, and nothing for the clearance two hours later.
TEST(Observed, LevelBelowPredictionIsOffTheDepth) {
  const PassageRun run = with_observed({"station Here 09:00 level 0.9192 m"});
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  EXPECT_NEAR(tide_ft(run), 4.0 - 0.3 / kFoot_m, kPrinted_ft);
  EXPECT_NEAR(clearance_ft(run), 61.0, kPrinted_ft);
  EXPECT_NE(run.text.find("below prediction"), std::string::npos) << run.text;
}

TEST(Observed, WhatIsWrongIsRefused) {
  EXPECT_EQ(with_observed({"Town Brigde 10:00 gauge 60 ft"}).program.status, 2);
  EXPECT_NE(with_observed({"Town Brigde 10:00 gauge 60 ft"}).program.err.find("Town Bridge"),
            std::string::npos);
  EXPECT_EQ(with_observed({"Town Bridge 12:30 gauge 60 ft"}).program.status, 2);  // not yet
  EXPECT_EQ(with_observed({"Town Bridge 05:00 gauge 60 ft"}).program.status, 2);  // no prediction
  EXPECT_EQ(with_observed({"Town Bridge 10:00 gauge 60"}).program.status, 2);
}

}  // namespace
}  // namespace passage_brief
