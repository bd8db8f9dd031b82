// A waterway laid out flat, to see whether it was drawn as it was meant: every feature in metres
// east and north of one origin, with the route and the corridor of the hull where they are given.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/waterway/waterway.h"
#include "passage/route_survey.h"
#include "plan/route.h"
#include "units/geodesy.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {

enum class GroundPart {
  depth_area,
  reach,
  sounding,
  hazard,
  bar,
  bridge,
  cable,
  mark,
  berth,
  refuge,
  turning_place,
  note,
  corridor,
  route
};

/// One thing as drawn: points, lines, or the rings of an area.
struct GroundShape {
  GroundPart part;
  std::string name;                    // as it is to stand beside it; may be empty
  std::optional<Known<Length>> depth;  // charted; empty where the thing has none to give
  bool area;
  std::vector<std::vector<ChartPlane::Point>> runs;
};

struct GroundPlan {
  std::string name;
  std::vector<GroundShape> shapes;  // in the order they are to lie on each other
};

/// `route` and `survey` (of that route over that waterway) may be null. A reach drawn as a line is
/// the area of its width.
[[nodiscard]] GroundPlan ground_plan(const Waterway& waterway, const Route* route,
                                     const RouteSurvey* survey);

}  // namespace passage_brief
