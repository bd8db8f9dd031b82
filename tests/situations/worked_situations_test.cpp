// Two situations worked by hand (common practice, no source), run through the program from files.
//
// The water is a straight channel in the open ocean, invented; the stations give their heights as a
// series, so that the height of tide is exactly the one of the arithmetic.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "given/passage_case.h"

namespace passage_brief {
namespace {

using given::feet_of;
using given::kGround;
using given::kPrinted_ft;
using given::PassageCase;
using given::PassageRun;
using given::straight_channel;
using nlohmann::json;

/// A tide station whose height never changes.
json station(const std::string& name, double height_ft, double mhw_ft, const std::string& sigma) {
  json rows = json::array();
  for (int hour = 6; hour <= 20; ++hour) {
    rows.push_back({(hour < 10 ? "2026-06-14T0" : "2026-06-14T") + std::to_string(hour) + ":00:00Z",
                    height_ft});
  }
  return {{"kind", "tide station"},
          {"name", name},
          {"position", {{"latitude", 40.0}, {"longitude", -40.0}}},
          {"zone", "Etc/UTC"},
          {"datums", {{"unit", "ft"}, {"MLLW", 0}, {"MSL", 1.5}, {"MHW", mhw_ft}}},
          {"chart_datum", "MLLW"},
          {"heights", {{"unit", "ft"}, {"rows", rows}}},
          {"uncertainty", sigma},
          {"source", "Invented for tests"}};
}

/// Situation 1. Fixed bridge charted 20.0 ft above MHW; its own station's MHW is 3.0 ft above chart
/// datum (the reference station's is 5.0), the height of tide there 3.8 ft, one sigma 0.5 ft.
///   clearance  20.0 + 3.0 - 3.8 = 19.2 ft
///   mast up    19.2 - 20.5 = -1.3: does not fit
///   mast down  19.2 - 17.0 =  2.2: fits, margin 2.0
///   could be   19.2 - 1.645 x 0.5 = 18.3775, printed 18.3; to spare 1.3775, printed 1.3
/// With the wrong station's MHW it would be 21.2.
TEST(WorkedSituation, BridgeUpRiver) {
  PassageCase passage = straight_channel();
  passage.tides = {station("Here", 4.0, 5.0, "0.5 ft"), station("Up-river", 3.8, 3.0, "0.5 ft")};
  passage.vessel["air_draft"] = {{{"antennas", "up"}, {"height", "20.5 ft"}},
                                 {{"antennas", "down"}, {"height", "17 ft"}}};
  passage.add_feature({{"feature", "bridge"},
                       {"name", "Up-river Bridge"},
                       {"what", "fixed"},
                       {"clearance", "20 ft"},
                       {"clearance_of", "low steel"},
                       {"clearance_gauge", true},
                       {"width", "100 ft"},
                       {"tide", "Up-river"}},
                      kGround.line({{-300, 900}, {300, 900}}));
  const PassageRun run = passage.make();
  ASSERT_EQ(run.program.status, 0) << run.program.err;

  const json& bridge = run.named("bridges", "Up-river Bridge");
  EXPECT_NEAR(feet_of(bridge.at("clearance_m")), 19.2, kPrinted_ft) << bridge;
  EXPECT_NEAR(feet_of(bridge.at("clearance_could_be_m")), 18.3775, kPrinted_ft) << bridge;
  EXPECT_NEAR(feet_of(bridge.at("gauge_reads_m")), 19.2, kPrinted_ft) << bridge;
  EXPECT_NEAR(feet_of(bridge.at("over_mast_m")), 2.2, kPrinted_ft) << bridge;
  EXPECT_EQ(bridge.at("antennas"), "down") << bridge;
  for (const char* figure : {"19.2", "18.3", "2.2"}) {
    EXPECT_NE(run.text.find(figure), std::string::npos) << figure << "\n" << run.text;
  }
  EXPECT_EQ(run.text.find("21.2"), std::string::npos) << run.text;
  EXPECT_TRUE(run.brief.at("verdict") == "within limits" || run.brief.at("verdict") == "cautions")
      << run.text;
}

/// Situation 2. Charted 4.1 ft, height of tide 3.4 ft: 7.5 ft of water; draft 4.0, waterline 36.5
/// ft, beam 13.5 ft, Cb 0.5, calm, wide water, at 4.5 kn (slow, in a secondary channel).
///   Fnh          2.315 m/s / sqrt(9.80665 x 2.286 m) = 0.4889
///   volume/L^2   0.5 x 13.5 x 4 / 36.5 = 0.7397 ft
///   ICORELS      2.4 x 0.7397 x 0.4889^2 / sqrt(1 - 0.4889^2) = 0.4865 ft
///   Barrass open 0.5 x 4.5^2 / 100 m = 0.1013 m = 0.332 ft: the lesser
///   under keel   7.5 - 4.0 - 0.4865 = 3.0135 ft, printed 3.0
/// The sounder then shows 3.0 from the keel, 3.0135 + 4.0 - 2.0 = 5.0 from a transducer 2 ft below
/// the waterline at rest, 7.0 from the waterline at rest; not 7.5, since the hull has settled.
TEST(WorkedSituation, SquatAndThreeSounders) {
  struct Case {
    json sounder;
    double reads_ft;
  };
  const Case cases[] = {
      {{{"measures_from", "keel"}}, 3.0135},
      {{{"measures_from", "transducer"}, {"below_waterline", "2 ft"}}, 5.0135},
      {{{"measures_from", "waterline"}}, 7.0135},
  };
  for (const Case& each : cases) {
    PassageCase passage = straight_channel();
    passage.tides = {station("Here", 3.4, 5.0, "0.3 ft")};
    passage.feature("Straight Channel")["controlling_depth"] = "4.1 ft";
    passage.feature("Straight Channel")["channel"] = "secondary";
    passage.vessel["sounder"] = each.sounder;
    const PassageRun run = passage.make();
    ASSERT_EQ(run.program.status, 0) << run.program.err;

    const json& depth = run.named("depths", "Straight Channel");
    EXPECT_NEAR(feet_of(depth.at("water_m")), 7.5, kPrinted_ft) << depth;
    EXPECT_NEAR(feet_of(depth.at("squat_m")), 0.4865, kPrinted_ft) << depth;
    EXPECT_NEAR(feet_of(depth.at("under_keel_m")), 3.0135, kPrinted_ft) << depth;
    EXPECT_NEAR(feet_of(depth.at("sounder_reads_m")), each.reads_ft, kPrinted_ft) << depth;
    EXPECT_NE(run.text.find("3.0 ft"), std::string::npos) << run.text;
  }
}

/// The same water at cruising speed, in a main channel: at 7.5 kn Fnh would be 0.81 and there is no
/// squat figure, so the boat is slowed: to half of sqrt(g x 2.286 m) = 2.3674 m/s = 4.602 kn, the
/// water being under twice the draft. One nautical mile at that speed takes 3600 / 4.602 = 782 s.
TEST(WorkedSituation, TooFastForSquatIsSlowed) {
  PassageCase passage = straight_channel();
  passage.tides = {station("Here", 3.4, 5.0, "0.3 ft")};
  passage.feature("Straight Channel")["controlling_depth"] = "4.1 ft";
  const PassageRun run = passage.make();
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  const json& leg = run.brief.at("legs").at(0);
  EXPECT_EQ(leg.at("starts"), "2026-06-14T12:00:00+00:00") << leg;
  EXPECT_EQ(leg.at("ends").get<std::string>().substr(0, 16), "2026-06-14T12:13") << leg;
}

}  // namespace
}  // namespace passage_brief
