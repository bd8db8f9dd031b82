// Forecasts and stations of other waters than those of the route.
#pragma once

#include <vector>

#include "facts/tide/current_station.h"
#include "facts/tide/read_tide_station.h"
#include "facts/waterway/waterway.h"
#include "facts/weather/wind_series.h"
#include "plan/route.h"
#include "reading/problem.h"

namespace passage_brief {

/// A problem for each that lies further from the route than near_route.h allows: its figures would
/// be taken for figures of here. A reference station that the waterway does not name gives its
/// times and heights to another one only and may lie far off; whatever states no position is not
/// looked at.
[[nodiscard]] Problems problems_of_other_waters(const Route& route, const Waterway& waterway,
                                                const std::vector<TideStationFile>& tides,
                                                const std::vector<CurrentStation>& currents,
                                                const std::vector<WindSeries>& winds);

}  // namespace passage_brief
