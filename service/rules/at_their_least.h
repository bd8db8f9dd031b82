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

}  // namespace passage_brief
