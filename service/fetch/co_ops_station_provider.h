// NOAA CO-OPS station metadata -> a tide station file (facts/tide/read_tide_station.h).
//
//   https://api.tidesandcurrents.noaa.gov/mdapi/prod/webapi/stations/9447130.json?expand=...
//
// Datums are heights above the station's own zero (STND), in feet unless asked in metres; harmonic
// constants with Greenwich phases; offsets from a reference station for a subordinate one (the
// names of their keys from memory: no recorded reply holds them). Ranges and intervals that stand
// among the datums are left out. Chart datum is MLLW, to which US charts of tidal waters are drawn
// (National Tidal Datum Convention of 1980; from memory); in the Great Lakes, and where the reply
// gives no MLLW, it is not known. A metadata reply gives no uncertainty.
#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "facts/tide/read_tide_station.h"
#include "fetch/asked.h"
#include "reading/problem.h"

namespace passage_brief {

[[nodiscard]] std::string co_ops_station_path(std::string_view station);

/// The station file as JSON text. A constituent that cannot be worked out, or whose speed is not
/// its own, is refused unless its amplitude is zero.
[[nodiscard]] std::expected<std::string, Problems> co_ops_station_file(std::string_view name,
                                                                       std::string_view text,
                                                                       const Asked& asked);

/// The same, read.
[[nodiscard]] std::expected<TideStationFile, Problems> co_ops_station(std::string_view name,
                                                                      std::string_view text,
                                                                      const Asked& asked);

}  // namespace passage_brief
