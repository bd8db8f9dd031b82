#include "passage/observed_reading.h"

#include <algorithm>
#include <cmath>
#include <expected>
#include <optional>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "facts/tide/seen_level.h"
#include "facts/waterway/waterway.h"
#include "passage/figure.h"
#include "passage/margins.h"
#include "passage/under_keel.h"
#include "passage/weather_here.h"
#include "plan/vessel.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

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

/// The first of that name; null where there is none.
template <class Item, class NameOf>
const Item* named(const std::vector<Item>& items, const std::string& name, const NameOf& name_of) {
  const auto found = std::ranges::find(items, name, name_of);
  return found == items.end() ? nullptr : &*found;
}

std::string name_of_sounded(const Sounded& place) { return place.feature->name; }

std::unexpected<NotKnown> no_such(const std::string& what, const std::string& name) {
  return not_known("no " + what + " is called \"" + name + "\"");
}

Known<TideHeight> predicted(const Facts& facts, const std::string& station, Instant at) {
  return join([at](const TideStation* s) { return s->height(at); }, facts.tide(station));
}

Known<TideHeight> plane(const Facts& facts, const std::string& station, const std::string& name) {
  if (name.empty()) return not_known("its datum is not stated");
  return join([&](const TideStation* s) { return s->datum(name); }, facts.tide(station));
}

Known<SeenLevel> held_against(const ObservedReading& reading, const std::string& station,
                              const Known<Length>& expected) {
  return join(
      [&](Length should) {
        const bool gauge = reading.by == ObservedBy::clearance_gauge;
        const Length above = gauge ? should - reading.reading : reading.reading - should;
        return SeenLevel{reading.place, reading.by, reading.reading, should,
                         station,       reading.at, above,           std::nullopt};
      },
      expected);
}

Known<SeenLevel> by_gauge(const ObservedReading& reading, const Facts& facts) {
  const Bridge* const bridge = named(facts.waterway.bridges, reading.place, &Bridge::name);
  if (bridge == nullptr) return no_such("bridge", reading.place);
  if (bridge->clearance_of != ClearanceOf::low_steel) {
    return not_known("the chart does not give the clearance of " + bridge->name +
                     " to its low steel");
  }
  const std::string& station = bridge->stations.tide;
  return held_against(
      reading, station,
      join([](Length charted, TideHeight datum,
              TideHeight height) { return charted + (datum - height); },
           bridge->clearance, plane(facts, station, bridge->stations.clearance_datum),
           predicted(facts, station, reading.at)));
}

Known<SeenLevel> by_sounder(const ObservedReading& reading, const Vessel& vessel,
                            const Facts& facts) {
  const std::vector<Sounded> places = sounded_places(facts.waterway);
  const Sounded* const place = named(places, reading.place, name_of_sounded);
  if (place == nullptr) return no_such("berth, bar, reach or depth", reading.place);
  const FeatureStations& stations = place->feature->stations;
  return held_against(
      reading, stations.tide,
      join([&](Length charted, TideHeight datum, TideHeight height,
               Length offset) { return charted + (height - datum) - vessel.draft + offset; },
           place->charted, plane(facts, stations.tide, stations.chart_datum),
           predicted(facts, stations.tide, reading.at), sounder_offset(vessel)));
}

Known<SeenLevel> by_level(const ObservedReading& reading, const Facts& facts) {
  return held_against(reading, reading.place,
                      join([](TideHeight height) { return height.above_datum(); },
                           predicted(facts, reading.place, reading.at)));
}

/// Of one forecast: the wind of the hour that blows along a direction.
double along(const Wind& wind, WindFrom from) {
  return in_knots(wind.speed) * std::cos(in_radians(wind.from.bearing - from.bearing));
}

}  // namespace

std::optional<Instant> wind_over_after(const std::string& station, Instant at, const Facts& facts,
                                       const Margins& margins) {
  if (facts.winds.empty()) return std::nullopt;
  const auto wind = [&](Instant t) { return *wind_at_station(facts, station, t); };
  const Known<Wind> then = wind(at);
  if (!then.has_value() || then->speed < margins.set_down_wind) return std::nullopt;
  std::optional<Instant> over;
  for (const WindHour& hour : facts.winds.front().hours()) {
    if (hour.at <= at) continue;
    const Known<Wind> now = wind(hour.at);
    if (!now.has_value()) return std::nullopt;
    const bool blows = along(*now, then->from) >= margins.observed_wind * in_knots(then->speed);
    over = blows ? std::nullopt : std::optional(over.value_or(hour.at));
  }
  return over;
}

std::vector<std::string> places_read_by(ObservedBy by, const Facts& facts) {
  std::vector<std::string> names;
  switch (by) {
    case ObservedBy::clearance_gauge:
      for (const Bridge& bridge : facts.waterway.bridges) names.push_back(bridge.name);
      break;
    case ObservedBy::sounder:
      for (const Sounded& place : sounded_places(facts.waterway)) {
        names.push_back(name_of_sounded(place));
      }
      break;
    case ObservedBy::water_level:
      for (const TideStation& station : facts.tides) names.push_back(station.name());
      break;
  }
  return names;
}

Known<SeenLevel> observed_level(const ObservedReading& reading, const Vessel& vessel,
                                const Facts& facts, const Margins& margins) {
  // A sounder may show shoaling, which no wind takes away.
  if (reading.by == ObservedBy::sounder) return by_sounder(reading, vessel, facts);
  Known<SeenLevel> found = reading.by == ObservedBy::clearance_gauge ? by_gauge(reading, facts)
                                                                     : by_level(reading, facts);
  if (found.has_value()) {
    found->wind_over = wind_over_after(found->station, found->at, facts, margins);
  }
  return found;
}

Working working_of(const SeenLevel& seen) {
  const bool gauge = seen.by == ObservedBy::clearance_gauge;
  return {"observed, " + seen.place,
          gauge ? "water above prediction = gauge expected - reading"
                : "water above prediction = reading - reading expected",
          {{"reading", seen.reading.value(), "observed"},
           {"reading expected", seen.expected.value(), seen.station},
           {"read at", seen.at, "observed"}},
          seen.above_predicted,
          "definition"};
}

}  // namespace passage_brief
