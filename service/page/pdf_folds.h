// What a page that is too full gives up, in which order, and how it is counted on the page (pdf.h).
#pragma once

#include <array>
#include <cstddef>
#include <string_view>
#include <utility>
#include <vector>

#include "page/sheet.h"

namespace passage_brief {

struct Brief;

/// How high the drawings are: as they should be, as they may shrink to, and at last left out.
struct DrawingHeights {
  double section_pt;
  double tide_pt;
};
inline constexpr std::array<DrawingHeights, 4> kDrawingHeights = {
    {{110, 84}, {84, 70}, {64, 58}, {0, 0}}};

/// Blocks of one kind that a page may give up, and what they are called where they are counted.
struct GivenUp {
  BlockKind kind;
  std::string_view name;
};

/// Which cautions of the way back stand in small letters.
enum class SmallOfWayBack { none, lesser, all };

/// What has been given up so that the rest fits.
struct Folds {
  bool tight = false;  // less white between the lines and round the page; nothing is given up yet
  std::size_t notices = 0;
  std::size_t drawings = 0;                                      // index into kDrawingHeights
  std::vector<std::pair<std::size_t, std::size_t>> merged = {};  // runs of legs, first and last
  bool terse = false;  // bridges with room to spare and marks told in short
  std::vector<GivenUp> given_up = {};
  // All of a leg or a depth but its heading, its figures and what is not known or blank.
  bool bare_list = false;
  SmallOfWayBack small = SmallOfWayBack::none;
};

/// In both wordings, so that neither is made for each trial.
struct Sheets {
  Sheet whole;
  Sheet terse;
};

/// The sheet with its folds made, and one block that counts them.
[[nodiscard]] std::vector<Block> folded(const Sheets& sheets, const Folds& folds);

/// Every state of folding in the order things are given up, from nothing to all that may.
[[nodiscard]] std::vector<Folds> fold_levels(const Sheet& sheet, const Brief& brief);

}  // namespace passage_brief
