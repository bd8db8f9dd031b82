// Files of stations and forecasts: our own kinds, or replies of the open services as they came.
//
// A reply that does not say all it needs is told the rest after its name, as the request said it:
// FILE?datum=MLLW&units=metric (fetch/asked.h). A reply of predictions that names no station, and
// is not told, is called as its file is, without the ending.
#pragma once

#include <expected>
#include <optional>
#include <string>

#include "facts/tide/current_station.h"
#include "facts/tide/read_tide_station.h"
#include "facts/weather/wind_series.h"
#include "reading/problem.h"
#include "units/position.h"

namespace passage_brief {

[[nodiscard]] std::expected<TideStationFile, Problems> read_tide_file(const std::string& argument);
[[nodiscard]] std::expected<CurrentStation, Problems> read_current_file(
    const std::string& argument);
/// place: where a file that holds many places is read, unless it is told another.
[[nodiscard]] std::expected<WindSeries, Problems> read_wind_file(const std::string& argument,
                                                                 std::optional<Position> place);

/// "NOAA CO-OPS station metadata: Seattle" for a file that holds a reply, or its problems; nothing
/// for any other file.
[[nodiscard]] std::optional<std::expected<std::string, Problems>> look_through_reply(
    const std::string& argument);

}  // namespace passage_brief
