#include "rules/fact_rows.h"

#include <cmath>
#include <optional>
#include <string>
#include <utility>

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

Known<Speed> astern(const Known<Wind>& wind, TrueBearing course) {
  return join(
      [&](const Wind& w) { return -(w.speed * std::cos(in_radians(w.from.bearing - course))); },
      wind);
}

Known<Speed> astern(const Known<Current>& current, TrueBearing course) {
  return join(
      [&](const Current& c) { return c.speed * std::cos(in_radians(c.toward.bearing - course)); },
      current);
}

Known<bool> turning_place_ahead(const Findings& findings, Length along) {
  NotKnown why;
  for (const TurningPlaceFinding& place : findings.turning_places) {
    if (place.along < along) continue;
    if (place.width.has_value() && *place.width > findings.passage.length) return true;
    known_detail::add_reasons(why, place.width);
  }
  if (!why.reasons.empty()) return std::unexpected(std::move(why));
  return false;
}

Known<std::string> stated(const std::optional<std::string>& text,
                          const std::string& reason_if_not) {
  if (!text) return not_known(reason_if_not);
  return *text;
}

}  // namespace passage_brief
