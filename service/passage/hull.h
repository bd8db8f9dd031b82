// The hull as the formulas of squat and leeway need it: stated by the vessel file, else estimated.
//
// Every estimate errs toward more squat and more leeway. No survey of small craft stands behind the
// ratios: they are our rules, except the block coefficients, which are the upper ends of the usual
// ranges (common practice, from memory). An estimate can be off by a third; a stated figure is
// better.
#pragma once

#include <string>
#include <vector>

#include "plan/vessel.h"
#include "units/quantity.h"

namespace passage_brief {

struct HullForm {
  Length waterline;                    // length on the waterline
  Length beam;                         // greatest
  Length draft;                        // to the deepest part: for clearance
  Length canoe_draft;                  // of the hull without her keel: for volume; with it goes...
  double block_coefficient;            // ... = volume / (waterline x beam x canoe draft), (0, 1]
  Area windage;                        // side view above the water
  Area lateral_plane;                  // side view below the water, keel included
  std::vector<std::string> estimated;  // for each figure estimated: what, and by which rule
};

/// A block coefficient stated for a boat with a keel is taken to be that of the hull without it, as
/// designers give it. Lengths and ratios of the vessel are positive (her reader sees to it).
[[nodiscard]] HullForm hull_form(const Vessel& vessel);

}  // namespace passage_brief
