#include <fmt/format.h>

#include <chrono>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "page/figures.h"
#include "page/passing_words.h"

namespace passage_brief {
namespace {

/// "Opening needed with antennas up; none is due with them down."
std::string need_words(const BridgeFinding& bridge) {
  std::string needed;
  std::string not_due;
  for (const OverMast& mast : bridge.over_mast) {
    const Known<bool> needs = needs_opening(bridge, mast);
    if (!needs.has_value()) continue;
    std::string& list = *needs ? needed : not_due;
    list += (list.empty() ? "" : " or ") + in_words(mast.antennas);
  }
  if (needed.empty()) return "";
  if (not_due.empty()) return "Opening needed, antennas " + needed;
  return "Opening needed with antennas " + needed + "; none is due with them " + not_due;
}

std::string call_words(const BridgeFinding& bridge) {
  std::string text;
  if (bridge.radio.has_value()) text += ", call on " + *bridge.radio;
  if (bridge.sound_signal.has_value()) text += ", sound " + *bridge.sound_signal;
  return text;
}

std::string ask_words(const OpeningDue& due, const Reader& reader) {
  if (!due.ask_by.has_value()) return "";
  return "ask by " + reader.clock.with_zone(*due.ask_by, Rounding::down) +
         (due.telephone.has_value() ? " on " + *due.telephone : "");
}

std::string due_words(const OpeningDue& due, const Reader& reader) {
  std::string text = reader.clock.bare(due.at, Rounding::up);
  if (const std::string ask = ask_words(due, reader); !ask.empty()) text += ", " + ask;
  if (due.if_waiting) text += ", only for a boat that waits there";
  return text;
}

/// Rounded up, as waits are down: the printed times differ by the printed wait.
std::string there_words(const OpeningFinding& opening, const Reader& reader) {
  return opening.reached.has_value() ? reader.clock.bare(*opening.reached, Rounding::up)
                                     : "no time";
}

std::string next_words(const OpeningFinding& opening, const Reader& reader) {
  if (!opening.next.has_value()) {
    return "Next opening not known: " + in_words(opening.next.error()) + ".";
  }
  if (!*opening.next) return "It does not open within 7 days.";
  std::string text = fmt::format("You are there {}; it opens {}", there_words(opening, reader),
                                 due_words(**opening.next, reader));
  if (opening.wait.has_value() && *opening.wait >= std::chrono::minutes(1)) {
    text += ": wait " + interval_text(*opening.wait, Rounding::down);
  }
  text += ".";
  const bool asks = (*opening.next)->ask_by.has_value();
  if (asks && opening.next_on_signal.has_value()) {
    text += *opening.next_on_signal
                ? " On signal alone " + due_words(**opening.next_on_signal, reader) + "."
                : std::string(" On signal alone not within 7 days.");
  }
  return text;
}

std::string push_words(const std::string& what, const Known<Speed>& toward,
                       const std::string& drives) {
  if (!toward.has_value()) return what + " there not known";
  if (*toward > kLeastPush)
    return what + " " + drives + " toward it, " + speed_text(*toward, Rounding::up);
  if (*toward < -kLeastPush) {
    return what + " " + drives + " away from it, " + speed_text(-*toward, Rounding::down);
  }
  return what + " neither way";
}

/// Rounded up, as "turn back below": the figures themselves let her pass in the first minute that
/// keeps the margin.
std::string until_gauge_shows(const BridgeFinding& bridge, const Reader& reader) {
  return ", and until the gauge shows " +
         or_not_known(bridge.gauge_at_least, [&](Length reading) { return reader.up(reading); });
}

std::string hold_off_words(const OpeningFinding& opening, const Reader& reader) {
  const HoldOff& off = opening.hold_off;
  std::string text = push_words("Current", off.current_toward, "sets") + "; " +
                     push_words("wind", off.wind_toward, "blows") + ". ";
  if (!off.drift.has_value()) return text + "How far off to wait is not known.";
  text += "Wait at least " + distance_text(off.short_of_bridge, Rounding::up, reader.units) +
          " short of it, bow to the current: she drifts " +
          distance_text(*off.drift, Rounding::up, reader.units) + " toward it in 5 min.";
  const bool both = off.current_toward.value_or(knots(0)) > kLeastPush &&
                    off.wind_toward.value_or(knots(0)) > kLeastPush;
  if (both) text += " Wind and current both carry her onto it: the worst case.";
  return text;
}

}  // namespace

bool waits_for_water_to_fall(const BridgeFinding& bridge) {
  return bridge.opening && bridge.opening->fits_on_arrival == Known<bool>(false) &&
         bridge.opening->through_opening == Known<bool>(false) && bridge.opening->wait.has_value();
}

std::string asking_words(const BridgeFinding& bridge, const Reader& reader) {
  const OpeningDue* const due = opening_due(bridge);
  if (due == nullptr || !due->ask_by) return "";
  const Known<std::optional<OpeningDue>>& alone = bridge.opening->next_on_signal;
  if (!alone.has_value()) return ask_words(*due, reader);
  return ask_words(*due, reader) + ", on signal alone " +
         (*alone ? reader.clock.bare((*alone)->at, Rounding::up) : "not within 7 days");
}

std::vector<std::string> opening_words(const BridgeFinding& bridge, const Reader& reader) {
  std::vector<std::string> all;
  if (!bridge.opening.has_value()) return all;
  const OpeningFinding& opening = *bridge.opening;
  const std::string need = need_words(bridge);
  if (!need.empty()) all.push_back(need + call_words(bridge) + ".");
  if (opening.fits_on_arrival.value_or(true)) return all;
  if (waits_for_water_to_fall(bridge)) {
    all.push_back("Too high when you come to it " + there_words(opening, reader) + ": wait " +
                  interval_text(*opening.wait, Rounding::down) + " for the water to fall" +
                  (bridge.clearance_gauge.value_or(true) ? until_gauge_shows(bridge, reader) : "") +
                  ".");
  } else {
    all.push_back(next_words(opening, reader));
  }
  if (is_too_low_open(bridge)) {
    all.emplace_back("Open, it is still too low for the mast.");
  }
  all.push_back(hold_off_words(opening, reader));
  return all;
}

}  // namespace passage_brief
