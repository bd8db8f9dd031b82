#include "rules/at_their_least.h"

#include <optional>
#include <string>
#include <vector>

#include "passage/findings.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

void lower(std::vector<OverMast>& states) {
  for (OverMast& state : states) state.over_mast = state.over_mast_could_be;
}

void fit_again(BridgeFinding& bridge) {
  // What does not fit as expected does not with less room.
  const Known<std::optional<Antennas>> kept = bridge.fits == Known<bool>(false)
                                                  ? std::optional<Antennas>()
                                                  : kept_in(bridge.over_mast, bridge.margin);
  bridge.fits = join([](const std::optional<Antennas>& with) { return with.has_value(); }, kept);
  bridge.fits_with = fitting(kept, "the mast may not fit under " + bridge.name + " closed");
}

void lower(OpenSpan& span, const BridgeFinding& bridge) {
  lower(span.over_mast);
  span.clearance = span.clearance_could_be;
  span.fits_with = fitting(kept_in(span.over_mast, bridge.margin),
                           "the mast may not fit under " + bridge.name + " open");
}

void lower(BridgeFinding& bridge) {
  lower(bridge.over_mast);
  bridge.clearance = bridge.clearance_could_be;
  fit_again(bridge);
  if (opens(bridge.what)) {
    bridge.opening_needed = join([](bool fits) { return !fits; }, bridge.fits);
  }
  if (bridge.opening) bridge.opening->passes = bridge.opening->passes_at_least;
  if (bridge.open_span) lower(*bridge.open_span, bridge);
}

/// The antennas may have to come down for it.
void lower(CableFinding& cable) {
  lower(cable.over_mast);
  cable.clearance = cable.clearance_could_be;
  cable.antennas = antennas_under_wire(cable.over_mast, cable.gap, cable.margin);
  const OverMast* const passed = as_passed(cable);
  cable.to_spare = passed == nullptr ? cable.to_spare_could_be
                                     : join([](Length over, Length gap) { return over - gap; },
                                            passed->over_mast, cable.gap);
}

}  // namespace

Findings at_their_least(Findings findings) {
  for (Depth& depth : findings.depths) depth.under_keel = depth.under_keel_could_be;
  for (BridgeFinding& bridge : findings.bridges) lower(bridge);
  for (CableFinding& cable : findings.cables) lower(cable);
  return findings;
}

}  // namespace passage_brief
