#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <optional>
#include <string>
#include <vector>

#include "page/figures.h"
#include "page/passing_words.h"

namespace passage_brief {
namespace {

std::string mark_name(const MarkFinding& mark) {
  std::string text = mark.name;
  for (const auto& part : {mark.shape, mark.colour}) {
    if (part.has_value() && !contains_word(text, *part)) text.insert(0, *part + " ");
  }
  std::vector<std::string> asides;
  if (mark.light.has_value()) asides.push_back(*mark.light);
  if (mark.kept_by == KeptBy::private_with_permit) asides.emplace_back("private");
  if (mark.kept_by == KeptBy::unofficial) asides.emplace_back("unofficial, proves nothing");
  if (mark.kept_by == KeptBy::not_stated) asides.emplace_back("keeper not known");
  if (!asides.empty()) text += fmt::format(" ({})", fmt::join(asides, ", "));
  return text;
}

std::string odd_mark_text(const MarkFinding& mark) {
  const std::string lies = mark_name(mark) + " lies to " + in_words(mark.lies_to);
  if (!mark.should_lie_to.has_value()) {
    return lies + "; its proper side is " + not_known_text(mark.should_lie_to.error());
  }
  const std::optional<Side> should = mark.should_lie_to.value();
  if (!should.has_value()) return lies + " (either side)";
  if (!mark.agrees.has_value()) return lies + "; " + not_known_text(mark.agrees.error());
  return lies + " but should lie to " + in_words(*should) +
         ": the track passes the wrong side, or the drawing is wrong";
}

/// "Leave green 11 to port, red 12 and red 14 to starboard": neighbours on one hand share its word.
std::string leave_text(const std::vector<const MarkFinding*>& marks) {
  std::vector<std::string> hands;
  for (std::size_t i = 0; i < marks.size();) {
    const Side side = marks[i]->lies_to;
    std::vector<std::string> names;
    for (; i < marks.size() && marks[i]->lies_to == side; ++i)
      names.push_back(mark_name(*marks[i]));
    hands.push_back(fmt::format("{} to {}", fmt::join(names, ", "), in_words(side)));
  }
  return fmt::format("Leave {}.", fmt::join(hands, "; "));
}

}  // namespace

bool contains_word(const std::string& text, const std::string& word) {
  return std::ranges::search(text, word, [](char a, char b) {
           return std::tolower(static_cast<unsigned char>(a)) ==
                  std::tolower(static_cast<unsigned char>(b));
         }).begin() != text.end();
}

bool plain(const MarkFinding& mark) {
  return mark.agrees.has_value() && mark.agrees.value() && mark.should_lie_to.has_value() &&
         mark.should_lie_to.value().has_value();
}

Block marks_block(const std::vector<const MarkFinding*>& plain_ones, const Reader& reader) {
  const Passing& first = plain_ones.front()->passing;
  return {.kind = BlockKind::marks,
          .lead = time_text(first.at, reader),
          .main = leave_text(plain_ones),
          .leg = first.leg};
}

Block odd_mark_block(const MarkFinding& mark, const Reader& reader) {
  return {.kind = BlockKind::marks,
          .lead = time_text(mark.passing.at, reader),
          .main = capitalised(odd_mark_text(mark)) + ".",
          .leg = mark.passing.leg};
}

}  // namespace passage_brief
