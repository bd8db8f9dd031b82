#include "units/direction.h"

#include <cmath>
#include <numbers>

#include "units/check.h"

namespace passage_brief {

double folded_360(double deg) {
  check(std::isfinite(deg), "a direction is a finite number");
  if (deg >= 0 && deg < 360) return deg;
  const double folded = std::fmod(deg, 360.0);
  const double positive = folded < 0 ? folded + 360.0 : folded;
  return positive >= 360.0 ? 0.0 : positive;  // -1e-20 + 360 rounds to 360
}

double folded_180(double deg) {
  if (deg >= -180.0 && deg < 180.0) return deg;  // as it is: 360 and back would cost it a bit
  const double folded = folded_360(deg);
  return folded >= 180.0 ? folded - 360.0 : folded;
}

double in_radians(Angle angle) { return angle.in_degrees() * std::numbers::pi / 180.0; }
Angle radians(double rad) { return Angle::from_degrees(rad * 180.0 / std::numbers::pi); }

std::string in_words(Side side) { return side == Side::port ? "port" : "starboard"; }

}  // namespace passage_brief
