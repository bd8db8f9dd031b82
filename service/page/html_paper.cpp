#include "page/html_paper.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace passage_brief {
namespace {

// Of templates/brief.html as it prints, in points.
constexpr double kLineHeight = 8.9;
constexpr double kBetweenBlocks = 1.6;
constexpr double kHeading = 19;
constexpr double kLetterWidth = 4.25;
constexpr double kDrawing = 108;
constexpr double kHeadAndFoot = 170;
constexpr double kPageMargins = 40;
constexpr double kBetweenColumns = 12;

struct Room {
  double column_width_pt;
  double height_pt;  // of both columns together
};

Room room_on(Paper paper) {
  const double width = paper == Paper::letter ? 612 : 595.3;
  const double height = paper == Paper::letter ? 792 : 841.9;
  return {(width - kPageMargins - kBetweenColumns) / 2, 2 * (height - kPageMargins - kHeadAndFoot)};
}

bool stands_across(const Block& block) {
  switch (block.kind) {
    case BlockKind::copy_heading:
    case BlockKind::title:
    case BlockKind::verdict:
    case BlockKind::key_figure:
    case BlockKind::look_out:
    case BlockKind::deferring:
    case BlockKind::folded:
    case BlockKind::working:
      return true;
    case BlockKind::leg:
    case BlockKind::marks:
    case BlockKind::depth:
    case BlockKind::bridge:
    case BlockKind::cable:
    case BlockKind::to_leeward:
    case BlockKind::caution:
    case BlockKind::way_back:
    case BlockKind::not_checked:
    case BlockKind::reason:
    case BlockKind::weather:
    case BlockKind::place:
    case BlockKind::section_drawing:
    case BlockKind::tide_curve:
    case BlockKind::arithmetic:
    case BlockKind::base:
    case BlockKind::blanks:
    case BlockKind::note:
    case BlockKind::source:
    case BlockKind::estimate:
      return false;
  }
  return false;
}

double height_pt(const Block& block, double width_pt) {
  std::size_t letters = block.lead.size() + block.main.size() + 2;
  for (const std::string& sentence : block.more) letters += sentence.size() + 1;
  for (const Reading& reading : block.readings) {
    letters += reading.what.size() + reading.value.size() + 3;
  }
  const double lines = std::ceil(static_cast<double>(letters) * kLetterWidth / width_pt);
  return lines * kLineHeight + kBetweenBlocks + (block.kind == BlockKind::leg ? kLineHeight : 0);
}

bool is_drawing(const Block& block) { return block.fold == Fold::drawing; }

}  // namespace

LeftOutOnPaper left_out_on_paper(const Sheet& sheet, Verdict verdict, Paper paper) {
  const Room room = room_on(paper);
  const auto needed = [&](const LeftOutOnPaper& without) {
    const bool one_way =
        std::ranges::find(sheet.blocks, BlockKind::way_back, &Block::kind) == sheet.blocks.end();
    double height = (one_way ? 5 : 6) * kHeading;
    for (const Block& block : sheet.blocks) {
      if (stands_across(block) || (without.drawings && is_drawing(block)) ||
          (without.notices && block.fold == Fold::notice) ||
          (without.under_way && serves_only_under_way(block))) {
        continue;
      }
      height += height_pt(block, room.column_width_pt) + (is_drawing(block) ? kDrawing : 0);
    }
    return height;
  };
  LeftOutOnPaper without;
  if (needed(without) <= room.height_pt) return without;
  without.drawings = true;
  if (needed(without) <= room.height_pt) return without;
  without.notices = true;
  if (needed(without) <= room.height_pt) return without;
  without.under_way = verdict == Verdict::outside_limits || verdict == Verdict::cannot_tell;
  return without;
}

std::string in_words(const LeftOutOnPaper& left_out, const Sheet& sheet) {
  const auto count = [&](const auto& which) { return std::ranges::count_if(sheet.blocks, which); };
  std::vector<std::string> said;
  if (left_out.drawings) said.push_back(fmt::format("{} drawings", count(is_drawing)));
  if (left_out.notices) {
    said.push_back(fmt::format("{} notices and notes", count([](const Block& block) {
                                 return block.fold == Fold::notice;
                               })));
  }
  if (left_out.under_way) {
    said.push_back(fmt::format("{} lines on marks, lee side, weather and places",
                               count([](const Block& block) {
                                 return block.fold != Fold::notice && serves_only_under_way(block);
                               })));
  }
  if (said.empty()) return "";
  return fmt::format("Left out on paper: {}. The page on a screen has all of it.",
                     fmt::join(said, ", "));
}

}  // namespace passage_brief
