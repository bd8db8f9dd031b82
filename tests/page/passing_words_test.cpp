// What is said of things met on the way, and of the weather there.

#include <gtest/gtest.h>

#include <algorithm>
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
