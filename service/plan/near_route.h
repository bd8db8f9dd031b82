// Whether a forecast or a station is of the waters of the route.
#pragma once

#include <string>

#include "plan/route.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {

/// Further off, a forecast or a station says nothing of the passage (our rule, no source).
inline constexpr Length kForecastReach = nautical_miles(100);
inline constexpr Length kStationReach = nautical_miles(300);

/// "lies 5400 nm from the route; ..." where a place is further than `most` from every point of the
/// route's legs (looked at each 10 nm of them); else empty.
[[nodiscard]] std::string why_not_of_route(const Route& route, Position place, Length most);

}  // namespace passage_brief
