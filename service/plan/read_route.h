// Route file -> Route: GPX 1.1 (1.0 is tolerated) with one <rte>, or a GeoJSON LineString Feature.
//
// GPX: https://www.topografix.com/GPX/1/1 (the schema's own text); lat and lon are WGS 84 degrees,
// <name> names a point, extensions and all else are passed over. A file with several routes, or
// with a track only, is refused. GeoJSON: RFC 7946; `properties.points` names the vertices. A point
// without a name is called by its number from 1 ("point 3"). Two in a row within 1 m of each other
// are one place, and refused.
#pragma once

#include <expected>
#include <string_view>

#include "plan/route.h"
#include "reading/form.h"
#include "reading/problem.h"

namespace passage_brief {

inline constexpr std::size_t kMostRoutePoints = 500;

/// The GeoJSON form.
[[nodiscard]] Form<Route> route_form();
/// Either form, told apart by the first letter of the text ('<' or not).
[[nodiscard]] std::expected<Route, Problems> read_route(std::string_view file,
                                                        std::string_view text);

}  // namespace passage_brief
