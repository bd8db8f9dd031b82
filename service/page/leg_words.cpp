#include <fmt/format.h>

#include <optional>
#include <string>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/passing_words.h"

namespace passage_brief {
namespace {

std::string steer_text(const Leg& leg, const MissingOnEveryLeg& missing) {
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
    text = "course " + bearing_text(leg.course) + "; what to steer is not known";
    const std::string why = in_words(leg.steer_true.error());
    if (why != missing.wind && why != missing.current) text += ": " + why;
  }
  if (leg.steer_compass.has_value()) {
    text += " (" + bearing_text(leg.steer_compass.value()) + ")";
  }
  return text;
}

std::string course_text(const Leg& leg, const MissingOnEveryLeg& missing, const Reader& reader) {
  std::string text = "Course ";
  if (leg.variation.has_value()) {
    text += bearing_text(magnetic(leg.course, leg.variation.value())) + ", ";
  }
  text += bearing_text(leg.course) + ", " + miles_text(leg.distance, Rounding::nearest);
  if (!leg.variation.has_value() && missing.magnetic.empty()) {
    text += "; M " + not_known_text(leg.variation.error());
  }
  if (!leg.starts.has_value()) text += "; times " + not_known_text(leg.starts.error());
  if (leg.starts.has_value() && !leg.ends.has_value()) {
    text += "; its end, time " + not_known_text(leg.ends.error());
  }
  (void)reader;
  return text + ".";
}

std::string point_up_text(const Leg& leg) {
  if (!leg.falls_off_to.has_value()) return "";
  const std::optional<Side> side = leg.falls_off_to.value();
  if (!side.has_value()) return ", no push to either side";
  std::string text = ", falls off to " + in_words(*side);
  if (leg.leeway.has_value()) text += " " + angle_text(leg.leeway.value(), Rounding::up);
  const std::string other_side = in_words(other(*side));
  return text + (leg.piled ? "; point up toward the " + other_side + " piles"
                           : "; point up to " + other_side);
}

std::string on_which(RelativeDirection direction) {
  const std::string words = in_words(direction);
  return words == "ahead" || words == "astern" ? words : "on the " + words;
}

std::string wind_on_leg(const Leg& leg) {
  const Wind& wind = leg.wind.value();
  std::string text = "Wind " + wind_text(wind.speed);
  if (leg.gust.has_value()) text += ", gusts " + wind_text(leg.gust.value());
  text += ", from " + bearing_text(wind.from.bearing);
  if (leg.wind_is.has_value()) text += ", " + on_which(leg.wind_is.value());
  return text + point_up_text(leg) + ".";
}

std::string current_on_leg(const Leg& leg) {
  const Current& current = leg.current.value();
  std::string text = "Current " + speed_text(current.speed, Rounding::up) + " toward " +
                     bearing_text(current.toward.bearing);
  if (leg.set_to.has_value()) {
    const std::optional<Side> side = leg.set_to.value();
    text += side.has_value() ? ", sets to " + in_words(*side) : ", no set to either side";
  }
  return text + ".";
}

std::string dark_text(Light light) {
  switch (light) {
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

Block leg_block(const Brief& brief, std::size_t index, const MissingOnEveryLeg& missing,
                const Reader& reader) {
  const Leg& leg = brief.findings.legs[index];
  Block block{.kind = BlockKind::leg,
              .fold = controls_nothing(brief, index) ? Fold::leg : Fold::never,
              .lead = fmt::format("Leg {}", index + 1),
              .main = fmt::format("{} to {}: {}", leg.from, leg.to, steer_text(leg, missing)),
              .more = {course_text(leg, missing, reader)},
              .leg = index};
  if (leg.wind.has_value()) {
    block.more.push_back(wind_on_leg(leg));
  } else if (missing.wind.empty()) {
    block.more.push_back("Wind " + not_known_text(leg.wind.error()) + ".");
  }
  if (leg.current.has_value()) {
    block.more.push_back(current_on_leg(leg));
  } else if (missing.current.empty()) {
    block.more.push_back("Current " + not_known_text(leg.current.error()) + ".");
  }
  if (const std::string dark = dark_text(leg.light); !dark.empty()) block.more.push_back(dark);
  return block;
}

}  // namespace passage_brief
