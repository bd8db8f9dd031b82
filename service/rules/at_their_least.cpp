#include "rules/at_their_least.h"

#include <algorithm>
#include <functional>
#include <vector>

#include "passage/findings.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

// As in the rules: lengths this near are equal.
constexpr Length kEqualWithin = metres(1e-6);

void lower(std::vector<OverMast>& states) {
  for (OverMast& state : states) state.over_mast = state.over_mast_could_be;
}

/// The state of the antennas in which the margin is kept, up before down.
void fit_again(BridgeFinding& bridge) {
  std::vector<OverMast> highest_first = bridge.over_mast;
  std::ranges::sort(highest_first, std::greater{}, &OverMast::air_draft);
  bridge.fits = false;
  bridge.fits_with = not_known("the mast may not fit under " + bridge.name + " closed");
  for (const OverMast& state : highest_first) {
    if (!state.over_mast.has_value()) {
      bridge.fits = not_known_as(state.over_mast);
      bridge.fits_with = not_known_as(state.over_mast);
      return;
    }
    if (*state.over_mast < bridge.margin - kEqualWithin) continue;
    bridge.fits = true;
    bridge.fits_with = state.antennas;
    return;
  }
}

void lower(BridgeFinding& bridge) {
  lower(bridge.over_mast);
  bridge.clearance = bridge.clearance_could_be;
  fit_again(bridge);
  if (opens(bridge.what)) {
    bridge.opening_needed = join([](bool fits) { return !fits; }, bridge.fits);
  }
  if (bridge.opening) bridge.opening->passes = bridge.opening->passes_at_least;
}

void lower(CableFinding& cable) {
  lower(cable.over_mast);
  cable.clearance = cable.clearance_could_be;
  cable.to_spare = cable.to_spare_could_be;
}

}  // namespace

Findings at_their_least(Findings findings) {
  for (Depth& depth : findings.depths) depth.under_keel = depth.under_keel_could_be;
  for (BridgeFinding& bridge : findings.bridges) lower(bridge);
  for (CableFinding& cable : findings.cables) lower(cable);
  return findings;
}

}  // namespace passage_brief
