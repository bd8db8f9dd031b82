// Two forecasts for one place: whether they tell the same weather, and the worse of the two.
#pragma once

#include <optional>
#include <string>

#include "facts/weather/wind_series.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

/// The greatest difference of mean wind or gust in a span, where both give it (hour by hour);
/// nothing where they have no hour in common.
[[nodiscard]] std::optional<Speed> greatest_difference(const WindSeries& a, const WindSeries& b,
                                                       Span span);

/// Likewise of the waves.
[[nodiscard]] std::optional<Length> greatest_wave_difference(const WindSeries& a,
                                                             const WindSeries& b, Span span);

/// The same with words beside its source.
[[nodiscard]] WindSeries with_note(const WindSeries& series, std::string note);

/// Of each hour of `a` the stronger wind with its own direction, the stronger gust, the higher
/// wave, the lesser visibility and the greater chance of thunder; where `b` does not give a figure,
/// that of `a`. Its source names both.
[[nodiscard]] WindSeries worse_of(const WindSeries& a, const WindSeries& b);

}  // namespace passage_brief
