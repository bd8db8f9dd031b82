// Wind forecast file (JSON, "kind": "wind forecast") -> WindSeries.
//
// What an hour leaves out or gives as null is not known at that hour. Hours must rise, no two
// alike.
#pragma once

#include <cstddef>
#include <expected>
#include <string_view>

#include "facts/weather/wind_series.h"
#include "reading/form.h"
#include "reading/problem.h"

namespace passage_brief {

inline constexpr std::size_t kMostForecastHours = 2'000;

[[nodiscard]] Form<WindSeries> wind_forecast_form();
[[nodiscard]] std::expected<WindSeries, Problems> read_wind_forecast(std::string_view file,
                                                                     std::string_view text);

}  // namespace passage_brief
