#include "page/sheet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/reasons.h"
#include "page/sheet_parts.h"
#include "page/way_back_words.h"
#include "page/window_words.h"

namespace passage_brief {
namespace {

std::optional<Block> copy_heading(const Brief& brief) {
  switch (brief.copy) {
    case Copy::skipper:
      return std::nullopt;
    case Copy::learner:
      return Block{
          .kind = BlockKind::copy_heading,
          .lead = "EXERCISE",
          .main = "Work out what is left blank. Not for use under way. Name ____________________"};
    case Copy::instructor:
      return Block{.kind = BlockKind::copy_heading,
                   .lead = "INSTRUCTOR'S COPY",
                   .main = "The working follows."};
  }
  return std::nullopt;
}

Block title_block(const Brief& brief, const Reader& reader) {
  return {.kind = BlockKind::title,
          .lead = brief.vessel.name + ": " + brief.route,
          .main = reader.clock.date()};
}

Block made_block(const Brief& brief, const Reader& reader) {
  Block block{
      .kind = BlockKind::source,
      .lead = "Made",
      .main = fmt::format("{} for {} by the rules {}.", reader.clock.date_and_time(brief.made_at),
                          brief.waterway, brief.rules)};
  if (!brief.limits_changed.empty()) {
    block.main +=
        fmt::format(" They change what they build on: {}.", fmt::join(brief.limits_changed, "; "));
  }
  return block;
}

std::string order_text(const Brief& brief) {
  const Verdict verdict = brief.judgement.verdict;
  if (verdict == Verdict::outside_limits) return "Outside limits: do not leave.";
  if (verdict == Verdict::cannot_tell) return "Cannot tell: do not leave, ring the base.";
  if (is_void(brief)) return "Void: its forecast is too old to leave by. Make it again.";
  const bool danger = std::ranges::any_of(brief.judgement.cautions, [](const Caution& caution) {
    return caution.grade == Grade::danger;
  });
  if (danger) return "Danger: do not leave before you have rung the base.";
  return verdict == Verdict::cautions ? "Cautions: you may go only as they say."
                                      : "Within limits: you may go. Keep a look-out.";
}

/// "aground; wind over the limit": each rule once. The cautions and what is not checked say where.
std::string limits_text(const Judgement& judgement, LimitState state) {
  std::vector<std::string> ids;
  for (const LimitResult& limit : judgement.limits) {
    if (limit.state != state || std::ranges::find(ids, limit.id) != ids.end()) continue;
    ids.push_back(limit.id);
  }
  return fmt::format("{}", fmt::join(ids, "; "));
}

/// "The way back: outside limits. Broken: old forecast."
std::string way_back_verdict(const WayBack& back) {
  std::string text = "The way back: " + in_words(back.verdict) + ".";
  if (!back.brief) return text;
  const std::string broken = limits_text(back.brief->judgement, LimitState::broken);
  const std::string unclear = limits_text(back.brief->judgement, LimitState::cannot_tell);
  if (!broken.empty()) text += " Broken: " + broken + ".";
  if (!unclear.empty()) text += " Cannot be told: " + unclear + ".";
  return text;
}

Block verdict_block(const Brief& brief, const Reader& reader) {
  Block block{.kind = BlockKind::verdict, .lead = order_text(brief)};
  const std::string broken = limits_text(brief.judgement, LimitState::broken);
  const std::string unclear = limits_text(brief.judgement, LimitState::cannot_tell);
  if (!broken.empty()) block.more.push_back("Broken: " + broken + ".");
  if (!unclear.empty()) block.more.push_back("Cannot be told: " + unclear + ".");
  if (brief.back != nullptr && brief.back->verdict > Verdict::cautions) {
    block.more.push_back(way_back_verdict(*brief.back));
  }
  if (brief.made_at > brief.findings.passage.departs) {
    block.more.push_back("This departure is past: made " +
                         reader.clock.date_and_time(brief.made_at) + ".");
  }
  if (brief.sure_95) block.more.emplace_back(kHeldSure);
  return block;
}

}  // namespace

bool is_void(const Brief& brief) {
  return brief.void_after.has_value() && *brief.void_after < brief.findings.passage.departs;
}

std::string could_be_text(const Known<Length>& could_be, const Reader& reader) {
  if (!could_be.has_value() && is_left_blank(could_be.error())) {
    return "could be " + std::string(kBlank);
  }
  if (!could_be.has_value()) return "how much less is " + not_known_text(could_be.error());
  if (could_be.value() < metres(0)) return "could touch";
  return "could be " + reader.down(could_be.value());
}

std::string time_text(const Known<Instant>& at, const Reader& reader) {
  return at.has_value() ? reader.clock.bare(at.value(), Rounding::nearest) : "no time";
}

std::string not_known_text(const NotKnown& why) {
  if (is_left_blank(why)) return std::string(kBlank);
  return std::string(kNotKnown) + ": " + in_words(why);
}

void MissingFigures::add_missing(const std::string& name, const std::string& why,
                                 const std::string& said_elsewhere) {
  if (why == said_elsewhere) return;
  for (auto& [reason, names] : names_by_reason_) {
    if (reason != why) continue;
    if (std::ranges::find(names, name) == names.end()) names.push_back(name);
    return;
  }
  names_by_reason_.push_back({why, {name}});
}

void MissingFigures::say_in(Block& block) const {
  for (const auto& [reason, names] : names_by_reason_) {
    block.more.push_back(capitalised(fmt::format("{}", fmt::join(names, ", "))) +
                         " not known: " + reason + ".");
  }
}

SaidOnce said_once(const Findings& found) {
  const auto shared = [](const auto& list, const auto& figure_of) {
    std::string reason;
    for (const auto& item : list) {
      const auto& figure = figure_of(item);
      if (figure.has_value() || is_left_blank(figure.error())) return std::string();
      const std::string why = in_words(figure.error());
      if (!reason.empty() && reason != why) return std::string();
      reason = why;
    }
    return reason;
  };
  return {
      shared(found.legs, [](const Leg& leg) -> const auto& { return leg.wind; }),
      shared(found.legs, [](const Leg& leg) -> const auto& { return leg.current; }),
      shared(found.legs, [](const Leg& leg) -> const auto& { return leg.variation; }),
      shared(found.depths, [](const Depth& depth) -> const auto& { return depth.sounder_reads; })};
}

Sheet make_sheet(const Brief& brief, PageChoice choice, Wording wording) {
  const Reader reader{choice.units, Clock24(brief.zone, brief.findings.passage.departs), wording};
  Sheet sheet{fmt::format("{}: {}, {}", brief.vessel.name, brief.route, reader.clock.date()),
              reader.clock.letters(),
              {}};
  const auto add = [&sheet](std::vector<Block> blocks) {
    std::ranges::move(blocks, std::back_inserter(sheet.blocks));
  };
  if (auto heading = copy_heading(brief)) add({std::move(*heading)});
  add({title_block(brief, reader), verdict_block(brief, reader)});
  add(key_figures(brief, reader));
  add(blocks_in_order_of_passing(brief, reader));
  add(caution_blocks(brief.judgement, reader));
  add(way_back_blocks(brief, reader));
  add(not_checked_blocks(brief.judgement));
  add(blocks_beside_the_list(brief, reader));
  add(blocks_for_the_desk(brief, reader));
  add({made_block(brief, reader)});
  add({{.kind = BlockKind::look_out,
        .main = "Where sounder, gauge or signal disagrees with the page, act on the worse, hold "
                "off and find out why."},
       {.kind = BlockKind::deferring,
        .main = "Local regulations, notices, signals and the judgement of a licensed person come "
                "before this page; it claims no compliance with law. \"Could be\": 95 times in 100 "
                "there is at least so much at that place."}});
  say_reasons_once(sheet, reasons_in(brief));
  if (brief.copy == Copy::instructor) add(working_blocks(brief, reader));
  // Reasons come with their times in UTC; a page has one clock.
  for (Block& block : sheet.blocks) {
    for (std::string* text : texts_of(block)) {
      *text = with_local_times(std::move(*text), reader.clock);
    }
  }
  return sheet;
}

bool in_the_list(BlockKind kind) {
  switch (kind) {
    case BlockKind::leg:
    case BlockKind::marks:
    case BlockKind::depth:
    case BlockKind::bridge:
    case BlockKind::cable:
    case BlockKind::to_leeward:
      return true;
    case BlockKind::copy_heading:
    case BlockKind::title:
    case BlockKind::verdict:
    case BlockKind::key_figure:
    case BlockKind::caution:
    case BlockKind::way_back:
    case BlockKind::not_checked:
    case BlockKind::reason:
    case BlockKind::weather:
    case BlockKind::place:
    case BlockKind::section_drawing:
    case BlockKind::tide_curve:
    case BlockKind::arithmetic:
    case BlockKind::look_out:
    case BlockKind::base:
    case BlockKind::blanks:
    case BlockKind::note:
    case BlockKind::source:
    case BlockKind::estimate:
    case BlockKind::deferring:
    case BlockKind::folded:
    case BlockKind::working:
      return false;
  }
  return false;
}

bool serves_only_under_way(const Block& block) {
  return block.kind == BlockKind::marks || block.kind == BlockKind::to_leeward ||
         block.kind == BlockKind::weather || block.kind == BlockKind::place ||
         block.kind == BlockKind::note || block.kind == BlockKind::estimate;
}

std::vector<Block> with_legs_merged(const std::vector<Block>& blocks, std::size_t first,
                                    std::size_t last) {
  std::vector<Block> all;
  std::optional<std::size_t> head;
  for (const Block& block : blocks) {
    if (block.kind != BlockKind::leg || block.leg < first || block.leg > last) {
      all.push_back(block);
    } else if (!head.has_value()) {
      head = all.size();
      all.push_back(block);
      all.back().more.clear();
      if (first < last) all.back().lead = fmt::format("Legs {} to {}", first + 1, last + 1);
    } else {
      all[*head].main += "; " + block.main;
    }
  }
  return all;
}

std::string capitalised(std::string text) {
  if (!text.empty()) {
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  }
  return text;
}

std::vector<std::string*> texts_of(Block& block) {
  std::vector<std::string*> texts = {&block.main, &block.instead};
  for (std::string& more : block.more) texts.push_back(&more);
  return texts;
}

std::vector<std::string> printed_pieces(const Block& block) {
  std::vector<std::string> pieces = {block.lead, block.main};
  pieces.insert(pieces.end(), block.more.begin(), block.more.end());
  for (const Reading& reading : block.readings) pieces.push_back(reading.value);
  std::erase(pieces, "");
  return pieces;
}

}  // namespace passage_brief
