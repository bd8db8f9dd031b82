#include "facts/magnetic/variation.h"

#include <fmt/format.h>

#include <GeographicLib/Geocentric.hpp>
#include <GeographicLib/SphericalHarmonic.hpp>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

#include "facts/magnetic/wmm_coefficients.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr double kReferenceRadius = 6371200;  // metres, of the model

/// Year and the part of it gone by: 2026.5 at noon of 2 July.
double decimal_year(Instant at) {
  const std::chrono::year year =
      std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(at)).year();
  const Instant begin = std::chrono::sys_days(year / 1 / 1);
  const Instant next = std::chrono::sys_days((year + std::chrono::years(1)) / 1 / 1);
  return static_cast<int>(year) + in_hours(at - begin) / in_hours(next - begin);
}

/// Where the term (n, m) stands in GeographicLib's vectors: order by order.
std::size_t index_of(int n, int m) {
  return static_cast<std::size_t>(m * kMagneticDegree - m * (m - 1) / 2 + n);
}

}  // namespace

MagneticField magnetic_field(Position position, Length height, double year) {
  constexpr std::size_t cosines = (kMagneticDegree + 1) * (kMagneticDegree + 2) / 2;
  std::vector<double> C(cosines, 0.0);
  std::vector<double> S(cosines - (kMagneticDegree + 1), 0.0);  // without the column m = 0
  for (const GaussCoefficient& k : kGaussCoefficients) {
    C[index_of(k.n, k.m)] = k.g_nt + (year - 2025) * k.g_nt_per_year;
    if (k.m == 0) continue;
    S[index_of(k.n, k.m) - (kMagneticDegree + 1)] = k.h_nt + (year - 2025) * k.h_nt_per_year;
  }
  const GeographicLib::SphericalHarmonic potential(C, S, kMagneticDegree, kReferenceRadius,
                                                   GeographicLib::SphericalHarmonic::SCHMIDT);
  double X = 0, Y = 0, Z = 0;  // geocentric
  std::vector<double> M(9);
  GeographicLib::Geocentric::WGS84().Forward(position.latitude.in_degrees(),
                                             position.longitude.in_degrees(), in_metres(height), X,
                                             Y, Z, M);
  double gx = 0, gy = 0, gz = 0;
  potential(X, Y, Z, gx, gy, gz);
  const double bx = -kReferenceRadius * gx;
  const double by = -kReferenceRadius * gy;
  const double bz = -kReferenceRadius * gz;
  return {.north_nt = M[1] * bx + M[4] * by + M[7] * bz,
          .east_nt = M[0] * bx + M[3] * by + M[6] * bz,
          .down_nt = -(M[2] * bx + M[5] * by + M[8] * bz)};
}

Known<MagneticVariation> variation_at(Position position, Instant at) {
  if (at < kMagneticValidFrom || at > kMagneticValidTo) {
    return not_known(fmt::format(
        "magnetic variation: {} is valid from {} to {}, which leaves out {}", kMagneticModel,
        to_rfc3339(kMagneticValidFrom), to_rfc3339(kMagneticValidTo), to_rfc3339(at)));
  }
  const MagneticField field = magnetic_field(position, metres(0), decimal_year(at));
  const double horizontal_nt = std::hypot(field.north_nt, field.east_nt);
  if (horizontal_nt < 2000) {
    return not_known(
        "magnetic variation: too near a magnetic pole, the horizontal field is below 2000 nT");
  }
  return MagneticVariation{
      .variation = {degrees(std::atan2(field.east_nt, field.north_nt) * 180 / std::numbers::pi)},
      .one_sigma = degrees(std::hypot(0.26, 5417 / horizontal_nt)),
      .caution_zone = horizontal_nt < 6000};
}

}  // namespace passage_brief
