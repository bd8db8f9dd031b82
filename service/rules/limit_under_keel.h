// How little may be under the keel before a limit closes the passage: what the sounder's "stop at"
// is made of.
#pragma once

#include <cstddef>

#include "passage/findings.h"
#include "rules/rule_set.h"
#include "units/quantity.h"

namespace passage_brief {

/// The least under the keel at `findings.depths[depth]` with which every limit that depends on it
/// is kept, all else as found: ground, tide, open water. A figure read off the sounder has no error
/// band, so the least it could be is taken as the figure itself. A limit that cannot be settled
/// counts as broken; one that more water would not mend is left out. Never below zero: there the
/// keel touches, whatever the rules say.
[[nodiscard]] Length limit_under_keel(const RuleSet& rules, const Findings& findings,
                                      std::size_t depth);

}  // namespace passage_brief
