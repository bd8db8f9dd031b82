// A file that holds the reply of a service instead of a file of our own kinds, told by its shape.
#pragma once

#include <expected>
#include <optional>
#include <string_view>

#include "facts/tide/current_station.h"
#include "facts/tide/read_tide_station.h"
#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "reading/problem.h"

namespace passage_brief {

enum class ReplyShape {
  co_ops_predictions,
  co_ops_levels,
  co_ops_currents,
  co_ops_station,
  nws_grid,
  nws_hourly,
  nws_points,
  nws_alerts,
  open_meteo,
  grib2,
  error,  // an error message of any of them, or a web page
};

/// "NOAA CO-OPS tide predictions"
[[nodiscard]] std::string_view in_words(ReplyShape shape);

/// Nothing for a file of our own kinds, and for what is like nothing known.
[[nodiscard]] std::optional<ReplyShape> shape_of_reply(std::string_view bytes);

// A reply of another shape than the input takes is refused, saying what it is.

[[nodiscard]] std::expected<TideStationFile, Problems> read_tide_reply(std::string_view name,
                                                                       std::string_view bytes,
                                                                       const Asked& asked);
[[nodiscard]] std::expected<CurrentStation, Problems> read_current_reply(std::string_view name,
                                                                         std::string_view bytes,
                                                                         const Asked& asked);
[[nodiscard]] std::expected<WindSeries, Problems> read_wind_reply(std::string_view name,
                                                                  std::string_view bytes,
                                                                  const Asked& asked);

}  // namespace passage_brief
