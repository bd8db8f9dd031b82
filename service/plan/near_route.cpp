#include "plan/near_route.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>

#include "plan/route.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr Length kStep = nautical_miles(10);

Length distance_from_route(const Route& route, Position place) {
  Length least = geodesic_distance(route.points.back().position, place);
  for (std::size_t i = 0; i + 1 < route.points.size(); ++i) {
    const Position begin = route.points[i].position;
    const RhumbLine leg = rhumb_line(begin, route.points[i + 1].position);
    for (Length along = metres(0); along < leg.distance; along = along + kStep) {
      least = std::min(least, geodesic_distance(along_rhumb(begin, leg.course, along), place));
    }
  }
  return least;
}

}  // namespace

std::string why_not_of_route(const Route& route, Position place, Length most) {
  const Length distance = distance_from_route(route, place);
  if (distance <= most) return {};
  return fmt::format(
      "lies {:.0f} nm from the route; further than {:.0f} nm off it says nothing of "
      "these waters",
      in_nautical_miles(distance), in_nautical_miles(most));
}

}  // namespace passage_brief
