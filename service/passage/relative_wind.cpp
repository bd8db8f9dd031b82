#include "passage/relative_wind.h"

#include <cmath>
#include <string>

#include "units/direction.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {

std::string in_words(RelativeDirection direction) {
  switch (direction) {
    case RelativeDirection::ahead:
      return "ahead";
    case RelativeDirection::starboard_bow:
      return "starboard bow";
    case RelativeDirection::starboard_beam:
      return "starboard beam";
    case RelativeDirection::starboard_quarter:
      return "starboard quarter";
    case RelativeDirection::astern:
      return "astern";
    case RelativeDirection::port_quarter:
      return "port quarter";
    case RelativeDirection::port_beam:
      return "port beam";
    case RelativeDirection::port_bow:
      return "port bow";
  }
  return {};
}

RelativeDirection relative_direction(Angle from_bow) {
  using enum RelativeDirection;
  const double to_starboard_deg = folded_180(from_bow.in_degrees());
  const double off_bow_deg = std::abs(to_starboard_deg);
  const bool port = to_starboard_deg < 0;
  if (off_bow_deg <= 22.5) return ahead;
  if (off_bow_deg <= 67.5) return port ? port_bow : starboard_bow;
  if (off_bow_deg <= 112.5) return port ? port_beam : starboard_beam;
  if (off_bow_deg <= 157.5) return port ? port_quarter : starboard_quarter;
  return astern;
}

RelativeWind relative_wind(Velocity wind, Velocity over_ground, TrueBearing heading) {
  const Velocity felt = wind - over_ground;
  return {speed_of(felt), bearing_of(felt).reversed() - heading};
}

}  // namespace passage_brief
