#include "brief/copies.h"

#include <gtest/gtest.h>

#include <regex>
#include <string>
#include <vector>

#include "given/brief.h"
#include "given/pdf_text.h"
#include "page/calendar.h"
#include "page/figures.h"
#include "page/html.h"
#include "page/json.h"
#include "page/pdf.h"
#include "page/sheet.h"
#include "page/text.h"

namespace passage_brief {
namespace {

using given::kLetter;

const std::vector<LessonFigure> kEveryFigure = {
    LessonFigure::under_keel, LessonFigure::stop_at,        LessonFigure::clearance,
    LessonFigure::over_mast,  LessonFigure::gauge_at_least, LessonFigure::steer,
    LessonFigure::leeway,     LessonFigure::reached_in};

/// One brief with figures that stand nowhere else on the page, so that finding one is a leak.
Brief telling_brief() {
  Brief brief = given::brief_with_window(feet(67.7), feet(68.8));
  brief.left_blank = kEveryFigure;
  Depth& depth = brief.findings.depths.at(3);
  depth.charted = feet(33.1);  // 33.1 + 2.48 - 4.0 - 0.12 - 0.16 = 31.3
  depth.water = feet(35.58);
  depth.under_keel = feet(31.3);
  depth.under_keel_could_be = feet(32.4);
  depth.sounder_reads = feet(33.6);
  depth.stop_at = feet(34.7);
  BridgeFinding& bridge = brief.findings.bridges.at(0);
  bridge.clearance = feet(61.3);
  bridge.clearance_could_be = feet(62.4);
  bridge.gauge_reads = feet(63.6);
  bridge.gauge_at_least = feet(64.7);
  for (OverMast& mast : bridge.over_mast) {
    mast.over_mast = feet(65.8);
    mast.over_mast_could_be = feet(66.9);
  }
  CableFinding& cable = brief.findings.cables.at(0);
  cable.clearance = feet(71.3);
  cable.to_spare = feet(72.4);
  cable.to_spare_could_be = feet(73.6);
  Leg& leg = brief.findings.legs.at(2);
  leg.steer_true = TrueBearing::from_degrees(333);
  leg.steer_magnetic = MagneticBearing::from_degrees(344);
  leg.steer_compass = CompassBearing::from_degrees(342);
  leg.leeway = degrees(37);
  brief.findings.dangers.at(0).reached_in = Interval(std::chrono::minutes(83));
  const auto fact = [](std::string name, FactValue value, PrintedAs scale) {
    return FactInText{std::move(name), Known<FactValue>(std::move(value)), Rounding::nearest,
                      scale};
  };
  Caution says = given::caution(Grade::caution, "All at once: ");
  says.about = {SubjectKind::reach, 3, "Oyster Cut", nautical_miles(1.7)};
  says.say.emplace_back(fact("under_keel", feet(31.3), PrintedAs::usual));
  says.say.emplace_back(std::string(", needed "));
  says.say.emplace_back(fact("needed", feet(35.8), PrintedAs::usual));
  says.say.emplace_back(std::string("."));
  brief.judgement.cautions.push_back(says);
  // What is taken together from all places gives one of them away.
  Caution whole = given::caution(Grade::caution, "Least of all: ");
  whole.say.emplace_back(fact("least_under_keel", feet(38.9), PrintedAs::usual));
  brief.judgement.cautions.push_back(whole);
  brief.working = {depth.working, bridge.working};
  brief.working.front().result = feet(31.3);
  return brief;
}

/// As pages print them, and as JSON does.
const std::vector<std::string> kPrinted = {
    "38.9", "31.3",  "32.4",           "33.6",     "34.7",   "35.8",  "61.3",  "62.4",
    "63.6", "64.7",  "65.8",           "66.9",     "67.7",   "68.8",  "71.3",  "72.4",
    "73.6", "344 M", "342 by compass", "37\u00b0", "83 min", "344.0", "342.0", "4980"};
const std::vector<double> kInFeet = {31.3, 32.4, 33.6, 34.7, 61.3, 62.4, 63.6, 64.7,
                                     65.8, 66.9, 67.7, 68.8, 71.3, 72.4, 73.6};

std::vector<std::pair<std::string, std::string>> pages_by_form(const Brief& brief) {
  std::string pdf;
  for (const std::string& page : given::pages_of_pdf(brief_as_pdf(brief, kLetter))) pdf += page;
  // Where a line of a drawing goes is no text, and any number may be among its coordinates.
  const std::regex coordinates(R"re( (points|x|y)="[-0-9., ]*")re");
  return {{"pdf", pdf},
          {"html", std::regex_replace(brief_as_html(brief, kLetter), coordinates, "")},
          {"text", brief_as_text(brief, kLetter)},
          {"calendar", brief_as_calendar(brief, kLetter)},
          {"json", brief_as_json(brief, Units::us)}};
}

TEST(LearnersCopy, HoldsNoBlankedFigureInAnyForm) {
  const Brief skippers = telling_brief();
  const Brief learners = copy_for(Copy::learner, skippers);
  std::string skippers_all;
  for (const auto& [form, page] : pages_by_form(skippers)) skippers_all += page;
  for (const std::string& printed : kPrinted) {
    // Else its absence would prove nothing.
    EXPECT_TRUE(skippers_all.contains(printed)) << printed;
  }
  for (const auto& [form, page] : pages_by_form(learners)) {
    for (const std::string& printed : kPrinted) {
      EXPECT_FALSE(page.contains(printed)) << printed << " in " << form;
    }
    for (const double ft : kInFeet) {
      const std::string metres = rounded(ft * 0.3048, 4, Rounding::nearest);
      EXPECT_FALSE(page.contains(metres)) << ft << " ft as " << metres << " m in " << form;
    }
  }
}

/// Common practice, no source: how the water stands is given in an exercise, as the charted depth
/// is; without it no figure of it can be worked out. With the reading, 75.7 + 1.1 = 76.8.
TEST(LearnersCopy, KeepsTheTimesOfAWarningAndHowTheWaterStandsButNotTheReading) {
  Brief brief = telling_brief();
  Caution warning = given::caution(Grade::warning, "In force from ");
  warning.say.emplace_back(FactInText{"begins",
                                      Known<FactValue>(given::estuary_time("2026-06-14T09:17")),
                                      Rounding::nearest, PrintedAs::usual});
  brief.judgement.cautions.push_back(warning);
  brief.observed.push_back({"Mill Bridge", ObservedBy::clearance_gauge, feet(75.7), feet(76.8),
                            "Heron", given::estuary_time("2026-06-14T08:00"), feet(1.1)});
  for (const auto& [form, page] : pages_by_form(copy_for(Copy::learner, brief))) {
    EXPECT_FALSE(page.contains("76.8")) << form;
    if (form == "json") {
      EXPECT_TRUE(page.contains(R"("above_predicted_m": 0.3353)"));  // 1.1 x 0.3048
      EXPECT_TRUE(page.contains(R"("reading_m": null)"));
    }
    if (form == "json" || form == "calendar") continue;
    EXPECT_TRUE(page.contains("09:17")) << form;
    const std::string flat = given::with_single_blanks(page);
    EXPECT_TRUE(flat.contains("________ where ________ was expected")) << form;
    EXPECT_TRUE(flat.contains("1.1 ft above")) << form;
  }
}

TEST(LearnersCopy, IsHeadedExerciseWithLinesToWriteOn) {
  const Brief learners = copy_for(Copy::learner, telling_brief());
  for (const auto& [form, page] : pages_by_form(learners)) {
    if (form == "json") continue;
    EXPECT_FALSE(page.contains(std::string(kLeftBlank))) << form;
    EXPECT_TRUE(page.contains("EXERCISE")) << form;
    EXPECT_TRUE(page.contains("________")) << form;
  }
  EXPECT_TRUE(brief_as_json(learners, Units::us).contains(R"("copy": "learner")"));
}

TEST(LearnersCopy, BlanksOnlyWhatTheRulesName) {
  Brief brief = telling_brief();
  brief.left_blank = {LessonFigure::clearance};
  const std::string text = brief_as_text(copy_for(Copy::learner, brief), kLetter);
  EXPECT_FALSE(text.contains("61.3"));
  EXPECT_FALSE(text.contains("63.6"));  // the gauge reads what the clearance is
  // With her air draft and the wash they add up to it.
  for (const char* const over : {"65.8", "66.9", "72.4", "73.6"}) EXPECT_FALSE(text.contains(over));
  EXPECT_TRUE(text.contains("31.3 ft"));
  EXPECT_TRUE(text.contains("344 M"));
}

/// Squat hangs on the speed, the height over the mast on the antennas.
TEST(LearnersCopy, KeepsWhatASumNeeds) {
  Brief brief = telling_brief();
  brief.findings.depths.at(3).slowed_because = "shoal water";
  const std::string text =
      given::with_single_blanks(brief_as_text(copy_for(Copy::learner, brief), kLetter));
  EXPECT_TRUE(text.contains("No faster than 4.5 kn: shoal water.")) << text;
  EXPECT_TRUE(text.contains("Mill Bridge, antennas down.")) << text;
}

TEST(LearnersCopy, WhatIsNotKnownStaysSoWithItsReason) {
  Brief brief = telling_brief();
  brief.findings.depths.at(3).under_keel = not_known("the chart gives no depth in Oyster Cut");
  const std::string text = brief_as_text(copy_for(Copy::learner, brief), kLetter);
  EXPECT_TRUE(given::with_single_blanks(text).contains("the chart gives no depth in Oyster Cut"));
}

/// Oyster Cut of the given brief: 3.0 + 2.48 - 4.0 - 0.12 - 0.16 = 1.20 (given/brief.h); Mill
/// Bridge: 25 + 2.1 - 1.9 = 25.2, less 19.5 and 0.3 = 5.4; gauge at least 19.5 + 2 + 0.3 = 21.8.
TEST(InstructorsCopy, WorksEveryBlankedAndDecidingFigureByHand) {
  Brief brief = given::brief();
  brief.left_blank = {LessonFigure::under_keel, LessonFigure::steer};
  const Brief copy = copy_for(Copy::instructor, brief);
  const std::vector<std::string> pages = given::pages_of_pdf(brief_as_pdf(copy, kLetter));
  ASSERT_GE(pages.size(), 2u);
  EXPECT_TRUE(pages.at(0).contains("INSTRUCTOR'S COPY"));
  std::string working;
  for (std::size_t i = 1; i < pages.size(); ++i) working += pages[i] + " ";
  for (const char* const step :
       {"Water: charted 3.00 + tide 2.48 = 5.48 ft",
        "Under the keel: water 5.48 - draft 4.00 - squat 0.12 - half the wave or the wash 0.16 = "
        "1.20 ft",
        "Stop at: least allowed by the rules here 1.00 + half the wave or the wash 0.16 = 1.16 ft",
        "Clearance: charted 25.00 + datum of the clearance 2.10 - tide 1.90 = 25.20 ft",
        "Over the mast, antennas down: clearance 25.20 - air draft 19.50 - half the wave or the "
        "wash 0.30 = 5.40 ft",
        "Gauge at least: air draft 19.50 + margin 2.00 + half the wave or the wash 0.30 = 21.80 "
        "ft"}) {
    EXPECT_TRUE(working.contains(step)) << step;
  }
  for (const Depth& depth : brief.findings.depths) {
    EXPECT_TRUE(working.contains("Under the keel, " + depth.name)) << depth.name;
  }
  for (std::size_t leg = 1; leg <= brief.findings.legs.size(); ++leg) {
    EXPECT_TRUE(working.contains("Steer on leg " + std::to_string(leg))) << leg;
  }
  // The cable decides nothing here and is not blanked.
  EXPECT_FALSE(working.contains("To spare"));
  EXPECT_TRUE(brief_as_html(copy, kLetter).contains("Water: charted 3.00 + tide 2.48 = 5.48 ft"));
}

/// Of Oyster Cut: 2.48 of tide, 0.5 of it as observed: 1.98 predicted. To pass it back 4.0 + 0.12 +
/// 1.0 + 0.16 - 3.0 = 2.28 is needed. A leeway of 0.5 kn east and a current of 0.5 kn east are 1
/// kn.
TEST(InstructorsCopy, WorksTheTideTheWayBackTheDriftAndTheLeeway) {
  Brief brief = given::brief();
  brief.left_blank = {LessonFigure::under_keel, LessonFigure::reached_in, LessonFigure::leeway};
  Depth& depth = brief.findings.depths.at(3);
  depth.height_of_tide = TideHeight::above(feet(2.48));
  depth.working.inputs.push_back({"of it, observed beside the prediction", feet(0.5), "observed"});
  BackUntil back{BackPlace::reach,
                 "Oyster Cut",
                 depth.passing.along,
                 depth.passing.at,
                 given::estuary_time("2026-06-14T13:24"),
                 BackEnds::water_falls,
                 false,
                 "Heron",
                 {}};
  back.working.inputs = {{"charted depth", feet(3), "chart"},
                         {"draft", feet(4), "vessel"},
                         {"margin", feet(1), "rules"},
                         {"half the wave, or the wash", feet(0.16), "rules"},
                         {"squat", feet(0.12), "worked out"},
                         {"level needed above chart datum", feet(2.28), "worked out"}};
  back.working.inputs.push_back({"level beside its prediction", feet(0), "observed"});
  back.at = given::estuary_time("2026-06-14T09:53") + std::chrono::seconds(40);
  BackUntil never = back;
  never.ends = BackEnds::not_at_all;
  brief.findings.back_until = {back, never};
  brief.findings.dangers.front().working.inputs = {{"way drifted", feet(900), "worked out"},
                                                   {"drift toward, true", degrees(90), ""},
                                                   {"drift", knots(1), ""},
                                                   {"of it leeway toward, true", degrees(90), ""},
                                                   {"of it leeway", knots(0.5), ""},
                                                   {"of it current toward, true", degrees(90), ""},
                                                   {"of it current", knots(0.5), ""}};
  const std::string text =
      given::with_single_blanks(brief_as_text(copy_for(Copy::instructor, brief), kLetter));
  for (const char* const step :
       {"Tide: predicted 1.98 + observed beside the prediction 0.50 = 2.48 ft",
        "Water: charted 3.00 + tide 2.48 = 5.48 ft",
        "Predicted level at least: draft 4.00 + squat 0.12 + margin 1.00 + half the wave, or the "
        "wash 0.16 - charted depth 3.00 = 2.28 ft",
        "From 09:54 EDT on kept until 13:24 EDT: too little water",
        "The margin is not kept even as she passes",
        "Drift: leeway 0.50 kn toward 090 T + current 0.50 kn toward 090 T = 1.00 kn toward 090 T",
        "Leeway, on each leg:"}) {
    EXPECT_TRUE(text.contains(step)) << step << "\n" << text;
  }
  EXPECT_FALSE(text.contains("kept until 13:24 EDT: the margin")) << text;
  EXPECT_FALSE(text.contains("level beside its prediction")) << text;
}

TEST(InstructorsCopy, ItsFirstSheetIsThePage) {
  const Brief brief = given::brief();
  const Brief copy = copy_for(Copy::instructor, brief);
  const std::string first = given::pages_of_pdf(brief_as_pdf(copy, kLetter)).at(0);
  for (const Block& block : make_sheet(brief, kLetter).blocks) {
    if (block.fold == Fold::notice) continue;
    EXPECT_TRUE(first.contains(given::with_single_blanks(block.main))) << block.main;
  }
}

}  // namespace
}  // namespace passage_brief
