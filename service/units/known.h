// A value, or the reasons why it is not known.
//
// "Not known" is a value of its own: never zero, NaN, an empty string or a row left out. It stands
// at the borders of a calculation; formulas take plain values, and join() carries a formula over
// several Known inputs, keeping every reason.
#pragma once

#include <expected>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

namespace passage_brief {

/// Why something is not known, in words for the person who reads the page ("the chart gives no
/// clearance datum for Mill Bridge"). One entry for each cause; never empty.
struct NotKnown {
  std::vector<std::string> reasons;
  bool operator==(const NotKnown&) const = default;
};

/// A value or NotKnown. Read with value() (throws when not known) after testing has_value().
template <class T>
using Known = std::expected<T, NotKnown>;

/// The reason to return or assign where a Known<T> is due.
[[nodiscard]] inline std::unexpected<NotKnown> not_known(std::string reason) {
  return std::unexpected(NotKnown{{std::move(reason)}});
}

/// The reasons of another value, to hand on as one's own.
template <class T>
[[nodiscard]] std::unexpected<NotKnown> not_known_as(const Known<T>& other) {
  return std::unexpected(other.error());
}

/// All reasons of one NotKnown as a phrase, joined by "; ".
[[nodiscard]] std::string in_words(const NotKnown& why);

namespace known_detail {
template <class T>
void add_reasons(NotKnown& all, const Known<T>& input) {
  if (input.has_value()) return;
  for (const std::string& reason : input.error().reasons) {
    bool seen = false;
    for (const std::string& other : all.reasons) seen = seen || other == reason;
    if (!seen) all.reasons.push_back(reason);
  }
}
}  // namespace known_detail

/// formula(inputs...) when every input is known, else NotKnown with the reasons of all that are
/// not, each once, in the order of the inputs. The formula may itself return a Known.
template <class Formula, class... Ts>
[[nodiscard]] auto join(const Formula& formula, const Known<Ts>&... inputs) {
  using Result = std::invoke_result_t<const Formula&, const Ts&...>;
  constexpr bool kResultIsKnown =
      requires(Result r) { requires std::is_same_v<typename Result::error_type, NotKnown>; };
  NotKnown why;
  (known_detail::add_reasons(why, inputs), ...);
  if constexpr (kResultIsKnown) {
    if (!why.reasons.empty()) return Result(std::unexpected(std::move(why)));
    return formula(inputs.value()...);
  } else {
    if (!why.reasons.empty()) return Known<Result>(std::unexpected(std::move(why)));
    return Known<Result>(formula(inputs.value()...));
  }
}

}  // namespace passage_brief
