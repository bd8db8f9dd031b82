#include "page/pdf_folds.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/passing_words.h"
#include "page/sheet_parts.h"

namespace passage_brief {
namespace {

/// In this order on a page that serves no boat under way.
constexpr std::array<GivenUp, 5> kServesUnderWay = {{{BlockKind::place, "places"},
                                                     {BlockKind::to_leeward, "lee side"},
                                                     {BlockKind::weather, "weather"},
                                                     {BlockKind::marks, "marks"},
                                                     {BlockKind::estimate, "the boat's figures"}}};
/// On any other, before it fails; what is grave to leeward is a caution as well.
constexpr std::array<GivenUp, 3> kBeforeLargeLetters = {
    {{BlockKind::arithmetic, "the least depth's sum"},
     {BlockKind::estimate, "the boat's figures"},
     {BlockKind::to_leeward, "lee side"}}};
constexpr std::array<GivenUp, 1> kGivenUpLast = {{{BlockKind::place, "places"}}};

/// How many legs and depths had more to say than their heading and figures.
std::size_t bare_the_list(std::vector<Block>& blocks) {
  std::size_t bared = 0;
  for (Block& block : blocks) {
    if (block.kind != BlockKind::leg && block.kind != BlockKind::depth) continue;
    const auto gone = std::erase_if(block.more, [](const std::string& sentence) {
      return !contains_word(sentence, std::string(kNotKnown)) &&
             sentence.find(kBlank) == std::string::npos;
    });
    bared += gone > 0 ? 1 : 0;
  }
  return bared;
}

/// "4 lines left out: places, lee side"
std::string give_up(std::vector<Block>& blocks, const std::vector<GivenUp>& kinds) {
  std::size_t count = 0;
  std::vector<std::string_view> names;
  for (const GivenUp& one : kinds) {
    count += std::erase_if(blocks, [&](const Block& block) { return block.kind == one.kind; });
    names.push_back(one.name);
  }
  return fmt::format("{} {} left out: {}", count, count == 1 ? "line" : "lines",
                     fmt::join(names, ", "));
}

/// How many cautions of the way back lost their large letters.
std::size_t make_small(std::vector<Block>& blocks, SmallOfWayBack which) {
  std::size_t count = 0;
  for (Block& block : blocks) {
    if (block.kind != BlockKind::way_back || !block.grade.has_value()) continue;
    if (which == SmallOfWayBack::none) continue;
    if (which == SmallOfWayBack::lesser && block.fold != Fold::small_letters) continue;
    block.grade.reset();
    ++count;
  }
  return count;
}

std::vector<std::pair<std::size_t, std::size_t>> runs_of_legs_that_may_merge(const Sheet& sheet) {
  std::vector<std::pair<std::size_t, std::size_t>> runs;
  for (const Block& block : sheet.blocks) {
    if (block.kind != BlockKind::leg || block.fold != Fold::leg) continue;
    if (!runs.empty() && runs.back().second + 1 == *block.leg) {
      runs.back().second = *block.leg;
    } else {
      runs.emplace_back(*block.leg, *block.leg);
    }
  }
  return runs;
}

bool says_not_to_leave(const Brief& brief) {
  const Verdict verdict = brief.judgement.verdict;
  return verdict == Verdict::outside_limits || verdict == Verdict::cannot_tell || is_void(brief);
}

}  // namespace

std::vector<Block> folded(const Sheets& sheets, const Folds& folds) {
  std::vector<Block> blocks = folds.terse ? sheets.terse.blocks : sheets.whole.blocks;
  std::vector<std::string> said;
  std::size_t told_short = 0;
  for (const Block& block : blocks) told_short += block.told_short;
  if (told_short > 0) {
    said.push_back(fmt::format("{} {} with room to spare told in short", told_short,
                               told_short == 1 ? "bridge" : "bridges"));
  }
  std::size_t left = folds.notices;
  for (std::size_t i = blocks.size(); i-- > 0 && left > 0;) {
    if (blocks[i].fold != Fold::notice) continue;
    blocks.erase(blocks.begin() + static_cast<std::ptrdiff_t>(i));
    --left;
  }
  if (folds.notices > 0) {
    said.push_back(fmt::format("{} {} left out", folds.notices,
                               folds.notices == 1 ? "notice or note" : "notices and notes"));
  }
  if (folds.drawings + 1 == kDrawingHeights.size()) {
    std::erase_if(blocks, [](const Block& block) {
      return block.kind == BlockKind::section_drawing || block.kind == BlockKind::tide_curve;
    });
    said.emplace_back("2 drawings left out");
  } else if (folds.drawings > 0) {
    said.emplace_back("2 drawings made smaller");
  }
  if (!folds.given_up.empty()) said.push_back(give_up(blocks, folds.given_up));
  if (const std::size_t count = make_small(blocks, folds.small); count > 0) {
    said.push_back(fmt::format("{} {} of the way back in small letters", count,
                               count == 1 ? "caution" : "cautions"));
  }
  for (const auto& [first, last] : folds.merged) {
    blocks = with_legs_merged(blocks, first, last);
    said.push_back(first == last
                       ? fmt::format("leg {} without its wind and current", first + 1)
                       : fmt::format("legs {} to {} as one, without their wind and current",
                                     first + 1, last + 1));
  }
  if (folds.bare_list) {
    said.push_back(
        fmt::format("legs and depths told by heading and figures: {}", bare_the_list(blocks)));
  }
  if (said.empty()) return blocks;
  blocks.push_back(
      {.kind = BlockKind::folded,
       .lead = "Folded to fit one page",
       .main = fmt::format("{}. The text of this brief has all of it.", fmt::join(said, "; "))});
  return blocks;
}

std::vector<Folds> fold_levels(const Sheet& sheet, const Brief& brief) {
  const auto notices = static_cast<std::size_t>(std::ranges::count_if(
      sheet.blocks, [](const Block& block) { return block.fold == Fold::notice; }));
  std::vector<Folds> levels(2);
  levels.back().tight = true;
  while (levels.back().notices < notices) {
    levels.push_back(levels.back());
    ++levels.back().notices;
  }
  while (levels.back().drawings + 2 < kDrawingHeights.size()) {
    levels.push_back(levels.back());
    ++levels.back().drawings;
  }
  for (const auto& run : runs_of_legs_that_may_merge(sheet)) {
    levels.push_back(levels.back());
    levels.back().merged.push_back(run);
  }
  levels.push_back(levels.back());
  levels.back().terse = true;
  const auto give_up_each = [&](std::span<const GivenUp> kinds) {
    for (const GivenUp& one : kinds) {
      const bool is_there = std::ranges::any_of(sheet.blocks, [&](const Block& block) {
        return block.kind == one.kind && block.fold != Fold::notice;
      });
      const bool is_gone = std::ranges::find(levels.back().given_up, one.kind, &GivenUp::kind) !=
                           levels.back().given_up.end();
      if (!is_there || is_gone) continue;
      levels.push_back(levels.back());
      levels.back().given_up.push_back(one);
    }
  };
  // A page that says not to leave shows why before it serves a boat under way; a copy for a lesson
  // serves none.
  if (says_not_to_leave(brief) || brief.copy != Copy::skipper) {
    give_up_each(kServesUnderWay);
    levels.push_back(levels.back());
    levels.back().bare_list = true;
  }
  levels.push_back(levels.back());
  ++levels.back().drawings;
  levels.push_back(levels.back());
  levels.back().small = SmallOfWayBack::lesser;
  give_up_each(kBeforeLargeLetters);
  levels.push_back(levels.back());
  levels.back().small = SmallOfWayBack::all;
  give_up_each(kGivenUpLast);
  return levels;
}

}  // namespace passage_brief
