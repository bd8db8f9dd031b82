// Invented water for tests: positions by metres east and north of a point in mid-ocean, a station
// whose tide stands still, and the plainest vessel, reach and rules.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "passage/margins.h"
#include "plan/plan.h"
#include "units/geodesy.h"

namespace passage_brief::given {

/// Metres east and north of 30 N 45 W.
[[nodiscard]] Position at(double east_m, double north_m);

/// A square or oblong with its sides along north and east.
[[nodiscard]] PolygonShape oblong(double west_m, double south_m, double east_m, double north_m);

/// A tide that stands at one height above chart datum "CD"; MHW 1 m above it.
[[nodiscard]] TideStation still_tide(const std::string& name, Length height);

/// 10 m long, 4 m beam, 1.2 m draft, 6 m air draft (4 m antennas down), 4 kn slow, 6 kn cruise.
[[nodiscard]] Vessel plain_vessel();

/// Margins of round figures: track 5 m, position 3 m, under keel 0.5 m, hard 1 m, no wash, no
/// shoaling.
[[nodiscard]] Margins plain_margins();

/// A main-channel reach with no current worth counting, along a line, with a depth for its full
/// width.
[[nodiscard]] Reach plain_reach(const std::string& name, const LineShape& line, Length width,
                                Length depth);

[[nodiscard]] DepthArea plain_area(const std::string& name, const PolygonShape& shape,
                                   Known<Length> depth);

/// A waterway with nothing in it.
[[nodiscard]] Waterway empty_waterway();

/// Facts over that waterway with the still tide "Gauge" at a height, and no wind.
[[nodiscard]] Facts facts_over(Waterway waterway, Length height_of_tide);

[[nodiscard]] Plan plan_along(const std::vector<Position>& points);

/// One main-channel reach due north, "Reach", 2 km, 200 m wide.
[[nodiscard]] Waterway north_channel(Length depth);
/// Along it.
[[nodiscard]] const Plan& plan_north();

/// A steady wind over three days round the departure of plan_along.
[[nodiscard]] WindSeries steady_wind(double from_deg, Speed speed);

}  // namespace passage_brief::given
