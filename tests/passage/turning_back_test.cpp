// The point of no return, each time worked out by hand beside it: definition of a charted depth and
// of a charted clearance (common practice, no source), and squat as in squat_test.cpp.
#include "passage/turning_back.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "given/open_water.h"
#include "given/stations.h"

namespace passage_brief {
namespace {

using given::at;
using given::plan_north;

/// A level that runs evenly: `first_m` at 10:00 UTC on the day of departure (which is at 12:00),
/// then so much more each hour, for so many hours. CD is its zero, MHW 1 m above.
TideStation even_tide(double first_m, double each_hour_m, int hours) {
  std::string rows;
  for (int i = 0; i <= hours; ++i) {
    const int hour = 10 + i;
    rows += (i == 0 ? "[\"2026-06-" : ",[\"2026-06-") + std::string(hour < 24 ? "14T" : "15T") +
            (hour % 24 < 10 ? "0" : "") + std::to_string(hour % 24) + ":00:00Z\"," +
            std::to_string(first_m + each_hour_m * i) + "]";
  }
  return given::tides_of({R"({"kind": "tide station", "name": "Gauge",
    "position": {"latitude": 30, "longitude": -45}, "zone": "Etc/UTC",
    "datums": {"unit": "m", "CD": 0, "MHW": 1}, "chart_datum": "CD", "uncertainty": "0.1 m",
    "source": "Invented for tests", "heights": {"unit": "m", "rows": [)" +
                          rows + "]}}"})
      .front();
}

/// The channel due north with a speed limit of 2 kn.
Waterway slow_channel(Length depth) {
  Waterway water = given::north_channel(depth);
  water.reaches.front().speed_limit = knots(2);
  return water;
}

Facts with_tide(Waterway water, const TideStation& tide) {
  Facts facts = given::facts_over(std::move(water), metres(0));
  facts.tides = {tide};
  facts.winds.push_back(given::steady_wind(0, knots(0)));
  return facts;
}

BackUntil of(const Facts& facts, const std::string& name) {
  const RouteSurvey survey(plan_north(), facts.waterway, given::plain_margins());
  const std::vector<BackUntil> all =
      back_until_on(survey, plan_north(), facts, given::plain_margins());
  const auto found = std::ranges::find(all, name, &BackUntil::name);
  if (found == all.end()) throw std::runtime_error("nothing is said of " + name);
  return *found;
}

Bridge bridge(Length clearance) {
  return {{"Bridge", {"Gauge", "none", "CD", "MHW"}},
          LineShape{at(-200, 1000), at(200, 1000)},
          BridgeKind::fixed,
          clearance,
          ClearanceOf::low_steel,
          not_known("fixed"),
          false,
          metres(30),
          true,
          std::nullopt,
          std::nullopt,
          std::nullopt};
}

TEST(TurningBack, ReachOnAFallingTideByHand) {
  // Charted 0.5 m over mud; draft 1.2, margin 0.5, no wash. At 2 kn = 1.02889 m/s in 1.741 m of
  // water Fnh^2 = 1.05861 / (9.80665 x 1.741) = 0.06200; ICORELS 2.4 x 0.26667 x 0.06200 /
  // sqrt(1 - 0.06200) = 0.0410 m (Barrass 0.5 x 4 / 100 = 0.02: the lesser). Water needed 1.2 + 0.5
  // + 0.0410 = 1.7410, a level of 1.2410 m. From 3.6 m at 10:00 down 0.3 m each hour: after
  // (3.6 - 1.2410) / 0.3 = 7.8633 h, 17:51:48; the full minute before is 17:51.
  const Facts facts = with_tide(slow_channel(metres(0.5)), even_tide(3.6, -0.3, 11));
  const BackUntil reach = of(facts, "Reach");
  EXPECT_EQ(reach.what, BackPlace::reach);
  ASSERT_TRUE(reach.until.has_value());
  EXPECT_EQ(*reach.until, given::at("2026-06-14T17:51:00Z"));
  EXPECT_EQ(reach.ends, Known<BackEnds>(BackEnds::water_falls));
  EXPECT_EQ(std::get<Instant>(reach.working.result), *reach.until);
}

TEST(TurningBack, BerthLeftHasNoSquat) {
  // Charted 0.223 m over mud: level needed 1.2 + 0.5 - 0.223 = 1.477 m, reached after
  // (3.6 - 1.477) / 0.3 = 7.0767 h: 17:04:36.
  Waterway water = slow_channel(metres(5));
  water.berths.push_back({{"Berth", {"Gauge", "none", "CD", "MHW"}},
                          at(0, 0),
                          metres(0.223),
                          std::chrono::year(2026) / 4 / 1,
                          SurveyQuality::channel_survey,
                          Bottom::mud,
                          std::nullopt,
                          std::nullopt});
  EXPECT_EQ(*of(with_tide(water, even_tide(3.6, -0.3, 11)), "Berth").until,
            given::at("2026-06-14T17:04:00Z"));
}

// Found 2026-11-26: a cable to be passed with the antennas up was "be back past by 18:35", the time
// with them down, without a word.
TEST(TurningBack, BridgeOnARisingTideByHand) {
  // Charted 8.05 m above MHW, 1 m above chart datum; antennas up 6 m, margin 0.6: a level of 1 +
  // 8.05 - 6 - 0.6 = 2.45 m is allowed. From 0.3 m at 10:00 up 0.45 m each hour: after 2.15 / 0.45
  // = 4.7778 h, 14:46:40. Antennas down 4 m: 4.45 m, after 4.15 / 0.45 = 9.2222 h, 19:13:20.
  Waterway water = slow_channel(metres(5));
  water.bridges.push_back(bridge(metres(8.05)));
  const BackUntil back = of(with_tide(water, even_tide(0.3, 0.45, 13)), "Bridge");
  EXPECT_EQ(back.antennas, Antennas::up);
  EXPECT_EQ(*back.until, given::at("2026-06-14T14:46:00Z"));
  EXPECT_EQ(back.ends, Known<BackEnds>(BackEnds::water_rises));
  ASSERT_TRUE(back.longer.has_value());
  EXPECT_EQ(back.longer->antennas, Antennas::down);
  EXPECT_EQ(back.longer->until, given::at("2026-06-14T19:13:00Z"));
  EXPECT_EQ(back.longer->ends, BackEnds::water_rises);
  EXPECT_FALSE(back.opens);
}

TEST(TurningBack, OverheadAntennasDownWhereTheyCannotBeUpAsShePasses) {
  // 6.5 m: up a level of 1 + 6.5 - 6 - 0.6 = 0.9 m, and it stands over 0.3 + 2 x 0.45 = 1.2 m from
  // 12:00 on. Down 2.9 m: after 2.6 / 0.45 = 5.7778 h, 15:46:40.
  Waterway water = slow_channel(metres(5));
  water.bridges.push_back(bridge(metres(6.5)));
  const BackUntil back = of(with_tide(water, even_tide(0.3, 0.45, 13)), "Bridge");
  EXPECT_EQ(back.antennas, Antennas::down);
  EXPECT_EQ(*back.until, given::at("2026-06-14T15:46:00Z"));
  EXPECT_FALSE(back.longer.has_value());
}

TEST(TurningBack, OverheadNothingIsLongerWhereBothStatesLast) {
  Waterway water = slow_channel(metres(5));
  water.bridges.push_back(bridge(metres(30)));
  const BackUntil back = of(with_tide(water, given::still_tide("Gauge", metres(1))), "Bridge");
  EXPECT_EQ(back.ends, Known<BackEnds>(BackEnds::all_day));
  EXPECT_EQ(back.antennas, Antennas::up);
  EXPECT_FALSE(back.longer.has_value());
}

TEST(TurningBack, CableKeepsItsGap) {
  // The same height less the 20 ft = 6.096 m of 115 kV: 1 + 14.146 - 6.096 - 6 - 0.6 = 2.45 m with
  // the antennas up, 4.45 m with them down.
  Waterway water = slow_channel(metres(5));
  water.cables.push_back({{"Cable", {"Gauge", "none", "CD", "MHW"}},
                          LineShape{at(-200, 1000), at(200, 1000)},
                          metres(14.146),
                          not_known("not stated"),
                          Carries::power,
                          kilovolts(115)});
  const BackUntil back = of(with_tide(water, even_tide(0.3, 0.45, 13)), "Cable");
  EXPECT_EQ(*back.until, given::at("2026-06-14T14:46:00Z"));
  ASSERT_TRUE(back.longer.has_value());
  EXPECT_EQ(back.longer->until, given::at("2026-06-14T19:13:00Z"));
  water.cables.front().voltage = not_known("not stated");
  EXPECT_FALSE(of(with_tide(water, even_tide(0.3, 0.45, 13)), "Cable").until.has_value());
}

TEST(TurningBack, NothingShutsOnStillWater) {
  const BackUntil reach =
      of(with_tide(slow_channel(metres(5)), given::still_tide("Gauge", metres(1))), "Reach");
  EXPECT_EQ(reach.ends, Known<BackEnds>(BackEnds::all_day));
  EXPECT_EQ(*reach.until, given::at("2026-06-15T12:00:00Z"));
}

TEST(TurningBack, NoMarginEvenAsShePasses) {
  // 0.6 + 1.0 m of water, draft 1.2: 0.4 m, squat aside, where 0.5 is wanted.
  const BackUntil reach =
      of(with_tide(slow_channel(metres(0.6)), given::still_tide("Gauge", metres(1))), "Reach");
  EXPECT_EQ(reach.ends, Known<BackEnds>(BackEnds::not_at_all));
}

TEST(TurningBack, NeverLaterThanTheTideIsPredicted) {
  // High enough all along, but the table ends at 15:00.
  const BackUntil reach = of(with_tide(slow_channel(metres(5)), even_tide(3.6, -0.3, 5)), "Reach");
  EXPECT_EQ(reach.ends, Known<BackEnds>(BackEnds::prediction_ends));
  ASSERT_TRUE(reach.until.has_value());
  EXPECT_LE(*reach.until, given::at("2026-06-14T15:00:00Z"));
  EXPECT_GE(*reach.until, given::at("2026-06-14T14:59:00Z"));
}

TEST(TurningBack, NotKnownWithoutADepthOrATide) {
  const TideStation still = given::still_tide("Gauge", metres(1));
  Waterway unsounded = slow_channel(metres(5));
  unsounded.reaches.front().controlling_depth = not_known("no depth is on file for Reach");
  const BackUntil reach = of(with_tide(unsounded, still), "Reach");
  ASSERT_FALSE(reach.until.has_value());
  EXPECT_FALSE(reach.ends.has_value());
  EXPECT_EQ(reach.until.error().reasons.front(), "no depth is on file for Reach");
  Facts no_tide = with_tide(slow_channel(metres(5)), still);
  no_tide.tides.clear();
  EXPECT_FALSE(of(no_tide, "Reach").until.has_value());
}

/// Waves hour by hour from 10:00 UTC on the day of departure.
WindSeries waves(const std::vector<double>& waves_m) {
  std::vector<WindHour> hours;
  for (std::size_t i = 0; i < waves_m.size(); ++i) {
    hours.push_back({given::at("2026-06-14T10:00:00Z") + std::chrono::hours(i),
                     WindFrom{TrueBearing::from_degrees(0)}, knots(5), knots(6), std::nullopt,
                     std::nullopt, metres(waves_m[i]), std::nullopt});
  }
  return {{"wind forecast", "invented", hours.front().at}, std::nullopt, hours};
}

Bar bar_along(const LineShape& line) {
  return {{"Bar", {"Gauge", "none", "CD", "MHW"}},
          line,
          metres(3),
          std::chrono::year(2026) / 4 / 1,
          SurveyQuality::channel_survey,
          Bottom::sand,
          std::nullopt};
}

/// A bar across the channel: 3 m, with the waves of a forecast that gives them hour by hour.
Facts over_a_bar(const std::vector<double>& waves_m) {
  Waterway water = slow_channel(metres(8));
  water.bars.push_back(bar_along({at(-200, 1000), at(200, 1000)}));
  Facts facts = with_tide(water, given::still_tide("Gauge", metres(1)));
  facts.winds = {waves(waves_m)};
  return facts;
}

TEST(TurningBack, WavesOfTheForecastShutABar) {
  // 4 m of water at all times; draft 1.2 and margin 1 m in open water leave 1.8 m for squat (a few
  // centimetres at 2 kn) and half the wave. 2 m of wave leaves 0.8 m, 4 m of wave nothing: the
  // greater of both hours counts, so that the hour from 15:00 on is shut.
  const BackUntil bar = of(over_a_bar({0, 0, 0, 2, 2, 2, 4, 4, 4}), "Bar");
  ASSERT_TRUE(bar.until.has_value());
  EXPECT_EQ(*bar.until, given::at("2026-06-14T15:00:00Z"));
  EXPECT_EQ(bar.ends, Known<BackEnds>(BackEnds::water_falls));
}

TEST(TurningBack, NeverLaterThanTheWavesAreForecast) {
  const BackUntil bar = of(over_a_bar({0, 0, 0, 0, 0, 0}), "Bar");
  ASSERT_TRUE(bar.until.has_value());
  EXPECT_EQ(*bar.until, given::at("2026-06-14T15:00:00Z"));
  EXPECT_EQ(bar.ends, Known<BackEnds>(BackEnds::forecast_ends));
}

/// Found 2026-11-26: of a berth in open water only the wash was counted. 3 + 1 = 4 m at all times;
/// draft 1.2 m and margin 1 m in open water leave 1.8 m for half the wave. As on the bar above: the
/// 4 m of wave of 16:00 shut it from 15:00 on. Sheltered it is never shut.
TEST(TurningBack, WavesOfTheForecastShutABerthInOpenWater) {
  Facts facts = over_a_bar({0, 0, 0, 2, 2, 2, 4, 4, 4});
  facts.waterway.bars.clear();
  facts.waterway.berths.push_back({{"Pier", {"Gauge", "none", "CD", "MHW"}},
                                   at(0, 0),
                                   metres(3),
                                   std::chrono::year(2026) / 4 / 1,
                                   SurveyQuality::channel_survey,
                                   Bottom::sand,
                                   std::nullopt,
                                   std::nullopt});
  EXPECT_EQ(of(facts, "Pier").ends, Known<BackEnds>(BackEnds::all_day));
  facts.waterway.reaches.front().open_water = true;
  const BackUntil pier = of(facts, "Pier");
  ASSERT_TRUE(pier.until.has_value());
  EXPECT_EQ(*pier.until, given::at("2026-06-14T15:00:00Z"));
  EXPECT_EQ(pier.ends, Known<BackEnds>(BackEnds::water_falls));
}

// Found 2026-11-26: a bar that lies along the way had no time to be back by.
TEST(TurningBack, ABarAlongTheWayByItsShoalestPart) {
  // The bar, 3 m, runs 400 m along the line; half way a tongue of 1 m lies over it. In open water
  // the margin is 1 m. At 2 kn in 2.2317 m of water Fnh^2 = 1.05861 / (9.80665 x 2.2317) = 0.04837,
  // squat 0.64 x 0.04837 / sqrt(1 - 0.04837) = 0.0317 m. Needed 1.2 + 1 + 0.0317 = 2.2317 m, a
  // level of 1.2317 m, after (3.6 - 1.2317) / 0.3 = 7.8943 h: 17:53:40. Of the bar's own 3 m a
  // level of -0.77 m: not before the prediction ends.
  Waterway water = slow_channel(metres(8));
  water.bars.push_back(bar_along({at(0, 600), at(0, 1000)}));
  water.depth_areas.push_back(
      given::plain_area("Tongue", given::oblong(-50, 750, 50, 850), metres(1)));
  Facts facts = with_tide(water, even_tide(3.6, -0.3, 11));
  facts.winds = {waves(std::vector<double>(13, 0))};
  const BackUntil bar = of(facts, "Bar");
  ASSERT_TRUE(bar.until.has_value()) << in_words(bar.until.error());
  EXPECT_EQ(*bar.until, given::at("2026-06-14T17:53:00Z"));
  EXPECT_EQ(bar.ends, Known<BackEnds>(BackEnds::water_falls));
  EXPECT_EQ(bar.over, "Tongue");
  facts.waterway.depth_areas.front().least_depth = not_known("Tongue was not sounded");
  EXPECT_FALSE(of(facts, "Bar").until.has_value());
  facts.waterway.depth_areas.clear();
  EXPECT_EQ(of(facts, "Bar").ends, Known<BackEnds>(BackEnds::prediction_ends));
  EXPECT_EQ(of(facts, "Bar").over, "");
}

TEST(TurningBack, TheOneThingInAReachThatEndsItIsNamed) {
  // As ReachOnAFallingTideByHand, the 0.5 m on a sill and not all along.
  Waterway water = slow_channel(metres(8));
  const auto sill = [](double from_north_m, double to_north_m) {
    return given::plain_area("Reed sill", given::oblong(-300, from_north_m, 300, to_north_m),
                             metres(0.5));
  };
  water.depth_areas.push_back(sill(900, 950));
  const BackUntil reach = of(with_tide(water, even_tide(3.6, -0.3, 11)), "Reach");
  EXPECT_EQ(*reach.until, given::at("2026-06-14T17:51:00Z"));
  EXPECT_EQ(reach.over, "Reed sill");
  // All there is on file for the reach: no part of it.
  water.reaches.front().controlling_depth = not_known("none on file");
  water.depth_areas = {sill(-300, 2300)};
  EXPECT_EQ(of(with_tide(water, even_tide(3.6, -0.3, 11)), "Reach").over, "");
  // Its own depth.
  EXPECT_EQ(of(with_tide(slow_channel(metres(0.5)), even_tide(3.6, -0.3, 11)), "Reach").over, "");
}

TEST(TurningBack, PlacesAheadByTheDepthDrawnThere) {
  // A pool of 0.5 m beside the channel, at slow speed 4 kn = 2.0578 m/s in W of water: ICORELS 0.64
  // x Fnh^2 / sqrt(1 - Fnh^2) with Fnh^2 = 4.2345 / (9.80665 W). W = 1.2 + 0.5 + squat: at W = 1.90
  // Fnh^2 = 0.2273, squat 0.1655; at 1.87 0.2309, 0.1685; at 1.8684 0.2311, 0.1687: W = 1.8687,
  // level 1.3687 m, after (3.6 - 1.3687) / 0.3 = 7.4377 h: 17:26:16.
  Waterway water = slow_channel(metres(8));
  water.depth_areas.push_back(
      given::plain_area("Pool", given::oblong(90, 900, 260, 1100), metres(0.5)));
  water.refuges.push_back({{"Cove", {"Gauge", "none", "CD", "MHW"}}, at(180, 1000), "anchorage"});
  water.turning_places.push_back(
      {{"Basin", {"Gauge", "none", "CD", "MHW"}}, given::oblong(130, 950, 200, 1050), metres(60)});
  water.turning_places.push_back(
      {{"Uncharted", {"Gauge", "none", "CD", "MHW"}}, at(-180, 1000), metres(60)});
  const Facts facts = with_tide(water, even_tide(3.6, -0.3, 11));
  EXPECT_EQ(*of(facts, "Cove").until, given::at("2026-06-14T17:26:00Z"));
  EXPECT_EQ(of(facts, "Cove").what, BackPlace::refuge);
  EXPECT_EQ(*of(facts, "Basin").until, given::at("2026-06-14T17:26:00Z"));
  EXPECT_FALSE(of(facts, "Uncharted").until.has_value());
}

/// A pool of 5 m beside the channel with a cove in it, 180 m off the track.
Waterway pool_beside_the_channel() {
  Waterway water = slow_channel(metres(8));
  water.depth_areas.push_back(
      given::plain_area("Pool", given::oblong(90, 900, 260, 1100), metres(5)));
  water.refuges.push_back({{"Cove", {"Gauge", "none", "CD", "MHW"}}, at(180, 1000), "anchorage"});
  return water;
}

/// Common practice, no source: a refuge is no nearer than the rocks before it let one come.
TEST(TurningBack, TheWayToAPlaceBesideTheTrackCounts) {
  // Rocks that dry 3 m right across the way: 3.6 - 3 = 0.6 m of water at most, draft 1.2 m.
  Waterway water = pool_beside_the_channel();
  const BackUntil open = of(with_tide(water, even_tide(3.6, -0.3, 11)), "Cove");
  EXPECT_NE(open.ends, Known<BackEnds>(BackEnds::not_at_all));
  EXPECT_EQ(open.over, "");
  water.hazards.push_back({{"Pool rocks", {"Gauge", "none", "CD", "MHW"}},
                           Shape(LineShape{at(140, 900), at(140, 1100)}),
                           "rocks",
                           metres(-3),
                           false,
                           std::nullopt,
                           Bottom::rock});
  const BackUntil shut = of(with_tide(water, even_tide(3.6, -0.3, 11)), "Cove");
  EXPECT_EQ(shut.ends, Known<BackEnds>(BackEnds::not_at_all));
  EXPECT_EQ(shut.over, "Pool rocks");
}

TEST(TurningBack, NotKnownWhereTheWayThereIsUnderABridge) {
  Waterway water = pool_beside_the_channel();
  water.bridges.push_back(bridge(metres(2)));
  water.bridges.front().shape = LineShape{at(120, 900), at(120, 1100)};
  const BackUntil cove = of(with_tide(water, even_tide(3.6, -0.3, 11)), "Cove");
  ASSERT_FALSE(cove.until.has_value());
  EXPECT_EQ(cove.until.error().reasons.front(), "the way there is under Bridge");
}

}  // namespace
}  // namespace passage_brief
