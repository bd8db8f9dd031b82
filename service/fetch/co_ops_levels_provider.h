// NOAA CO-OPS observed water levels (product=water_level): what the gauge read, every 6 minutes.
//
// The reply is {"metadata": {id, name, lat, lon}, "data": [{"t", "v", "s", "f", "q"}]}; it names
// neither datum, unit nor zone: they are what was asked. A level is observed, so it
// holds for its own time and for no later one; f[2] is 1 where it was flat and f[3] where it
// changed too fast (CO-OPS, data quality flags; from memory), and such levels are left out.
#pragma once

#include <expected>
#include <string>
#include <string_view>
#include <vector>

#include "facts/tide/read_tide_station.h"
#include "fetch/asked.h"
#include "reading/problem.h"
#include "units/height.h"
#include "units/time.h"

namespace passage_brief {

/// The last hour's levels, in metres above `datum` and GMT.
[[nodiscard]] std::string co_ops_levels_path(std::string_view station, std::string_view datum);

struct ObservedLevel {
  Instant at;
  TideHeight height;  // above the datum that was asked for
};

struct ObservedLevels {
  std::string station;  // its number, as the reply says
  std::string name;
  std::vector<ObservedLevel> levels;  // by rising time; at least one
};

/// Asked without datum, unit or GMT: refused.
[[nodiscard]] std::expected<ObservedLevels, Problems> co_ops_levels(std::string_view name,
                                                                    std::string_view text,
                                                                    const Asked& asked);

/// The same as a station whose heights are those observed: for tables of what was, and for passages
/// already made. Asked without datum, unit or GMT: heights that are not known.
[[nodiscard]] std::expected<TideStationFile, Problems> co_ops_levels_as_station(
    std::string_view name, std::string_view text, const Asked& asked);

}  // namespace passage_brief
