#include "page/pdf.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <string>
#include <vector>

#include "given/brief.h"
#include "given/pdf_text.h"
#include "page/sheet.h"

namespace passage_brief {
namespace {

using given::with_single_blanks;

constexpr PageChoice kLetter{Units::us, Paper::letter};
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

TEST(Pdf, SameBriefSameBytes) {
  EXPECT_EQ(brief_as_pdf(given::brief(), kLetter), brief_as_pdf(given::brief(), kLetter));
}

}  // namespace
}  // namespace passage_brief
