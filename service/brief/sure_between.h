// Whether every departure between two judged ones comes to the same, without judging any of them.
//
// Between two departures a while apart the figures of the tide run evenly but for its turns, of
// which the stations know the exact height; wind runs evenly between the hours of the forecast;
// what is drawn stays. So a limit whose figures are farther from it at both ends than they could
// stray in between stands the same throughout. Where that is not clear the answer is "not sure",
// never a guess: whoever asks then judges a departure in the middle.
#pragma once

#include <optional>

#include "brief/departure_judge.h"
#include "facts/facts.h"
#include "rules/rule_set.h"
#include "units/quantity.h"

namespace passage_brief {

/// `earlier` left before `later`, both judged on the same facts. What every departure between is:
/// good, not good, or not sure (nothing).
[[nodiscard]] std::optional<bool> good_throughout(const JudgedWay& earlier, const JudgedWay& later,
                                                  const Facts& facts, const RuleSet& rules);

/// No departure between has more to spare than this at its tightest place; nothing where that is
/// not known.
[[nodiscard]] std::optional<Length> most_to_spare_between(const JudgedWay& earlier,
                                                          const JudgedWay& later,
                                                          const Facts& facts, const RuleSet& rules);

}  // namespace passage_brief
