#include "passage/buoyage.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <variant>

#include "facts/waterway/mark.h"
#include "facts/waterway/waterway.h"
#include "passage/stretch.h"
#include "units/direction.h"
#include "units/geodesy.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

/// Direction of a reach, from seaward, where its line comes nearest to a position.
Known<TrueBearing> direction_near(const Reach& reach, Position at) {
  const auto* line = std::get_if<LineShape>(&reach.shape);
  if (line == nullptr) {
    return not_known("the reach " + reach.name + " is drawn as an area and has no direction");
  }
  std::optional<Length> least;
  TrueBearing direction = TrueBearing::from_degrees(0);
  for (std::size_t i = 0; i + 1 < line->size(); ++i) {
    const RhumbLine segment = rhumb_line((*line)[i], (*line)[i + 1]);
    if (in_metres(segment.distance) == 0) continue;
    const Stretch straight(0, (*line)[i], (*line)[i + 1], metres(0), segment.course,
                           segment.distance);
    const PlanePoint point = straight.project(at);
    const double past_m = point.x_m - std::clamp(point.x_m, 0.0, in_metres(segment.distance));
    const Length off = metres(std::hypot(past_m, point.y_m));
    if (least && off >= *least) continue;
    least = off;
    direction = segment.course;
  }
  if (!least) return not_known("the line of " + reach.name + " has no length");
  return direction;
}

}  // namespace

Known<TrueBearing> buoyage_at(const Mark& mark, const Waterway& waterway) {
  if (!mark.direction_of_buoyage) {
    return not_known("no direction of buoyage is stated for " + mark.name);
  }
  if (const auto* bearing = std::get_if<TrueBearing>(&*mark.direction_of_buoyage)) return *bearing;
  const auto& name = std::get<std::string>(*mark.direction_of_buoyage);
  const auto reach =
      std::ranges::find_if(waterway.reaches, [&name](const Reach& r) { return r.name == name; });
  if (reach == waterway.reaches.end()) {
    return not_known(mark.name + " belongs to a reach " + name + " that is not in the file");
  }
  return direction_near(*reach, mark.shape);
}

}  // namespace passage_brief
