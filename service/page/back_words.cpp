#include "page/back_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <utility>
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
std::string time_words(const BackUntil& back, const Known<Instant>& time, const Reader& reader) {
  return or_not_known(time, [&](Instant until) {
    const Instant step = until - until.time_since_epoch() % kPrintedStep;
    const bool before = back.at.has_value() && step < *back.at;
    return reader.clock.bare(before ? until : step, Rounding::down);
  });
}

bool is(const BackUntil& back, BackEnds ends) { return back.ends == Known<BackEnds>(ends); }

bool blank(const BackUntil& back) {
  return !back.until.has_value() && is_left_blank(back.until.error());
}

/// "Long Water (Reed sill)".
std::string name_of(const BackUntil& back) {
  return back.over.empty() ? back.name : back.name + " (" + back.over + ")";
}

bool antennas_down(const BackUntil& back) { return back.antennas == std::optional(Antennas::down); }

std::string end_words(BackEnds ends, bool opens) {
  switch (ends) {
    case BackEnds::forecast_ends:
      return " (the forecast ends)";
    case BackEnds::prediction_ends:
      return " (the tide prediction ends)";
    case BackEnds::all_day:
      return "";
    case BackEnds::not_at_all:
    case BackEnds::water_falls:
    case BackEnds::water_rises:
      return opens ? " (then it must open)" : "";
  }
  return "";
}

/// "Town Bridge by 15:05, with antennas down by 17:10 (then it must open)".
std::string one_place(const BackUntil& back, const Reader& reader) {
  std::string text = name_of(back) + (antennas_down(back) ? " with antennas down" : "");
  const std::string time = time_words(back, back.until, reader);
  text += " by " + time;
  if (!back.longer) return text + end_words(back.ends.value_or(BackEnds::water_rises), back.opens);
  const BackLonger& longer = *back.longer;
  const std::string so = "with antennas " + in_words(longer.antennas);
  if (longer.ends == BackEnds::all_day) return text + ", later " + so;
  const std::string later = time_words(back, longer.until, reader);
  if (later != time) text += ", " + so + " by " + later;
  return text + end_words(longer.ends, back.opens);
}

std::string listed(const std::vector<std::string>& all, const char* between) {
  return fmt::format("{}", fmt::join(all, between));
}

}  // namespace

std::optional<Block> back_block(const Brief& brief, const Reader& reader) {
  std::vector<std::string> by;
  std::vector<std::string> never;
  std::vector<std::string> bars;
  std::vector<std::string> all_day_down;
  MissingFigures missing;
  bool rest = false;
  for (const BackUntil& back : brief.findings.back_until) {
    if (lies_ahead(back.what)) continue;
    if (back.what == BackPlace::bar) bars.push_back(back.name);
    missing.add(back.name, back.until);
    if (!back.until.has_value() && !blank(back)) continue;
    if (is(back, BackEnds::not_at_all)) {
      never.push_back(name_of(back) + (back.opens ? " (it must open)" : ""));
    } else if (is(back, BackEnds::all_day)) {
      rest = true;
      if (antennas_down(back)) all_day_down.push_back(back.name);
    } else {
      by.push_back(one_place(back, reader));
    }
  }
  Block not_known{.kind = BlockKind::place};
  missing.say_in(not_known);
  // What is not known comes first: beside it nothing may sound like all there is.
  std::vector<std::string> said = std::move(not_known.more);
  if (!by.empty()) said.push_back("be back past " + listed(by, "; ") + ".");
  if (!never.empty()) {
    said.push_back("no margin for the way back even as you pass " + listed(never, ", ") + ".");
  }
  if (rest) {
    const std::string down =
        all_day_down.empty() ? "" : ", antennas down past " + listed(all_day_down, ", ");
    said.push_back((said.empty() ? "nothing behind you shuts for 24 h" : "The rest: all day") +
                   down + ".");
  }
  for (std::size_t i = 1; i < said.size(); ++i) said[i] = capitalised(said[i]);
  Block block{.kind = BlockKind::place, .lead = "To turn back", .main = listed(said, " ")};
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
  return ", enough water" + over + " until " + time_words(*found, found->until, reader) +
         end_words(found->ends.value_or(BackEnds::water_falls), false);
}

}  // namespace passage_brief
