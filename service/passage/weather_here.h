// The forecast at a place and time, from as many forecast places as were given.
//
// One series stands for the whole passage. Of several for one place (within 100 m, or without a
// position) the worse counts: the strongest wind, and the worst of gust, wave and the rest among
// those that give them. Of several places the wind vector is the mean weighted by one over the
// square of the distance; gust, wave and the rest are those of the nearest (our rules, no source).
// A series without a position is as near as can be.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "facts/weather/wind_series.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

/// Whether two forecasts are of one place: the stronger wind then comes now from the one and now
/// from the other.
[[nodiscard]] bool share_a_place(const Facts& facts);

/// Begin and end of a span and every hour of every forecast between, in order: at one of them
/// stands the strongest wind.
[[nodiscard]] std::vector<Instant> forecast_times(const Facts& facts, Span span);

[[nodiscard]] Known<Wind> wind_here(const Facts& facts, Position where, Instant at);
/// Over a tide station; of the first forecast where it states no position, and empty where there is
/// none.
[[nodiscard]] std::optional<Known<Wind>> wind_at_station(const Facts& facts,
                                                         const std::string& station, Instant at);
/// The worst in a span: of every hour of the forecast that counts in it.
[[nodiscard]] Known<Speed> wind_speed_here(const Facts& facts, Position where, Span span);
[[nodiscard]] Known<Speed> gust_here(const Facts& facts, Position where, Span span);
[[nodiscard]] Known<Length> wave_here(const Facts& facts, Position where, Span span);
[[nodiscard]] Known<Length> visibility_here(const Facts& facts, Position where, Span span);
[[nodiscard]] Known<double> thunder_here(const Facts& facts, Position where, Span span);
/// Of the forecasts that give pressure in some hour; null where none does.
[[nodiscard]] const WindSeries* nearest_with_pressure(const Facts& facts, Position where);

}  // namespace passage_brief
