// The route as drawn: named points joined by rhumb lines on WGS 84.
#pragma once

#include <string>
#include <vector>

#include "units/position.h"

namespace passage_brief {

struct RoutePoint {
  std::string name;  // never empty: the reader numbers points without a name ("point 3")
  Position position;
};

struct Route {
  std::string name;
  std::vector<RoutePoint> points;  // 2 to 500, no two in a row at one place
};

}  // namespace passage_brief
