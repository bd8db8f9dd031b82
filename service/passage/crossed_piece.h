// A piece of the track crossed at one speed through the water, in a current that changes meanwhile.
//
// The current is taken anew every two minutes by the clock, in the middle of each: at the same
// times for every departure, so that who leaves later comes later wherever both are as fast through
// the water.
#pragma once

#include <functional>

#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {

struct CrossedPiece {
  Known<Instant> ends;
  Known<Speed> over_ground;       // the least; not known where a current is not
  Known<Speed> over_ground_most;  // likewise
  Known<Velocity> current;        // at its begin; not known where it is not at any time of it
  double across;                  // the most of her speed that the current takes across, as a share
  Known<bool> makes_headway;
  Known<bool> holds_line;
};

/// Over a distance > 0. Where the current is not known the time is worked as if there were none.
/// What takes more than 12 h makes no headway (our rule: pieces are at most 500 m long).
[[nodiscard]] CrossedPiece crossed_piece(
    TrueBearing course, Speed through_water, Length distance, const Known<Instant>& begins,
    const std::function<Known<Velocity>(const Known<Instant>&)>& current_at);

}  // namespace passage_brief
