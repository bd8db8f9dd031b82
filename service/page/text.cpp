#include "page/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "brief/brief.h"
#include "page/isolates.h"
#include "page/sheet.h"

namespace passage_brief {
namespace {

constexpr std::size_t kColumns = 78;

/// Columns of UTF-8 text: its bytes less those that only continue a letter.
std::size_t columns(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(
      text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

/// Lines of words, the first indented by `first`, the others by `rest`.
std::string wrapped(std::string_view words, std::size_t first, std::size_t rest) {
  const std::string held = with_isolates(words);
  const std::string_view text = held;
  std::string out(first, ' ');
  std::size_t column = first;
  bool line_is_empty = true;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find_first_of(" \n", begin), text.size());
    const std::string_view word = text.substr(begin, end - begin);
    begin = end + 1;
    if (word.empty()) continue;
    if (!line_is_empty && column + 1 + columns(word) > kColumns) {
      out += "\n" + std::string(rest, ' ');
      column = rest;
      line_is_empty = true;
    }
    if (!line_is_empty) out += ' ';
    out += word;
    column += columns(word) + (line_is_empty ? 0 : 1);
    line_is_empty = false;
  }
  return out + "\n";
}

std::string joined(const std::vector<std::string>& pieces, std::string_view between) {
  std::string text;
  for (const std::string& piece : pieces) {
    if (piece.empty()) continue;
    if (!text.empty()) text += between;
    text += piece;
  }
  return text;
}

std::string readings_text(const Block& block) {
  std::vector<std::string> said;
  for (const Reading& reading : block.readings) said.push_back(reading.what + " " + reading.value);
  return said.empty() ? "" : capitalised(joined(said, ", ") + ".");
}

/// The place, what the instruments show there, then the rest.
std::string words_of_figure(const Block& block) {
  if (block.more.empty()) return readings_text(block);
  if (block.readings.empty()) return joined(block.more, "; ") + ".";
  const std::vector<std::string> rest(block.more.begin() + 1, block.more.end());
  const std::string last = rest.empty() ? "" : capitalised(joined(rest, "; ") + ".");
  return joined({block.more.front() + ".", readings_text(block), last}, " ");
}

std::string heading(std::string_view words) { return "\n" + wrapped(words, 0, 0) + "\n"; }

/// What stands above the first block of a kind.
std::string heading_before(BlockKind kind, const Sheet& sheet) {
  switch (kind) {
    case BlockKind::leg:
      return heading("IN ORDER OF PASSING, times " + sheet.zone_letters);
    case BlockKind::caution:
      return heading("CAUTIONS, gravest first");
    case BlockKind::weather:
      return heading("ON THE WAY");
    case BlockKind::base:
      return heading("BEFORE LETTING GO");
    case BlockKind::look_out:
      return "\n";
    case BlockKind::working:
      return heading("WORKING");
    case BlockKind::copy_heading:
    case BlockKind::title:
    case BlockKind::verdict:
    case BlockKind::key_figure:
    case BlockKind::marks:
    case BlockKind::depth:
    case BlockKind::bridge:
    case BlockKind::cable:
    case BlockKind::to_leeward:
    case BlockKind::way_back:
    case BlockKind::not_checked:
    case BlockKind::reason:
    case BlockKind::place:
    case BlockKind::section_drawing:
    case BlockKind::tide_curve:
    case BlockKind::arithmetic:
    case BlockKind::blanks:
    case BlockKind::note:
    case BlockKind::source:
    case BlockKind::estimate:
    case BlockKind::deferring:
    case BlockKind::folded:
      return "";
  }
  return "";
}

std::string block_text(const Block& block) {
  const std::string more = joined(block.more, " ");
  switch (block.kind) {
    case BlockKind::copy_heading:
      return wrapped(block.lead + ". " + block.main, 0, 2);
    case BlockKind::working: {
      std::string text = wrapped(block.lead + ":", 0, 2);
      for (const std::string& step : block.more) text += wrapped(step, 2, 4);
      return text;
    }
    case BlockKind::title:
      return wrapped(block.lead, 0, 2) + wrapped(block.main, 0, 2) +
             wrapped(joined(block.more, "; "), 0, 2);
    case BlockKind::verdict: {
      std::string text = "\n" + wrapped(block.lead, 0, 0);
      for (const std::string& sentence : block.more) text += wrapped(sentence, 0, 2);
      return text;
    }
    case BlockKind::key_figure:
      return "\n" + wrapped(block.lead + ": " + block.main + ".", 0, 2) +
             wrapped(words_of_figure(block), 2, 2);
    case BlockKind::leg:
      return wrapped(block.lead + " " + block.main + ".", 0, 2) + wrapped(more, 2, 2);
    case BlockKind::marks:
    case BlockKind::depth:
    case BlockKind::bridge:
    case BlockKind::cable: {
      const std::string stop = block.main.ends_with('.') ? "" : ".";
      return wrapped(
          block.lead + " " + joined({block.main + stop, readings_text(block), more}, " "), 2, 8);
    }
    case BlockKind::to_leeward:
      return wrapped(block.lead + ": " + block.main, 2, 2);
    case BlockKind::section_drawing:
      return wrapped(joined({block.lead + ":", block.instead}, " "), 0, 2);
    case BlockKind::tide_curve:
      return wrapped(joined({block.lead + ":", block.main, block.instead}, " "), 0, 2);
    case BlockKind::caution:
    case BlockKind::way_back:
    case BlockKind::not_checked:
    case BlockKind::reason:
    case BlockKind::weather:
    case BlockKind::place:
    case BlockKind::arithmetic:
    case BlockKind::base:
    case BlockKind::blanks:
    case BlockKind::note:
    case BlockKind::source:
    case BlockKind::estimate:
    case BlockKind::look_out:
    case BlockKind::deferring:
    case BlockKind::folded: {
      const std::string lead = block.lead.empty() ? "" : block.lead + ":";
      return wrapped(joined({lead, block.main, more}, " "), 0, 2);
    }
  }
  return "";
}

}  // namespace

std::string brief_as_text(const Brief& brief, PageChoice choice) {
  const Sheet sheet = make_sheet(brief, choice);
  std::string text;
  std::vector<BlockKind> seen;
  for (const Block& block : sheet.blocks) {
    if (std::ranges::find(seen, block.kind) == seen.end()) {
      seen.push_back(block.kind);
      text += heading_before(block.kind, sheet);
    } else if (block.kind == BlockKind::leg) {
      text += "\n";
    }
    text += block_text(block);
  }
  return text;
}

}  // namespace passage_brief
