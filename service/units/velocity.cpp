#include "units/velocity.h"

#include <cmath>

#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {

Velocity velocity(TrueBearing toward, Speed speed) {
  const double rad = in_radians(degrees(toward.in_degrees()));
  return {speed * std::sin(rad), speed * std::cos(rad)};
}

Velocity velocity(SetToward set, Speed drift) { return velocity(set.bearing, drift); }

Velocity velocity(WindFrom from, Speed speed) { return velocity(from.bearing.reversed(), speed); }

Speed speed_of(Velocity v) { return Speed::from_si(std::hypot(v.east.si(), v.north.si())); }

TrueBearing bearing_of(Velocity v) {
  return TrueBearing::from_degrees(radians(std::atan2(v.east.si(), v.north.si())).in_degrees());
}

Speed component_toward(TrueBearing bearing, Velocity v) {
  const double rad = in_radians(degrees(bearing.in_degrees()));
  return v.east * std::sin(rad) + v.north * std::cos(rad);
}

}  // namespace passage_brief
