// How far a forecast strays between two times from running evenly from the one to the other.
//
// Between its hours the wind runs evenly in its parts toward east and north (facts/weather/
// wind_series.h), so that it strays only where an hour of the forecast lies between.
#pragma once

#include <limits>
#include <optional>

#include "facts/facts.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

// What is taken to run evenly may stray by this share of its change (our rule).
inline constexpr double kUneven = 0.6;

/// Of what cannot be told.
inline constexpr Length kInfiniteLength = metres(std::numeric_limits<double>::infinity());

struct WindStray {
  Speed most = knots(0);     // off the even run, whichever way
  double share = 0;          // of the stronger wind of both ends
  Angle veers = degrees(0);  // all turns added up
};

/// The most of every forecast. Empty where a wind is not known at some time between and is at
/// another, and where two forecasts are of one place.
[[nodiscard]] std::optional<WindStray> wind_stray(const Facts& facts, Instant from, Instant to);

/// From the lowest to the highest waves of the hours of every forecast that count in a span;
/// infinite where they are known for some of these hours and not for others.
[[nodiscard]] Length wave_range(const Facts& facts, Span span);

}  // namespace passage_brief
