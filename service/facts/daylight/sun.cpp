#include "facts/daylight/sun.h"

#include <chrono>
#include <cmath>
#include <optional>

#include "facts/crossings.h"
#include "facts/daylight/degrees.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr Angle kRiseAndSet = degrees(-0.833);
constexpr Angle kCivil = degrees(-6);
constexpr Angle kNautical = degrees(-12);

/// Julian centuries from J2000.0 (2000-01-01 12:00). UTC stands for terrestrial time: the
/// Sun moves 0.0008 deg in the minute between them.
double universal_centuries(Instant at) {
  constexpr Instant j2000 =
      std::chrono::sys_days(std::chrono::year(2000) / 1 / 1) + std::chrono::hours(12);
  return in_hours(at - j2000) / 24 / 36525;
}

/// The letters of Meeus, chapters 25 and 28; degrees.
struct Elements {
  double L0, M, e, lambda, epsilon;
};

Elements elements(double T) {
  const double L0 = 280.46646 + T * (36000.76983 + T * 0.0003032);
  const double M = 357.52911 + T * (35999.05029 - T * 0.0001537);
  const double e = 0.016708634 - 0.000042037 * T;
  const double C = sin_deg(M) * (1.914602 - 0.004817 * T) +
                   sin_deg(2 * M) * (0.019993 - 0.000101 * T) + 0.000289 * sin_deg(3 * M);
  const double omega = 125.04 - 1934.136 * T;
  return {L0, M, e, L0 + C - 0.00569 - 0.00478 * sin_deg(omega),
          23.4392911 - 0.0130042 * T + 0.00256 * cos_deg(omega)};
}

/// Apparent less mean solar time, as an angle in degrees.
double equation_of_time_deg(const Elements& sun) {
  const double y = std::pow(std::tan(sun.epsilon / 2 * kRadiansInDegree), 2);
  return in_deg(y * sin_deg(2 * sun.L0) - 2 * sun.e * sin_deg(sun.M) +
                4 * sun.e * y * sin_deg(sun.M) * cos_deg(2 * sun.L0) -
                y * y / 2 * sin_deg(4 * sun.L0) - 1.25 * sun.e * sun.e * sin_deg(2 * sun.M));
}

double sin_declination(const Elements& sun) { return sin_deg(sun.epsilon) * sin_deg(sun.lambda); }

/// West of the meridian positive; not folded.
double hour_angle_deg(Position position, Instant at, const Elements& sun) {
  const Interval of_day = at - std::chrono::floor<std::chrono::days>(at);
  return 15 * in_hours(of_day) - 180 + position.longitude.in_degrees() + equation_of_time_deg(sun);
}

double sin_altitude(Position position, Instant at) {
  const Elements sun = elements(universal_centuries(at));
  const double hour_angle = hour_angle_deg(position, at, sun);
  const double sin_dec = sin_declination(sun);
  const double latitude = position.latitude.in_degrees();
  return sin_deg(latitude) * sin_dec +
         cos_deg(latitude) * std::sqrt(1 - sin_dec * sin_dec) * cos_deg(hour_angle);
}

/// First passages of one altitude: up, and down.
struct Passages {
  std::optional<Instant> up;
  std::optional<Instant> down;
};

Passages passages(Position position, Span span, Angle altitude) {
  const double level = sin_deg(altitude.in_degrees());
  const auto above = [&](double t) {
    const Instant at = span.begin + seconds_long(t);
    constexpr std::chrono::seconds apart{30};
    const double ahead = sin_altitude(position, at + apart);
    const double behind = sin_altitude(position, at - apart);
    return ValueAndSlope{sin_altitude(position, at) - level, (ahead - behind) / 60};
  };
  // The sphere turns at 7.29e-5 rad/s; the Sun's own motion adds less than one part in a hundred.
  constexpr double turn = 7.4e-5;
  Passages first;
  for (const Crossing& c :
       crossings(above, turn, turn * turn, 0, in_seconds(span.end - span.begin))) {
    std::optional<Instant>& slot = c.downward ? first.down : first.up;
    if (!slot) slot = span.begin + seconds_long(c.at);
  }
  return first;
}

/// Up in the 12 h before the noon nearest the middle of the day, down in the 12 h after it.
Passages passages_of_day(Position position, Span local_day, Angle altitude) {
  const Instant middle = local_day.begin + (local_day.end - local_day.begin) / 2;
  const double hour_angle =
      std::remainder(hour_angle_deg(position, middle, elements(universal_centuries(middle))), 360);
  const Instant noon = middle - seconds_long(hour_angle * 240);  // 360 deg a day
  constexpr std::chrono::hours half_day{12};
  return {passages(position, {noon - half_day, noon}, altitude).up,
          passages(position, {noon, noon + half_day}, altitude).down};
}

}  // namespace

SunPlace sun_place(Instant at) {
  const Elements sun = elements(universal_centuries(at));
  const double right_ascension =
      std::atan2(cos_deg(sun.epsilon) * sin_deg(sun.lambda), cos_deg(sun.lambda));
  return {degrees(folded_360(sun.lambda)), degrees(in_deg(std::asin(sin_declination(sun)))),
          degrees(folded_360(in_deg(right_ascension)))};
}

Angle sun_altitude(Position position, Instant at) {
  return degrees(in_deg(std::asin(sin_altitude(position, at))));
}

Light light_at(Position position, Instant at) {
  const Angle altitude = sun_altitude(position, at);
  if (altitude > kRiseAndSet) return Light::day;
  return altitude < kCivil ? Light::dark : Light::twilight;
}

SunTimes sun_times(Position position, Span span) {
  const Passages sun = passages(position, span, kRiseAndSet);
  const Passages civil = passages(position, span, kCivil);
  const Passages nautical = passages(position, span, kNautical);
  return {sun.up, sun.down, civil.up, civil.down, nautical.up, nautical.down};
}

SunTimes sun_times_of_day(Position position, Span local_day) {
  const Passages sun = passages_of_day(position, local_day, kRiseAndSet);
  const Passages civil = passages_of_day(position, local_day, kCivil);
  const Passages nautical = passages_of_day(position, local_day, kNautical);
  return {sun.up, sun.down, civil.up, civil.down, nautical.up, nautical.down};
}

Daylight daylight_on(Position position, Span local_day) {
  const Passages sun = passages_of_day(position, local_day, kRiseAndSet);
  return {sun.up, sun.down};
}

}  // namespace passage_brief
