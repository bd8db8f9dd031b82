#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "brief/brief.h"
#include "page/back_words.h"
#include "page/drawing.h"
#include "page/figures.h"
#include "page/level_words.h"
#include "page/sheet_parts.h"
#include "page/window_words.h"

namespace passage_brief {
namespace {

// ---- wind, waves and light ----

/// " from 215 T", " from 215 T at first, 230 T at the end," or " calm at first, from 230 T at the
/// end,": calm comes from nowhere.
std::string wind_from_text(const std::vector<Leg>& legs) {
  if (legs.empty() || !legs.front().wind.has_value() || !legs.back().wind.has_value()) return "";
  const bool calm_first = is_calm(legs.front().wind->speed);
  const bool calm_last = is_calm(legs.back().wind->speed);
  if (calm_first && calm_last) return "";
  const std::string first = bearing_text(legs.front().wind.value().from.bearing);
  const std::string last = bearing_text(legs.back().wind.value().from.bearing);
  if (calm_first) return " calm at first, from " + last + " at the end,";
  if (calm_last) return " from " + first + " at first, calm at the end,";
  return first == last ? " from " + first
                       : " from " + first + " at first, " + last + " at the end,";
}

/// In fog as the caution of it says it.
std::string visibility_text(Length visibility, Units units) {
  if (visibility < nautical_miles(1)) return distance_text(visibility, Rounding::down, units);
  return rounded(in_nautical_miles(visibility), 1, Rounding::down) + " nm";
}

std::string weather_text(const Findings& found, const Reader& reader) {
  const PassageFinding& passage = found.passage;
  std::vector<std::string> said;
  if (passage.wind.has_value()) {
    said.push_back(is_calm(*passage.wind) ? "calm"
                                          : "wind" + wind_from_text(found.legs) + " up to " +
                                                wind_text(*passage.wind));
  }
  if (passage.gust.has_value() && !is_calm(*passage.gust)) {
    said.push_back("gusts " + wind_text(*passage.gust));
  }
  if (passage.wave.has_value()) said.push_back("waves " + reader.up(*passage.wave));
  if (passage.visibility.has_value()) {
    said.push_back("visibility " + visibility_text(*passage.visibility, reader.units));
  }
  if (passage.thunder.has_value() && *passage.thunder > 0) {
    said.push_back("thunder " + rounded(100 * *passage.thunder, 0, Rounding::up) + " %");
  }
  return said.empty() ? "" : capitalised(fmt::format("{}.", fmt::join(said, ", ")));
}

MissingFigures missing_weather(const PassageFinding& passage) {
  MissingFigures missing;
  missing.add("wind", passage.wind);
  missing.add("gusts", passage.gust);
  missing.add("waves", passage.wave);
  missing.add("visibility", passage.visibility);
  return missing;
}

std::string light_text(const Findings& found, const Reader& reader) {
  const LightFinding& light = found.light;
  const auto at = [&](const std::optional<Instant>& when, Rounding way) {
    return when.has_value() ? reader.clock.bare(*when, way) : std::string("none this day");
  };
  std::string text = fmt::format("Sunrise {}, sunset {}.", at(light.sunrise, Rounding::up),
                                 at(light.sunset, Rounding::down));
  const bool all_in_daylight = std::ranges::all_of(found.legs, [](const Leg& leg) {
    return leg.light.has_value() && leg.light.value() == Light::day;
  });
  if (all_in_daylight) return text;
  return text + fmt::format(" Moon {} % lit, {} at departure.",
                            rounded(100 * light.moon_illuminated, 0, Rounding::down),
                            light.moon_up ? "up" : "down");
}

/// Said once where the rode is long enough off every danger named; else beside each.
bool anchor_holds_everywhere(const Findings& found) {
  return !found.dangers.empty() && std::ranges::all_of(found.dangers, [](const Danger& danger) {
    return danger.anchor_would_hold.value_or(false);
  });
}

Block weather_block(const Brief& brief, const Reader& reader) {
  const Findings& found = brief.findings;
  Block block{
      .kind = BlockKind::weather, .lead = "Wind and light", .main = weather_text(found, reader)};
  missing_weather(found.passage).say_in(block);
  const SaidOnce once = said_once(found);
  if (!once.wind.empty() && block.more.empty()) {
    block.more.push_back("Wind on every leg not known: " + once.wind + ".");
  }
  if (!once.current.empty()) {
    block.more.push_back("Current on every leg not known: " + once.current + ".");
  }
  if (!once.magnetic.empty()) {
    block.more.push_back("Magnetic bearings not known: " + once.magnetic + ".");
  }
  block.more.push_back(light_text(found, reader));
  if (anchor_holds_everywhere(found)) {
    block.more.emplace_back("The rode is long enough off every danger named, given room to bite.");
  }
  return block;
}

/// The least width left over beside the hull and its crabbing.
std::optional<Block> width_block(const Brief& brief, const Reader& reader) {
  const Depth* narrowest = nullptr;
  for (const Depth& depth : brief.findings.depths) {
    if (!depth.spare_width.has_value()) continue;
    if (narrowest == nullptr || depth.spare_width.value() < narrowest->spare_width.value()) {
      narrowest = &depth;
    }
  }
  if (narrowest == nullptr) return std::nullopt;
  return Block{
      .kind = BlockKind::weather,
      .lead = "Least channel width to spare",
      .main = fmt::format(
          "{} in {}.", distance_text(narrowest->spare_width.value(), Rounding::down, reader.units),
          narrowest->name)};
}

// ---- places ----

std::string place_text(const PlaceOnTheWay& place, BackPlace what, const Brief& brief,
                       const Reader& reader) {
  std::string text = place.name;
  if (!place.what.empty()) text += " (" + place.what + ")";
  text += ", " + time_text(place.at, reader);
  const std::string water = enough_water_words(brief, what, place.name, reader);
  if (place.off <= feet(100)) return text + water;  // it is on the way
  text += ", " + distance_text(place.off, Rounding::up, reader.units) + " off the track" + water;
  // Round about was not looked at.
  return water.starts_with(", enough water") ? text + ", straight in only" : text;
}

/// The places that decide the passage, first met first.
std::vector<std::pair<Length, std::string>> deciding_places(const Brief& brief) {
  std::vector<std::pair<Length, std::string>> places;
  if (brief.least_depth) {
    const Depth& depth = brief.findings.depths.at(*brief.least_depth);
    places.emplace_back(depth.passing.along, depth.name);
  }
  if (brief.lowest_bridge) {
    const BridgeFinding& bridge = brief.findings.bridges.at(*brief.lowest_bridge);
    places.emplace_back(bridge.passing.along, bridge.name);
  }
  std::ranges::sort(places);
  return places;
}

Block turning_block(const Brief& brief, const Reader& reader) {
  Block block{.kind = BlockKind::place, .lead = "Last place to turn round"};
  if (brief.turning_places.empty()) {
    block.main = "None is drawn on this waterway near the track.";
    return block;
  }
  const auto text_of = [&](const PlaceOnTheWay& place) {
    return place_text(place, BackPlace::turning_place, brief, reader);
  };
  std::vector<std::string> said;
  for (const auto& [along, name] : deciding_places(brief)) {
    const PlaceOnTheWay* last = nullptr;
    for (const PlaceOnTheWay& place : brief.turning_places) {
      if (place.along <= along) last = &place;
    }
    said.push_back(fmt::format("before {}: {}", name, last != nullptr ? text_of(*last) : "none"));
  }
  if (said.empty()) said.push_back(text_of(brief.turning_places.back()));
  block.main = fmt::format("{}.", fmt::join(said, "; "));
  return block;
}

Block refuge_block(const Brief& brief, const Reader& reader) {
  Block block{.kind = BlockKind::place, .lead = "Refuge"};
  std::vector<std::string> said;
  for (const PlaceOnTheWay& place : brief.refuges)
    said.push_back(place_text(place, BackPlace::refuge, brief, reader));
  block.main = said.empty() ? "None is drawn on this waterway near the track."
                            : fmt::format("{}.", fmt::join(said, "; "));
  return block;
}

// ---- drawings ----

Block section_block(const Brief& brief, const Reader& reader) {
  return {.kind = BlockKind::section_drawing,
          .fold = Fold::drawing,
          .lead = fmt::format("Section along the track, {}: water as you arrive, not one moment",
                              reader.units == Units::us ? "feet" : "metres"),
          .instead = section_in_words(brief, reader.units)};
}

Block tide_block(const Brief& brief, const Reader& reader) {
  Block block{.kind = BlockKind::tide_curve, .fold = Fold::drawing};
  if (!brief.tide_curve.has_value()) {
    block.fold = Fold::never;
    block.lead = "Tide of the day";
    block.main = "not known: no tide station serves the deciding place.";
    return block;
  }
  const DayOfTide& day = *brief.tide_curve;
  block.lead = fmt::format("Tide at {}, {} above {}", day.station,
                           reader.units == Units::us ? "feet" : "metres", day.datum);
  if (!day.high_low.has_value()) {
    block.instead =
        "High and low water of the day not known: " + in_words(day.high_low.error()) + ".";
    return block;
  }
  std::vector<std::string> events;
  for (const TideEvent& event : day.high_low.value()) {
    events.push_back(fmt::format(
        "{} {} {}", event.high ? "high" : "low", reader.clock.bare(event.at, Rounding::nearest),
        depth_text(event.height.above_datum(), Rounding::nearest, reader.units)));
  }
  block.instead = events.empty() ? "No high or low water this day."
                                 : fmt::format("Of the day: {}.", fmt::join(events, ", "));
  for (const Window& window : brief.windows) {
    if (window.opens >= brief.tide_curve->samples.back().at) break;
    block.instead += " Leave " + window_told(window, reader.clock) + ".";
  }
  return block;
}

/// "Oyster Reach: charted 3.00 + tide 2.48 - draft 4.00 - squat 0.12 - waves 0.16 = 1.20 ft".
std::optional<Block> arithmetic_block(const Brief& brief, const Reader& reader) {
  if (!brief.least_depth) return std::nullopt;
  const Depth& depth = brief.findings.depths.at(*brief.least_depth);
  if (!depth.under_keel.has_value() || !depth.charted.has_value() ||
      !depth.height_of_tide.has_value() || !depth.squat.has_value() || !depth.wave.has_value()) {
    return std::nullopt;
  }
  const auto unit = [&](Length length) { return in_depth_unit(length, reader.units); };
  const PrintedSum sum =
      printed_sum({unit(depth.charted.value()), unit(depth.height_of_tide.value().above_datum()),
                   -unit(depth.draft), -unit(depth.squat.value()), -unit(depth.wave.value())},
                  unit(depth.under_keel.value()), 2, Rounding::down);
  const auto printed = [](long long hundredths) {
    return rounded(static_cast<double>(hundredths) / 100, 2, Rounding::nearest);
  };
  const auto term = [&](std::size_t i, const char* name) {
    const long long value = sum.terms[i];
    return fmt::format(" {} {} {}", value < 0 ? "-" : "+", name, printed(std::abs(value)));
  };
  // Draft, squat and waves are taken away, so a term of nothing still reads "-".
  const auto taken = [&](std::size_t i, const char* name) {
    return fmt::format(" - {} {}", name, printed(-sum.terms[i]));
  };
  return Block{
      .kind = BlockKind::arithmetic,
      .lead = depth.name,
      .main = fmt::format("charted {}{}{}{}{} = {} {} under the keel.", printed(sum.terms[0]),
                          term(1, "tide"), taken(2, "draft"), taken(3, "squat"), taken(4, "waves"),
                          printed(sum.total), depth_unit(reader.units))};
}

// ---- when to leave ----

std::string one_window(const Window& window, const Reader& reader) {
  std::string text = window_told(window, reader.clock);
  if (window.closed_by) {
    text += ", then " + window.closed_by->about.name +
            (window.closed_by->on_the_way_back ? " on the way back (" : " (") +
            (window.closed_by->state == LimitState::broken ? "" : "cannot tell of ") +
            window.closed_by->limit + ")";
  }
  if (window.most_to_spare && window.most_to_spare->left >= metres(0)) {
    text += "; most to spare " + best_time(window, reader.clock);
  }
  return text;
}

std::optional<Block> windows_block(const Brief& brief, const Reader& reader) {
  if (!brief.windows_in) return std::nullopt;
  Block block{.kind = BlockKind::place, .fold = Fold::notice, .lead = "When to leave"};
  // Those of the day, and the next; who wants more asks for the list of them.
  std::vector<std::string> all;
  const Span day = brief.zone.local_day(brief.zone.day_of(brief.findings.passage.departs));
  for (const Window& window : brief.windows) {
    all.push_back(one_window(window, reader));
    if (window.opens >= day.end) break;
  }
  block.main = all.empty()
                   ? fmt::format("No window up to {}.",
                                 reader.clock.with_zone(brief.windows_in->end, Rounding::down))
                   : fmt::format("{}.", fmt::join(all, "; next "));
  if (brief.no_window) {
    for (std::string& sentence : no_window_words(*brief.no_window, reader)) {
      block.more.push_back(std::move(sentence));
    }
  }
  for (const Otherwise& other : brief.otherwise) {
    block.more.push_back(otherwise_words(other, reader));
  }
  return block;
}

}  // namespace

std::vector<Block> blocks_beside_the_list(const Brief& brief, const Reader& reader) {
  std::vector<Block> blocks = {weather_block(brief, reader)};
  if (auto level = level_block(brief, reader)) blocks.push_back(std::move(*level));
  if (auto windows = windows_block(brief, reader)) blocks.push_back(std::move(*windows));
  if (auto width = width_block(brief, reader)) blocks.push_back(std::move(*width));
  if (auto back = back_block(brief, reader)) blocks.push_back(std::move(*back));
  blocks.push_back(turning_block(brief, reader));
  blocks.push_back(refuge_block(brief, reader));
  blocks.push_back(section_block(brief, reader));
  if (auto sum = arithmetic_block(brief, reader)) blocks.push_back(std::move(*sum));
  blocks.push_back(tide_block(brief, reader));
  return blocks;
}

}  // namespace passage_brief
