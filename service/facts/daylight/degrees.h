// Sines and cosines of bare degrees, as the formulas of Meeus write them.
#pragma once

#include <cmath>

#include "units/direction.h"

namespace passage_brief {

[[nodiscard]] inline double sin_deg(double deg) { return std::sin(deg * kRadiansInDegree); }
[[nodiscard]] inline double cos_deg(double deg) { return std::cos(deg * kRadiansInDegree); }
[[nodiscard]] inline double in_deg(double rad) { return rad / kRadiansInDegree; }

}  // namespace passage_brief
