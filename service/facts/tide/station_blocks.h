// The blocks that tide station and current station files share: harmonic constants, and published
// series. Numbers in them are bare, in the unit the block states, and are read to SI.
#pragma once

#include <vector>

#include "facts/tide/harmonic.h"
#include "facts/tide/series_curve.h"
#include "reading/form.h"
#include "units/known.h"

namespace passage_brief {

/// Sizes of the units a block may state, in SI.
[[nodiscard]] Form<double> height_unit();  // m, ft, cm
[[nodiscard]] Form<double> speed_unit();   // kn, m/s

/// {"unit": ..., "phase": "GMT", "rows": [["M2", 0.576, 208.2], ...]}: amplitudes in SI. Not known
/// where an amplitude or a phase is null: what NOAA calls "not resolved" is 0.
[[nodiscard]] Form<Known<std::vector<HarmonicTerm>>> constituents_block(Form<double> unit,
                                                                        double most_si);

/// {"unit": ..., "rows": [["2026-06-14T00:00:00Z", 0.5], ...]}: values in SI, rows with null left
/// out (a gap). At least two rows. A height that stands off its neighbours as no tide does is a
/// problem (spikes() of series_curve.h); speeds are not looked at so.
[[nodiscard]] Form<std::vector<SeriesRow>> heights_block(double most_m);
[[nodiscard]] Form<std::vector<SeriesRow>> speeds_block(double most_si);

}  // namespace passage_brief
