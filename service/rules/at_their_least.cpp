#include "rules/at_their_least.h"

#include <algorithm>
#include <cstddef>
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

/// The antennas may have to come down for it: with_antennas_to_be_sure() tells her so.
void lower(CableFinding& cable) {
  lower(cable.over_mast);
  cable.clearance = cable.clearance_could_be;
  cable.antennas = antennas_under_wire(cable.over_mast, cable.gap, cable.margin);
  const OverMast* const passed = as_passed(cable);
  cable.to_spare = passed == nullptr ? cable.to_spare_could_be
                                     : join([](Length over, Length gap) { return over - gap; },
                                            passed->over_mast, cable.gap);
}

/// `told`: the state in which something is passed, if in any; `sure`: the one at the least.
void put_antennas(Known<Antennas>& told, const Known<Antennas>& sure,
                  const std::vector<OverMast>& states) {
  if (!told.has_value()) return;
  told = sure.value_or(std::ranges::min(states, {}, &OverMast::air_draft).antennas);
}

void put_antennas(BridgeFinding& bridge, const BridgeFinding& least) {
  if (bridge.open_span) {
    put_antennas(bridge.open_span->fits_with, least.open_span->fits_with,
                 bridge.open_span->over_mast);
  }
  put_antennas(bridge.fits_with, least.fits_with, bridge.over_mast);
  if (!bridge.fits_with.has_value()) return;
  const OverMast& passed = *in_state(bridge.over_mast, *bridge.fits_with);
  bridge.gauge_at_least =
      join([&](Length wave) { return passed.air_draft + bridge.margin + wave; }, bridge.wave);
}

void put_antennas(CableFinding& cable, const CableFinding& least) {
  put_antennas(cable.antennas, least.antennas, cable.over_mast);
  if (!cable.antennas.has_value()) return;
  const OverMast& passed = *as_passed(cable);
  const auto less_gap = [](Length over, Length gap) { return over - gap; };
  cable.to_spare = join(less_gap, passed.over_mast, cable.gap);
  cable.to_spare_could_be = join(less_gap, passed.over_mast_could_be, cable.gap);
}

}  // namespace

Findings at_their_least(Findings findings) {
  for (Depth& depth : findings.depths) depth.under_keel = depth.under_keel_could_be;
  for (BridgeFinding& bridge : findings.bridges) lower(bridge);
  for (CableFinding& cable : findings.cables) lower(cable);
  return findings;
}

Findings with_antennas_to_be_sure(Findings findings) {
  const Findings least = at_their_least(findings);
  for (std::size_t i = 0; i < findings.bridges.size(); ++i) {
    put_antennas(findings.bridges[i], least.bridges[i]);
  }
  for (std::size_t i = 0; i < findings.cables.size(); ++i) {
    put_antennas(findings.cables[i], least.cables[i]);
  }
  return findings;
}

}  // namespace passage_brief
