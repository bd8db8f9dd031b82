#include "facts/daylight/moon.h"

#include <array>
#include <chrono>
#include <cmath>
#include <string>

#include "facts/daylight/degrees.h"
#include "facts/daylight/sun.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// A term of Meeus' tables 47.A and 47.B: multiples of the arguments, then the coefficients: sine
/// of longitude (millionths of a degree) and cosine of distance (metres), or sine of latitude.
struct LongitudeTerm {
  int D, M, Mp, F;
  double longitude, distance;
};
struct LatitudeTerm {
  int D, M, Mp, F;
  double latitude;
};

// clang-format off
constexpr std::array kLongitude = std::to_array<LongitudeTerm>({
    {0, 0, 1, 0, 6288774, -20905355},  {2, 0, -1, 0, 1274027, -3699111},
    {2, 0, 0, 0, 658314, -2955968},    {0, 0, 2, 0, 213618, -569925},
    {0, 1, 0, 0, -185116, 48888},      {0, 0, 0, 2, -114332, -3149},
    {2, 0, -2, 0, 58793, 246158},      {2, -1, -1, 0, 57066, -152138},
    {2, 0, 1, 0, 53322, -170733},      {2, -1, 0, 0, 45758, -204586},
    {0, 1, -1, 0, -40923, -129620},    {1, 0, 0, 0, -34720, 108743},
    {0, 1, 1, 0, -30383, 104755},      {2, 0, 0, -2, 15327, 10321},
    {0, 0, 1, 2, -12528, 0},           {0, 0, 1, -2, 10980, 79661},
    {4, 0, -1, 0, 10675, -34782},      {0, 0, 3, 0, 10034, -23210},
    {4, 0, -2, 0, 8548, -21636},       {2, 1, -1, 0, -7888, 24208},
    {2, 1, 0, 0, -6766, 30824},        {1, 0, -1, 0, -5163, -8379},
    {1, 1, 0, 0, 4987, -16675},        {2, -1, 1, 0, 4036, -12831},
    {2, 0, 2, 0, 3994, -10445},        {4, 0, 0, 0, 3861, -11650},
    {2, 0, -3, 0, 3665, 14403},        {0, 1, -2, 0, -2689, -7003},
    {2, 0, -1, 2, -2602, 0},           {2, -1, -2, 0, 2390, 10056},
    {1, 0, 1, 0, -2348, 6322},         {2, -2, 0, 0, 2236, -9884},
    {0, 1, 2, 0, -2120, 5751},         {0, 2, 0, 0, -2069, 0},
    {2, -2, -1, 0, 2048, -4950},
});
constexpr std::array kLatitude = std::to_array<LatitudeTerm>({
    {0, 0, 0, 1, 5128122},  {0, 0, 1, 1, 280602},   {0, 0, 1, -1, 277693}, {2, 0, 0, -1, 173237},
    {2, 0, -1, 1, 55413},   {2, 0, -1, -1, 46271},  {2, 0, 0, 1, 32573},   {0, 0, 2, 1, 17198},
    {2, 0, 1, -1, 9266},    {0, 0, 2, -1, 8822},    {2, -1, 0, -1, 8216},  {2, 0, -2, -1, 4324},
    {2, 0, 1, 1, 4200},     {2, 1, 0, -1, -3359},   {2, -1, -1, 1, 2463},  {2, -1, 0, 1, 2211},
    {2, -1, -1, -1, 2065},
});
// clang-format on

/// Julian centuries of terrestrial time from J2000.0. Terrestrial time is 69 s ahead of
/// UTC in the 2020s and was 56 s in 1990: the Moon moves 0.002 deg in the difference.
double terrestrial_centuries(Instant at) {
  constexpr Instant j2000 =
      std::chrono::sys_days(std::chrono::year(2000) / 1 / 1) + std::chrono::hours(12);
  return in_hours(at + std::chrono::seconds(69) - j2000) / 24 / 36525;
}

struct MoonAndDistance {
  double longitude, latitude, distance_km;
};

MoonAndDistance moon_at(double T) {
  const double Lp = 218.3164477 + T * (481267.88123421 - T * 0.0015786);
  const double D = 297.8501921 + T * (445267.1114034 - T * 0.0018819);
  const double M = 357.5291092 + T * (35999.0502909 - T * 0.0001536);
  const double Mp = 134.9633964 + T * (477198.8675055 + T * 0.0087414);
  const double F = 93.2720950 + T * (483202.0175233 - T * 0.0036539);
  const double E = 1 - T * (0.002516 + T * 0.0000074);
  // Terms with the Sun's anomaly shrink with the eccentricity of the Earth's orbit.
  const auto shrunk = [&](int multiple, double coefficient) {
    return coefficient * std::pow(E, std::abs(multiple));
  };
  double longitude = 3958 * sin_deg(119.75 + 131.849 * T) + 1962 * sin_deg(Lp - F);
  double distance = 0;
  for (const LongitudeTerm& k : kLongitude) {
    const double angle = k.D * D + k.M * M + k.Mp * Mp + k.F * F;
    longitude += shrunk(k.M, k.longitude) * sin_deg(angle);
    distance += shrunk(k.M, k.distance) * cos_deg(angle);
  }
  double latitude = -2235 * sin_deg(Lp);
  for (const LatitudeTerm& k : kLatitude) {
    latitude += shrunk(k.M, k.latitude) * sin_deg(k.D * D + k.M * M + k.Mp * Mp + k.F * F);
  }
  const double nutation = -0.00478 * sin_deg(125.04 - 1934.136 * T);
  return {Lp + longitude / 1e6 + nutation, latitude / 1e6, 385000.56 + distance / 1000};
}

}  // namespace

MoonPlace moon_place(Instant at) {
  const MoonAndDistance moon = moon_at(terrestrial_centuries(at));
  constexpr double earth_radius_km = 6378.14;
  return {degrees(folded_360(moon.longitude)), degrees(moon.latitude),
          degrees(in_deg(std::asin(earth_radius_km / moon.distance_km)))};
}

double moon_illuminated(Instant at) {
  // Meeus, chapter 48: geocentric elongation psi, phase angle i at the Moon.
  const MoonAndDistance moon = moon_at(terrestrial_centuries(at));
  const double longitude_apart = moon.longitude - sun_place(at).apparent_longitude.in_degrees();
  const double cos_psi = cos_deg(moon.latitude) * cos_deg(longitude_apart);
  const double sin_psi = std::sqrt(1 - cos_psi * cos_psi);
  constexpr double sun_distance_km = 149.6e6;
  const double i =
      std::atan2(sun_distance_km * sin_psi, moon.distance_km - sun_distance_km * cos_psi);
  return (1 + std::cos(i)) / 2;
}

Angle moon_phase_angle(Instant at) {
  const MoonAndDistance moon = moon_at(terrestrial_centuries(at));
  return degrees(folded_360(moon.longitude - sun_place(at).apparent_longitude.in_degrees()));
}

std::string moon_phase(Instant at) {
  const double angle = moon_phase_angle(at).in_degrees();
  constexpr double half_day_deg = 6.1;  // the Moon gains 12.19 deg a day on the Sun
  constexpr std::array<const char*, 4> moments{"new moon", "first quarter", "full moon",
                                               "last quarter"};
  constexpr std::array<const char*, 4> between{"waxing crescent", "waxing gibbous",
                                               "waning gibbous", "waning crescent"};
  const double quarters = angle / 90;
  const double nearest = std::round(quarters);
  if (std::abs(angle - 90 * nearest) <= half_day_deg) {
    return moments[static_cast<std::size_t>(nearest) % moments.size()];
  }
  return between[static_cast<std::size_t>(quarters)];
}

bool moon_is_up(Position position, Instant at) {
  const MoonPlace moon = moon_place(at);
  const double T = terrestrial_centuries(at);
  const double epsilon = 23.4392911 - 0.0130042 * T;
  const double lambda = moon.longitude.in_degrees();
  const double beta = moon.latitude.in_degrees();
  const double sin_dec =
      sin_deg(beta) * cos_deg(epsilon) + cos_deg(beta) * sin_deg(epsilon) * sin_deg(lambda);
  const double right_ascension = in_deg(std::atan2(
      sin_deg(lambda) * cos_deg(epsilon) - std::tan(beta * kRadiansInDegree) * sin_deg(epsilon),
      cos_deg(lambda)));
  // Greenwich mean sidereal time (Meeus 12.4), of UTC for UT1: less than 0.004 deg apart.
  const double days =
      in_hours(at - Instant(std::chrono::sys_days(std::chrono::year(2000) / 1 / 1)) -
               std::chrono::hours(12)) /
      24;
  const double sidereal = 280.46061837 + 360.98564736629 * days;
  const double hour_angle = sidereal + position.longitude.in_degrees() - right_ascension;
  const double latitude = position.latitude.in_degrees();
  const double altitude =
      in_deg(std::asin(sin_deg(latitude) * sin_dec +
                       cos_deg(latitude) * std::sqrt(1 - sin_dec * sin_dec) * cos_deg(hour_angle)));
  // Meeus, chapter 15: the upper limb seen from the surface, 34' refraction.
  return altitude > 0.7275 * moon.parallax.in_degrees() - 34.0 / 60;
}

}  // namespace passage_brief
