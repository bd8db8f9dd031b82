// NOAA CO-OPS predictions of tidal currents (product=currents_predictions): slacks and greatest
// floods and ebbs (interval=MAX_SLACK), or a series (interval=6 to 60 minutes).
//
// The reply says its units ("meters, cm/s" or "feet, knots") and the directions of flood and ebb,
// but neither station nor position nor zone: unless GMT was asked the current is not known. Speeds
// are along the axis, flood positive. Published to 0.1 cm/s or 0.01 kn, events to the minute.
#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "facts/tide/current_station.h"
#include "fetch/asked.h"
#include "reading/problem.h"
#include "units/time.h"

namespace passage_brief {

/// `bin` may be empty: the station's default depth. Events in metric units and GMT.
[[nodiscard]] std::string co_ops_currents_path(std::string_view station, std::string_view bin,
                                               Span span);

[[nodiscard]] std::expected<CurrentStation, Problems> co_ops_currents(std::string_view name,
                                                                      std::string_view text,
                                                                      const Asked& asked);

}  // namespace passage_brief
