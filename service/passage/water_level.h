// The level of the water at a feature, above the plane its own depths are charted from.
//
// The station's heights are above the station's chart datum. Where a feature is charted from
// another plane of that station, the difference between the two is taken off. A plane the station
// does not give, or none stated: not known.
#pragma once

#include "facts/facts.h"
#include "facts/waterway/feature.h"
#include "units/height.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {

[[nodiscard]] Known<TideHeight> level_at(const Facts& facts, const FeatureStations& stations,
                                         const Known<Instant>& at);
/// The lowest anywhere in the span.
[[nodiscard]] Known<TideHeight> lowest_level(const Facts& facts, const FeatureStations& stations,
                                             const Known<Span>& span);

}  // namespace passage_brief
