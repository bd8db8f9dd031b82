#include "cli/other_waters.h"

#include <algorithm>
#include <string>
#include <vector>

#include "facts/waterway/feature.h"
#include "plan/near_route.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

bool names_tide(const Waterway& water, const std::string& station) {
  const auto any_of = [&](const auto&... lists) {
    const auto named = [&](const Feature& feature) { return feature.stations.tide == station; };
    return (std::ranges::any_of(lists, named) || ...);
  };
  return water.stations.tide == station ||
         any_of(water.reaches, water.depth_areas, water.soundings, water.hazards, water.bars,
                water.bridges, water.cables, water.marks, water.berths, water.refuges,
                water.turning_places, water.notes);
}

}  // namespace

Problems problems_of_other_waters(const Route& route, const Waterway& waterway,
                                  const std::vector<TideStationFile>& tides,
                                  const std::vector<CurrentStation>& currents,
                                  const std::vector<WindSeries>& winds) {
  Problems problems;
  const auto look_at = [&](const char* option, const std::string& what, const auto& place,
                           Length most) {
    const std::string words = place ? why_not_of_route(route, *place, most) : "";
    if (!words.empty()) problems.push_back({option, "", what + " " + words});
  };
  const auto is_reference_only = [&](const TideStationFile& station) {
    if (names_tide(waterway, station.parts.name)) return false;
    return std::ranges::any_of(tides, [&](const TideStationFile& other) {
      return other.subordinate_to && (other.subordinate_to->reference == station.parts.name ||
                                      other.subordinate_to->reference == station.number);
    });
  };
  for (const TideStationFile& station : tides) {
    if (is_reference_only(station)) continue;
    look_at("--tide", "the station " + station.parts.name, station.parts.position, kStationReach);
  }
  for (const CurrentStation& station : currents) {
    look_at("--current", "the station " + station.name(), station.position(), kStationReach);
  }
  for (const WindSeries& series : winds) {
    look_at("--wind", "the place of the " + series.source().what, series.position(),
            kForecastReach);
  }
  return problems;
}

}  // namespace passage_brief
