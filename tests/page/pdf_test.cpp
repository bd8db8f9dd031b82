#include "page/pdf.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <memory>
#include <regex>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "given/brief.h"
#include "given/pdf_text.h"
#include "page/sheet.h"

namespace passage_brief {
namespace {

using given::kLetter;
using given::with_single_blanks;

constexpr PageChoice kA4{Units::us, Paper::a4};

std::string only_page(const Brief& brief, PageChoice choice) {
  const std::vector<std::string> pages = given::pages_of_pdf(brief_as_pdf(brief, choice));
  EXPECT_EQ(pages.size(), 1u);
  return pages.empty() ? "" : pages.front();
}

bool holds(const std::string& page, const std::string& words) {
  return page.find(with_single_blanks(words)) != std::string::npos;
}

/// The pieces of the blocks that the page does not hold.
std::vector<std::string> missing_pieces(const std::vector<Block>& blocks, const std::string& page) {
  std::vector<std::string> missing;
  for (const Block& block : blocks) {
    for (const std::string& piece : printed_pieces(block)) {
      // What follows a key figure begins a line there.
      if (!holds(page, piece) && !holds(page, capitalised(piece))) missing.push_back(piece);
    }
  }
  return missing;
}

/// The number before these words, or 0 where they do not stand.
std::size_t counted(const std::string& page, const std::string& words) {
  std::smatch found;
  return std::regex_search(page, found, std::regex("(\\d+) " + words)) ? std::stoul(found[1]) : 0;
}

TEST(Pdf, EveryPieceOfTheSheetIsInItsTextOnBothPapers) {
  for (const PageChoice choice : {kLetter, kA4}) {
    const std::string page = only_page(given::brief(), choice);
    for (const Block& block : make_sheet(given::brief(), choice).blocks) {
      const std::vector<std::string> missing = missing_pieces({block}, page);
      // What folding left out is counted: this passage may have to give up a note.
      EXPECT_TRUE(missing.empty() ||
                  (block.fold == Fold::notice && holds(page, "Folded to fit one page")))
          << missing.front();
    }
  }
}

/// What the page has of the sheet: each piece found, or its fold counted.
void expect_all_found_or_counted(const Brief& brief, PageChoice choice) {
  const std::string page = only_page(brief, choice);
  const bool terse = holds(page, "told in short");
  const Sheet sheet = make_sheet(brief, choice, terse ? Wording::terse : Wording::whole);
  std::size_t notices = 0;
  std::size_t told_short = 0;
  for (const Block& block : sheet.blocks) {
    told_short += block.told_short;
    const std::vector<std::string> missing = missing_pieces({block}, page);
    if (missing.empty()) continue;
    switch (block.fold) {
      case Fold::notice:
        ++notices;
        break;
      case Fold::leg:  // loses its wind and current, not where it leads
        EXPECT_TRUE(holds(page, "without their wind and current") ||
                    holds(page, "without its wind and current"));
        EXPECT_TRUE(holds(page, block.main)) << block.main;
        break;
      case Fold::drawing:
        EXPECT_TRUE(holds(page, "2 drawings left out"));
        break;
      case Fold::small_letters:  // all of it stands
      case Fold::never:
        ADD_FAILURE() << missing.front();
    }
  }
  EXPECT_EQ(notices, counted(page, "notices? (or note|and notes) left out"));
  EXPECT_EQ(terse ? told_short : 0, counted(page, "bridges? with room to spare told in short"));
}

TEST(Pdf, ACrowdedPassageHasEveryPieceOrItsFoldCounted) {
  for (const PageChoice choice : {kLetter, kA4}) {
    expect_all_found_or_counted(given::crowded_brief(), choice);
  }
}

TEST(Pdf, ACrowdedPassageHidesNothingGraveAndNamesEveryBridgeAndMarkInOrder) {
  const Brief brief = given::crowded_brief();
  const std::string page = only_page(brief, kLetter);
  EXPECT_TRUE(holds(page, "Folded to fit one page"));
  for (const Caution& caution : brief.judgement.cautions) {
    if (caution.grade == Grade::notice) continue;
    EXPECT_TRUE(holds(page, std::get<std::string>(caution.say.front())));
  }
  // What is passed, by its place on the track.
  std::vector<std::pair<Length, std::string>> passed;
  for (const MarkFinding& mark : brief.findings.marks) {
    passed.emplace_back(mark.passing.along, mark.name);
  }
  for (const BridgeFinding& bridge : brief.findings.bridges) {
    passed.emplace_back(bridge.passing.along, bridge.name);
  }
  std::ranges::stable_sort(passed, {}, &std::pair<Length, std::string>::first);
  std::size_t before = page.find("In order of passing");
  for (const auto& [along, name] : passed) {
    const std::size_t at = page.find(name, before);
    ASSERT_NE(at, std::string::npos) << name << " is not after what comes before it";
    before = at + name.size();
  }
}

/// Nothing that decides is told in short: a tight bridge, one whose figures are not all known, one
/// with a caution.
TEST(Pdf, OnlyBridgesWithRoomToSpareAreToldInShort) {
  const auto told_short = [](const Brief& brief) {
    std::size_t count = 0;
    for (const Block& block : make_sheet(brief, kLetter, Wording::terse).blocks) {
      count += block.told_short;
    }
    return count;
  };
  const Brief crowded = given::crowded_brief();  // of 12 the lowest is told in full
  EXPECT_EQ(told_short(crowded), 11u);
  Brief brief = crowded;
  brief.findings.bridges.at(5).gauge_reads = not_known("it is an arch");
  EXPECT_EQ(told_short(brief), 10u);
  brief.findings.bridges.at(6).width = feet(20);
  EXPECT_EQ(told_short(brief), 9u);
  brief.findings.bridges.at(7).fits = false;
  EXPECT_EQ(told_short(brief), 8u);
  Caution tight = given::caution(Grade::caution, "Tight.");
  tight.about = {SubjectKind::bridge, 8, "Span 9", nautical_miles(4.1)};
  brief.judgement.cautions.push_back(tight);
  EXPECT_EQ(told_short(brief), 7u);
}

TEST(Pdf, ADangerThatDoesNotFitIsAnErrorAndNotAFold) {
  Brief brief = given::crowded_brief();
  for (int i = 0; i < 60; ++i) {
    Caution grave = given::caution(
        Grade::danger, "Rapids " + std::to_string(i) + " run faster than the boat. Do not go on.");
    grave.id = "d" + std::to_string(i);
    brief.judgement.cautions.push_back(std::move(grave));
  }
  EXPECT_THROW((void)brief_as_pdf(brief, kLetter), PageDoesNotFit);
  try {
    (void)brief_as_pdf(brief, kLetter);
  } catch (const PageDoesNotFit& error) {
    EXPECT_NE(std::string(error.what()).find(" mm are missing"), std::string::npos);
  }
}

bool fits_one_page(const Brief& brief) {
  try {
    (void)brief_as_pdf(brief, kLetter);
    return true;
  } catch (const PageDoesNotFit&) {
    return false;
  }
}

/// Found 2026-11-26: a learner's copy out and back, and a void page, failed where a page that says
/// not to leave folds.
TEST(Pdf, ACopyForALessonAndAVoidPageGiveUpWhatServesABoatUnderWay) {
  Brief brief = given::crowded_brief();
  const Depth one = brief.findings.depths.front();
  while (fits_one_page(brief)) {
    for (int i = 0; i < 2; ++i) {
      brief.findings.depths.push_back(one);
      brief.findings.depths.back().name = "Shoal " + std::to_string(brief.findings.depths.size());
    }
    ASSERT_LT(brief.findings.depths.size(), 100U);
  }
  Brief lesson = brief;
  lesson.copy = Copy::learner;
  Brief of_old_forecast = brief;
  of_old_forecast.void_after = brief.findings.passage.departs - std::chrono::minutes(1);
  for (const Brief& other : {lesson, of_old_forecast}) {
    const std::string page = only_page(other, kLetter);
    EXPECT_GE(counted(page, "lines? left out: places"), 1U);
    for (const Depth& depth : other.findings.depths) EXPECT_TRUE(holds(page, depth.name));
    for (const Caution& caution : other.judgement.cautions) {
      if (caution.grade == Grade::notice) continue;
      EXPECT_TRUE(holds(page, std::get<std::string>(caution.say.front())));
    }
  }
}

/// Found 2026-11-26: the way back's warnings stood in small letters under the way out's cautions.
TEST(Pdf, AWarningOfTheWayBackStandsBeforeACautionOfTheWayOut) {
  Brief brief = given::brief();
  brief.judgement.cautions = {given::caution(Grade::caution, "Fog may come.")};
  Brief there = given::brief();
  there.judgement.cautions = {given::caution(Grade::warning, "Seas stand up on the bar.")};
  brief.back = std::make_shared<const WayBack>(
      WayBack{std::chrono::hours(2), there.findings.passage.departs, there, Verdict::cautions});
  const std::string page = only_page(brief, kLetter);
  const std::size_t warning = page.find("WARNING, way back. Seas stand up on the bar.");
  ASSERT_NE(warning, std::string::npos) << page;
  EXPECT_LT(warning, page.find("CAUTION. Fog may come."));
}

/// Found 2026-11-26: "Agrou / nd by", and "Sounder reads-1.1 m" with a minus like a dash.
TEST(Pdf, NoWordOfTheHeadIsBrokenAndNoLabelRunsIntoItsFigure) {
  Brief brief = given::brief();
  Depth& least = brief.findings.depths.at(*brief.least_depth);
  least.charted = feet(-7.4);  // -7.4 + 2.48 - 4.0 - 0.12 - 0.16 = -9.20
  least.under_keel = feet(-9.2);
  least.sounder_reads = feet(-13.6);
  for (const PageChoice choice : {kLetter, kA4}) {
    const std::string page = only_page(brief, choice);
    EXPECT_TRUE(holds(page, "Aground by 9.2 ft")) << page;
    EXPECT_TRUE(holds(page, "Sounder reads -13.6 ft")) << page;
  }
}

TEST(Pdf, SameBriefSameBytes) {
  EXPECT_EQ(brief_as_pdf(given::brief(), kLetter), brief_as_pdf(given::brief(), kLetter));
}

}  // namespace
}  // namespace passage_brief
