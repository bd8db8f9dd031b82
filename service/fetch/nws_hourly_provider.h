// US National Weather Service, hourly forecast of one cell -> wind forecast.
//
//   https://api.weather.gov/gridpoints/BMX/32,69/forecast/hourly
//
// Made for reading: wind speeds are words ("10 mph", "5 to 10 mph": the greater is taken),
// directions compass words (NW: within 11 degrees), and there is no gust, so gusts are not known.
// The raw grid (nws_grid_provider.h) says more; at sea there is only that.
#pragma once

#include <expected>
#include <string_view>

#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "reading/problem.h"

namespace passage_brief {

[[nodiscard]] std::expected<WindSeries, Problems> nws_hourly(std::string_view name,
                                                             std::string_view text,
                                                             const Asked& asked);

}  // namespace passage_brief
