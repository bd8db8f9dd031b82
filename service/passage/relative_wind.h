// The wind as felt aboard, and the eight words for a direction seen from the helm.
#pragma once

#include <string>

#include "units/direction.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {

/// Eight sectors of 45 degrees about the bow. The sector of the beam ends 22.5 degrees abaft it, as
/// sidelights do and overtaking begins (COLREG Rules 13 and 21); the other limits repeat that by
/// symmetry (common practice, no source).
enum class RelativeDirection {
  ahead,              // within 22.5 degrees of the bow
  starboard_bow,      // to 67.5
  starboard_beam,     // to 112.5
  starboard_quarter,  // to 157.5
  astern,
  port_quarter,
  port_beam,
  port_bow
};

/// "starboard quarter", "ahead".
[[nodiscard]] std::string in_words(RelativeDirection direction);

/// The sector of an angle from the bow, clockwise positive, any size. A limit belongs to the sector
/// nearer the bow.
[[nodiscard]] RelativeDirection relative_direction(Angle from_bow);

/// What a vane and an anemometer aboard show. Where `speed` is zero, `from` means nothing.
struct RelativeWind {
  Speed speed;
  Angle from;  // off the bow: [-180, 180) degrees, to starboard positive
};

/// Relative wind = wind over the ground - boat over the ground (vectors; any handbook). The boat
/// over the ground is her way through the water plus the current.
[[nodiscard]] RelativeWind relative_wind(Velocity wind, Velocity over_ground, TrueBearing heading);

}  // namespace passage_brief
