#include <gtest/gtest.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "brief/brief.h"
#include "brief/copies.h"
#include "given/brief.h"
#include "page/calendar.h"
#include "page/drawing.h"
#include "page/sheet_parts.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

Reader reader_of(const Brief& brief) {
  return {Units::us, Clock24(brief.zone, brief.findings.passage.departs)};
}

/// With a way back that has 0.4 ft under the keel in Oyster Cut; the way out has 1.2 ft
/// (given/brief.h).
Brief out_and_back() {
  Brief brief = given::brief();
  WayBack back{std::chrono::hours(2), brief.findings.passage.departs, given::brief(),
               Verdict::cautions};
  back.brief->findings.depths.at(*back.brief->least_depth).under_keel = feet(0.4);
  back.has_least_depth = true;
  brief.back = std::make_shared<const WayBack>(std::move(back));
  return brief;
}

TEST(KeyFigures, AreTheLesserOfBothWays) {
  const Brief brief = out_and_back();
  const std::vector<Block> figures = key_figures(brief, reader_of(brief));
  ASSERT_EQ(figures.size(), 3u);
  EXPECT_EQ(figures[1].lead, "Least under the keel, way back");
  EXPECT_EQ(figures[1].main, "0.4 ft");
  EXPECT_NE(figures[2].lead.find(", way out"), std::string::npos) << figures[2].lead;
}

TEST(KeyFigures, OfOneWayNameNoWay) {
  const Brief brief = given::brief();
  const std::vector<Block> figures = key_figures(brief, reader_of(brief));
  EXPECT_EQ(figures[1].lead, "Least under the keel");
  EXPECT_EQ(figures[1].main, "1.2 ft");
}

// Found 2026-11-26: with two reaches of no known depth the head called the least of the others the
// least, in every form. Of seven depths Oyster Cut has the least, 1.2 ft (given/brief.h).
TEST(KeyFigures, TheLeastOfSomeIsCalledSo) {
  Brief brief = given::brief();
  brief.findings.depths.at(2).under_keel = not_known("the chart gives no depth");
  brief.findings.depths.at(4).under_keel = not_known("the chart gives no depth");
  const Block least = key_figures(brief, reader_of(brief))[1];
  EXPECT_EQ(least.lead, "Least under the keel of what is known");
  EXPECT_EQ(least.main, "1.2 ft");
  EXPECT_TRUE(std::ranges::find(least.more, "not known at 2 places") != least.more.end());
  EXPECT_NE(brief_as_calendar(brief, {Units::us, Paper::letter}).find("keel of what is known"),
            std::string::npos);
  const Drawing section = section_drawing(brief, Units::us, {400, 110});
  EXPECT_TRUE(std::ranges::any_of(
      section.labels, [](const Label& label) { return label.text == "least known: 1.2 ft"; }));
}

TEST(KeyFigures, WhatTheWayBackLacksCountsToo) {
  Brief brief = out_and_back();
  WayBack back = *brief.back;
  back.has_least_depth = false;
  back.brief->findings.depths.at(4).under_keel = not_known("the chart gives no depth");
  brief.back = std::make_shared<const WayBack>(std::move(back));
  EXPECT_EQ(key_figures(brief, reader_of(brief))[1].lead,
            "Least under the keel of what is known, way out");
}

TEST(KeyFigures, TheLowestOfSomeBridgesIsCalledSo) {
  Brief brief = given::brief();
  BridgeFinding another = brief.findings.bridges.front();
  for (OverMast& mast : another.over_mast) mast.over_mast = not_known("no clearance is charted");
  brief.findings.bridges.push_back(another);
  const Block lowest = key_figures(brief, reader_of(brief))[2];
  EXPECT_EQ(lowest.lead, "Lowest bridge of what is known, gauge at least");
  EXPECT_TRUE(std::ranges::find(lowest.more, "not known at 1 bridge") != lowest.more.end());
}

TEST(KeyFigures, OfManyBridgesTwoAreNamed) {
  Brief brief = given::brief();
  for (const char* name : {"Span 2", "Span 3", "Span 4"}) {
    BridgeFinding another = brief.findings.bridges.front();
    another.name = name;
    brief.findings.bridges.push_back(another);
  }
  brief.findings.cables.clear();
  const Block lowest = key_figures(brief, reader_of(brief))[2];
  EXPECT_TRUE(std::ranges::find(lowest.more, "antennas down, for Span 2, Span 3 and 1 more too") !=
              lowest.more.end());
}

// Found 2026-11-26: what the clearance could be was left out of the head where it is not known.
TEST(KeyFigures, ClearanceThatCouldBeLessByNobodyKnowsWhatIsSaidToBeNotKnown) {
  Brief brief = given::brief();
  brief.findings.bridges.front().clearance_could_be = not_known("the current is not known");
  const Block lowest = key_figures(brief, reader_of(brief))[2];
  ASSERT_EQ(lowest.readings.size(), 3u);
  EXPECT_EQ(lowest.readings[2].value, "not known");
}

/// What a learner is to work out is no lack.
TEST(KeyFigures, ABlankIsNotLacking) {
  Brief brief = given::brief();
  brief.left_blank = {LessonFigure::under_keel, LessonFigure::over_mast};
  const Brief learners = copy_for(Copy::learner, brief);
  EXPECT_EQ(key_figures(learners, reader_of(learners))[1].lead, "Least under the keel");
  EXPECT_EQ(key_figures(learners, reader_of(learners))[2].lead, "Lowest bridge, gauge at least");
}

// Where the page says not to leave, the largest figures are no times to leave at.
TEST(KeyFigures, NoWindowStandsOverAPageThatSaysNotToLeave) {
  Brief brief = given::brief_with_window(feet(3), feet(4));
  EXPECT_NE(key_figures(brief, reader_of(brief))[0].lead.find("Leave between"), std::string::npos);
  brief.judgement.verdict = Verdict::outside_limits;
  EXPECT_EQ(key_figures(brief, reader_of(brief))[0].lead.find("Leave between"), std::string::npos);
}

bool names_a_last_time(const Brief& brief, const std::string& time) {
  const std::vector<std::string> said = key_figures(brief, reader_of(brief))[0].more;
  return std::ranges::find(said, "do not leave by this page after " + time) != said.end();
}

// Found 2026-11-26: the last time to leave lay beyond the window printed over it. It shuts at
// 10:43, printed 10:40.
TEST(KeyFigures, TheLastTimeToLeaveIsNoLaterThanTheWindowAsPrinted) {
  Brief brief = given::brief_with_window(feet(3), feet(4));
  EXPECT_TRUE(names_a_last_time(brief, "10:30"));
  brief.void_after = given::estuary_time("2026-06-14T10:43");
  EXPECT_TRUE(names_a_last_time(brief, "10:40"));
  brief.windows.clear();
  EXPECT_TRUE(names_a_last_time(brief, "10:43"));
}

TEST(KeyFigures, APageThatSaysNotToLeaveNamesNoLastTime) {
  Brief brief = given::brief();
  for (const Verdict verdict : {Verdict::outside_limits, Verdict::cannot_tell}) {
    brief.judgement.verdict = verdict;
    const std::vector<std::string> said = key_figures(brief, reader_of(brief))[0].more;
    for (const std::string& words : said) {
      EXPECT_FALSE(words.contains("do not leave by this page")) << words;
    }
  }
}

/// What the head says beside its lowest bridge, a line each.
std::string said_of_lowest_bridge(const Brief& brief) {
  std::string all;
  const Block lowest = key_figures(brief, reader_of(brief))[2];
  for (const std::string& words : lowest.more) all += words + "\n";
  return all;
}

// Found 2026-11-26: out and back, a call due before she leaves, for a bridge of the way whose
// lowest bridge the head does not show, was not in the head.
TEST(KeyFigures, WhatMustOpenOnTheOtherWayIsNotHidden) {
  Brief brief = out_and_back();
  WayBack back = *brief.back;
  given::open_if_asked(back.brief->findings.bridges.front());
  brief.back = std::make_shared<const WayBack>(back);
  const std::string said = said_of_lowest_bridge(brief);
  EXPECT_TRUE(said.contains("way back: must open too: Mill Bridge 10:21")) << said;
  EXPECT_TRUE(said.contains("way back: Mill Bridge: ask by 08:21 EDT on 555 0100")) << said;

  back.brief = given::brief();
  back.has_lowest_bridge = true;
  brief.back = std::make_shared<const WayBack>(back);
  given::open_if_asked(brief.findings.bridges.front());
  EXPECT_TRUE(said_of_lowest_bridge(brief).contains("way out: Mill Bridge: ask by 08:21 EDT"));
}

/// The other way has 1 ft over the mast where the head's bridge has more (given/brief.cpp).
TEST(KeyFigures, TheTightestBridgeOfTheOtherWayIsNotHidden) {
  Brief brief = out_and_back();
  EXPECT_FALSE(said_of_lowest_bridge(brief).contains("way back: "));
  WayBack back = *brief.back;
  for (OverMast& mast : back.brief->findings.bridges.front().over_mast) mast.over_mast = feet(1);
  brief.back = std::make_shared<const WayBack>(std::move(back));
  EXPECT_TRUE(said_of_lowest_bridge(brief).contains("way back: least room: Mill Bridge"));
}

// Found 2026-11-26: "Must open 10:21", and a time to ask by, of a span too low for the mast open.
TEST(KeyFigures, AnOpeningThatDoesNotHelpIsNotAskedFor) {
  Brief brief = given::brief();
  BridgeFinding& bridge = brief.findings.bridges.front();
  given::open_if_asked(bridge);
  EXPECT_NE(opening_due(bridge), nullptr);
  bridge.opening->passes = false;
  EXPECT_EQ(opening_due(bridge), nullptr);
  EXPECT_EQ(key_figures(brief, reader_of(brief))[2].main, "Does not fit, open or closed");
  EXPECT_FALSE(said_of_lowest_bridge(brief).contains("ask by"));
  EXPECT_EQ(brief_as_calendar(brief, {Units::us, Paper::letter}).find("Ask for the opening"),
            std::string::npos);
}

}  // namespace
}  // namespace passage_brief
