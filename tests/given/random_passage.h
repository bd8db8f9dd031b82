// Passages drawn by lot over invented water: bends, shoals, bars, tides, currents, drawbridges and
// forecasts, close to their limits as often as not. The same number gives the same passage.
#pragma once

#include "facts/facts.h"
#include "plan/plan.h"
#include "units/time.h"

namespace passage_brief::given {

struct RandomPassage {
  Plan plan;
  Facts facts;
  Span span;  // six hours
};

[[nodiscard]] RandomPassage random_passage(unsigned number);

}  // namespace passage_brief::given
