// What the corridor of the hull must find, and how often, through the program from files.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "given/passage_case.h"

namespace passage_brief {
namespace {

using given::kGround;
using given::PassageCase;
using given::PassageRun;
using given::straight_channel;
using nlohmann::json;

void add_sounding(PassageCase& passage, const char* name, const char* depth, const char* bottom,
                  const char* quality, double east_m, double north_m) {
  passage.add_feature({{"feature", "sounding"},
                       {"name", name},
                       {"depth", depth},
                       {"surveyed", "2026-06-01"},
                       {"survey_quality", quality},
                       {"bottom", bottom},
                       {"tide", "Here"}},
                      kGround.point(east_m, north_m));
}

PassageRun made(const PassageCase& passage) {
  PassageRun run = passage.make();
  EXPECT_EQ(run.program.status, 0) << run.program.err;
  return run;
}

/// A shoal sounding of 0.5 m, charted somewhere in ten metres of water.
PassageRun with_sounding(double east_m, double north_m) {
  PassageCase passage = straight_channel();
  add_sounding(passage, "Lump", "0.5 m", "mud", "channel survey", east_m, north_m);
  return made(passage);
}

double charted_m(const PassageRun& run) {
  return run.named("depths", "Straight Channel").at("charted_m").get<double>();
}

/// A single sounding stands between any two samples one might take; 617.3 m is a multiple of
/// nothing.
TEST(Corridor, AShoalBetweenSamplesControls) {
  for (const double north_m : {3.0, 617.3, 1304.9, 1849.1}) {
    const PassageRun run = with_sounding(0, north_m);
    EXPECT_NEAR(charted_m(run), 0.5, 0.0001) << north_m;
    EXPECT_EQ(run.brief.at("verdict"), "outside limits")
        << run.text;  // 0.5 + 1.0 - 1.2 is under 2 ft
  }
}

PassageRun with_lump_and_ledge(const char* lump, const char* quality_of_ledge) {
  PassageCase passage = straight_channel();
  add_sounding(passage, "Lump", lump, "mud", "channel survey", 0, 500);
  add_sounding(passage, "Ledge", "1.2 m", "rock", quality_of_ledge, 0, 900);
  return made(passage);
}

/// Rock with less than 3 ft over it shuts the way, whatever mud with 2 ft over it lies shoaler:
/// 1.2 + 1.0 - 1.2 = 1.0 m, less squat and wash.
TEST(Corridor, AShoalerLumpOfMudHidesNoLedge) {
  for (const char* lump : {"9 m", "1.15 m"}) {
    const PassageRun run = with_lump_and_ledge(lump, "channel survey");
    EXPECT_EQ(run.brief.at("verdict"), "outside limits") << lump << run.text;
  }
  const PassageRun both = with_lump_and_ledge("1.15 m", "channel survey");
  EXPECT_NEAR(charted_m(both), 1.15, 0.0001);
  const json& ledge = both.named("depths", "Hard ground in Straight Channel");
  EXPECT_NEAR(ledge.at("charted_m").get<double>(), 1.2, 0.0001);
  EXPECT_EQ(ledge.at("bottom"), "rock");
  // The head of the page has the least, and beside it what is nearer to what is wanted there.
  const auto nearest = both.brief.at("nearest_margin").get<std::size_t>();
  EXPECT_EQ(both.brief.at("depths").at(nearest), ledge);
  const std::string said = "nearest its margin: Hard ground in Straight Channel";
  EXPECT_NE(both.text.find(said), std::string::npos) << both.text;
  EXPECT_EQ(with_lump_and_ledge("9 m", "channel survey").text.find("nearest its margin"),
            std::string::npos);
}

/// What has no stated accuracy (CATZOC D) could be anything: that, too, is said wherever it lies.
TEST(Corridor, AShoalerLumpHidesNothingThatIsChartedLessSurely) {
  const PassageRun run = with_lump_and_ledge("1.15 m", "D");
  const json& ledge = run.named("depths", "Hard ground in Straight Channel");
  EXPECT_TRUE(ledge.at("under_keel_could_be_m").is_null());
}

/// Half the beam (2.06 m) alone reaches 2 m off the line, and track margin and position error more;
/// no margin in the shipped rules reaches 80 m.
TEST(Corridor, AShoalOffTheLineControlsInsideTheCorridorOnly) {
  EXPECT_NEAR(charted_m(with_sounding(2, 617.3)), 0.5, 0.0001);
  EXPECT_NEAR(charted_m(with_sounding(-8, 617.3)), 0.5, 0.0001);
  EXPECT_NEAR(charted_m(with_sounding(80, 617.3)), 10, 0.0001);
  EXPECT_NEAR(charted_m(with_sounding(-80, 617.3)), 10, 0.0001);
}

/// A hazard 25 m off whose place is only known within 20 m may lie in the corridor.
TEST(Corridor, AHazardCountsWhereverItMayLie) {
  PassageCase passage = straight_channel();
  passage.add_feature({{"feature", "hazard"},
                       {"name", "Old Stump"},
                       {"what", "stump"},
                       {"depth", "0.5 m"},
                       {"bottom", "mud"},
                       {"tide", "Here"}},
                      kGround.point(25, 900));
  EXPECT_NEAR(charted_m(passage.make()), 10, 0.0001);
  passage.feature("Old Stump")["position_within"] = "20 m";
  EXPECT_NEAR(charted_m(passage.make()), 0.5, 0.0001);
}

std::size_t count_of(const json& list, const std::string& key, const std::string& name) {
  std::size_t count = 0;
  for (const json& entry : list) count += entry.at(key) == name ? 1 : 0;
  return count;
}

/// A mark abeam, a bridge over and a danger beside the very end of a leg belong to both legs and
/// are one thing each. Once with the route going straight on, once with a bend away from the rock.
TEST(Corridor, ThingsAtALegsEndAreCountedOnce) {
  for (const double bend_m : {0.0, -90.0}) {
    PassageCase passage = straight_channel();
    passage.route["properties"]["points"] = {"South end", "Middle", "North end"};
    passage.route["geometry"] = kGround.line({{0, 0}, {0, 926}, {bend_m, 1852}});
    passage.add_feature({{"feature", "mark"},
                         {"name", "Red 2"},
                         {"colour", "red"},
                         {"shape", "triangle"},
                         {"hand", "starboard"},
                         {"region", "B"},
                         {"direction_of_buoyage", "Straight Channel"},
                         {"structure", "daybeacon"},
                         {"kept_by", "authority"}},
                        kGround.point(60, 926));
    passage.add_feature({{"feature", "bridge"},
                         {"name", "Middle Bridge"},
                         {"what", "fixed"},
                         {"clearance", "30 m"},
                         {"clearance_of", "low steel"},
                         {"width", "100 ft"},
                         {"clearance_gauge", true},
                         {"tide", "Here"}},
                        kGround.line({{-400, 926}, {400, 926}}));
    passage.add_feature({{"feature", "hazard"},
                         {"name", "Lee Rock"},
                         {"what", "rock"},
                         {"above_water", true},
                         {"bottom", "rock"},
                         {"tide", "Here"}},
                        kGround.point(170, 926));
    for (json& hour : passage.winds.at(0).at("hours")) {
      hour["from"] = 270;
      hour["speed"] = "12 kn";
      hour["gust"] = "15 kn";
    }
    const PassageRun run = passage.make();
    ASSERT_EQ(run.program.status, 0) << run.program.err;
    EXPECT_EQ(count_of(run.brief.at("marks"), "name", "Red 2"), 1u) << run.brief.at("marks");
    EXPECT_EQ(count_of(run.brief.at("bridges"), "name", "Middle Bridge"), 1u)
        << run.brief.at("bridges");
    EXPECT_EQ(count_of(run.brief.at("to_leeward"), "danger", "Lee Rock"), 1u)
        << run.brief.at("to_leeward");
  }
}

// What is drawn and not known is never what lies under it.
TEST(Corridor, ADepthAreaOrABarWithoutADepthIsNotKnown) {
  for (const char* kind : {"depth_area", "bar"}) {
    PassageCase passage = straight_channel();
    json properties = {{"feature", kind}, {"name", "Dark"}, {"bottom", "mud"}, {"tide", "Here"}};
    const bool area = std::string(kind) == "depth_area";
    properties[area ? "least_depth" : "depth"] = nullptr;
    passage.add_feature(properties,
                        area ? kGround.polygon({{-50, 500}, {50, 500}, {50, 600}, {-50, 600}})
                             : kGround.line({{-100, 550}, {100, 550}}));
    const PassageRun run = passage.make();
    EXPECT_EQ(run.program.status, 0) << run.program.err;
    EXPECT_EQ(run.brief.at("verdict"), "cannot tell") << kind;
  }
}

// Held on a course north through a current of 3 kn from the east at 5 kn she points up 36.9 degrees
// (sin = 3 / 5) to 037: a wind from 020, on the starboard bow of the course, is on her port bow and
// blows her to starboard.
TEST(Corridor, LeewayIsFeltByTheBowAsItPoints) {
  PassageCase passage = straight_channel();
  passage.vessel["speeds"] = {{"slow", "5 kn"}, {"cruise", "5 kn"}};
  for (json& hour : passage.winds.at(0).at("hours")) {
    hour["from"] = 20;
    hour["speed"] = "20 kn";
    hour["gust"] = "20 kn";
  }
  json& station = passage.currents.at(0);
  const auto falls_off_to = [&](double kn) {
    for (json& row : station.at("speeds").at("rows")) row.at(1) = kn;
    return passage.make().brief.at("legs").at(0).at("falls_off_to");
  };
  station["flood_toward"] = 270;
  station["ebb_toward"] = 90;
  EXPECT_EQ(falls_off_to(0.01), "port");
  EXPECT_EQ(falls_off_to(3), "starboard");
}

/// Found 2026-11-26: two lines of one name and minute bade stop at 2.2 m and at 0.8 m. The ground
/// tells them apart. Surveys by S-57, CATZOC at 95 %: channel 0.3 m (EM 1110-2-1003, from
/// memory), B 1 m + 2 %, C 2 m + 5 %: each of the three could be less than the one before.
TEST(Corridor, NoTwoPartsOfAReachHaveOneName) {
  PassageCase passage = straight_channel();
  add_sounding(passage, "Gravel bank", "2.0 m", "gravel", "channel survey", 0, 900);
  add_sounding(passage, "Ledge", "2.2 m", "rock", "B", 0, 900);
  add_sounding(passage, "Lump", "2.4 m", "mud", "C", 0, 900);
  const PassageRun run = made(passage);
  const std::string part = "Least sure part of Straight Channel";
  EXPECT_EQ(run.named("depths", part + " (rock)").at("bottom"), "rock");
  EXPECT_EQ(run.named("depths", part + " (mud, tide not rising)").at("bottom"), "mud");
}

}  // namespace
}  // namespace passage_brief
