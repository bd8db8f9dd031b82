// Buoys, beacons, pilings and lights.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "facts/waterway/feature.h"
#include "units/direction.h"

namespace passage_brief {

/// The side of the channel a mark stands on, as its kind says; which hand to leave it on depends on
/// the region, the direction of buoyage and the way one is going.
enum class MarkHand {
  port,
  starboard,
  preferred_channel_to_port,
  preferred_channel_to_starboard,
  none,
  not_stated
};

enum class BuoyageRegion { a, b, not_stated };
enum class WaterwaySymbol { yellow_triangle, yellow_square, yellow_band };
enum class MarkStructure { buoy, piling, daybeacon, light, not_stated };

/// The name of the reach whose line (drawn from seaward) gives the direction, or a bearing.
using DirectionOfBuoyage = std::variant<std::string, TrueBearing>;

struct Mark : Feature {
  PointShape shape;
  std::optional<std::string> colour;
  std::optional<std::string> mark_shape;  // "can", "nun", "triangle", as charted
  MarkHand hand;
  BuoyageRegion region;
  std::optional<DirectionOfBuoyage> direction_of_buoyage;  // empty: side not known
  std::optional<std::string> light;                        // "Fl R 4s"
  std::optional<WaterwaySymbol> waterway_symbol;           // overrides colour and number
  KeptBy kept_by;
  MarkStructure structure;
};

}  // namespace passage_brief
