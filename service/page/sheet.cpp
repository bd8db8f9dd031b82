#include "page/sheet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/sheet_parts.h"

namespace passage_brief {
namespace {

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

/// "aground (Oyster Reach, Mill Reach); wind over the limit (the passage)", at most four of them.
std::string limits_text(const Judgement& judgement, LimitState state) {
  std::vector<std::string> ids;
  std::map<std::string, std::vector<std::string>> places;
  for (const LimitResult& limit : judgement.limits) {
    if (limit.state != state) continue;
    if (places[limit.id].empty()) ids.push_back(limit.id);
    places[limit.id].push_back(limit.about.name);
  }
  std::vector<std::string> said;
  for (const std::string& id : ids) {
    if (said.size() == 4) {
      said.push_back(fmt::format("and {} more", ids.size() - 4));
      break;
    }
    said.push_back(fmt::format("{} ({})", id, fmt::join(places[id], ", ")));
  }
  return fmt::format("{}", fmt::join(said, "; "));
}

Block verdict_block(const Brief& brief) {
  Block block{.kind = BlockKind::verdict, .lead = order_text(brief.judgement.verdict)};
  const std::string broken = limits_text(brief.judgement, LimitState::broken);
  const std::string unclear = limits_text(brief.judgement, LimitState::cannot_tell);
  if (!broken.empty()) block.more.push_back("Limits broken: " + broken + ".");
  if (!unclear.empty()) block.more.push_back("Limits that cannot be told: " + unclear + ".");
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
  std::vector<std::string> said;
  for (const auto& one : all) said.insert(said.end(), one.begin(), one.end());
  said.insert(said.end(), shared.begin(), shared.end());
  return fmt::format("{}", fmt::join(said, " "));
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

/// One block for each reason, so that one missing forecast does not fill the page.
std::vector<Block> not_checked_blocks(const Judgement& judgement) {
  std::vector<std::string> reasons;
  std::map<std::string, std::vector<std::pair<std::string, std::vector<std::string>>>> rules;
  for (const NotChecked& rule : judgement.not_checked) {
    const std::string reason = in_words(rule.because);
    auto& ids = rules[reason];
    if (ids.empty()) reasons.push_back(reason);
    const std::string id = rule.limit ? rule.id + ", a limit" : rule.id;
    auto found = std::ranges::find(ids, id, [](const auto& entry) { return entry.first; });
    if (found == ids.end()) found = ids.insert(ids.end(), {id, {}});
    found->second.push_back(rule.about.name);
  }
  std::vector<Block> blocks;
  for (const std::string& reason : reasons) {
    std::vector<std::string> said;
    for (const auto& [id, places] : rules[reason]) {
      said.push_back(fmt::format("{} ({})", id, fmt::join(places, ", ")));
    }
    blocks.push_back({.kind = BlockKind::not_checked,
                      .lead = "Not checked",
                      .main = fmt::format("{}; because {}.", fmt::join(said, "; "), reason)});
  }
  return blocks;
}

}  // namespace

std::string could_be_text(const Known<Length>& could_be, const Reader& reader) {
  if (!could_be.has_value()) return "how much less is " + not_known_text(could_be.error());
  if (could_be.value() < metres(0)) return "could touch";
  return "could be " + reader.down(could_be.value());
}

std::string time_text(const Known<Instant>& at, const Reader& reader) {
  return at.has_value() ? reader.clock.bare(at.value(), Rounding::nearest) : "no time";
}

std::string not_known_text(const NotKnown& why) {
  return std::string(kNotKnown) + ": " + in_words(why);
}

SaidOnce said_once(const Findings& found) {
  const auto shared = [](const auto& list, const auto& figure_of) {
    std::string reason;
    for (const auto& item : list) {
      const auto& figure = figure_of(item);
      if (figure.has_value()) return std::string();
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

Sheet make_sheet(const Brief& brief, PageChoice choice) {
  const Reader reader{choice.units, Clock24(brief.zone, brief.findings.passage.departs)};
  Sheet sheet{fmt::format("{}: {}, {}", brief.vessel.name, brief.route, reader.clock.date()),
              reader.clock.letters(),
              {}};
  const auto add = [&sheet](std::vector<Block> blocks) {
    std::ranges::move(blocks, std::back_inserter(sheet.blocks));
  };
  add({title_block(brief, reader), verdict_block(brief)});
  add(key_figures(brief, reader));
  add(blocks_in_order_of_passing(brief, reader));
  add(caution_blocks(brief.judgement, reader));
  add(not_checked_blocks(brief.judgement));
  add(blocks_beside_the_list(brief, reader));
  add(blocks_for_the_desk(brief, reader));
  add({made_block(brief, reader)});
  add({{.kind = BlockKind::look_out,
        .main =
            "Where sounder, gauge or a signal disagrees with this page, act on the worse of the "
            "two, hold off and find out why."},
       {.kind = BlockKind::deferring,
        .main = "Local regulations, notices, signals and the judgement of a licensed person come "
                "before this page; it does not claim that any law is met. \"Could be\" is what 95 "
                "times in 100 is there or more, at that place, not on the whole passage."}});
  return sheet;
}

bool in_the_list(BlockKind kind) {
  switch (kind) {
    case BlockKind::leg:
    case BlockKind::merged_legs:
    case BlockKind::marks:
    case BlockKind::depth:
    case BlockKind::bridge:
    case BlockKind::cable:
    case BlockKind::to_leeward:
      return true;
    case BlockKind::title:
    case BlockKind::verdict:
    case BlockKind::key_figure:
    case BlockKind::caution:
    case BlockKind::not_checked:
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
      return false;
  }
  return false;
}

std::vector<Block> with_legs_merged(const std::vector<Block>& blocks, std::size_t first,
                                    std::size_t last) {
  Block merged{.kind = BlockKind::merged_legs,
               .lead = first == last ? fmt::format("Leg {}", first + 1)
                                     : fmt::format("Legs {} to {}", first + 1, last + 1),
               .leg = first};
  std::vector<Block> all;
  std::optional<std::size_t> place;
  for (const Block& block : blocks) {
    if (!in_the_list(block.kind) || block.leg < first || block.leg > last) {
      all.push_back(block);
      continue;
    }
    if (!place.has_value()) {
      place = all.size();
      all.push_back(merged);
    }
    if (block.kind == BlockKind::leg) {
      if (!merged.main.empty()) merged.main += "; ";
      merged.main += block.main;
      continue;
    }
    std::string said = block.lead + " " + block.main;
    if (!block.readings.empty()) said += ".";
    for (const Reading& reading : block.readings) {
      said += " " + capitalised(reading.what) + " " + reading.value + ".";
    }
    for (const std::string& more : block.more) said += " " + more;
    merged.more.push_back(std::move(said));
  }
  if (place.has_value()) all[*place] = std::move(merged);
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
