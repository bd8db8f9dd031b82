// How long a station's level stays within limits: from its curve, not from samples.
//
// Between two turns of the curve the level runs one way, so that a limit is crossed there once at
// most; the crossing is found to a tenth of a second. At New Year, where harmonic curves may step,
// the curve is taken in two parts.
#pragma once

#include <vector>

#include "facts/tide/tide_station.h"
#include "units/height.h"
#include "units/time.h"

namespace passage_brief {

/// What the level must not pass in a span.
struct LevelLimit {
  Span span;
  TideHeight level;
};

enum class LostBy { falling, rising };  // below the level, above it

struct LevelHeld {
  enum class End { lost, all_through, prediction_ends };
  Instant until;  // the last it is known to hold
  End end;
};

/// `limits` end to end, one or more.
[[nodiscard]] LevelHeld level_held(const TideStation& station,
                                   const std::vector<LevelLimit>& limits, LostBy lost_by);

}  // namespace passage_brief
