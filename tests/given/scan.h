// The scan held to the judge, minute by minute.
#pragma once

#include <cstddef>

#include "brief/departure_judge.h"
#include "units/time.h"

namespace passage_brief::given {

/// Asks the judge at every `step`th minute and at both sides of every edge; a test failure where
/// the scan says otherwise. How many of those asked are good.
[[nodiscard]] std::size_t good_minutes_alike(const DepartureJudge& judge, Span span,
                                             std::size_t step);

}  // namespace passage_brief::given
