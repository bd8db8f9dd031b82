// US National Weather Service, raw grid of one cell -> wind forecast.
//
//   https://api.weather.gov/gridpoints/TAE/58,65
//
// Layers {"uom", "values": [{"validTime": "2022-02-03T21:00:00+00:00/PT2H", "value"}]} in which
// equal consecutive hours are merged. Wind is the greatest prevailing wind of the hour, from true
// north. updateTime is the time of issue. A layer without a unit is not known; one with a unit that
// is not understood is refused. Waves of 0 throughout mean that the cell is no sea.
//
// Thunder: the probability where the grid gives one, else from the words of the weather layer, at
// the top of their range (slight chance 24 %, chance 54 %, likely 74 %, all others 100 %; NWS
// Instruction 10-503, from memory).
#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "reading/problem.h"

namespace passage_brief {

/// The series stands at the middle of the cell. A cell that is more than 5 km from the place asked
/// for is refused.
[[nodiscard]] std::expected<WindSeries, Problems> nws_grid(std::string_view name,
                                                           std::string_view text,
                                                           const Asked& asked);

}  // namespace passage_brief
