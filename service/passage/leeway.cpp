#include "passage/leeway.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "passage/hull.h"
#include "passage/relative_wind.h"
#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr double kAirOverWater = 1.225 / 1025.0;  // rho_a / rho_w
constexpr double kSideForce = 0.9;                // Cy
constexpr double kCrossFlow = 0.9;                // Cc
constexpr double kLeastBeamPart = 1e-9;           // of the wind: less is rounding

/// The positive root v of Cc A_L v^2 + pi T^2 u v = F, written so that nothing cancels when F is
/// small beside the lift.
Speed sideways_speed(const HullForm& hull, Speed through_water, RelativeWind wind) {
  const double W = wind.speed.si();
  const double w_y = W * std::abs(std::sin(in_radians(wind.from)));
  const double F = kAirOverWater * kSideForce * in_square_metres(hull.windage) * W * w_y;
  if (F <= 0) return knots(0);
  const double T = in_metres(hull.draft);
  const double u = std::max(0.0, through_water.si());
  const double lift = std::numbers::pi * T * T * u;
  const double drag = kCrossFlow * in_square_metres(hull.lateral_plane);
  return metres_per_second(2 * F / (lift + std::sqrt(lift * lift + 4 * drag * F)));
}

Angle angle_off_heading(Speed sideways, Speed through_water) {
  return radians(std::atan2(sideways.si(), std::max(0.0, through_water.si())));
}

}  // namespace

Leeway leeway_under_way(const HullForm& hull, Speed through_water, RelativeWind wind) {
  const double beam_part = std::sin(in_radians(wind.from));  // > 0: from starboard
  const bool on_the_beam = wind.speed > knots(0) && std::abs(beam_part) > kLeastBeamPart;
  if (!on_the_beam) return {degrees(0), knots(0), degrees(0), knots(0), std::nullopt, wind};
  const Speed sideways = sideways_speed(hull, through_water, wind);
  const Speed could_be = sideways * kLeewayFactor;
  return {angle_off_heading(sideways, through_water),   sideways,
          angle_off_heading(could_be, through_water),   could_be,
          beam_part > 0 ? Side::port : Side::starboard, wind};
}

Angle point_up(const Leeway& leeway) {
  return leeway.falls_off_to == Side::port ? leeway.angle : -leeway.angle;
}

}  // namespace passage_brief
