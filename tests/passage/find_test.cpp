// Whole passages over invented water, each figure worked out by hand beside it.
#include "passage/find.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "given/open_water.h"
#include "given/stations.h"
#include "passage/sweep.h"

namespace passage_brief {
namespace {

using given::at;
using given::north_channel;
using given::plan_north;

Findings findings(const Facts& facts, const Plan& plan = plan_north()) {
  const RouteSurvey survey(plan, facts.waterway, given::plain_margins());
  return find(survey, plan, facts, given::plain_margins());
}

Facts with_wind(Waterway water, double from_deg, Speed speed, Length tide = metres(1)) {
  Facts facts = given::facts_over(std::move(water), tide);
  facts.winds.push_back(given::steady_wind(from_deg, speed));
  return facts;
}

/// So many knots to the north, all the time.
CurrentStation steady_current(const std::string& name, double kn) {
  return CurrentStation(
      CurrentStationParts{name,
                          at(0, 0),
                          Zone::utc(),
                          {"current", "invented", std::nullopt},
                          knots(0.1),
                          SetToward{TrueBearing::from_degrees(0)},
                          SetToward{TrueBearing::from_degrees(180)},
                          CurrentCurve(HarmonicCurve(in_metres_per_second(knots(kn)), {}))});
}

TEST(Find, TimeIsDistanceOverSpeed) {
  // 2000 m at 6 kn (3.0867 m/s): 647.9 s. Water 11 m, over three drafts: no slowing.
  const Findings found = findings(with_wind(north_channel(metres(10)), 0, knots(0)));
  EXPECT_NEAR(in_seconds(*found.passage.arrives - found.passage.departs), 647.9, 0.5);
}

TEST(Find, ShoalWaterSlowsToHalfTheWaveSpeed) {
  // 1.0 + 1.0 m of water, under twice the draft (2.4 m): half of sqrt(9.80665 x 2) = 2.2143 m/s.
  const Findings found = findings(with_wind(north_channel(metres(1)), 0, knots(0)));
  EXPECT_NEAR(in_seconds(*found.passage.arrives - found.passage.departs), 2000 / 2.2143, 0.7);
  ASSERT_EQ(found.depths.size(), 1U);
  EXPECT_TRUE(found.depths.front().slowed_because.has_value());
}

TEST(Find, UnderKeelByHand) {
  // Water 3 + 1 = 4 m, over three drafts (3.6 m); 6 kn. Fnh = 3.0867 / sqrt(9.80665 x 4) = 0.4928.
  // Barrass open 0.5 x 36 / 100 = 0.18 m. ICORELS: volume 0.5 x 9 x 4 x 1.2 = 21.6 m3, over 81 m2 =
  // 0.26667 m; x 2.4 x 0.24288 / sqrt(1 - 0.24288) = 0.1786 m. The greater: 0.18 m.
  // Under the keel 4 - 1.2 - 0.18 = 2.62 m; the sounder measures from the keel.
  const Findings found = findings(with_wind(north_channel(metres(3)), 0, knots(0)));
  const Depth& depth = found.depths.front();
  EXPECT_NEAR(in_metres(*depth.squat), 0.18, 0.001);
  EXPECT_NEAR(in_metres(*depth.under_keel), 2.62, 0.001);
  EXPECT_NEAR(in_metres(*depth.sounder_reads), 2.62, 0.001);
  // Could be: tide 0.1, survey 0.3048 / 1.96 = 0.15551, squat 0.3 x 0.18 = 0.054:
  // 1.645 sqrt(0.01 + 0.024184 + 0.002916) = 0.3168.
  EXPECT_NEAR(in_metres(*depth.under_keel_could_be), 2.62 - 0.3168, 0.001);
}

// Found 2026-11-26: what the reach could be as little as was that of another part of it, and the
// working beside it did not give it. As above 2.62 - 0.3168 = 2.303 m. Over the sounding 3.13 + 1 -
// 1.2 - 0.18 = 2.75 m; CATZOC A1 (0.5 + 0.0313) / 1.96 = 0.27107: 1.645 sqrt(0.01 + 0.073479 +
// 0.002916) = 0.4835; 2.2665 m, less by 0.0367 m: told with the reach, and taken off there.
TEST(Find, TheWorkingGivesWhatADepthCouldBe) {
  Waterway water = north_channel(metres(3));
  water.soundings.push_back({{"sounding", water.stations},
                             at(0, 900),
                             metres(3.13),
                             std::chrono::year(2026) / 4 / 1,
                             SurveyQuality::a1,
                             Bottom::mud});
  const Findings found = findings(with_wind(std::move(water), 0, knots(0)));
  ASSERT_EQ(found.depths.size(), 1U);
  const Depth& depth = found.depths.front();
  EXPECT_NEAR(in_metres(*depth.under_keel), 2.62, 0.001);
  EXPECT_NEAR(in_metres(*depth.under_keel_could_be), 2.2665, 0.001);
  EXPECT_NEAR(in_metres(depth.off_for_parts), 0.0367, 0.001);
  double squares_m2 = 0;
  double off_m = 0;
  for (const WorkingInput& input : depth.working.inputs) {
    const auto* length = std::get_if<Length>(&input.value);
    if (input.name.starts_with("one standard deviation")) {
      squares_m2 += in_metres(*length) * in_metres(*length);
    } else if (input.name.starts_with("allowance") || input.name.starts_with("taken off")) {
      off_m += in_metres(*length);
    }
  }
  EXPECT_NEAR(
      in_metres(std::get<Length>(depth.working.result)) - 1.645 * std::sqrt(squares_m2) - off_m,
      in_metres(*depth.under_keel_could_be), 1e-9);
}

TEST(Find, WhoComesInPastMidnightHasNoDaylightLeft) {
  // Found on 2026-11-25: the sunset of the day of arrival was taken, so that a boat leaving at
  // 23:55 and in by 00:06 had most of a day before sunset. At 30 N 45 W the sun of 14 June sets at
  // about 21:55 UTC (half the day's arc, 7 h, after noon at 15:00 UTC; common practice, no source).
  Plan late = plan_north();
  late.departure.at += std::chrono::hours(11) + std::chrono::minutes(55);
  const Findings found = findings(with_wind(north_channel(metres(10)), 0, knots(0)), late);
  ASSERT_TRUE(found.light.before_sunset.has_value());
  EXPECT_NEAR(in_hours(*found.light.before_sunset), -2.2, 0.3);
}

TEST(Find, SunsetAfterMidnightIsOfTheDayBefore) {
  // Found on 2026-11-26: leaving at 11:00 on 20 June she was 11 h past the sunset of the 19th,
  // which comes after midnight. 64.1 N 22 W, 20 June 2026: declination 23.436, noon at 13:29.7 UTC;
  // cos H = (sin -0.833 - sin 64.1 sin 23.436) / (cos 64.1 cos 23.436) = -0.9290, H 633 min:
  // 00:02.7.
  const Instant june_20 = std::chrono::sys_days(std::chrono::year(2026) / 6 / 20);
  const Position begin = position_at(64.1, -22);
  const Position end = position_at(64.11, -22);
  Waterway water = given::empty_waterway();
  water.reaches.push_back(given::plain_reach("Reach", {begin, end}, metres(200), metres(10)));
  Plan north = given::plan_along({begin, end});
  north.departure.at = june_20 + std::chrono::hours(11);
  const LightFinding light = findings(with_wind(std::move(water), 0, knots(0)), north).light;
  ASSERT_TRUE(light.sunset.has_value());
  EXPECT_NEAR(in_hours(*light.sunset - june_20), 24 + 2.7 / 60, 0.03);
  EXPECT_EQ(light.after_sunrise, Known<bool>(true));
}

TEST(Find, UnknownPartStandsBesideTheKnown) {
  Waterway water = north_channel(metres(3));
  water.soundings.push_back({{"blank sounding", water.stations},
                             at(0, 900),
                             not_known("the figure is illegible"),
                             not_known("no date"),
                             SurveyQuality::not_stated,
                             Bottom::mud});
  const Findings found = findings(with_wind(std::move(water), 0, knots(0)));
  ASSERT_EQ(found.depths.size(), 2U);
  int known = 0;
  for (const Depth& depth : found.depths) known += depth.under_keel.has_value() ? 1 : 0;
  EXPECT_EQ(known, 1);
}

TEST(Find, SomethingAboveWaterInTheCorridorBlocksIt) {
  Waterway water = north_channel(metres(3));
  water.hazards.push_back({{"dolphin", water.stations},
                           Shape(at(4, 900)),
                           "dolphin",
                           not_known("it stands above water"),
                           true,
                           std::nullopt,
                           Bottom::not_stated});
  const Findings found = findings(with_wind(std::move(water), 0, knots(0)));
  bool blocked = false;
  for (const Depth& depth : found.depths) blocked = blocked || depth.blocked;
  EXPECT_TRUE(blocked);
}

TEST(Find, WithoutACurrentStationHeadwayIsNotKnown) {
  Waterway water = north_channel(metres(10));
  water.reaches.front().stations.current = "";
  const Findings found = findings(with_wind(std::move(water), 0, knots(0)));
  EXPECT_FALSE(found.legs.front().makes_headway.has_value());
  EXPECT_TRUE(found.passage.arrives.has_value());  // worked without current, and said
  // In it the time, and so the height of tide, may be another: the figure has no "could be".
  ASSERT_FALSE(found.depths.empty());
  for (const Depth& depth : found.depths) {
    EXPECT_TRUE(depth.under_keel.has_value());
    EXPECT_FALSE(depth.under_keel_could_be.has_value());
    EXPECT_FALSE(depth.passing.time_is_sure.has_value());
  }
}

TEST(Find, EbbStrongerThanTheBoatEndsTheTimeline) {
  Waterway water = north_channel(metres(10));
  water.reaches.front().stations.current = "Narrows";
  Facts facts = with_wind(std::move(water), 0, knots(0));
  facts.currents.push_back(steady_current("Narrows", -6.5));
  const Findings found = findings(facts);
  EXPECT_EQ(found.legs.front().makes_headway, Known<bool>(false));
  EXPECT_FALSE(found.passage.arrives.has_value());
}

// Found on 2026-11-26: the working of a leg gave 6 kn made good where 2 kn went with her.
TEST(Find, TheWorkingOfALegGivesTheSpeedThatItsTimeIsMadeAt) {
  Waterway water = north_channel(metres(10));
  water.reaches.front().stations.current = "Narrows";
  Facts facts = with_wind(std::move(water), 0, knots(0));
  facts.currents.push_back(steady_current("Narrows", 2));
  const Leg leg = findings(facts).legs.front();
  const auto made_good = std::ranges::find(leg.working.inputs, "speed made good, mean of the leg",
                                           &WorkingInput::name);
  ASSERT_NE(made_good, leg.working.inputs.end());
  EXPECT_NEAR(in_knots(std::get<Speed>(made_good->value)), 8, 0.001);
  EXPECT_NEAR(in_seconds(*leg.ends - *leg.starts), 2000 / 8 * 3600 / 1852.0, 0.1);
}

/// Outside every reach, slow, 4 kn; against 2 kn in the first half. 1000 m at 2 kn take 971.9 s, at
/// 4 kn 486.0 s.
TEST(Find, ADepthAreaOutsideEveryReachHasItsOwnCurrent) {
  Waterway water = given::empty_waterway();
  water.depth_areas.push_back(
      given::plain_area("race", given::oblong(-200, -100, 200, 1000), metres(10)));
  water.depth_areas.push_back(
      given::plain_area("pool", given::oblong(-200, 1000, 200, 2100), metres(10)));
  water.depth_areas.front().stations.current = "Stream";
  water.depth_areas.back().stations.current = "";  // then the file's: none
  Facts facts = with_wind(std::move(water), 0, knots(0));
  facts.currents.push_back(steady_current("Stream", -2));
  const auto taken_s = [&] {
    const PassageFinding passage = findings(facts).passage;
    return in_seconds(*passage.arrives - passage.departs);
  };
  EXPECT_NEAR(taken_s(), 971.9 + 486.0, 1);
  // A reach over it speaks for itself.
  facts.waterway.reaches = north_channel(metres(10)).reaches;
  EXPECT_NEAR(taken_s(), 647.9, 0.5);
  facts.waterway.reaches.clear();
  // Two that name two, and one that no file bears, leave it not known.
  facts.waterway.depth_areas.push_back(facts.waterway.depth_areas.front());
  facts.waterway.depth_areas.back().stations.current = "none";
  EXPECT_FALSE(findings(facts).legs.front().makes_headway.has_value());
  facts.waterway.depth_areas.pop_back();
  facts.waterway.depth_areas.front().stations.current = "Nowhere";
  EXPECT_FALSE(findings(facts).legs.front().makes_headway.has_value());
}

TEST(Find, BeamWindFallsOffToTheLeeAndNamesWhatLiesThere) {
  Waterway water = north_channel(metres(10));
  // Wind from the west, 15 kn; rocks 300 m east of the line, hard.
  water.hazards.push_back({{"The Teeth", water.stations},
                           Shape(at(300, 1000)),
                           "rocks",
                           metres(-1),
                           false,
                           std::nullopt,
                           Bottom::rock});
  const Findings found = findings(with_wind(std::move(water), 270, knots(15)));
  const Leg& leg = found.legs.front();
  EXPECT_EQ(leg.wind_is, Known<RelativeDirection>(RelativeDirection::port_beam));
  EXPECT_EQ(leg.falls_off_to.value(), std::optional<Side>(Side::starboard));
  // Heading points up toward the wind, to port of 000.
  EXPECT_GT(leg.steer_true->in_degrees(), 340);
  ASSERT_EQ(found.dangers.size(), 1U);
  const Danger& danger = found.dangers.front();
  EXPECT_EQ(danger.side, Side::starboard);
  EXPECT_TRUE(danger.to_leeward);
  EXPECT_FALSE(danger.set_toward);
  // The edge is 10 m of corridor + half a length 5 m nearer: 285 m. The published drift slopes of
  // motor craft are 3 to 7 % of the wind (15 kn = 7.7 m/s), so between 7 and 35 minutes.
  EXPECT_NEAR(in_metres(danger.distance), 285, 40);
  EXPECT_GT(in_seconds(*danger.reached_in), 7 * 60);
  EXPECT_LT(in_seconds(*danger.reached_in), 35 * 60);
  // Its working can be done again: way / drift = time, and without a current the drift is leeway.
  const auto worked = [&]<class T>(const std::string& name, T) {
    const auto input = std::ranges::find(danger.working.inputs, name, &WorkingInput::name);
    if (input == danger.working.inputs.end()) throw std::runtime_error("no " + name);
    return std::get<T>(input->value);
  };
  const Speed drift = worked("drift", knots(0));
  EXPECT_NEAR(in_metres(worked("way drifted", metres(0))) / in_metres_per_second(drift),
              in_seconds(*danger.reached_in), 1e-6);
  EXPECT_NEAR(in_knots(worked("of it leeway", knots(0))), in_knots(drift), 1e-9);
  EXPECT_NEAR(in_knots(worked("of it current", knots(0))), 0, 1e-9);
  // To windward there is nothing to fear: the same rocks on the other side are not given.
  Waterway windward = north_channel(metres(10));
  windward.hazards.push_back({{"The Teeth", windward.stations},
                              Shape(at(-300, 1000)),
                              "rocks",
                              metres(-1),
                              false,
                              std::nullopt,
                              Bottom::rock});
  EXPECT_TRUE(findings(with_wind(std::move(windward), 270, knots(15))).dangers.empty());
}

TEST(Find, MarkOnTheWrongHandIsSaidSo) {
  Waterway water = north_channel(metres(10));
  const auto mark = [&](double east_m, MarkHand hand) {
    return Mark{
        {"1", water.stations}, at(east_m, 1000),     "green",      "can",        hand,
        BuoyageRegion::b,      std::string("Reach"), std::nullopt, std::nullopt, KeptBy::authority,
        MarkStructure::buoy};
  };
  water.marks.push_back(mark(-30, MarkHand::port));
  const Facts facts = with_wind(std::move(water), 0, knots(0));
  EXPECT_EQ(findings(facts).marks.front().agrees, Known<bool>(true));
  // Outbound the hands change: the same mark then lies, and should lie, to starboard.
  const Plan outbound = given::plan_along({at(0, 2000), at(0, 0)});
  const Findings out = findings(facts, outbound);
  EXPECT_EQ(out.marks.front().lies_to, Side::starboard);
  EXPECT_EQ(out.marks.front().agrees, Known<bool>(true));
  Waterway wrong = north_channel(metres(10));
  wrong.marks.push_back(mark(30, MarkHand::port));
  EXPECT_EQ(findings(with_wind(std::move(wrong), 0, knots(0))).marks.front().agrees,
            Known<bool>(false));
  // Without a direction of buoyage the side is not known, whatever the colour.
  Waterway mute = north_channel(metres(10));
  mute.marks.push_back(mark(-30, MarkHand::port));
  mute.marks.back().direction_of_buoyage = std::nullopt;
  EXPECT_FALSE(findings(with_wind(std::move(mute), 0, knots(0))).marks.front().agrees.has_value());
}

/// So far along the track, too low for her; no opening rules on file.
Bridge low_draw(double north_m) {
  return {{"Draw", {"Gauge", "", "CD", "MHW"}},
          LineShape{at(-100, north_m), at(100, north_m)},
          BridgeKind::bascule,
          metres(2),
          ClearanceOf::low_steel,
          not_known("not given"),
          true,
          metres(20),
          true,
          std::nullopt,
          std::nullopt,
          std::nullopt};
}

// Found on 2026-11-26: of a drawbridge on the last point the wait was left out of the arrival. She
// comes to it in 647.9 s, 12:10:48; it opens on the hour and half hour.
TEST(Find, AWaitAtTheEndOfTheTrackIsInTheArrival) {
  Waterway water = north_channel(metres(10));
  water.bridges.push_back(low_draw(2000));
  OpeningRule half_hours;
  half_hours.opens = Opens::at_times;
  half_hours.minutes = {std::chrono::minutes(0), std::chrono::minutes(30)};
  water.bridges.front().openings = Openings{std::nullopt, std::nullopt, {half_hours}};
  water.berths.push_back({{"Quay", water.stations},
                          at(0, 2000),
                          metres(3),
                          std::chrono::year(2026) / 6 / 1,
                          SurveyQuality::channel_survey,
                          Bottom::mud,
                          std::nullopt,
                          std::nullopt});
  const Findings found = findings(with_wind(std::move(water), 0, knots(0)));
  const Instant half_past = found.passage.departs + std::chrono::minutes(30);
  EXPECT_EQ(found.passage.arrives, Known<Instant>(half_past));
  EXPECT_EQ(found.legs.back().ends, Known<Instant>(half_past));
  // She is under it at half past, not so long again.
  EXPECT_EQ(found.bridges.front().passing.at, Known<Instant>(half_past));
  EXPECT_EQ(found.bridges.front().passing.lasts, Known<Interval>(Interval(0)));
  const auto quay = std::ranges::find(found.depths, "Quay", &Depth::name);
  ASSERT_NE(quay, found.depths.end());
  EXPECT_EQ(quay->passing.at, Known<Instant>(half_past));
}

// Streams under bridges are stronger than beside them (common practice, no source): 4 kn carry her
// 4 x 1852 / 12 = 617 m in five minutes, the air that she is carried through holds her back a
// little, where the reach names none.
TEST(Find, ADrawbridgeHasItsOwnCurrent) {
  Waterway water = north_channel(metres(10));
  water.bridges.push_back(low_draw(1000));
  Facts facts = with_wind(std::move(water), 0, knots(0));
  facts.currents.push_back(steady_current("Stream", 4));
  EXPECT_EQ(findings(facts).bridges.front().opening->hold_off.current_toward,
            Known<Speed>(knots(0)));
  facts.waterway.bridges.front().stations.current = "Stream";
  const BridgeFinding draw = findings(facts).bridges.front();
  EXPECT_NEAR(in_knots(*draw.opening->hold_off.current_toward), 4, 1e-9);
  EXPECT_NEAR(in_metres(*draw.opening->hold_off.drift), 617, 60);
  EXPECT_NEAR(in_knots(draw.current->speed), 4, 1e-9);
  facts.waterway.bridges.front().stations.current = "Nowhere";
  EXPECT_FALSE(findings(facts).bridges.front().opening->hold_off.drift.has_value());
}

TEST(Find, BeyondADrawbridgeThatMustOpenNothingIsTimed) {
  Waterway water = north_channel(metres(10));
  water.bridges.push_back(low_draw(1000));
  const Findings found = findings(with_wind(std::move(water), 0, knots(0)));
  EXPECT_EQ(found.bridges.front().opening_needed, Known<bool>(true));
  EXPECT_TRUE(found.bridges.front().passing.at.has_value());
  EXPECT_FALSE(found.passage.arrives.has_value());
}

/// Found 2026-11-26: a span whose open clearance is not on file counted as clear of every mast,
/// unless it was a lift.
TEST(Find, AnOpenClearanceNotOnFileIsNotClear) {
  for (const BridgeKind kind :
       {BridgeKind::bascule, BridgeKind::swing, BridgeKind::lift, BridgeKind::pontoon}) {
    Waterway water = north_channel(metres(10));
    water.bridges.push_back(low_draw(1000));
    Bridge& draw = water.bridges.front();
    draw.what = kind;
    OpeningRule on_signal;
    on_signal.opens = Opens::on_signal;
    draw.openings = Openings{std::nullopt, std::nullopt, {on_signal}};
    const Findings clear = findings(with_wind(water, 0, knots(0)));
    EXPECT_EQ(clear.bridges.front().opening->passes, Known<bool>(true)) << in_words(kind);
    EXPECT_FALSE(clear.bridges.front().open_span.has_value()) << in_words(kind);
    draw.opens_clear = false;
    const Findings found = findings(with_wind(std::move(water), 0, knots(0)));
    EXPECT_FALSE(found.bridges.front().opening->passes.has_value()) << in_words(kind);
    EXPECT_TRUE(found.bridges.front().open_span.has_value()) << in_words(kind);
    EXPECT_FALSE(found.passage.arrives.has_value()) << in_words(kind);
  }
}

/// The tide stands at a height at noon, the departure, and runs 1 m in the hour.
TideStation running_tide(double at_noon_m, double in_an_hour_m) {
  std::string rows;
  for (int hour = 10; hour <= 20; ++hour) {
    rows += (rows.empty() ? "" : ", ") + std::string("[\"2026-06-14T") + std::to_string(hour) +
            ":00:00Z\", " + std::to_string(at_noon_m + in_an_hour_m * (hour - 12)) + "]";
  }
  return given::tides_of({R"({"kind": "tide station", "name": "Gauge", "zone": "Etc/UTC",
       "datums": {"unit": "m", "CD": 0, "MHW": 2}, "chart_datum": "CD",
       "heights": {"unit": "m", "rows": [)" +
                          rows + R"(]}, "uncertainty": "0.1 m"})"})
      .front();
}

/// Found 2026-11-26: a wire along the channel had the clearance of where she came under it. At 6 kn
/// (3.0867 m/s) she is under it from 400 / 3.0867 = 129.6 s to 1500 / 3.0867 = 486.0 s after noon,
/// when the tide has risen by 0.1350 m: 20 + 2 - 1.135 = 20.865 m.
TEST(Find, UnderAWireAlongTheTrackTheHighestWaterCounts) {
  Waterway water = north_channel(metres(10));
  water.cables.push_back({{"Wire", {"Gauge", "none", "CD", "MHW"}},
                          LineShape{at(5, 400), at(5, 1500)},
                          metres(20),
                          not_known("none"),
                          Carries::telephone,
                          not_known("none")});
  Facts facts = with_wind(std::move(water), 0, knots(0));
  facts.tides = {running_tide(1, 1)};
  const Findings found = findings(facts);
  ASSERT_EQ(found.cables.size(), 1U);
  const CableFinding& wire = found.cables.front();
  EXPECT_NEAR(in_seconds(*wire.passing.at - found.passage.departs), 129.6, 0.5);
  EXPECT_NEAR(in_seconds(*wire.passing.lasts), 486.0 - 129.6, 0.5);
  EXPECT_NEAR(in_metres(*wire.clearance), 20.865, 0.001);
}

/// Likewise the depth on a bar, to where her stern leaves it: (1500 + 5) / 3.0867 = 487.6 s. 5 -
/// 0.1354 m of tide.
TEST(Find, OverABarAlongTheTrackTheLowestWaterCounts) {
  Waterway water = north_channel(metres(10));
  water.bars.push_back({{"Bar", water.stations},
                        {at(5, 400), at(5, 1500)},
                        metres(3),
                        std::chrono::year(2026) / 6 / 1,
                        SurveyQuality::channel_survey,
                        Bottom::mud,
                        std::nullopt});
  Facts facts = with_wind(std::move(water), 0, knots(0));
  facts.tides = {running_tide(5, -1)};
  const Findings found = findings(facts);
  const auto bar = std::ranges::find(found.depths, DepthPlace::bar, &Depth::place);
  ASSERT_NE(bar, found.depths.end());
  EXPECT_NEAR(in_metres(bar->height_of_tide->above_datum()), 5 - 0.1354, 0.001);
}

/// Across the channel, or along it.
Bar bar_along(const LineShape& line, Known<Length> depth) {
  return {{"Bar", {"Gauge", "none", "CD", "MHW"}},
          line,
          std::move(depth),
          std::chrono::year(2026) / 6 / 1,
          SurveyQuality::channel_survey,
          Bottom::mud,
          std::nullopt};
}

Depth depth_at(const Findings& found, DepthPlace place) {
  const auto depth = std::ranges::find(found.depths, place, &Depth::place);
  if (depth == found.depths.end()) throw std::runtime_error("nothing is told of such a place");
  return *depth;
}

/// Found 2026-11-26: she went over a bar as fast as in the gut it lies in, with the squat of a
/// slower boat. At 16 kn (8.2311 m/s) in 11 m of water; on the bar 2 + 1 = 3 m, under three drafts
/// (3.6 m): no faster than squat has a figure for, of 0.7 sqrt(9.80665 x 3) = 3.797 m/s and hull
/// speed 2.43 sqrt(9) = 7.29 kn (3.7503 m/s) the less. Fnh^2 = 14.0648 / 29.41995 = 0.47807;
/// ICORELS 2.4 x 0.26667 x 0.47807 / sqrt(1 - 0.47807) = 0.4235 m (Barrass 0.5 x 53.14 / 100 =
/// 0.266: the lesser). Under the keel 3 - 1.2 - 0.4235 = 1.3765 m. Some of her 10 m is over the bar
/// for 10 m: 10 / 3.7503 - 10 / 8.2311 = 1.452 s more than 2000 / 8.2311 = 242.98 s.
TEST(Find, SheIsSlowedOverABarAsOverAnyDepth) {
  Plan plan = plan_north();
  plan.vessel.cruise = knots(16);
  Waterway water = north_channel(metres(10));
  water.bars.push_back(bar_along({at(-200, 1000), at(200, 1000)}, metres(2)));
  const Findings found = findings(with_wind(water, 0, knots(0)), plan);
  const Depth bar = depth_at(found, DepthPlace::bar);
  EXPECT_NEAR(in_knots(bar.through_water), 7.29, 0.001);
  EXPECT_EQ(bar.slowed_because, "squat not predictable faster");
  EXPECT_NEAR(in_metres(*bar.squat), 0.4235, 0.0002);
  EXPECT_NEAR(in_metres(*bar.under_keel), 1.3765, 0.0002);
  EXPECT_NEAR(in_seconds(*found.passage.arrives - found.passage.departs), 242.98 + 1.452, 0.05);
  EXPECT_EQ(found.depths.size(), 2U);  // the reach, and the bar once

  // Along the track from 400 to 1500 m, and her own 10 m: 1110 / 3.7503 - 1110 / 8.2311 = 161.1 s.
  water.bars = {bar_along({at(5, 400), at(5, 1500)}, metres(2))};
  const Findings along = findings(with_wind(std::move(water), 0, knots(0)), plan);
  EXPECT_NEAR(in_knots(depth_at(along, DepthPlace::bar).through_water), 7.29, 0.001);
  EXPECT_NEAR(in_seconds(*along.passage.arrives - along.passage.departs), 242.98 + 161.1, 0.3);
}

TEST(Find, OverABarOfUnknownDepthSheGoesSlow) {
  Waterway water = north_channel(metres(10));
  water.bars.push_back(bar_along({at(-200, 1000), at(200, 1000)}, not_known("not charted")));
  const Depth bar = depth_at(findings(with_wind(std::move(water), 0, knots(0))), DepthPlace::bar);
  EXPECT_NEAR(in_knots(bar.through_water), 4, 1e-9);
  EXPECT_EQ(bar.slowed_because, "the depth is not known");
  EXPECT_FALSE(bar.under_keel.has_value());
}

/// 1 m past the joint of a main channel, 6 kn, and a secondary one, 4 kn: her bow is over it 4 m
/// before the joint. 3 + 1 = 4 m of water, over three drafts: no slowing, and the squat of 6 kn,
/// 0.18 m, as in UnderKeelByHand.
TEST(Find, OverABarBetweenTwoReachesTheGreaterSquatCounts) {
  Waterway water = given::empty_waterway();
  water.reaches.push_back(
      given::plain_reach("Outer", {at(0, -100), at(0, 1000)}, metres(200), metres(10)));
  water.reaches.push_back(
      given::plain_reach("Inner", {at(0, 1000), at(0, 2100)}, metres(200), metres(10)));
  water.reaches.back().channel = Channel::secondary;
  water.bars.push_back(bar_along({at(-200, 1001), at(200, 1001)}, metres(3)));
  const Depth bar = depth_at(findings(with_wind(std::move(water), 0, knots(0))), DepthPlace::bar);
  EXPECT_NEAR(in_knots(bar.through_water), 6, 1e-9);
  EXPECT_NEAR(in_metres(*bar.under_keel), 2.62, 0.001);
}

/// Found 2026-11-26: at a pier in open water only the wash was taken off. 3 + 1 = 4 m; draft 1.2 m,
/// no squat at rest. Waves of 0.8 m as she comes at 12:10, of 1.6 m from 15:00 on: half of that off
/// at the worst of a stay of 4 h.
TEST(Find, ABerthInOpenWaterHasTheWavesThere) {
  Waterway water = north_channel(metres(10));
  water.reaches.front().open_water = true;
  water.berths.push_back({{"Pier", water.stations},
                          at(0, 2000),
                          metres(3),
                          std::chrono::year(2026) / 6 / 1,
                          SurveyQuality::channel_survey,
                          Bottom::mud,
                          std::nullopt,
                          std::nullopt});
  Facts facts = with_wind(std::move(water), 0, knots(0));
  const WindSeries calm = facts.winds.front();
  std::vector<WindHour> hours = calm.hours();
  for (WindHour& hour : hours) {
    const bool later = hour.at >= plan_north().departure.at + std::chrono::hours(3);
    hour.wave = metres(later ? 1.6 : 0.8);
  }
  facts.winds = {WindSeries(calm.source(), calm.position(), hours)};
  Plan plan = plan_north();
  plan.back = WayBackPlan{std::chrono::hours(4), plan.route};
  const Findings found = findings(facts, plan);
  const auto berth = [&](const char* name) {
    return *std::ranges::find(found.depths, name, &Depth::name);
  };
  EXPECT_NEAR(in_metres(*berth("Pier").under_keel), 4 - 1.2 - 0.4, 0.001);
  EXPECT_NEAR(in_metres(*berth("Pier, lowest of the stay").under_keel), 4 - 1.2 - 0.8, 0.001);
  // The margin of open water, as in the reach it lies in (1 m, over mud 0.5 m).
  EXPECT_NEAR(in_metres(berth("Pier").margin), 1, 1e-9);
  // Beyond the forecast the waves of the stay are not known.
  hours.resize(40);  // to 15:00 on the day
  facts.winds = {WindSeries(calm.source(), calm.position(), hours)};
  const Findings cut_short = findings(facts, plan);
  const auto stay = std::ranges::find(cut_short.depths, "Pier, lowest of the stay", &Depth::name);
  ASSERT_NE(stay, cut_short.depths.end());
  EXPECT_FALSE(stay->under_keel.has_value());
  // Behind a breakwater only the wash counts.
  facts.waterway.reaches.front().open_water = false;
  const Findings sheltered = findings(facts, plan);
  EXPECT_NEAR(in_metres(*std::ranges::find(sheltered.depths, "Pier", &Depth::name)->under_keel),
              4 - 1.2, 0.001);
}

TEST(Sweep, MeetsACornerAndAnEdge) {
  const std::vector<std::vector<PlanePoint>> wall{{{0, 10}, {100, 10}}};
  // 10 m away at 2 m/s across: 5 s, from the line's end onto the wall's middle.
  EXPECT_NEAR(*seconds_until_met({50, 0}, {60, 0}, {0, 2}, wall), 5, 1e-9);
  EXPECT_FALSE(seconds_until_met({50, 0}, {60, 0}, {0, -2}, wall).has_value());
  // A long line met by the end of a short wall.
  const std::vector<std::vector<PlanePoint>> post{{{30, 6}, {30.1, 6.5}}};
  EXPECT_NEAR(*seconds_until_met({0, 0}, {100, 0}, {1, 1}, post), 6, 1e-9);
}

}  // namespace
}  // namespace passage_brief
