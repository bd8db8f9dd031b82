// Each time a track passes near something, for what is told at every pass.
#pragma once

#include <vector>

#include "facts/waterway/feature.h"
#include "passage/meetings.h"
#include "passage/stretch.h"
#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {

/// Where the track comes nearest to the shape, once for each time it passes within `near`; not
/// before the start or beyond the end of the track. A new pass begins where the track has been
/// farther off meanwhile, or has turned back by 135 degrees and more (our rule): round a bend it is
/// one.
[[nodiscard]] std::vector<Meeting> passes_of(const Track& track, std::size_t index,
                                             const Shape& shape, Length near);

/// Whether a second course turns back on a first, by 135 degrees and more.
[[nodiscard]] bool turned_back(TrueBearing first, TrueBearing second);

}  // namespace passage_brief
