// A motion over the ground or through the water, by its east and north parts.
//
// Winds, currents and boats add as velocities and never as bearings: 350 and 010 average to 000.
#pragma once

#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {

struct Velocity {
  Speed east;
  Speed north;

  friend Velocity operator+(Velocity a, Velocity b) { return {a.east + b.east, a.north + b.north}; }
  friend Velocity operator-(Velocity a, Velocity b) { return {a.east - b.east, a.north - b.north}; }
  friend Velocity operator*(Velocity v, double k) { return {v.east * k, v.north * k}; }
  bool operator==(const Velocity&) const = default;
};

/// A boat moving toward a true bearing.
[[nodiscard]] Velocity velocity(TrueBearing toward, Speed speed);
/// Water: the current's set and drift.
[[nodiscard]] Velocity velocity(SetToward set, Speed drift);
/// Air: it moves away from where the wind comes from.
[[nodiscard]] Velocity velocity(WindFrom from, Speed speed);

/// >= 0.
[[nodiscard]] Speed speed_of(Velocity v);
/// The true bearing it goes toward; 000 when it does not move.
[[nodiscard]] TrueBearing bearing_of(Velocity v);
/// The part of it that goes toward a bearing; negative when it goes away from it.
[[nodiscard]] Speed component_toward(TrueBearing bearing, Velocity v);

}  // namespace passage_brief
