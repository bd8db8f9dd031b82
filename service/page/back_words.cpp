#include "page/back_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/sheet_parts.h"

namespace passage_brief {
namespace {

bool lies_ahead(BackPlace what) {
  return what == BackPlace::refuge || what == BackPlace::turning_place;
}

/// To 5 minutes, but never before the place is come to.
std::string time_words(const BackUntil& back, const Reader& reader) {
  return or_not_known(back.until, [&](Instant until) {
    const Instant step = until - until.time_since_epoch() % kPrintedStep;
    const bool before = back.at.has_value() && step < *back.at;
    return reader.clock.bare(before ? until : step, Rounding::down);
  });
}

bool is(const BackUntil& back, BackEnds ends) { return back.ends == Known<BackEnds>(ends); }

bool blank(const BackUntil& back) {
  return !back.until.has_value() && is_left_blank(back.until.error());
}

/// "Town Bridge by 15:05 (then it must open)".
std::string one_place(const BackUntil& back, const Reader& reader) {
  std::string text = back.name + " by " + time_words(back, reader);
  if (back.opens) text += " (then it must open)";
  if (is(back, BackEnds::forecast_ends)) text += " (the forecast ends)";
  if (is(back, BackEnds::prediction_ends)) text += " (the tide prediction ends)";
  return text;
}

std::string listed(const std::vector<std::string>& all, const char* between) {
  return fmt::format("{}", fmt::join(all, between));
}

}  // namespace

std::optional<Block> back_block(const Brief& brief, const Reader& reader) {
  std::vector<std::string> by;
  std::vector<std::string> never;
  std::vector<std::string> bars;
  MissingFigures missing;
  bool rest = false;
  for (const BackUntil& back : brief.findings.back_until) {
    if (lies_ahead(back.what)) continue;
    if (back.what == BackPlace::bar) bars.push_back(back.name);
    missing.add(back.name, back.until);
    if (!back.until.has_value() && !blank(back)) continue;
    if (is(back, BackEnds::not_at_all)) {
      never.push_back(back.name + (back.opens ? " (it must open)" : ""));
    } else if (is(back, BackEnds::all_day)) {
      rest = true;
    } else {
      by.push_back(one_place(back, reader));
    }
  }
  Block block{.kind = BlockKind::place, .lead = "To turn back"};
  std::vector<std::string> said;
  if (!by.empty()) said.push_back("be back past " + listed(by, "; ") + ".");
  if (!never.empty()) {
    said.push_back("no margin for the way back even as you pass " + listed(never, ", ") + ".");
  }
  if (rest) {
    said.emplace_back(said.empty() ? "nothing behind you shuts for 24 h." : "The rest: all day.");
  }
  for (std::size_t i = 1; i < said.size(); ++i) said[i] = capitalised(said[i]);
  block.main = listed(said, " ");
  missing.say_in(block);
  if (!bars.empty()) {
    block.more.push_back("Depth only: wind, sea or ebb may shut " + listed(bars, ", ") +
                         " sooner.");
  }
  if (block.main.empty() && block.more.empty()) return std::nullopt;
  return block;
}

std::string enough_water_words(const Brief& brief, BackPlace what, const std::string& name,
                               const Reader& reader) {
  const auto found = std::ranges::find_if(brief.findings.back_until, [&](const BackUntil& back) {
    return back.what == what && back.name == name;
  });
  if (found == brief.findings.back_until.end()) return "";
  if (!found->until.has_value() && !blank(*found)) {
    return ", whether it has enough water not known: " + in_words(found->until.error());
  }
  const std::string over = found->over.empty() ? "" : " over " + found->over;
  if (is(*found, BackEnds::not_at_all)) return ", not enough water" + over + " when you come to it";
  if (is(*found, BackEnds::all_day)) return ", enough water all day";
  std::string text = ", enough water" + over + " until " + time_words(*found, reader);
  if (is(*found, BackEnds::forecast_ends)) text += " (the forecast ends)";
  if (is(*found, BackEnds::prediction_ends)) text += " (the tide prediction ends)";
  return text;
}

}  // namespace passage_brief
