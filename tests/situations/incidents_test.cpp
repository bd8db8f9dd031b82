// Accidents retold in numbers, each run through the program from files: would the page have said
// so?
//
// Figures marked "fixture" are invented so that the case can run and prove nothing about the real
// event; the rest is from the published account named with each case. The water is a straight
// channel in the open ocean, invented.
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>
#include <string>
#include <vector>

#include "given/passage_case.h"

namespace passage_brief {
namespace {

using given::kFoot_m;
using given::kGround;
using given::PassageCase;
using given::PassageRun;
using given::straight_channel;
using nlohmann::json;

constexpr double kPrinted_m = 0.00011;  // the JSON's 0.1 mm

/// Heights each quarter of an hour from 06:00, falling evenly by `fall_m_per_min` through
/// `at_noon_m` at 12:00; constant where nothing falls.
void set_tide(PassageCase& passage, double at_noon_m, double fall_m_per_min) {
  json rows = json::array();
  for (int minute = 6 * 60; minute <= 18 * 60; minute += 15) {
    const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    rows.push_back({"2026-06-14T" + two(minute / 60) + ":" + two(minute % 60) + ":00Z",
                    at_noon_m - fall_m_per_min * (minute - 720)});
  }
  passage.tides.at(0)["heights"] = {{"unit", "m"}, {"rows", rows}};
}

/// The page's text is set in lines of 78 columns: words are looked for as if it were one.
void expect_says(const PassageRun& run, const std::vector<std::string>& words) {
  const std::string text = std::regex_replace(run.text, std::regex(R"(\s+)"), " ");
  for (const std::string& word : words) {
    EXPECT_NE(text.find(word), std::string::npos) << "not said: " << word << "\n" << run.text;
  }
}

void expect_not_within(const PassageRun& run) {
  EXPECT_NE(run.brief.at("verdict"), "within limits") << run.text;
  EXPECT_EQ(run.text.find("within limits"), std::string::npos) << run.text;
}

/// Water less draft: what is under the keel at rest. Squat is the program's own and is not in the
/// accounts' arithmetic.
double at_rest_m(const json& depth) {
  return depth.at("under_keel_m").get<double>() + depth.at("squat_m").get<double>() +
         depth.at("wave_m").get<double>();
}

/// A patch of ground across the channel, `from_m` to `to_m` north of the start.
void add_shoal(PassageCase& passage, const std::string& name, const std::string& depth,
               double from_m, double to_m, double west_m = -190, double east_m = 190) {
  passage.add_feature(
      {{"feature", "depth_area"},
       {"name", name},
       {"least_depth", depth},
       {"surveyed", "2026-06-01"},
       {"survey_quality", "channel survey"},
       {"bottom", "mud"},
       {"tide", "Here"}},
      kGround.polygon({{west_m, from_m}, {east_m, from_m}, {east_m, to_m}, {west_m, to_m}}));
}

/// C1, MAIB: grounding on a falling tide, drawn to a waypoint across shoal water at 4 kn.
/// Fixture: charted 0.6 m and height of tide 0.9 m on arrival, draft 1.5 m:
///   0.6 + 0.9 - 1.5 = 0.0 m under the keel at rest.
/// The shoal lies 926 m along, 7.5 min at 4 kn; the tide falls 0.60 m in the 1.5 h left to low
/// water, 0.0067 m a minute, so it stands at 0.9 + 7.5 x 0.0067 = 0.95 m at departure. Squat comes
/// on top.
TEST(Incident, C1FallingTide) {
  PassageCase passage = straight_channel();
  passage.vessel["hull"] = "sail fin keel";
  passage.vessel["length"] = "11.2 m";
  passage.vessel["waterline"] = "9.8 m";
  passage.vessel["beam"] = "3.4 m";
  passage.vessel["draft"] = "1.5 m";
  passage.vessel["speeds"] = {{"slow", "4 kn"}, {"cruise", "4 kn"}};
  add_shoal(passage, "Shoal on the line", "0.6 m", 921, 931);
  set_tide(passage, 0.95, 0.6 / 90);
  const PassageRun run = passage.make();
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  EXPECT_EQ(run.brief.at("verdict"), "outside limits") << run.text;
  const json& depth = run.named("depths", "Straight Channel");
  EXPECT_EQ(depth.at("tide_is"), "falling") << depth;
  EXPECT_NEAR(at_rest_m(depth), 0.0, 0.005) << depth;  // 45 s of fall
  expect_says(run, {"falling", "under the keel"});
  expect_not_within(run);
}

/// C2, MAIB safety digest: a workboat leaves a lock late on the ebb, over a channel that dries 1.0
/// m, with the advised margin of 1.0 m cut to 0.5 m. Fixture: draft 1.4 m, predicted height 2.9 m
/// at the planned time, falling 0.02 m a minute, 10 minutes late, water 0.3 m below prediction:
///   planned 2.9 - 1.0 - 1.4 = 0.5; late 2.7 - 2.4 = 0.3; late and below prediction 2.4 - 2.4 =
///   0.0.
/// The ground lies 30 m from the lock: 15 s out, 0.005 m of fall.
/// The lower water is given as it was observed at the station before leaving.
TEST(Incident, C2MarginShaved) {
  struct Case {
    std::string departs;
    double residual_m;
    double at_rest_m;
  };
  for (const Case& each : {Case{"2026-06-14T12:00", 0, 0.5}, Case{"2026-06-14T12:10", 0, 0.3},
                           Case{"2026-06-14T12:10", -0.3, 0.0}}) {
    PassageCase passage = straight_channel();
    passage.vessel["draft"] = "1.4 m";
    passage.departs = each.departs;
    passage.rules["margins"]["under_keel"] = "1 m";
    add_shoal(passage, "Outside the lock", "-1.0 m", 25, 35);
    set_tide(passage, 2.9, 0.02);
    if (each.residual_m < 0) {
      // At 11:40 20 min before noon: predicted 2.9 + 0.4 = 3.3 m, read 3.0.
      passage.now = "2026-06-14T11:45:00Z";
      passage.more_arguments = {"--observed", "station Here 11:40 level 3.0 m"};
    }
    const PassageRun run = passage.make();
    if (each.residual_m < 0) expect_says(run, {"1.0 ft below prediction"});
    ASSERT_EQ(run.program.status, 0) << run.program.err;
    EXPECT_EQ(run.brief.at("verdict"), "outside limits") << run.text;
    const json& depth = run.named("depths", "Straight Channel");
    EXPECT_NEAR(at_rest_m(depth), each.at_rest_m, 0.012) << depth;  // 30 s of fall
    EXPECT_EQ(depth.at("tide_is"), "falling") << depth;
    expect_not_within(run);
  }
}

/// A margin is lowered by a named edition of the rules and by nothing else: with 0.2 m in the rules
/// the planned departure of C2 keeps its limit, and the page names the edition.
TEST(Incident, C2MarginComesFromTheRulesEdition) {
  PassageCase passage = straight_channel();
  passage.vessel["draft"] = "1.4 m";
  passage.rules["margins"]["under_keel"] = "0.2 m";
  passage.rules["edition"] = "2026-06 shaved";
  add_shoal(passage, "Outside the lock", "-1.0 m", 25, 35);
  set_tide(passage, 2.9, 0.02);
  PassageRun run = passage.make();
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  EXPECT_NE(run.brief.at("verdict"), "outside limits") << run.text;
  expect_says(run, {"2026-06 shaved"});
  passage.more_arguments = {"--under-keel", "0.2 m"};
  EXPECT_EQ(passage.make().program.status, 2);
}

/// C3, TSB M99C0016: a passenger vessel, 1.6 m aft, touches where the 1.83 m contour lies across
/// the recommended small-craft channel. Levels against datum 0.6, 0.1, -0.1, -0.3 m (fixture):
///   1.83 + level - 1.6 = 0.83, 0.33, 0.13, -0.07 m at rest; margin 0.61 m (2 ft).
/// The contour is drawn beside the line, not on it: the corridor finds it.
/// "Which side has the deeper water" is not on the page.
TEST(Incident, C3ContourAcrossTheChannel) {
  struct Case {
    double level_m;
    double at_rest_m;
    bool may_go;
  };
  for (const Case& each : {Case{0.6, 0.83, true}, Case{0.1, 0.33, false}, Case{-0.1, 0.13, false},
                           Case{-0.3, -0.07, false}}) {
    PassageCase passage = straight_channel();
    passage.vessel["length"] = "31 m";
    passage.vessel["waterline"] = "29 m";
    passage.vessel["beam"] = "7 m";
    passage.vessel["draft"] = "1.6 m";
    passage.vessel["speeds"] = {{"slow", "5 kn"}, {"cruise", "8 kn"}};
    add_shoal(passage, "Six foot contour", "1.83 m", 900, 940, 4, 150);
    set_tide(passage, each.level_m, 0);
    const PassageRun run = passage.make();
    ASSERT_EQ(run.program.status, 0) << run.program.err;
    const json& depth = run.named("depths", "Straight Channel");
    EXPECT_NEAR(depth.at("charted_m").get<double>(), 1.83, kPrinted_m) << depth;
    EXPECT_NEAR(depth.at("height_of_tide_m").get<double>(), each.level_m, kPrinted_m) << depth;
    EXPECT_NEAR(at_rest_m(depth), each.at_rest_m, 2 * kPrinted_m) << depth;
    if (each.may_go) {
      EXPECT_TRUE(run.brief.at("verdict") == "within limits" ||
                  run.brief.at("verdict") == "cautions")
          << run.text;
    } else {
      EXPECT_EQ(run.brief.at("verdict"), "outside limits") << run.text;
      expect_not_within(run);
    }
  }
}

/// C4, MAIB: a yacht's steering seizes 1 nm off a lee shore; 20 m of chain. Fixture: drift 1.5 kn,
/// given here as a current that sets on the shore in a calm:
///   1852 m / (1.5 x 1852/3600 m/s) = 2400 s = 40 min, rounded down.
/// The water carries her through still air, which holds her back by her leeway, one or two
/// hundredths: still 40 whole minutes. The shore lies a metre more than 1 nm from where drifting
/// starts: the corridor's edge (half a beam of 3.5 m, the rules of this case having no track
/// margin) less half a length of 11 m. 20 m of chain at 4 to 1, bow roller 1 m above the water,
/// holds in 20/4 - 1 = 4.0 m.
TEST(Incident, C4SetOnTheShore) {
  PassageCase passage = straight_channel();
  passage.vessel["hull"] = "sail fin keel";
  passage.vessel["length"] = "11 m";
  passage.vessel["waterline"] = "9.5 m";
  passage.vessel["beam"] = "3.5 m";
  passage.vessel["anchor"] = {{"rode", "20 m"}, {"of", "chain"}, {"bow_roller", "1 m"}};
  passage.rules["margins"]["track"] = "0 m";
  passage.rules["margins"]["position"] = "0 m";
  passage.feature("Straight Channel")["controlling_depth"] = "25 m";
  const double shore_m = 1853 + 1.75 + 5.5;
  passage.add_feature({{"feature", "hazard"},
                       {"name", "Lee Shore"},
                       {"what", "rock shore"},
                       {"above_water", true},
                       {"bottom", "rock"},
                       {"tide", "Here"}},
                      kGround.line({{shore_m, -3000}, {shore_m, 5000}}));
  passage.currents.at(0)["flood_toward"] = 90;
  passage.currents.at(0)["ebb_toward"] = 270;
  for (json& row : passage.currents.at(0)["speeds"]["rows"]) row.at(1) = 1.5;
  const PassageRun run = passage.make();
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  const json& set = run.brief.at("set_toward");
  ASSERT_EQ(set.size(), 1u) << set;
  EXPECT_EQ(set.at(0).at("danger"), "Lee Shore") << set;
  EXPECT_EQ(set.at(0).at("side"), "starboard") << set;
  EXPECT_NEAR(set.at(0).at("distance_m").get<double>(), 1853, 2) << set;
  EXPECT_GE(set.at(0).at("reached_in_s").get<double>(), 2400) << set;
  EXPECT_LT(set.at(0).at("reached_in_s").get<double>(), 2460) << set;
  expect_says(run, {"Lee Shore", "starboard", "40 min"});
}

/// C4 by wind: SW force 5 to 6, taken as 22 kn, on a heading of north: the shore to the east lies
/// to leeward. The account bounds the drift at 2.4 kn, so the nautical mile takes 25 min or more;
/// how long exactly is the drift model's own affair.
TEST(Incident, C4LeeShore) {
  PassageCase passage = straight_channel();
  passage.vessel["hull"] = "sail fin keel";
  passage.vessel["length"] = "11 m";
  passage.vessel["waterline"] = "9.5 m";
  passage.vessel["beam"] = "3.5 m";
  passage.vessel["anchor"] = {{"rode", "20 m"}, {"of", "chain"}, {"bow_roller", "1 m"}};
  passage.feature("Straight Channel")["controlling_depth"] = "25 m";
  passage.add_feature({{"feature", "hazard"},
                       {"name", "Lee Shore"},
                       {"what", "rock shore"},
                       {"above_water", true},
                       {"bottom", "rock"},
                       {"tide", "Here"}},
                      kGround.line({{1900, -3000}, {1900, 5000}}));
  for (json& hour : passage.winds.at(0).at("hours")) {
    hour["from"] = 225;
    hour["speed"] = "22 kn";
    hour["gust"] = "27 kn";
  }
  const PassageRun run = passage.make();
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  const json& lee = run.brief.at("to_leeward");
  ASSERT_EQ(lee.size(), 1u) << lee;
  EXPECT_EQ(lee.at(0).at("danger"), "Lee Shore") << lee;
  EXPECT_EQ(lee.at(0).at("side"), "starboard") << lee;
  EXPECT_GE(lee.at(0).at("reached_in_s").get<double>(), 25 * 60) << lee;
  expect_says(run, {"Lee Shore", "starboard", " min", "anchor"});
}

/// A fixed bridge with its own gauge board. Heights above a clearance datum 3 ft above chart datum.
PassageCase bridge_passage(double clearance_ft, double tide_ft) {
  PassageCase passage = straight_channel();
  set_tide(passage, tide_ft * kFoot_m, 0);
  passage.tides.at(0)["datums"] = {{"unit", "ft"}, {"MLLW", 0}, {"MHW", 3.0}};
  passage.vessel["hull"] = "sail fin keel";
  passage.vessel["length"] = "44 ft";
  passage.vessel["waterline"] = "38 ft";
  passage.add_feature({{"feature", "bridge"},
                       {"name", "High Bridge"},
                       {"what", "fixed"},
                       {"clearance", std::to_string(clearance_ft) + " ft"},
                       {"clearance_of", "low steel"},
                       {"clearance_gauge", true},
                       {"width", "100 ft"},
                       {"tide", "Here"}},
                      kGround.line({{-300, 900}, {300, 900}}));
  return passage;
}

/// C5, trade press: a mast said to be 62 ft 6 in, in truth 64 ft and a foot of aerials, against a
/// gauge board that read 63 ft 5 in. The bridge is taken as charted 65 ft, the water
/// therefore 1.583 ft above the clearance datum (derived: 65 - 63.417), 4.583 ft above chart datum:
///   as told 63.417 - 62.5 = 0.917 ft; in truth 63.417 - 65.0 = -1.583 ft; margin 2.0 ft.
///   gauge to turn back at: 62.5 + 2.0 = 64.5 as told, 65.0 + 2.0 = 67.0 in truth.
TEST(Incident, C5MastStruckABridge) {
  struct Case {
    std::string basis;
    std::string air_draft;
    double over_mast_ft;
    std::string gauge_at_least;
  };
  for (const Case& each :
       {Case{"told", "62 ft 6 in", 0.917, "64.5"}, Case{"measured", "65 ft", -1.583, "67.0"}}) {
    PassageCase passage = bridge_passage(65, 4.583);
    passage.vessel["air_draft"] = {{{"antennas", "up"}, {"height", each.air_draft}}};
    passage.vessel["air_draft_is"] = each.basis;
    const PassageRun run = passage.make();
    ASSERT_EQ(run.program.status, 0) << run.program.err;
    EXPECT_EQ(run.brief.at("verdict"), "outside limits") << run.text;
    const json& bridge = run.named("bridges", "High Bridge");
    EXPECT_NEAR(bridge.at("gauge_reads_m").get<double>() / kFoot_m, 63.417, 0.0005) << bridge;
    EXPECT_NEAR(bridge.at("over_mast_m").get<double>() / kFoot_m, each.over_mast_ft, 0.0005)
        << bridge;
    expect_says(run, {"63.4", each.gauge_at_least});
    expect_not_within(run);
  }
}

/// C6, NTSB DCA22FM012: the height of a crane estimated at about 60 ft in the dark. Fixture: 73 ft
/// of clearance on arrival. 13 ft of room on an estimate is not room; measured, it is.
TEST(Incident, C6HeightEstimated) {
  PassageCase passage = bridge_passage(73, 3.0);
  passage.vessel["air_draft"] = {{{"antennas", "up"}, {"height", "60 ft"}}};
  for (const std::string basis : {"told", "estimated"}) {
    passage.vessel["air_draft_is"] = basis;
    const PassageRun run = passage.make();
    ASSERT_EQ(run.program.status, 0) << run.program.err;
    EXPECT_EQ(run.brief.at("verdict"), "cannot tell") << run.text;
    expect_says(run, {basis, "measure", "High Bridge"});
    expect_not_within(run);
  }
  passage.vessel["air_draft_is"] = "measured";
  const PassageRun measured = passage.make();
  ASSERT_EQ(measured.program.status, 0) << measured.program.err;
  EXPECT_TRUE(measured.brief.at("verdict") == "within limits" ||
              measured.brief.at("verdict") == "cautions")
      << measured.text;
}

/// C7, TAIC MO-2016-206: a charter boat crosses a harbour bar outward in the morning and comes back
/// on the ebb in a rising swell. Fixture: bar 4.0 m deep, shut where waves are over 1.5 m;
/// draft 1.2 m; waves 1.0 m at 08:00, 2.5 m at 14:00. Under the keel at datum there are 4.0 - 1.2
/// = 2.8 m less squat and half a wave: depth alone never opens it.
TEST(Incident, C7BarShutOnTheWayBack) {
  PassageCase passage = straight_channel();
  passage.departs = "2026-06-14T08:00";
  passage.now = "2026-06-14T07:00:00Z";
  passage.vessel["draft"] = "1.2 m";
  passage.add_feature({{"feature", "bar"},
                       {"name", "Harbour Bar"},
                       {"depth", "4 m"},
                       {"surveyed", "2026-06-01"},
                       {"survey_quality", "channel survey"},
                       {"bottom", "sand"},
                       {"open_to_seas", {200, 320}},
                       {"tide", "Here"}},
                      kGround.line({{-190, 900}, {190, 900}}));
  passage.rules["cautions"].push_back(
      {{"id", "bar shut by seas"},
       {"for_each", "bar"},
       {"when", {{"wave_height", {{"more_than", "1.5 m"}}}}},
       {"grade", "danger"},
       {"limit", true},
       {"say", "{bar}: waves of {wave_height} at {time}. Do not cross: wait inside, or outside."},
       {"source", "fixture"}});
  for (json& hour : passage.winds.at(0).at("hours")) {
    const int at = std::stoi(hour.at("at").get<std::string>().substr(11, 2));
    hour["wave"] = at < 12 ? "1 m" : "2.5 m";
  }
  const PassageRun out = passage.make();
  ASSERT_EQ(out.program.status, 0) << out.program.err;
  EXPECT_TRUE(out.brief.at("verdict") == "within limits" || out.brief.at("verdict") == "cautions")
      << out.text;
  EXPECT_TRUE(out.brief.at("back").is_null());
  const auto bar = std::ranges::find_if(
      out.brief.at("back_until"), [](const json& one) { return one.at("name") == "Harbour Bar"; });
  ASSERT_NE(bar, out.brief.at("back_until").end());
  EXPECT_EQ(bar->at("depth_only"), true);
  expect_says(out, {"wind, sea or ebb may shut Harbour Bar sooner"});

  passage.more_arguments = {"--stay", "5 h 45 min", "--back", "reversed"};
  const PassageRun both = passage.make();
  ASSERT_EQ(both.program.status, 0) << both.program.err;
  EXPECT_EQ(both.brief.at("verdict"), "outside limits") << both.text;
  const json& back = both.brief.at("back");
  EXPECT_EQ(back.at("verdict"), "outside limits");
  EXPECT_EQ(back.at("passage").at("departs").get<std::string>().substr(0, 13), "2026-06-14T13");
  const json& said = back.at("passage").at("cautions").at(0);
  EXPECT_EQ(said.at("grade"), "danger");
  EXPECT_EQ(said.at("about"), "Harbour Bar");
  expect_says(both, {"DANGER, a limit, way back: Harbour Bar"});
  expect_not_within(both);
  for (const json& depth : back.at("passage").at("depths")) {
    if (depth.at("name") == "Harbour Bar") {
      EXPECT_GT(depth.at("under_keel_m").get<double>(), 1.5);  // 2.8 less squat and 1.25 of wave
    }
  }
}

}  // namespace
}  // namespace passage_brief
