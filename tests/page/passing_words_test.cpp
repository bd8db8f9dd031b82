// What is said of things met on the way, and of the weather there.

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "given/brief.h"
#include "given/pdf_text.h"
#include "page/html.h"
#include "page/pdf.h"
#include "page/sheet.h"
#include "page/text.h"

namespace passage_brief {
namespace {

using given::kLetter;

std::vector<std::string> all_pages(const Brief& brief) {
  std::vector<std::string> pages = {brief_as_text(brief, kLetter), brief_as_html(brief, kLetter),
                                    given::pages_of_pdf(brief_as_pdf(brief, kLetter)).front()};
  for (std::string& page : pages) page = given::with_single_blanks(page);
  return pages;
}

/// The given brief's bridge, come through at an opening.
Brief through_an_opening() {
  Brief brief = given::brief();
  BridgeFinding& bridge = brief.findings.bridges.front();
  bridge.what = BridgeKind::bascule;
  bridge.fits = false;
  bridge.opening_needed = true;
  bridge.opening = OpeningFinding{.reached = bridge.passing.at,
                                  .fits_on_arrival = false,
                                  .passes = true,
                                  .wait = Interval(0),
                                  .through_opening = true,
                                  .hold_off = {feet(500), feet(400), knots(1), knots(2)},
                                  .law = std::nullopt,
                                  .as_of = std::nullopt};
  return brief;
}

Block row_of(const Brief& brief, BlockKind kind) {
  const std::vector<Block> blocks = make_sheet(brief, kLetter).blocks;
  const auto row = std::ranges::find(blocks, kind, &Block::kind);
  EXPECT_NE(row, blocks.end());
  return row == blocks.end() ? Block{.kind = kind} : *row;
}

// Found 2026-11-26: on paper the gauge of the closed span, 25.2 ft (given/brief.cpp), stood in the
// column "to spare".
TEST(PassingWords, AnOpenedBridgeHasNothingToSpareAndItsGaugeUnderShouldRead) {
  const Brief brief = through_an_opening();
  const Block row = row_of(brief, BlockKind::bridge);
  ASSERT_EQ(row.readings.size(), 1u);
  EXPECT_EQ(row.readings[0].column, ReadingColumn::should_read);
  EXPECT_EQ(row.readings[0].value, "25.2 ft closed");
  for (const std::string& page : all_pages(brief)) {
    EXPECT_TRUE(page.contains("25.2 ft closed")) << page;
  }
}

// Found 2026-11-26: of 09:52:40 to 10:00 the page said "You are there 09:53; it opens 10:00: wait 8
// min", and of a bridge come to at 10:00:57 that it opens 10:01.
TEST(PassingWords, TheTimesOfAnOpeningDifferByTheWait) {
  Brief brief = through_an_opening();
  OpeningFinding& opening = *brief.findings.bridges.front().opening;
  const Instant opens = given::estuary_time("2026-06-14T10:00");
  opening.next = std::optional(OpeningDue{opens, std::nullopt, std::nullopt, false});
  const auto says = [&](double seconds_before, const std::string& words) {
    opening.wait = seconds_long(seconds_before);
    opening.reached = opens - *opening.wait;
    return given::with_single_blanks(brief_as_text(brief, kLetter)).contains(words);
  };
  EXPECT_TRUE(says(440, "You are there 09:53; it opens 10:00: wait 7 min."));
  EXPECT_TRUE(says(1743, "You are there 09:31; it opens 10:00: wait 29 min."));
  EXPECT_TRUE(says(20, "You are there 10:00; it opens 10:00."));
}

// Found 2026-11-26: "07:57 ... gauge should read 5.0 m, turn back below 5.1 m" of a bridge passed
// in the first minute that keeps the margin. Here 21.84 ft, of 21.83 wanted: 21.8 to the
// nearest, 21.9 up.
TEST(PassingWords, WhoWaitsForTheWaterToFallGoesByTheGauge) {
  Brief brief = through_an_opening();
  BridgeFinding& bridge = brief.findings.bridges.front();
  bridge.fits = true;
  bridge.opening_needed = false;
  bridge.opening->through_opening = false;
  bridge.opening->wait = std::chrono::minutes(17);
  bridge.opening->reached = *bridge.passing.at - std::chrono::minutes(17);
  bridge.gauge_reads = feet(21.84);
  bridge.gauge_at_least = feet(21.83);
  const Block row = row_of(brief, BlockKind::bridge);
  ASSERT_EQ(row.readings.size(), 3u);
  EXPECT_EQ(row.readings[2].what, "turn back below");
  EXPECT_EQ(row.readings[2].column, ReadingColumn::stop_at);
  EXPECT_EQ(row.readings[2].value, "21.9 ft");
  for (const std::string& page : all_pages(brief)) {
    EXPECT_TRUE(page.contains("wait 17 min for the water to fall, and until the gauge shows 21.9"))
        << page;
    EXPECT_FALSE(page.contains("21.8 ft")) << page;
  }
  bridge.clearance_gauge = false;
  for (const std::string& page : all_pages(brief)) {
    EXPECT_TRUE(page.contains("wait 17 min for the water to fall.")) << page;
  }
}

/// A span that opens only so high: what is over the mast is under that, 40 - 27 - 0.3 = 12.7 ft.
TEST(PassingWords, UnderASpanThatOpensOnlySoHighTheRoomIsThere) {
  Brief brief = through_an_opening();
  brief.findings.bridges.front().open_span =
      OpenSpan{.charted = feet(40),
               .clearance = feet(40),
               .clearance_could_be = feet(39),
               .over_mast = {{Antennas::up, feet(27), feet(12.7), feet(11.7)}},
               .fits_with = Antennas::up};
  const Block row = row_of(brief, BlockKind::bridge);
  ASSERT_EQ(row.readings.size(), 3u);
  EXPECT_EQ(row.readings[0].column, ReadingColumn::to_spare);
  EXPECT_EQ(row.readings[0].value, "12.7 ft");
  EXPECT_EQ(row.readings[2].column, ReadingColumn::should_read);
  EXPECT_TRUE(row.main.contains("antennas up")) << row.main;
}

// Found 2026-11-26: "does not fit closed: the mast is 7.1 ft too high" of what it is too high open.
TEST(PassingWords, WhatAMastIsTooHighUnderAnOpenSpanIsSaidOfThat) {
  Brief brief = through_an_opening();
  BridgeFinding& bridge = brief.findings.bridges.front();
  bridge.opening->passes = false;
  bridge.open_span = OpenSpan{.charted = feet(20),
                              .clearance = feet(20.2),
                              .clearance_could_be = feet(19),
                              .over_mast = {{Antennas::up, feet(27), feet(-7.05), feet(-8.3)}},
                              .fits_with = not_known("the mast does not fit open")};
  const Block row = row_of(brief, BlockKind::bridge);
  EXPECT_TRUE(row.main.contains("does not fit closed")) << row.main;
  EXPECT_TRUE(row.main.ends_with("; open, the mast is 7.1 ft too high")) << row.main;
}

// Found 2026-11-26: with the waves not known what a bridge left no room for, even in a calm, was
// told of with the antennas up: 27 ft, not 19.5 (given/brief.cpp).
TEST(PassingWords, WhereNoRoomIsKnownTheMastIsAsLowAsItGoes) {
  Brief brief = through_an_opening();
  BridgeFinding& bridge = brief.findings.bridges.front();
  bridge.fits_with = not_known("the mast does not fit");
  for (OverMast& mast : bridge.over_mast) mast.over_mast = not_known("no forecast of waves");
  const OverMast* const mast = as_passed(bridge);
  ASSERT_NE(mast, nullptr);
  EXPECT_EQ(mast->antennas, Antennas::down);
  EXPECT_EQ(mast->air_draft, feet(19.5));
}

// Found 2026-11-26: "wind carries toward it, 18.0 kn" was the wind, and she drifts far slower.
TEST(PassingWords, TheWindAtABridgeIsNamedAsWind) {
  std::string all;
  for (const std::string& sentence : row_of(through_an_opening(), BlockKind::bridge).more) {
    all += sentence + " ";
  }
  EXPECT_TRUE(all.contains("wind blows toward it, 2.0 kn")) << all;
}

TEST(PassingWords, EveryReadingInTheListHasItsColumn) {
  for (const Block& block : make_sheet(given::crowded_brief(), kLetter, Wording::terse).blocks) {
    if (!in_the_list(block.kind)) continue;
    for (const Reading& reading : block.readings) {
      EXPECT_TRUE(reading.column.has_value()) << block.main << ": " << reading.what;
    }
  }
}

// Found 2026-11-26: with the wind's direction its waves went untold.
TEST(LegWords, TheWavesOfOpenWaterAreSaidWithoutItsWind) {
  Brief brief = given::brief();
  Leg& leg = brief.findings.legs.front();
  leg.open_water = true;
  leg.wave = feet(4);
  leg.wind = not_known("the forecast gives no wind direction");
  for (const std::string& page : all_pages(brief))
    EXPECT_TRUE(page.contains("Waves 4.0 ft.")) << page;
}

// Found 2026-11-26: "Wind 0 kn astern", "Wind from 000 T up to 0 kn". Calm comes from nowhere.
TEST(LegWords, ACalmHasNoSide) {
  Brief brief = given::brief();
  for (Leg& leg : brief.findings.legs) leg.wind->speed = knots(0);
  brief.findings.passage.wind = knots(0);
  for (const std::string& page : all_pages(brief)) {
    EXPECT_TRUE(page.contains("Calm.")) << page;
    EXPECT_TRUE(page.contains("Calm, gusts")) << page;
    EXPECT_FALSE(page.contains("Wind 0 kn") || page.contains("Wind from")) << page;
  }
}

// Found 2026-11-26: thunder forecast as certain stood on no page.
TEST(WeatherWords, ThunderIsToldFromOneInFiveOn) {
  Brief brief = given::brief();
  brief.findings.passage.thunder = 0;
  for (const std::string& page : all_pages(brief)) EXPECT_FALSE(page.contains(", thunder")) << page;
  brief.findings.passage.thunder = 0.2;
  for (const std::string& page : all_pages(brief))
    EXPECT_TRUE(page.contains("thunder 20 %")) << page;
  brief.findings.passage.thunder = 0.6;
  for (const std::string& page : all_pages(brief))
    EXPECT_TRUE(page.contains("thunder 60 %")) << page;
}

}  // namespace
}  // namespace passage_brief
