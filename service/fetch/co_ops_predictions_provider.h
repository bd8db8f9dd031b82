// NOAA CO-OPS tide predictions (product=predictions): the published highs and lows
// (interval=hilo), or a series of heights (interval=6 or h).
//
//   https://api.tidesandcurrents.noaa.gov/api/prod/datagetter?product=predictions&station=...
//
// The reply is {"predictions": [{"t": "2026-06-14 03:10", "v": "0.92", "type": "H"}]}. It names no
// station, datum, unit or zone: they come from what was asked, and without datum, unit and GMT the
// heights are not known. Published to 0.001 m or ft, highs and lows to the minute.
#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "facts/tide/read_tide_station.h"
#include "fetch/asked.h"
#include "reading/problem.h"
#include "units/time.h"

namespace passage_brief {

enum class PredictionInterval { high_low, six_minutes };

/// The path and query of the request, after the service's base address; heights above `datum` in
/// metres, times in GMT.
[[nodiscard]] std::string co_ops_predictions_path(std::string_view station, std::string_view datum,
                                                  PredictionInterval interval, Span span);

[[nodiscard]] std::expected<TideStationFile, Problems> co_ops_predictions(std::string_view name,
                                                                          std::string_view text,
                                                                          const Asked& asked);

}  // namespace passage_brief
