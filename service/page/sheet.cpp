#include "page/sheet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <map>
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
                   .main = "The working is on the second sheet."};
  }
  return std::nullopt;
}

Block title_block(const Brief& brief, const Reader& reader) {
  return {.kind = BlockKind::title,
          .lead = brief.vessel.name + ": " + brief.route,
          .main = reader.clock.date()};
}

Block made_block(const Brief& brief, const Reader& reader) {
  return {
      .kind = BlockKind::source,
      .lead = "Made",
      .main = fmt::format("{} for {} by the rules {}.", reader.clock.date_and_time(brief.made_at),
                          brief.waterway, brief.rules)};
}

std::string order_text(Verdict verdict) {
  switch (verdict) {
    case Verdict::within_limits:
      return "Within limits: you may go. Keep a look-out.";
    case Verdict::cautions:
      return "Cautions: you may go with these in mind.";
    case Verdict::cannot_tell:
      return "Cannot tell: do not leave, ring the base.";
    case Verdict::outside_limits:
      return "Outside limits: do not leave.";
  }
  return "";
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

Block verdict_block(const Brief& brief) {
  Block block{.kind = BlockKind::verdict, .lead = order_text(brief.judgement.verdict)};
  const std::string broken = limits_text(brief.judgement, LimitState::broken);
  const std::string unclear = limits_text(brief.judgement, LimitState::cannot_tell);
  if (!broken.empty()) block.more.push_back("Broken: " + broken + ".");
  if (!unclear.empty()) block.more.push_back("Cannot be told: " + unclear + ".");
  if (brief.back != nullptr && brief.back->verdict > Verdict::cautions) {
    block.more.push_back("The way back: " + in_words(brief.back->verdict) + ".");
  }
  if (brief.sure_95) block.more.emplace_back(kHeldSure);
  return block;
}

std::string upper_case(std::string text) {
  for (char& c : text) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return text;
}

std::vector<std::string> sentences_of(const std::string& text) {
  std::vector<std::string> sentences;
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t stop = text.find(". ", begin);
    const std::size_t end = stop == std::string::npos ? text.size() : stop + 1;
    sentences.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return sentences;
}

/// The end that all texts have in common, from its first ": " on; empty where there is none.
std::string shared_end(const std::vector<std::string>& texts) {
  std::string end = texts.front();
  for (const std::string& text : texts) {
    const auto [mine, theirs] = std::mismatch(end.rbegin(), end.rend(), text.rbegin(), text.rend());
    end.erase(end.begin(), mine.base());
  }
  const std::size_t colon = end.find(": ");
  return colon == std::string::npos ? "" : end.substr(colon);
}

/// "A; B; C: what is so of them all" where they end alike, else one after the other.
std::string together(std::vector<std::string> texts) {
  const std::string end = texts.size() > 1 ? shared_end(texts) : "";
  if (end.empty()) return fmt::format("{}", fmt::join(texts, " "));
  for (std::string& text : texts) text.erase(text.size() - end.size());
  return fmt::format("{}{}", fmt::join(texts, "; "), end);
}

/// Sayings of one rule about several places: what differs for each, then the sentences all end on.
std::string in_one_breath(const std::vector<std::string>& sayings) {
  std::vector<std::vector<std::string>> all;
  for (const std::string& saying : sayings) all.push_back(sentences_of(saying));
  std::vector<std::string> shared;
  const auto last_is_shared = [&] {
    return std::ranges::all_of(
        all, [&](const auto& one) { return one.size() > 1 && one.back() == all.front().back(); });
  };
  while (all.size() > 1 && last_is_shared()) {
    shared.insert(shared.begin(), all.front().back());
    for (auto& one : all) one.pop_back();
  }
  std::vector<std::string> own;
  for (const auto& one : all) own.push_back(fmt::format("{}", fmt::join(one, " ")));
  std::string text = together(std::move(own));
  for (const std::string& sentence : shared) text += " " + sentence;
  return text;
}

/// One block for each rule and grade, in the order of their first.
std::vector<Block> caution_blocks(const Judgement& judgement, const Reader& reader) {
  const auto alike = [](const Caution& a, const Caution& b) {
    return a.id == b.id && a.grade == b.grade && a.limit == b.limit;
  };
  std::vector<Block> blocks;
  std::vector<const Caution*> firsts;
  for (const Caution& first : judgement.cautions) {
    if (std::ranges::any_of(firsts, [&](const Caution* c) { return alike(*c, first); })) continue;
    firsts.push_back(&first);
    std::vector<std::string> sayings;
    for (const Caution& caution : judgement.cautions) {
      if (!alike(caution, first)) continue;
      sayings.push_back(sentence_text(caution.say, reader.units, reader.clock));
    }
    const bool foldable = first.grade == Grade::notice && !first.limit;
    blocks.push_back({.kind = BlockKind::caution,
                      .fold = foldable ? Fold::notice : Fold::never,
                      .lead = upper_case(in_words(first.grade)) + (first.limit ? ", a limit" : ""),
                      .main = in_one_breath(sayings),
                      .grade = first.grade});
  }
  return blocks;
}

/// "gale; aground (Upper Reach, Bar Reach)": the whole passage needs no naming, nor places just
/// named.
std::string rules_with_places(const std::vector<const NotChecked*>& rules) {
  std::vector<std::string> ids;
  std::map<std::string, std::vector<std::string>> places;
  for (const NotChecked* rule : rules) {
    auto& named = places[rule->id];
    if (std::ranges::find(ids, rule->id) == ids.end()) ids.push_back(rule->id);
    if (rule->about.kind != SubjectKind::passage) named.push_back(rule->about.name);
  }
  std::vector<std::string> said;
  std::vector<std::string> before;
  for (const std::string& id : ids) {
    std::vector<std::string>& named = places[id];
    std::ranges::sort(named);
    std::string text = id;
    if (!named.empty()) {
      text += named == before ? " (there too)" : fmt::format(" ({})", fmt::join(named, ", "));
      before = named;
    }
    said.push_back(std::move(text));
  }
  return fmt::format("{}", fmt::join(said, "; "));
}

/// One block for each reason, so that one missing forecast does not fill the page.
std::vector<Block> not_checked_blocks(const Judgement& judgement) {
  std::vector<std::pair<std::string, std::vector<const NotChecked*>>> by_reason;
  for (const NotChecked& rule : judgement.not_checked) {
    const std::string reason = in_words(rule.because);
    auto found =
        std::ranges::find(by_reason, reason, [](const auto& entry) { return entry.first; });
    if (found == by_reason.end()) found = by_reason.insert(by_reason.end(), {reason, {}});
    found->second.push_back(&rule);
  }
  std::vector<Block> blocks;
  for (const auto& [reason, rules] : by_reason) {
    std::vector<const NotChecked*> limits;
    std::vector<const NotChecked*> others;
    for (const NotChecked* rule : rules) (rule->limit ? limits : others).push_back(rule);
    std::vector<std::string> said;
    if (!limits.empty()) said.push_back("limits: " + rules_with_places(limits));
    if (!others.empty()) said.push_back("others: " + rules_with_places(others));
    blocks.push_back({.kind = BlockKind::not_checked,
                      .lead = "Not checked",
                      .main = fmt::format("{}; because {}.", fmt::join(said, "; "), reason)});
  }
  return blocks;
}

}  // namespace

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
    names += ", " + name;
    return;
  }
  names_by_reason_.emplace_back(why, name);
}

void MissingFigures::say_in(Block& block) const {
  for (const auto& [reason, names] : names_by_reason_) {
    block.more.push_back(capitalised(names) + " not known: " + reason + ".");
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
  add({title_block(brief, reader), verdict_block(brief)});
  add(key_figures(brief, reader));
  add(blocks_in_order_of_passing(brief, reader));
  add(caution_blocks(brief.judgement, reader));
  add(not_checked_blocks(brief.judgement));
  if (auto back = way_back_block(brief, reader)) add({std::move(*back)});
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

std::vector<std::string> printed_pieces(const Block& block) {
  std::vector<std::string> pieces = {block.lead, block.main};
  pieces.insert(pieces.end(), block.more.begin(), block.more.end());
  for (const Reading& reading : block.readings) pieces.push_back(reading.value);
  std::erase(pieces, "");
  return pieces;
}

}  // namespace passage_brief
