#include "passage/observed_reading.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <expected>
#include <optional>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "facts/tide/observed_level.h"
#include "facts/waterway/waterway.h"
#include "passage/figure.h"
#include "passage/margins.h"
#include "passage/under_keel.h"
#include "passage/weather_here.h"
#include "plan/vessel.h"
#include "reading/problem.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using Found = std::expected<ObservedLevel, std::string>;

std::string in_small_letters(std::string text) {
  std::ranges::transform(text, text.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

/// A place a sounder can be read at.
struct Sounded {
  const Feature* feature;
  Known<Length> charted;
};

std::vector<Sounded> sounded_places(const Waterway& water) {
  std::vector<Sounded> all;
  for (const Berth& berth : water.berths) all.push_back({&berth, berth.depth});
  for (const Bar& bar : water.bars) all.push_back({&bar, bar.depth});
  for (const Reach& reach : water.reaches) all.push_back({&reach, reach.controlling_depth});
  for (const DepthArea& area : water.depth_areas) all.push_back({&area, area.least_depth});
  for (const Sounding& sounding : water.soundings) all.push_back({&sounding, sounding.depth});
  return all;
}

/// The item of that name, or what to say instead; `name_of` gives an item's.
template <class Item, class NameOf>
std::expected<const Item*, std::string> named(const std::vector<Item>& items,
                                              const std::string& name, const NameOf& name_of,
                                              const std::string& what) {
  std::vector<std::string> known;
  const std::string wanted = in_small_letters(name);
  for (const Item& item : items) {
    if (in_small_letters(name_of(item)) == wanted) return &item;
    known.push_back(name_of(item));
  }
  return std::unexpected("no " + what + " is called \"" + name + "\"" + did_you_mean(name, known));
}

std::unexpected<std::string> cannot_compare(const NotKnown& why) {
  return std::unexpected("cannot be held against the prediction: " + in_words(why));
}

Known<TideHeight> predicted(const Facts& facts, const std::string& station, Instant at) {
  return join([at](const TideStation* s) { return s->height(at); }, facts.tide(station));
}

Known<TideHeight> plane(const Facts& facts, const std::string& station, const std::string& name) {
  if (name.empty()) return not_known("its datum is not stated");
  return join([&](const TideStation* s) { return s->datum(name); }, facts.tide(station));
}

Found held_against(const ObservedReading& reading, const std::string& place,
                   const std::string& station, const Known<Length>& expected) {
  if (!expected.has_value()) return cannot_compare(expected.error());
  const bool gauge = reading.by == ObservedBy::clearance_gauge;
  const Length above = gauge ? *expected - reading.reading : reading.reading - *expected;
  return ObservedLevel{place,   reading.by, reading.reading, *expected,
                       station, reading.at, above,           std::nullopt};
}

Found by_gauge(const ObservedReading& reading, const Facts& facts) {
  const auto bridge = named(
      facts.waterway.bridges, reading.place, [](const Bridge& b) { return b.name; }, "bridge");
  if (!bridge) return std::unexpected(bridge.error());
  const Bridge& found = **bridge;
  if (found.clearance_of != ClearanceOf::low_steel) {
    return cannot_compare({{"the chart does not give " + found.name + " to its low steel"}});
  }
  const std::string& station = found.stations.tide;
  const Known<Length> expected =
      join([](Length charted, TideHeight datum,
              TideHeight height) { return charted + (datum - height); },
           found.clearance, plane(facts, station, found.stations.clearance_datum),
           predicted(facts, station, reading.at));
  return held_against(reading, found.name, station, expected);
}

Found by_sounder(const ObservedReading& reading, const Vessel& vessel, const Facts& facts) {
  const std::vector<Sounded> places = sounded_places(facts.waterway);
  const auto place = named(
      places, reading.place, [](const Sounded& s) { return s.feature->name; },
      "berth, bar, reach, depth area or sounding");
  if (!place) return std::unexpected(place.error());
  const FeatureStations& stations = (*place)->feature->stations;
  const Known<Length> expected =
      join([&](Length charted, TideHeight datum, TideHeight height,
               Length offset) { return charted + (height - datum) - vessel.draft + offset; },
           (*place)->charted, plane(facts, stations.tide, stations.chart_datum),
           predicted(facts, stations.tide, reading.at), sounder_offset(vessel));
  return held_against(reading, (*place)->feature->name, stations.tide, expected);
}

Found by_level(const ObservedReading& reading, const Facts& facts) {
  const auto station = named(
      facts.tides, reading.place, [](const TideStation& s) { return s.name(); }, "tide station");
  if (!station) return std::unexpected(station.error());
  const std::string& name = (*station)->name();
  return held_against(reading, name, name,
                      join([](TideHeight height) { return height.above_datum(); },
                           predicted(facts, name, reading.at)));
}

/// Of one forecast: the wind of the hour that blows along a direction.
double along(const Wind& wind, WindFrom from) {
  return in_knots(wind.speed) * std::cos(in_radians(wind.from.bearing - from.bearing));
}

}  // namespace

std::optional<Instant> wind_over_after(const std::string& station, Instant at, const Facts& facts,
                                       const Margins& margins) {
  if (facts.winds.empty()) return std::nullopt;
  const Known<const TideStation*> found = facts.tide(station);
  const auto wind = [&](Instant t) {
    if (found.has_value() && found.value()->position().has_value()) {
      return wind_here(facts, *found.value()->position(), t);
    }
    return facts.winds.front().wind(t);
  };
  const Known<Wind> then = wind(at);
  if (!then.has_value() || then->speed < margins.set_down_wind) return std::nullopt;
  for (const WindHour& hour : facts.winds.front().hours()) {
    if (hour.at <= at) continue;
    const Known<Wind> now = wind(hour.at);
    if (!now.has_value()) return std::nullopt;
    if (along(*now, then->from) < margins.observed_wind * in_knots(then->speed)) return hour.at;
  }
  return std::nullopt;
}

std::expected<ObservedLevel, std::string> observed_level(const ObservedReading& reading,
                                                         const Vessel& vessel, const Facts& facts,
                                                         const Margins& margins) {
  Found found = std::unexpected(std::string());
  switch (reading.by) {
    case ObservedBy::clearance_gauge:
      found = by_gauge(reading, facts);
      break;
    case ObservedBy::sounder:
      return by_sounder(reading, vessel, facts);
    case ObservedBy::water_level:
      found = by_level(reading, facts);
      break;
  }
  if (found) found->wind_over = wind_over_after(found->station, found->at, facts, margins);
  return found;
}

Working working_of(const ObservedLevel& seen) {
  const bool gauge = seen.by == ObservedBy::clearance_gauge;
  return {"observed, " + seen.place,
          gauge ? "water above prediction = gauge expected - reading"
                : "water above prediction = reading - reading expected",
          {{"reading", seen.reading, "observed"},
           {"reading expected", seen.expected, seen.station},
           {"read at", seen.at, "observed"}},
          seen.above_predicted,
          "definition"};
}

}  // namespace passage_brief
