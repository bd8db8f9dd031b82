// Findings with every depth and clearance at what it could be as little as: for limits that are to
// hold 95 times in 100 at each place.
//
// Under the keel, over the mast, beside a wire and a clearance take their "could be"; whether the
// mast fits, and whether a bridge is come through, follow from them. What it could be not known:
// not known. Waits at drawbridges stay as expected: a bridge that the mast may not fit under is not
// come through closed.
#pragma once

#include "passage/findings.h"

namespace passage_brief {

[[nodiscard]] Findings at_their_least(Findings findings);

/// Findings as expected, but each bridge and cable passed with the antennas as those limits have
/// them: up only where the margin is kept so at the least; where that is not known, as low as they
/// go. What is told of it (room, what the gauge must show) is for that state.
[[nodiscard]] Findings with_antennas_to_be_sure(Findings findings);

}  // namespace passage_brief
