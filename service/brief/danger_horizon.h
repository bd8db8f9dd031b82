// How far ahead dangers are looked for where only limits count.
#pragma once

#include <optional>

#include "rules/rule_set.h"
#include "units/time.h"

namespace passage_brief {

/// The test is not met by any danger that takes longer to come to, whatever else there is to it; an
/// hour at most, beyond which none is told (passage/dangers.h).
[[nodiscard]] Interval asked_within(const Test& test);

/// Three times as long as the limits ask for and a minute, so that what comes as near between two
/// departures is seen at both (sure_between.h); an hour at most. Nothing where no limit asks for a
/// danger.
[[nodiscard]] std::optional<Interval> dangers_wanted_within(const RuleSet& rules);

/// Whether that is long enough for the limit, an hour being all.
[[nodiscard]] bool is_seen_at_both(const Rule& limit);

}  // namespace passage_brief
