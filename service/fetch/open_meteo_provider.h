// Open-Meteo: wind, gust, pressure, visibility and thunder (forecast), and waves (marine).
//
//   https://api.open-meteo.com/v1/forecast?latitude=...&longitude=...&hourly=wind_speed_10m,...
//   https://marine-api.open-meteo.com/v1/marine?latitude=...&longitude=...&hourly=wave_height
//
// {latitude, longitude (of the cell), utc_offset_seconds, hourly_units {}, hourly {time [], ...}}:
// parallel lists that may hold null. Known from the published schema only; no recorded reply was at
// hand. Units are read from hourly_units ("mp/h" is miles an hour). Times have no offset, so only
// replies in GMT are read. The reply does not say when its model ran: the age is not known. Wind
// comes from its direction (from memory). Thunder is certain or none, by weather_code 95, 96 and 99
// (WMO code table 4677; from memory). sea_level_height_msl and ocean currents are not read: their
// datum and their sense are not stated.
#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "reading/problem.h"
#include "units/position.h"

namespace passage_brief {

[[nodiscard]] std::string open_meteo_forecast_path(Position place);
[[nodiscard]] std::string open_meteo_marine_path(Position place);

/// Either reply. A cell more than 20 nm from the place asked for is refused (the coarsest of the
/// service's models has cells of 0.25 degree).
[[nodiscard]] std::expected<WindSeries, Problems> open_meteo(std::string_view name,
                                                             std::string_view text,
                                                             const Asked& asked);

/// The winds with the waves of the same hours; an hour that the marine reply lacks has none.
[[nodiscard]] WindSeries with_waves(const WindSeries& winds, const WindSeries& marine);

}  // namespace passage_brief
