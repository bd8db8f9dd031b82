// Whether two departures meet the same things.
#pragma once

#include "passage/findings.h"

namespace passage_brief {

/// Under the same names, over the same ground, and with the same of them known: then index by index
/// what is said of one is said of the other, and of all between.
[[nodiscard]] bool alike(const Findings& earlier, const Findings& later);

}  // namespace passage_brief
