// The Moon: how much of it is lit, its phase, and whether it is up.
//
// Source: J. Meeus, Astronomical Algorithms, 2nd ed., chapters 47 (the larger terms of its tables,
// from memory) and 48. How far off, years 1950 to 2050: longitude 0.02 deg, so quarters to 3
// minutes; lit part 0.001; rising and setting 1 minute below latitude 60, hills and real refraction
// left out. The lit part says nothing about whether the Moon is up, nor about cloud.
#pragma once

#include <string>

#include "units/direction.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {

/// Geocentric, equinox of date.
struct MoonPlace {
  Angle longitude;  // [0, 360) degrees
  Angle latitude;
  Angle parallax;  // horizontal, about 0.95 degrees
};
[[nodiscard]] MoonPlace moon_place(Instant at);

/// The part of the disc that is lit, 0 (new) to 1 (full).
[[nodiscard]] double moon_illuminated(Instant at);

/// Longitude of the Moon less the Sun's, [0, 360) degrees: 0 new, 90 first quarter, 180 full.
[[nodiscard]] Angle moon_phase_angle(Instant at);

/// "new moon", "waxing crescent", "first quarter", "waxing gibbous", "full moon", "waning gibbous",
/// "last quarter", "waning crescent". The four single moments hold for 6.1 degrees of phase either
/// side, about half a day (our rule).
[[nodiscard]] std::string moon_phase(Instant at);

/// Whether its upper limb is above a sea-level horizon.
[[nodiscard]] bool moon_is_up(Position position, Instant at);

}  // namespace passage_brief
