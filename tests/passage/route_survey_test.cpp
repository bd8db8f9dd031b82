// Geometry by hand: every expected figure follows from the metres in the drawing.
#include "passage/route_survey.h"

#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "given/open_water.h"

namespace passage_brief {
namespace {

using given::at;
using given::oblong;

/// Due north for 1 km through deep water 200 m wide.
Waterway deep_water() {
  Waterway water = given::empty_waterway();
  water.depth_areas.push_back(given::plain_area("deep", oblong(-100, -100, 100, 1100), metres(9)));
  return water;
}

const Plan kKilometreNorth = given::plan_along({at(0, 0), at(0, 1000)});

std::vector<DepthOnTrack> depths(const Waterway& water, const Plan& plan = kKilometreNorth,
                                 int step = 0) {
  return RouteSurvey(plan, water, given::plain_margins()).depths(0, step);
}

bool names(const std::vector<DepthOnTrack>& all, const std::string& source) {
  for (const DepthOnTrack& depth : all) {
    if (depth.source.name == source) return true;
  }
  return false;
}

// Half the corridor: half the beam 2 m + track 5 m + position 3 m = 10 m.
TEST(RouteSurvey, ShoalOffTheLineInsideTheCorridorIsFound) {
  Waterway water = deep_water();
  water.depth_areas.push_back(given::plain_area("patch", oblong(9, 500, 9.5, 500.3), metres(1)));
  EXPECT_TRUE(names(depths(water), "patch"));
}

TEST(RouteSurvey, ShoalJustOutsideTheCorridorIsNotInIt) {
  Waterway water = deep_water();
  water.depth_areas.push_back(
      given::plain_area("patch", oblong(10.2, 500, 10.7, 500.3), metres(1)));
  EXPECT_FALSE(names(depths(water), "patch"));
  // To leeward the first step adds 1.5 m, on the side of the step only.
  EXPECT_TRUE(names(depths(water, kKilometreNorth, 1), "patch"));
  EXPECT_FALSE(names(depths(water, kKilometreNorth, -1), "patch"));
}

TEST(RouteSurvey, PlaceOfAShoalAlongTheTrack) {
  Waterway water = deep_water();
  water.depth_areas.push_back(given::plain_area("patch", oblong(3, 500, 4, 520), metres(1)));
  for (const DepthOnTrack& depth : depths(water)) {
    if (depth.source.name != "patch") continue;
    // The plane of the drawing and the rhumb differ by less than 0.1 m in 500.
    EXPECT_NEAR(in_metres(depth.begin), 500, 0.1);
    EXPECT_NEAR(in_metres(depth.end), 520, 0.1);
  }
}

TEST(RouteSurvey, SoundingCoversNoArea) {
  Waterway water = given::empty_waterway();
  water.soundings.push_back({{"sounding 1", water.stations},
                             at(1, 500),
                             metres(3),
                             std::chrono::year(2026) / 1 / 1,
                             SurveyQuality::channel_survey,
                             Bottom::mud});
  const auto found = depths(water);
  EXPECT_TRUE(names(found, "sounding 1"));
  EXPECT_TRUE(names(found, "no depth on file"));
}

TEST(RouteSurvey, GapInTheCoverIsFoundAndASliverIsNot) {
  for (const auto& [gap_m, found] :
       std::vector<std::pair<double, bool>>{{1.0, true}, {0.02, false}}) {
    Waterway water = given::empty_waterway();
    water.depth_areas.push_back(
        given::plain_area("south", oblong(-100, -100, 100, 500), metres(9)));
    water.depth_areas.push_back(
        given::plain_area("north", oblong(-100, 500 + gap_m, 100, 1100), metres(9)));
    EXPECT_EQ(names(depths(water), "no depth on file"), found) << gap_m << " m";
  }
}

TEST(RouteSurvey, AreaWithoutADepthIsNotKnownWhateverElseIsDrawnThere) {
  Waterway water = given::empty_waterway();
  water.depth_areas.push_back(
      given::plain_area("blank", oblong(-100, -100, 100, 1100), not_known("the survey ends here")));
  const auto bare = depths(water);
  ASSERT_TRUE(names(bare, "blank"));
  EXPECT_EQ(bare.front().source.charted.error().reasons.front(), "the survey ends here");
  water.depth_areas.push_back(given::plain_area("deep", oblong(-100, -100, 100, 1100), metres(9)));
  EXPECT_TRUE(names(depths(water), "blank"));
  EXPECT_TRUE(names(depths(water), "deep"));
}

// A reach may be drawn for its name and stations alone.
TEST(RouteSurvey, ReachWithoutADepthIsAHoleUnlessAnotherCovers) {
  Waterway water = given::empty_waterway();
  Reach reach = given::plain_reach("Cut", {at(0, -100), at(0, 1100)}, metres(80), metres(4));
  reach.controlling_depth = not_known("no survey");
  water.reaches.push_back(reach);
  EXPECT_TRUE(names(depths(water), "controlling depth of Cut"));
  water.depth_areas.push_back(given::plain_area("deep", oblong(-100, -100, 100, 1100), metres(9)));
  EXPECT_FALSE(names(depths(water), "controlling depth of Cut"));
}

TEST(RouteSurvey, DepthOfTheMiddleHalfSaysNothingOfTheQuarters) {
  // 30 m wide: the middle half is 15 m, the corridor 20 m.
  Waterway water = given::empty_waterway();
  Reach reach = given::plain_reach("Cut", {at(0, -100), at(0, 1100)}, metres(30), metres(4));
  reach.applies_to = ChannelPart::middle_half;
  water.reaches.push_back(reach);
  const auto found = depths(water);
  bool explained = false;
  for (const DepthOnTrack& depth : found) {
    explained = explained || (!depth.source.charted.has_value() &&
                              depth.source.charted.error().reasons.front().find(
                                  "middle half only") != std::string::npos);
  }
  EXPECT_TRUE(explained);
  EXPECT_TRUE(names(found, "controlling depth of Cut"));
}

// Found on 2026-11-26: a reach that says of no part that its depth applies to it was told to have
// one in its centerline.
TEST(RouteSurvey, DepthOfNoStatedPartIsNoDepthOfTheCenterline) {
  Reach reach = given::plain_reach("Cut", {at(0, -100), at(0, 1100)}, metres(80), metres(4));
  reach.controlling_depth = not_known("the part is not stated");
  reach.applies_to = std::nullopt;
  Reach area = reach;
  area.shape = oblong(-40, -100, 40, 1100);
  area.width = std::nullopt;
  for (const Reach& drawn : {reach, area}) {
    Waterway water = given::empty_waterway();
    water.reaches.push_back(drawn);
    const auto found = depths(water);
    EXPECT_TRUE(names(found, "controlling depth of Cut"));
    for (const DepthOnTrack& depth : found) {
      ASSERT_FALSE(depth.source.charted.has_value());
      EXPECT_EQ(in_words(depth.source.charted.error()), "the part is not stated");
    }
  }
}

TEST(RouteSurvey, QuartersAreNamedFromSeaward) {
  // Drawn northward from seaward, 80 m wide: the left outside quarter lies 20 to 40 m west.
  Waterway water = given::empty_waterway();
  Reach reach = given::plain_reach("Cut", {at(0, -100), at(0, 1100)}, metres(80), metres(4));
  reach.applies_to = ChannelPart::left_outside_quarter;
  water.reaches.push_back(reach);
  const Plan west = given::plan_along({at(-30, 0), at(-30, 1000)});
  const Plan west_outbound = given::plan_along({at(-30, 1000), at(-30, 0)});
  const Plan east = given::plan_along({at(30, 0), at(30, 1000)});
  EXPECT_TRUE(names(depths(water, west), "controlling depth of Cut"));
  EXPECT_TRUE(names(depths(water, west_outbound), "controlling depth of Cut"));
  EXPECT_FALSE(names(depths(water, east), "controlling depth of Cut"));
}

TEST(RouteSurvey, PiledChannelClipsTheCorridor) {
  // Pilings 8 m from the line; the patch 9 m off would lie inside a free corridor.
  Waterway water = deep_water();
  water.depth_areas.push_back(given::plain_area("patch", oblong(9, 500, 9.5, 501), metres(1)));
  Reach reach = given::plain_reach("Fairway", {at(0, -50), at(0, 1050)}, metres(16), metres(4));
  reach.piled = true;
  water.reaches.push_back(reach);
  EXPECT_FALSE(names(depths(water), "patch"));
  water.reaches.back().piled = false;
  EXPECT_TRUE(names(depths(water), "patch"));
}

TEST(RouteSurvey, HazardCountsWithinItsPositionError) {
  Waterway water = deep_water();
  water.hazards.push_back({{"wreck", water.stations},
                           Shape(at(25, 500)),
                           "wreck",
                           metres(1),
                           false,
                           metres(16),
                           Bottom::rock});
  EXPECT_TRUE(names(depths(water), "wreck"));  // 25 - 16 = 9 m < 10 m
  water.hazards.back().position_within = metres(14);
  EXPECT_FALSE(names(depths(water), "wreck"));
}

TEST(RouteSurvey, TurnSweepsHalfALengthMore) {
  // At the turn the corridor reaches 10 + 5 = 15 m round the point; the patch is 13 m past it.
  Waterway water = given::empty_waterway();
  water.depth_areas.push_back(given::plain_area("deep", oblong(-200, -200, 1200, 1200), metres(9)));
  water.depth_areas.push_back(
      given::plain_area("patch", oblong(-12, 1007, -11.5, 1007.3), metres(1)));
  const Plan turn = given::plan_along({at(0, 0), at(0, 1000), at(800, 1000)});
  EXPECT_TRUE(names(depths(water, turn), "patch"));
}

Mark mark_at(Position place) {
  return {{"1", given::empty_waterway().stations},
          place,
          "green",
          "can",
          MarkHand::port,
          BuoyageRegion::b,
          TrueBearing::from_degrees(0),
          std::nullopt,
          std::nullopt,
          KeptBy::authority,
          MarkStructure::buoy};
}

TEST(RouteSurvey, ThingsAtALegsEndAreMetOnce) {
  Waterway water = given::empty_waterway();
  water.bridges.push_back({{"Bridge", water.stations},
                           LineShape{at(-50, 1000), at(50, 1000)},
                           BridgeKind::fixed,
                           metres(8),
                           ClearanceOf::low_steel,
                           not_known("fixed"),
                           false,
                           metres(20),
                           true,
                           std::nullopt,
                           std::nullopt,
                           std::nullopt});
  water.marks.push_back(mark_at(at(-20, 1000)));
  const Plan straight = given::plan_along({at(0, 0), at(0, 1000), at(0, 2000)});
  const RouteSurvey survey(straight, water, given::plain_margins());
  ASSERT_EQ(survey.bridges().size(), 1U);
  EXPECT_NEAR(in_metres(survey.bridges().front().along), 1000, 0.2);
  ASSERT_EQ(survey.marks().size(), 1U);
  EXPECT_LT(survey.marks().front().side, 0);
}

Bridge bridge_at(const std::variant<PointShape, LineShape>& shape) {
  return {{"Bridge", {"Gauge", "none", "CD", "MHW"}},
          shape,
          BridgeKind::fixed,
          metres(8),
          ClearanceOf::low_steel,
          not_known("fixed"),
          false,
          metres(20),
          true,
          std::nullopt,
          std::nullopt,
          std::nullopt};
}

std::vector<Meeting> bridges_met(const Waterway& drawn, const Bridge& bridge, const Plan& plan) {
  Waterway water = drawn;
  water.bridges = {bridge};
  return RouteSurvey(plan, water, given::plain_margins()).bridges();
}

/// Found 2026-11-26: a bridge drawn as a point 52 m off the track was none, in a channel 200 m
/// wide. Within 50 m, or the width of its reach.
TEST(RouteSurvey, ABridgeDrawnAsAPointIsPassedWithinTheWidthOfItsReach) {
  const Waterway wide = given::north_channel(metres(9));
  EXPECT_EQ(bridges_met(wide, bridge_at(at(52, 900)), given::plan_north()).size(), 1U);
  EXPECT_EQ(bridges_met(wide, bridge_at(at(195, 900)), given::plan_north()).size(), 0U)
      << "95 m beside its reach";
  Waterway narrow = given::empty_waterway();
  narrow.reaches.push_back(
      given::plain_reach("Reach", {at(0, -100), at(0, 2100)}, metres(60), metres(9)));
  EXPECT_EQ(bridges_met(narrow, bridge_at(at(49, 900)), given::plan_north()).size(), 1U);
  EXPECT_EQ(bridges_met(narrow, bridge_at(at(58, 900)), given::plan_north()).size(), 1U);
  EXPECT_EQ(bridges_met(narrow, bridge_at(at(70, 900)), given::plan_north()).size(), 0U);
}

/// Found 2026-11-26: who landed 45 m below a bridge drawn as a point had passed it. With a short
/// last leg too, which the leg before it does not come nearer than.
TEST(RouteSurvey, ABridgeBeyondTheLastPointIsNotPassed) {
  const Waterway water = given::north_channel(metres(9));
  const Bridge low = bridge_at(at(0, 1045));
  EXPECT_EQ(bridges_met(water, low, kKilometreNorth).size(), 0U);
  EXPECT_EQ(
      bridges_met(water, low, given::plan_along({at(10, 0), at(10, 960), at(0, 1000)})).size(), 0U);
  EXPECT_EQ(bridges_met(water, low, given::plan_along({at(0, 1090), at(0, 2000)})).size(), 0U);
  EXPECT_EQ(bridges_met(water, low, given::plan_north()).size(), 1U);
}

/// Found 2026-11-26: up through a drawbridge, round 44 m beyond it and back was one passing. A deck
/// drawn with both its edges is one.
TEST(RouteSurvey, ABridgeIsPassedAgainOnTurningBack) {
  const Waterway water = given::north_channel(metres(9));
  const Bridge draw = bridge_at(LineShape{at(-50, 956), at(50, 956)});
  const std::vector<Meeting> twice =
      bridges_met(water, draw, given::plan_along({at(0, 0), at(0, 1000), at(0, 0)}));
  ASSERT_EQ(twice.size(), 2U);
  EXPECT_NEAR(in_metres(twice[0].along), 956, 0.5);
  EXPECT_NEAR(in_metres(twice[1].along), 1044, 0.5);
  const Bridge deck =
      bridge_at(LineShape{at(-50, 940), at(50, 940), at(50, 956), at(-50, 956), at(-50, 940)});
  EXPECT_EQ(bridges_met(water, deck, kKilometreNorth).size(), 1U);
}

/// 5 m beside the track, of which the corridor takes 10 m; over two legs.
TEST(RouteSurvey, WhatLiesAlongTheTrackIsMetFromEndToEnd) {
  const Waterway water = given::north_channel(metres(9));
  const Bridge viaduct = bridge_at(LineShape{at(5, 400), at(5, 1500)});
  const std::vector<Meeting> met =
      bridges_met(water, viaduct, given::plan_along({at(0, 0), at(0, 1000), at(0, 2000)}));
  ASSERT_EQ(met.size(), 1U);
  EXPECT_NEAR(in_metres(met.front().along), 400, 0.5);
  EXPECT_NEAR(in_metres(met.front().begin), 400, 0.5);
  EXPECT_NEAR(in_metres(met.front().end), 1500, 0.5);
}

/// Found 2026-11-26: up, down and up the same water, every mark was told once. It lies 20 m to port
/// going north, 20 m to starboard coming back.
TEST(RouteSurvey, AMarkIsMetAtEveryPass) {
  Waterway water = deep_water();
  water.marks.push_back(mark_at(at(-20, 900)));
  const Plan plan = given::plan_along({at(0, 0), at(0, 1000), at(0, 0), at(0, 1000)});
  const RouteSurvey survey(plan, water, given::plain_margins());
  ASSERT_EQ(survey.marks().size(), 3U);
  EXPECT_NEAR(in_metres(survey.marks()[0].along), 900, 0.5);
  EXPECT_NEAR(in_metres(survey.marks()[1].along), 1100, 0.5);
  EXPECT_NEAR(in_metres(survey.marks()[2].along), 2900, 0.5);
  EXPECT_LT(survey.marks()[0].side, 0);
  EXPECT_GT(survey.marks()[1].side, 0);
  EXPECT_LT(survey.marks()[2].side, 0);
}

/// Inside of a bend it is abeam of both legs, and is passed once, where it is nearer.
TEST(RouteSurvey, AMarkInABendIsMetOnce) {
  Waterway water = deep_water();
  water.marks.push_back(mark_at(at(40, 970)));
  const Plan plan = given::plan_along({at(0, 0), at(0, 1000), at(1000, 1000)});
  const RouteSurvey survey(plan, water, given::plain_margins());
  ASSERT_EQ(survey.marks().size(), 1U);
  EXPECT_NEAR(in_metres(survey.marks().front().off), 30, 0.5);
  EXPECT_NEAR(in_metres(survey.marks().front().along), 1040, 0.5);
}

/// Where the way turns back at the mark itself it is one pass, and one where it is out of sight
/// between two that have the same course.
TEST(RouteSurvey, AMarkAtTheTurningPointIsMetOnceAndAgainWhenComeBackTo) {
  Waterway water = deep_water();
  water.marks.push_back(mark_at(at(0, 1030)));
  const Plan back = given::plan_along({at(0, 0), at(0, 1000), at(0, 0)});
  EXPECT_EQ(RouteSurvey(back, water, given::plain_margins()).marks().size(), 1U);
  water.marks.front() = mark_at(at(0, 30));
  const Plan round = given::plan_along(
      {at(-100, 0), at(900, 0), at(900, 2000), at(-900, 2000), at(-900, 0), at(100, 0)});
  EXPECT_EQ(RouteSurvey(round, water, given::plain_margins()).marks().size(), 2U);
}

TEST(RouteSurvey, RunsJoinEndToEnd) {
  Waterway water = given::empty_waterway();
  water.reaches.push_back(given::plain_reach("A", {at(0, 100), at(0, 400)}, metres(60), metres(4)));
  water.reaches.push_back(given::plain_reach("B", {at(0, 400), at(0, 700)}, metres(60), metres(5)));
  const RouteSurvey survey(kKilometreNorth, water, given::plain_margins());
  ASSERT_EQ(survey.runs().size(), 4U);  // outside, A, B, outside
  EXPECT_FALSE(survey.runs()[0].reach.has_value());
  EXPECT_EQ(survey.runs()[1].reach, 0U);
  EXPECT_EQ(survey.runs()[2].reach, 1U);
  for (std::size_t i = 0; i + 1 < survey.runs().size(); ++i) {
    EXPECT_EQ(survey.runs()[i].end, survey.runs()[i + 1].begin);
  }
  EXPECT_EQ(survey.runs().back().end, survey.track().length);
}

TEST(RouteSurvey, ReachesThatMeetAtABendLeaveNoWedge) {
  // Two lines meet at 45 degrees; on the outside of the bend a 24 m corridor in a 60 m channel
  // would see a wedge of no depth and the track one of no reach (found 2026-11-25 in the demo
  // waters).
  Waterway water = given::empty_waterway();
  water.reaches.push_back(
      given::plain_reach("A", {at(0, -100), at(0, 500)}, metres(60), metres(4)));
  water.reaches.push_back(
      given::plain_reach("B", {at(0, 500), at(600, 1100)}, metres(60), metres(5)));
  const Plan bend = given::plan_along({at(-4, 0), at(-4, 502), at(500, 1000)});
  const RouteSurvey survey(bend, water, given::plain_margins());
  EXPECT_EQ(survey.runs().size(), 2U);
  for (const std::size_t stretch : {0U, 1U}) {
    EXPECT_FALSE(names(survey.depths(stretch, 0), "no depth on file")) << stretch;
  }
}

TEST(RouteSurvey, TrackAcrossTheDateLine) {
  const Plan across = given::plan_along({position_at(10, 179.99), position_at(10, -179.99)});
  const RouteSurvey survey(across, given::empty_waterway(), given::plain_margins());
  // 0.02 degrees of longitude in latitude 10: 0.02 x 109,641 m (WGS 84, a cos B / sqrt(1 - e2 sin2
  // B)).
  EXPECT_NEAR(in_metres(survey.track().length), 2192.8, 1);
}

TEST(RouteSurvey, AStepThatMeetsNothingNewIsAsNarrow) {
  Waterway water = deep_water();
  water.depth_areas.push_back(given::plain_area("patch", oblong(14, 500, 15, 501), metres(1)));
  const RouteSurvey survey(kKilometreNorth, water, given::plain_margins());
  // Half the corridor is 10 m; the steps add 1.5, 3, 6 and 12 m.
  EXPECT_EQ(survey.as_narrow_as(0, 0), 0);
  EXPECT_EQ(survey.as_narrow_as(0, 2), 0);
  EXPECT_EQ(survey.as_narrow_as(0, 3), 3);
  EXPECT_EQ(survey.as_narrow_as(0, 4), 3);
  EXPECT_EQ(survey.as_narrow_as(0, -4), 0);
}

// The edge of the shoal runs off the line by 1 in 4: 1.5 m more of corridor meet it 6 m sooner; by
// 1 in 1 the same 1.5 m make 1.5 m, which is nothing new.
TEST(RouteSurvey, AStepThatMeetsADepthMuchSoonerIsNotAsNarrow) {
  for (const auto& [run_m, step] : {std::pair(40.0, 1), std::pair(10.0, 0)}) {
    Waterway water = deep_water();
    water.depth_areas.push_back(
        given::plain_area("bank",
                          {{{at(0, 500), at(10, 500 - run_m), at(20, 500 - 2 * run_m), at(20, 600),
                             at(0, 600), at(0, 500)}}},
                          metres(2)));
    const RouteSurvey survey(kKilometreNorth, water, given::plain_margins());
    EXPECT_EQ(survey.as_narrow_as(0, 1), step) << run_m;
  }
}

/// Half her length before and behind the bar is a piece by itself: 495 to 505 m. It slows her; it
/// is told beside the depths of the reach, not among them.
TEST(RouteSurvey, ABarIsAmongWhatSlowsHer) {
  Waterway water = deep_water();
  water.depth_areas.push_back(given::plain_area("patch", oblong(14, 700, 15, 701), metres(1)));
  water.bars.push_back({{"Bar", water.stations},
                        {at(-200, 500), at(200, 500)},
                        metres(2),
                        not_known("no date"),
                        SurveyQuality::not_stated,
                        Bottom::sand,
                        std::nullopt});
  const RouteSurvey survey(kKilometreNorth, water, given::plain_margins());
  const std::vector<SurveyedPiece>& pieces = survey.pieces(0, 0);
  ASSERT_EQ(pieces.size(), 3U);
  EXPECT_NEAR(in_metres(pieces[1].begin), 495, 0.1);
  EXPECT_NEAR(in_metres(pieces[1].end), 505, 0.1);
  for (const std::size_t i : {0U, 1U, 2U}) {
    ASSERT_EQ(pieces[i].least.size(), 1U);
    EXPECT_EQ(pieces[i].least.front()->source.name, i == 1 ? "depth of Bar" : "deep");
    ASSERT_EQ(pieces[i].depths.size(), 1U);
    EXPECT_EQ(pieces[i].depths.front()->source.name, "deep");
  }
  // The patch is met with 6 m more; the bar is the same in every corridor.
  EXPECT_EQ(survey.as_narrow_as(0, 2), 0);
  EXPECT_EQ(survey.as_narrow_as(0, 3), 3);
  EXPECT_EQ(survey.as_narrow_as(0, 4), 3);
}

TEST(RouteSurvey, LeewardStepsRoundUp) {
  EXPECT_EQ(RouteSurvey::leeward_step(Side::starboard, metres(0.29)), 0);
  EXPECT_EQ(RouteSurvey::leeward_step(Side::starboard, metres(0.3)), 1);
  EXPECT_EQ(RouteSurvey::leeward_step(Side::starboard, metres(1.5)), 1);
  EXPECT_EQ(RouteSurvey::leeward_step(Side::port, metres(1.6)), -2);
  EXPECT_EQ(in_metres(RouteSurvey::extra_of(-2)), 3);
}

}  // namespace
}  // namespace passage_brief
