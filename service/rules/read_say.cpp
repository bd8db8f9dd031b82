#include "rules/read_say.h"

#include <fmt/format.h>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rules/fact_table.h"
#include "rules/read_when.h"

namespace passage_brief {
namespace {

constexpr std::string_view kWhy = "why ";

/// What stands between two braces.
std::optional<SayPiece> read_braced(std::string_view inside, const Place& place,
                                    std::span<const SubjectKind> kinds) {
  const bool why = inside.starts_with(kWhy);
  std::string_view name = why ? inside.substr(kWhy.size()) : inside;
  if (kinds.size() == 1 && name == in_words(kinds.front())) name = "name";
  const Fact* fact = read_fact(name, place, kinds);
  if (fact == nullptr) return std::nullopt;
  return SayPiece{why ? SayPiece::What::why_not_known : SayPiece::What::fact, "", fact};
}

}  // namespace

std::optional<std::vector<SayPiece>> read_say(std::string_view text, const Place& place,
                                              std::span<const SubjectKind> kinds) {
  std::vector<SayPiece> say;
  bool right = true;
  while (!text.empty()) {
    const std::size_t brace = text.find_first_of("{}");
    if (brace > 0) {
      say.push_back({SayPiece::What::text, std::string(text.substr(0, brace)), nullptr});
    }
    if (brace == std::string_view::npos) break;
    const std::size_t end = text.find_first_of("{}", brace + 1);
    if (text[brace] == '}' || end == std::string_view::npos || text[end] == '{') {
      place.refuse(
          "a brace without its other half; the name of a fact stands between two, for "
          "example {under_keel}");
      return std::nullopt;
    }
    const auto piece = read_braced(text.substr(brace + 1, end - brace - 1), place, kinds);
    if (piece) say.push_back(*piece);
    right = right && piece.has_value();
    text.remove_prefix(end + 1);
  }
  if (!right) return std::nullopt;
  return say;
}

std::vector<SayPiece> say_for(const std::vector<SayPiece>& say, SubjectKind kind) {
  std::vector<SayPiece> other = say;
  for (SayPiece& piece : other) {
    if (piece.fact != nullptr) piece.fact = find_fact(kind, piece.fact->name);
  }
  return other;
}

}  // namespace passage_brief
