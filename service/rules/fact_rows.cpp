#include "rules/fact_rows.h"

#include <optional>
#include <string>

namespace passage_brief {

Known<bool> is_below_zero(const Known<Length>& figure, const Known<Length>& could_be,
                          const std::string& reason_between) {
  if (!figure.has_value()) return not_known_as(figure);
  if (figure.value() < metres(0)) return true;
  if (!could_be.has_value()) return not_known_as(could_be);
  if (could_be.value() < metres(0)) return not_known(reason_between);
  return false;
}

Known<bool> was_measured(Basis basis, const std::string& figure) {
  switch (basis) {
    case Basis::measured:
      return true;
    case Basis::told:
      return not_known("the " + figure + " was told, not measured");
    case Basis::estimated:
      return not_known("the " + figure + " was estimated, not measured");
    case Basis::not_stated:
      return not_known("the vessel file does not say that the " + figure + " was measured");
  }
  return not_known("the vessel file does not say that the " + figure + " was measured");
}

Known<std::string> in_words(const Known<std::optional<Side>>& side, const std::string& neither) {
  return join([&](const std::optional<Side>& known) { return known ? in_words(*known) : neither; },
              side);
}

Known<std::string> stated(const std::optional<std::string>& text,
                          const std::string& reason_if_not) {
  if (!text) return not_known(reason_if_not);
  return *text;
}

}  // namespace passage_brief
