// How high a bridge or a cable stands over the water, and over the mast, when the boat is there.
//
//   clearance = charted clearance + (clearance datum - height of tide)
//   over the mast = clearance - air draft - half a wave (or the wash)
//
// Both heights are above the chart datum of the feature's own tide station (definition of a charted
// clearance; National Ocean Service, Coast Pilot chapter 1: above mean high water on US tidal
// charts, from memory). No credit is taken for squat or heel. A clearance "could be as little as"
// counts the tide's error upward. Where she is long under it (Passing::lasts) the highest water
// of that time counts. A clearance gauge reads to low steel (33 CFR 118.160): where the
// chart gives the centre of an arch, or does not say, the expected reading is not known.
#pragma once

#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/margins.h"
#include "plan/vessel.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {

/// `half_wave`: half the wave height there, or the wash. Not known, a mast that not even a calm
/// leaves room for is known not to fit, and nothing else of it. Where the time of passing is not
/// known nothing that depends on the tide is.
[[nodiscard]] BridgeFinding bridge_finding(const Bridge& bridge, const Passing& passing,
                                           const Vessel& vessel, const Facts& facts,
                                           const Margins& margins, const Known<Length>& half_wave);

/// Whether the lowest mast fits with the margin under a charted clearance at one instant: the
/// closed span's, or the open one's. `higher`: with the water so much higher.
[[nodiscard]] Known<bool> mast_fits(const Bridge& bridge, const Known<Length>& charted, Instant at,
                                    const Vessel& vessel, const Facts& facts,
                                    const Margins& margins, const Known<Length>& half_wave,
                                    Length higher = metres(0));

/// How much less a clearance could be at that time (95 %): by the errors of the level.
[[nodiscard]] Known<Length> less_by(const Bridge& bridge, Instant at, const Facts& facts,
                                    const Margins& margins);

/// The span opens, but it is not on file that it opens clear of every mast.
[[nodiscard]] bool opens_only_so_high(const Bridge& bridge);

/// Under such a span as she passes.
[[nodiscard]] OpenSpan open_span(const Bridge& bridge, const Passing& passing, const Vessel& vessel,
                                 const Facts& facts, const Margins& margins,
                                 const Known<Length>& half_wave);

[[nodiscard]] CableFinding cable_finding(const OverheadCable& cable, const Passing& passing,
                                         const Vessel& vessel, const Facts& facts,
                                         const Margins& margins, const Known<Length>& half_wave);

/// The gap to keep below a live wire: the extra height over a bridge that the US permit table asks
/// for its voltage (33 CFR 322.5(i)(2), from memory), zero for a telephone wire. Not known where it
/// is not stated what the wire carries, or at what voltage, or above 765 kV.
[[nodiscard]] Known<Length> cable_gap(const OverheadCable& cable);

}  // namespace passage_brief
