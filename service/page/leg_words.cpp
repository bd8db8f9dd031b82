#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/passing_words.h"

namespace passage_brief {
namespace {

std::string steer_text(const Leg& leg) {
  if (leg.makes_headway.has_value() && !leg.makes_headway.value()) {
    return "no headway against the current";
  }
  if (leg.holds_line.has_value() && !leg.holds_line.value()) {
    return "the current across is faster than the boat: the line cannot be held";
  }
  std::string text;
  if (leg.steer_magnetic.has_value()) {
    text = "steer " + bearing_text(leg.steer_magnetic.value());
  } else if (leg.steer_true.has_value()) {
    text = "steer " + bearing_text(leg.steer_true.value());
  } else {
    const bool blank = is_left_blank(leg.steer_true.error());
    text = "course " + bearing_text(leg.course) + ", " +
           (blank ? fmt::format("steer {}", kBlank) : std::string("what to steer not known"));
  }
  if (leg.steer_compass.has_value()) {
    text += " (" + bearing_text(leg.steer_compass.value()) + ")";
  }
  return text;
}

void say_what_is_missing(Block& block, const Leg& leg, const SaidOnce& said_once) {
  MissingFigures missing;
  missing.add("times", leg.starts);
  if (leg.starts.has_value()) missing.add("time at its end", leg.ends);
  missing.add("wind", leg.wind, said_once.wind);
  missing.add("current", leg.current, said_once.current);
  missing.add("M", leg.variation, said_once.magnetic);
  missing.add("light", leg.light);
  if (leg.wind.has_value() && leg.current.has_value()) missing.add("what to steer", leg.steer_true);
  missing.say_in(block);
}

std::string falls_off_text(const Leg& leg) {
  if (!leg.falls_off_to.has_value()) {
    return ", the side she falls off to is " + not_known_text(leg.falls_off_to.error());
  }
  const std::optional<Side> side = leg.falls_off_to.value();
  if (!side.has_value()) return "";
  std::string text = ", falls off to " + in_words(*side);
  text += leg.leeway.has_value() ? " " + angle_text(leg.leeway.value(), Rounding::up)
          : is_left_blank(leg.leeway.error())
              ? fmt::format(" {}", kBlank)
              : ", how far is " + not_known_text(leg.leeway.error());
  // Between pilings there is nothing to steer by but the pilings.
  if (leg.piled) text += ": point up toward the " + in_words(other(*side)) + " piles";
  return text;
}

// Rounds to 0.0 kn either way.
constexpr Speed kNoCurrent = knots(0.001);

/// As seen from the helm; its bearing and gusts stand once for the whole way.
std::string wind_on_leg(const Leg& leg) {
  if (is_calm(leg.wind.value().speed)) return "Calm.";
  std::string text = "Wind " + wind_text(leg.wind.value().speed);
  if (leg.wind_is.has_value()) text += " " + in_words(leg.wind_is.value());
  return text + falls_off_text(leg) + ".";
}

std::string current_on_leg(const Leg& leg) {
  const Current& current = leg.current.value();
  if (current.speed < kNoCurrent) return "No current.";
  std::string text = "Current toward " + bearing_text(current.toward.bearing) + " " +
                     speed_text(current.speed, Rounding::up);
  if (leg.set_to.has_value() && leg.set_to.value().has_value()) {
    text += ", sets to " + in_words(*leg.set_to.value());
  }
  return text + ".";
}

std::string dark_text(const Leg& leg) {
  if (!leg.light.has_value()) return "";
  switch (leg.light.value()) {
    case Light::day:
      return "";
    case Light::twilight:
      return "In twilight.";
    case Light::dark:
      return "In the dark.";
  }
  return "";
}

}  // namespace

Block leg_block(const Brief& brief, std::size_t index, const SaidOnce& said_once,
                const Reader& reader) {
  const Leg& leg = brief.findings.legs[index];
  Block block{.kind = BlockKind::leg,
              .fold = controls_nothing(brief, index) ? Fold::leg : Fold::never,
              .lead = fmt::format("Leg {}", index + 1),
              .main = fmt::format("to {}: {}", leg.to, steer_text(leg)),
              .more = {miles_text(leg.distance, Rounding::nearest) + "."},
              .leg = index};
  if (leg.wind.has_value()) block.more.push_back(wind_on_leg(leg));
  if (leg.open_water && leg.wave.has_value() && *leg.wave > metres(0)) {
    block.more.push_back("Waves " + reader.up(*leg.wave) + ".");
  }
  if (leg.current.has_value()) block.more.push_back(current_on_leg(leg));
  if (const std::string dark = dark_text(leg); !dark.empty()) block.more.push_back(dark);
  say_what_is_missing(block, leg, said_once);
  return block;
}

}  // namespace passage_brief
