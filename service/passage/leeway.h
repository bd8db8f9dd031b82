// Leeway of a boat under way: how far to leeward of her heading she goes through the water.
//
// No table for small craft is published; this is a balance of side forces. With u the speed ahead,
// v sideways, W the relative wind, w_y its part on the beam, A_w the windage, A_L the lateral
// plane, T the draft:
//   Cc A_L v^2 + pi T^2 u v = F,   F = (rho_a / rho_w) Cy A_w W w_y,   angle = atan(v / u)
// The linear term is the lift of a slender body (R. T. Jones, NACA Report 835, 1946; from memory),
// the quadratic one cross-flow drag. Cy 0.9 (Blendermann 1994: 0.85 to 0.95 for most types, from
// memory), Cc 0.9 (usual 0.8 to 1.1), air 1.225 and water 1025 kg/m3.
//
// Off by a factor of about 1.5 either way. At rest it gives 6.0 % of the wind for a 9 m motor boat,
// where 6.0 to 6.9 % were measured (Allen & Plourde 1999). Where only skegs or a rudder
// reach the full draft the lift is counted too high and the leeway too low, within that factor. Not
// for a boat close-hauled under sail nor for one on the plane.
#pragma once

#include <optional>

#include "passage/hull.h"
#include "passage/relative_wind.h"
#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {

inline constexpr double kLeewayFactor = 1.5;

struct Leeway {
  Angle angle;     // between heading and way through the water, [0, 90] degrees
  Speed sideways;  // >= 0
  Angle could_be;  // with `sideways` larger by kLeewayFactor
  Speed sideways_could_be;
  std::optional<Side> falls_off_to;  // the side away from the wind; empty: no wind on the beam
  RelativeWind wind;                 // it is worked out by
};

[[nodiscard]] Leeway leeway_under_way(const HullForm& hull, Speed through_water, RelativeWind wind);

/// The turn that holds the line: the leeway angle, toward the wind (starboard positive).
[[nodiscard]] Angle point_up(const Leeway& leeway);

}  // namespace passage_brief
