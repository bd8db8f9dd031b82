// "To turn back", the water level and the way back, as the page says them.
#include "page/back_words.h"

#include <gtest/gtest.h>

#include <chrono>
#include <memory>
#include <string>
#include <vector>

#include "brief/copies.h"
#include "given/brief.h"
#include "page/json.h"
#include "page/level_words.h"
#include "page/text.h"
#include "page/way_back_words.h"

namespace passage_brief {
namespace {

using given::estuary_time;

BackUntil back(BackPlace what, const std::string& name, const std::string& until, BackEnds ends) {
  return {what,
          name,
          nautical_miles(1),
          estuary_time("2026-06-14T10:10"),
          estuary_time(until),
          ends,
          false,
          "Gauge",
          {}};
}

/// In one line, for searching.
std::string words_of(const std::optional<Block>& block) {
  if (!block) return "";
  std::string all = block->lead + ": " + block->main;
  for (const std::string& sentence : block->more) all += " " + sentence;
  return all;
}

const Reader kReader{Units::us,
                     Clock24(*Zone::named("America/New_York"), estuary_time("2026-06-14T09:30"))};

TEST(BackWords, TimesDownToFiveMinutesAndTheRestTogether) {
  Brief brief = given::brief();
  brief.findings.back_until = {
      back(BackPlace::reach, "Oyster Cut", "2026-06-14T13:24", BackEnds::water_falls),
      back(BackPlace::reach, "Deep", "2026-06-15T10:10", BackEnds::all_day),
      back(BackPlace::bridge, "Draw", "2026-06-14T15:09", BackEnds::water_rises),
      back(BackPlace::reach, "Sound", "2026-06-14T21:00", BackEnds::forecast_ends)};
  brief.findings.back_until[2].opens = true;
  EXPECT_EQ(words_of(back_block(brief, kReader)),
            "To turn back: be back past Oyster Cut by 13:20; Draw by 15:05 (then it must open); "
            "Sound by 21:00 (the forecast ends). The rest: all day.");
}

TEST(BackWords, NeverBeforeThePlaceIsComeTo) {
  Brief brief = given::brief();
  brief.findings.back_until = {
      back(BackPlace::reach, "Cut", "2026-06-14T10:13", BackEnds::water_falls)};
  EXPECT_NE(words_of(back_block(brief, kReader)).find("Cut by 10:10"), std::string::npos);
  brief.findings.back_until.front().at = estuary_time("2026-06-14T10:12");
  EXPECT_NE(words_of(back_block(brief, kReader)).find("Cut by 10:13"), std::string::npos);
}

TEST(BackWords, TheAntennasAreSaid) {
  Brief brief = given::brief();
  BackUntil cable =
      back(BackPlace::cable, "Pylon cable", "2026-06-14T16:31", BackEnds::water_rises);
  cable.antennas = Antennas::up;
  cable.longer = {Antennas::down, estuary_time("2026-06-14T18:36"), BackEnds::water_rises};
  brief.findings.back_until = {cable};
  EXPECT_EQ(words_of(back_block(brief, kReader)),
            "To turn back: be back past Pylon cable by 16:30, with antennas down by 18:35.");
  brief.findings.back_until.front().longer->until = estuary_time("2026-06-14T16:34");
  EXPECT_EQ(words_of(back_block(brief, kReader)),
            "To turn back: be back past Pylon cable by 16:30.");
  BackUntil draw = cable;
  draw.name = "Draw";
  draw.what = BackPlace::bridge;
  draw.opens = true;
  BackUntil high = draw;
  high.name = "High Draw";
  high.longer->ends = BackEnds::all_day;
  BackUntil low = draw;
  low.name = "Low Draw";
  low.antennas = Antennas::down;
  low.longer.reset();
  BackUntil mill = back(BackPlace::bridge, "Mill Bridge", "2026-06-15T10:10", BackEnds::all_day);
  mill.antennas = Antennas::down;
  brief.findings.back_until = {draw, high, low, mill};
  EXPECT_EQ(words_of(back_block(brief, kReader)),
            "To turn back: be back past Draw by 16:30, with antennas down by 18:35 (then it must "
            "open); High Draw by 16:30, later with antennas down; Low Draw with antennas down by "
            "16:30 (then it must open). The rest: all day, antennas down past Mill Bridge.");
  brief.findings.back_until = {mill};
  EXPECT_EQ(words_of(back_block(brief, kReader)),
            "To turn back: nothing behind you shuts for 24 h, antennas down past Mill Bridge.");
}

TEST(BackWords, TheOneThingThatEndsItIsNamed) {
  Brief brief = given::brief();
  BackUntil water = back(BackPlace::reach, "Long Water", "2026-06-14T11:27", BackEnds::water_falls);
  water.over = "Reed sill";
  brief.findings.back_until = {water};
  EXPECT_EQ(words_of(back_block(brief, kReader)),
            "To turn back: be back past Long Water (Reed sill) by 11:25.");
  brief.findings.back_until.front().ends = BackEnds::not_at_all;
  EXPECT_EQ(words_of(back_block(brief, kReader)),
            "To turn back: no margin for the way back even as you pass Long Water (Reed sill).");
}

// Found 2026-11-26: "nothing behind you shuts for 24 h" beside a bar that was not known.
TEST(BackWords, NothingShutsIsNeverSaidBesideSomethingNotKnown) {
  Brief brief = given::brief();
  brief.findings.back_until = {
      back(BackPlace::reach, "Deep", "2026-06-15T10:10", BackEnds::all_day),
      back(BackPlace::reach, "Old Cut", "2026-06-15T10:10", BackEnds::all_day)};
  brief.findings.back_until[1].until = not_known("no depth is on file for Old Cut");
  brief.findings.back_until[1].ends = not_known("no depth is on file for Old Cut");
  EXPECT_EQ(words_of(back_block(brief, kReader)),
            "To turn back: Old Cut not known: no depth is on file for Old Cut. The rest: all day.");
}

TEST(BackWords, ABarIsDepthOnlyAndNotKnownIsSaid) {
  Brief brief = given::brief();
  brief.findings.back_until = {
      back(BackPlace::bar, "Outer Bar", "2026-06-15T10:10", BackEnds::all_day),
      back(BackPlace::reach, "Old Cut", "2026-06-15T10:10", BackEnds::all_day)};
  brief.findings.back_until[1].until = not_known("no depth is on file for Old Cut");
  brief.findings.back_until[1].ends = not_known("no depth is on file for Old Cut");
  const std::string words = words_of(back_block(brief, kReader));
  EXPECT_NE(words.find("wind, sea or ebb may shut Outer Bar sooner"), std::string::npos) << words;
  EXPECT_NE(words.find("Old Cut not known: no depth is on file"), std::string::npos) << words;
}

TEST(BackWords, WaterOfAPlaceAhead) {
  Brief brief = given::brief();
  brief.findings.back_until = {
      back(BackPlace::refuge, "Cove", "2026-06-14T14:22", BackEnds::water_falls)};
  EXPECT_EQ(enough_water_words(brief, BackPlace::refuge, "Cove", kReader),
            ", enough water until 14:20");
  brief.findings.back_until.front().over = "Pool rocks";
  EXPECT_EQ(enough_water_words(brief, BackPlace::refuge, "Cove", kReader),
            ", enough water over Pool rocks until 14:20");
  brief.findings.back_until.front().ends = BackEnds::not_at_all;
  EXPECT_EQ(enough_water_words(brief, BackPlace::refuge, "Cove", kReader),
            ", not enough water over Pool rocks when you come to it");
  EXPECT_EQ(enough_water_words(brief, BackPlace::turning_place, "Cove", kReader), "");
  EXPECT_FALSE(back_block(brief, kReader).has_value());
}

TEST(BackWords, ALearnerIsNotTold) {
  Brief brief = given::brief();
  brief.left_blank = {LessonFigure::under_keel};
  brief.findings.back_until = {
      back(BackPlace::reach, "Oyster Cut", "2026-06-14T13:24", BackEnds::water_falls)};
  const Brief learner = copy_for(Copy::learner, brief);
  EXPECT_NE(words_of(back_block(learner, kReader)).find("Oyster Cut by ________"),
            std::string::npos);
  EXPECT_EQ(brief_as_json(learner, Units::us).find("13:24"), std::string::npos);
}

TEST(BackWords, ALearnerIsNotToldHowMuchLongerWithAntennasDown) {
  Brief brief = given::brief();
  brief.left_blank = {LessonFigure::clearance};
  brief.findings.back_until = {
      back(BackPlace::bridge, "Draw", "2026-06-14T13:24", BackEnds::water_rises)};
  brief.findings.back_until.front().longer = {Antennas::down, estuary_time("2026-06-14T17:53"),
                                              BackEnds::water_rises};
  EXPECT_NE(brief_as_json(brief, Units::us).find("17:53"), std::string::npos);
  const Brief learner = copy_for(Copy::learner, brief);
  EXPECT_EQ(brief_as_json(learner, Units::us).find("17:53"), std::string::npos);
  EXPECT_NE(words_of(back_block(learner, kReader)).find("Draw by ________."), std::string::npos)
      << words_of(back_block(learner, kReader));
}

SeenLevel seen(ObservedBy by, double above_ft) {
  return {"Town Bridge",  by,          feet(54),
          feet(54.6),     "Town",      estuary_time("2026-06-14T09:00"),
          feet(above_ft), std::nullopt};
}

TEST(LevelWords, HowAReadingCounts) {
  Brief brief = given::brief();
  EXPECT_FALSE(level_block(brief, kReader).has_value());
  brief.observed = {seen(ObservedBy::clearance_gauge, 0.6)};
  EXPECT_EQ(
      words_of(level_block(brief, kReader)),
      "Observed: Town Bridge 09:00, clearance gauge 54.0 ft where 54.6 ft was expected: water "
      "0.6 ft above prediction, off every clearance; it adds depth only at Town until 11:00, "
      "less by the minute.");
  brief.observed = {seen(ObservedBy::sounder, -0.6)};
  EXPECT_NE(words_of(level_block(brief, kReader))
                .find("0.6 ft less, off every depth; it raises no clearance"),
            std::string::npos);
  brief.observed = {seen(ObservedBy::water_level, -0.6)};
  brief.observed.front().wind_over = estuary_time("2026-06-14T16:00");
  EXPECT_NE(
      words_of(level_block(brief, kReader))
          .find("off every depth (fading over 24 h 00 min from 16:00, when its wind is over)"),
      std::string::npos)
      << words_of(level_block(brief, kReader));
}

// Found 2026-11-26: "2.2 ft where 3.0 ft was expected: water 0.9 ft below prediction".
/// 2.2 - 3.04 = -0.84, printed 0.9; 22.0 - 24.34 = -2.34, printed 2.4: the reading is as it was
/// read. 3.16 - 5.52 = -2.36, printed 2.4 beside 3.2, and 3.2 + 2.4 = 5.6.
TEST(LevelWords, ThePrintedDifferenceIsThatOfThePrintedReadings) {
  Brief brief = given::brief();
  brief.observed = {seen(ObservedBy::water_level, -0.84), seen(ObservedBy::clearance_gauge, 2.34),
                    seen(ObservedBy::sounder, -2.36)};
  brief.observed[0].reading = feet(2.2);
  brief.observed[0].expected = feet(3.04);
  brief.observed[1].reading = feet(22);
  brief.observed[1].expected = feet(24.34);
  brief.observed[2].reading = feet(3.16);
  brief.observed[2].expected = feet(5.52);
  const std::string words = words_of(level_block(brief, kReader));
  EXPECT_NE(words.find("2.2 ft where 3.1 ft was expected: water 0.9 ft below"), std::string::npos)
      << words;
  EXPECT_NE(words.find("22.0 ft where 24.4 ft was expected: water 2.4 ft above"), std::string::npos)
      << words;
  EXPECT_NE(words.find("3.2 ft where 5.6 ft was expected: 2.4 ft less"), std::string::npos)
      << words;
}

TEST(LevelWords, AirAndWind) {
  Brief brief = given::brief();
  brief.findings.level_shift = {feet(0.31), metres(0), true};
  const std::string words = words_of(level_block(brief, kReader));
  EXPECT_NE(words.find("Air pressure takes up to 0.4 ft off depths."), std::string::npos) << words;
  EXPECT_NE(words.find("Wind of 20 kn or more"), std::string::npos) << words;
}

TEST(WayBackWords, SaysWhatDecidesIt) {
  Brief brief = given::brief();
  EXPECT_TRUE(way_back_blocks(brief, kReader).empty());
  Brief there = given::brief();
  // The way out says so too (given/brief.cpp): what to do is not said twice.
  there.judgement.cautions = {given::caution(Grade::danger, "The bar breaks."),
                              given::caution(Grade::warning,
                                             "Rocks lie to leeward. "
                                             "Have the anchor ready to let go.")};
  there.judgement.limits = {
      {"old forecast", {SubjectKind::passage, 0, "the passage", {}}, LimitState::broken}};
  there.judgement.verdict = Verdict::outside_limits;
  const Instant leaves = there.findings.passage.departs;
  brief.back = std::make_shared<const WayBack>(
      WayBack{std::chrono::hours(2), leaves, there, Verdict::outside_limits});
  std::string words;
  for (const Block& block : way_back_blocks(brief, kReader)) words += words_of(block) + " ";
  EXPECT_NE(words.find("Way back: after 2 h 00 min leave"), std::string::npos) << words;
  EXPECT_NE(words.find("outside limits"), std::string::npos) << words;
  EXPECT_NE(words.find("under the keel"), std::string::npos) << words;
  EXPECT_NE(words.find("DANGER, way back: The bar breaks."), std::string::npos) << words;
  EXPECT_NE(words.find("WARNING, way back: Rocks lie to leeward."), std::string::npos) << words;
  EXPECT_EQ(words.find("anchor ready"), std::string::npos) << words;
  const std::string text = brief_as_text(brief, {Units::us, Paper::letter});
  EXPECT_NE(text.find("The way back: outside limits. Broken: old forecast."), std::string::npos)
      << text;
}

// Found 2026-11-26: of a bridge with no room even in a calm the page said that the room is not
// known, where the waves were not.
TEST(WayBackWords, ABridgeThatDoesNotFitIsSaidNotTo) {
  Brief brief = given::brief();
  Brief there = given::brief();
  BridgeFinding& bridge = there.findings.bridges.front();
  bridge.fits = false;
  bridge.fits_with = not_known("the mast does not fit");
  for (OverMast& mast : bridge.over_mast) mast.over_mast = not_known("no forecast of waves");
  const Instant leaves = there.findings.passage.departs;
  brief.back = std::make_shared<const WayBack>(
      WayBack{std::chrono::hours(2), leaves, there, Verdict::outside_limits});
  const std::string words = words_of(way_back_blocks(brief, kReader).front());
  EXPECT_TRUE(words.contains(": it does not fit.")) << words;
}

}  // namespace
}  // namespace passage_brief
