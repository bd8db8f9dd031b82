#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "page/figures.h"
#include "page/passing_words.h"

namespace passage_brief {
namespace {

bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

/// Colour, else shape, before the name where the name does not say it. A light is named where it is
/// dark.
std::string mark_name(const MarkFinding& mark, bool in_daylight, bool with_look = true) {
  std::string text = mark.name;
  const std::optional<std::string>& look = mark.colour.has_value() ? mark.colour : mark.shape;
  if (with_look && look.has_value() && !contains_word(text, *look)) text.insert(0, *look + " ");
  std::vector<std::string> asides;
  if (mark.light.has_value() && !in_daylight) asides.push_back(*mark.light);
  if (mark.kept_by == KeptBy::private_with_permit) asides.emplace_back("private");
  if (mark.kept_by == KeptBy::not_stated) asides.emplace_back("keeper not known");
  if (!asides.empty()) text += fmt::format(" ({})", fmt::join(asides, ", "));
  return text;
}

std::string odd_mark_text(const MarkFinding& mark, bool in_daylight) {
  const std::string lies = mark_name(mark, in_daylight) + " lies to " + in_words(mark.lies_to);
  if (!mark.should_lie_to.has_value()) {
    return lies + "; its proper side is " + not_known_text(mark.should_lie_to.error());
  }
  const std::optional<Side> should = mark.should_lie_to.value();
  if (!should.has_value()) return lies + " (either side)";
  if (!mark.agrees.has_value()) return lies + "; " + not_known_text(mark.agrees.error());
  return lies + " but should lie to " + in_words(*should) +
         ": the track passes the wrong side, or the drawing is wrong";
}

/// "green 11 to port; red 12, red 14 to starboard": neighbours on one hand share its word.
std::string on_their_hands(const std::vector<const MarkFinding*>& marks, bool in_daylight) {
  std::vector<std::string> hands;
  for (std::size_t i = 0; i < marks.size();) {
    const Side side = marks[i]->lies_to;
    std::vector<std::string> names;
    for (; i < marks.size() && marks[i]->lies_to == side; ++i) {
      names.push_back(mark_name(*marks[i], in_daylight));
    }
    hands.push_back(fmt::format("{} to {}", fmt::join(names, ", "), in_words(side)));
  }
  return fmt::format("{}", fmt::join(hands, "; "));
}

/// "green to port, red to starboard: 11, 12, 14" where each colour keeps to one hand; else nothing.
std::optional<std::string> by_colour(const std::vector<const MarkFinding*>& marks,
                                     bool in_daylight) {
  constexpr std::size_t kWorthIt = 3;
  const std::optional<std::string> hands = hands_of_colours(marks);
  if (marks.size() < kWorthIt || !hands.has_value()) return std::nullopt;
  std::vector<std::string> names;
  for (const MarkFinding* mark : marks) names.push_back(mark_name(*mark, in_daylight, false));
  return fmt::format("{}: {}", *hands, fmt::join(names, ", "));
}

}  // namespace

std::optional<std::string> hands_of_colours(const std::vector<const MarkFinding*>& marks) {
  std::map<std::string, Side> hands;
  for (const MarkFinding* mark : marks) {
    if (!mark->colour.has_value()) return std::nullopt;
    if (hands.emplace(*mark->colour, mark->lies_to).first->second != mark->lies_to) {
      return std::nullopt;
    }
  }
  std::vector<std::string> said;
  for (const auto& [colour, side] : hands) said.push_back(colour + " to " + in_words(side));
  return fmt::format("{}", fmt::join(said, ", "));
}

std::string mark_in_list(const MarkFinding& mark, bool in_daylight, bool with_hand) {
  if (!with_hand) return mark_name(mark, in_daylight, false);
  return mark_name(mark, in_daylight) + " to " + in_words(mark.lies_to);
}

bool contains_word(const std::string& text, const std::string& word) {
  const auto same = [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) ==
           std::tolower(static_cast<unsigned char>(b));
  };
  for (auto from = text.begin();;) {
    const auto found = std::search(from, text.end(), word.begin(), word.end(), same);
    if (found == text.end()) return false;
    const auto end = found + static_cast<std::ptrdiff_t>(word.size());
    const bool begins = found == text.begin() || !is_letter(*(found - 1));
    if (begins && (end == text.end() || !is_letter(*end))) return true;
    from = found + 1;
  }
}

MarkSaying saying_of(const MarkFinding& mark) {
  if (mark.kept_by == KeptBy::unofficial && !mark.should_lie_to.has_value()) {
    return MarkSaying::proves_nothing;
  }
  const bool plain = mark.agrees.value_or(false) && mark.should_lie_to.has_value() &&
                     mark.should_lie_to.value().has_value();
  return plain ? MarkSaying::leave : MarkSaying::alone;
}

Block marks_block(const std::vector<const MarkFinding*>& alike, bool in_daylight,
                  const Reader& reader) {
  const MarkFinding& first = *alike.front();
  Block block{.kind = BlockKind::marks,
              .lead = time_text(first.passing.at, reader),
              .leg = first.passing.leg};
  switch (saying_of(first)) {
    case MarkSaying::leave: {
      const auto terse =
          reader.wording == Wording::terse ? by_colour(alike, in_daylight) : std::nullopt;
      block.main = "Leave " + terse.value_or(on_their_hands(alike, in_daylight)) + ".";
      break;
    }
    case MarkSaying::proves_nothing:
      block.main = "Unofficial, proving nothing: " + on_their_hands(alike, in_daylight) + ".";
      break;
    case MarkSaying::alone:
      block.main = capitalised(odd_mark_text(first, in_daylight)) + ".";
      break;
  }
  return block;
}

}  // namespace passage_brief
