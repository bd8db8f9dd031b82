// Sunrise, sunset and twilight, and how light it is.
//
// Sunrise and sunset: upper limb on a sea-level horizon, centre at -0.833 deg (34' refraction, 16'
// semi-diameter). Civil twilight ends at -6 deg, nautical at -12 deg of the geometric centre (US
// Naval Observatory definitions; from memory). Position of the Sun: J. Meeus, Astronomical
// Algorithms, 2nd ed., chapters 25 and 28, in the form of NOAA's solar calculator (from memory):
// 0.01 deg.
//
// How far off: within 15 s of a full ephemeris below latitude 60 for the years 1950 to 2050. Real
// refraction moves sunrise by a minute, and by several where the Sun grazes the horizon in high
// latitudes; hills and the eye's height are not in it.
#pragma once

#include <optional>

#include "units/direction.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {

/// By rising darkness. `twilight`: the Sun is down, not yet 6 deg below; `dark`: deeper.
enum class Light { day, twilight, dark };

[[nodiscard]] Light light_at(Position position, Instant at);

/// The first of each in a span; empty: does not occur in it.
struct SunTimes {
  std::optional<Instant> sunrise;
  std::optional<Instant> sunset;
  std::optional<Instant> civil_dawn;
  std::optional<Instant> civil_dusk;
  std::optional<Instant> nautical_dawn;
  std::optional<Instant> nautical_dusk;
};

[[nodiscard]] SunTimes sun_times(Position position, Span span);

/// Those of the daylight of one local day: risings of the 12 h before the Sun's noon, settings of
/// the 12 h after it. In summer in high latitudes the day's sunset may come after midnight, or its
/// sunrise before. Noon is the one nearest the middle of the span.
[[nodiscard]] SunTimes sun_times_of_day(Position position, Span local_day);

/// Sunrise and sunset of sun_times_of_day alone; empty: does not occur.
struct Daylight {
  std::optional<Instant> sunrise;
  std::optional<Instant> sunset;
};
[[nodiscard]] Daylight daylight_on(Position position, Span local_day);

/// The Sun's centre above the horizon without refraction; negative below.
[[nodiscard]] Angle sun_altitude(Position position, Instant at);

/// Where the Sun stands seen from the Earth's centre.
struct SunPlace {
  Angle apparent_longitude;  // [0, 360) degrees
  Angle declination;
  Angle right_ascension;  // [0, 360) degrees
};
[[nodiscard]] SunPlace sun_place(Instant at);

}  // namespace passage_brief
