// One layer of a National Weather Service grid: merged hours of one figure in a stated unit.
#pragma once

#include <expected>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "fetch/forecast_layers.h"
#include "reading/problem.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {

/// "2022-02-03T21:00:00+00:00/P6DT4H": ISO 8601, an interval of days, hours and minutes, more than
/// nothing and at most 30 days.
[[nodiscard]] std::expected<Span, std::string> valid_time(std::string_view text);

/// properties/KEY as pieces in SI (degrees stay degrees, percent become 0 to 1). Empty where the
/// layer is absent or says no unit.
[[nodiscard]] Layer nws_layer(const nlohmann::json& properties, const char* key, Ledger& ledger);

/// Chance of thunder from the words of properties/weather.
[[nodiscard]] Layer nws_thunder_in_words(const nlohmann::json& properties, Ledger& ledger);

/// The middle of a GeoJSON polygon's corners; nothing where it is none.
[[nodiscard]] std::optional<Position> middle_of(const nlohmann::json* geometry);

/// Refuses a cell that is not the one of the place asked for; where none was asked for, any serves.
void check_cell(const std::optional<Position>& cell, const std::optional<Position>& asked,
                Ledger& ledger);

}  // namespace passage_brief
