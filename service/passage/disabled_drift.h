// Where a boat with stopped engines goes: down the wind, off to either side of it, and with the
// current.
//
// Leeway through the water = slope x wind at 10 m + offset, downwind and crosswind apart, fitted to
// drift trials (A. A. Allen & J. V. Plourde, Review of Leeway, USCG R&D Center CG-D-08-99, 1999;
// A. A. Allen, Leeway Divergence, CG-D-05-05, 2005). A craft settles to one side of the wind or the
// other, and which is chance: the answer is a fan, never a line.
//
// The table has no row for most hulls here, so each takes the fan that covers the rows nearest to
// it.
#pragma once

#include <array>
#include <span>
#include <string_view>

#include "plan/vessel.h"
#include "units/direction.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {

/// One line of the fit: speed = slope x wind + offset, with the standard deviation about it.
struct LeewayFit {
  double slope;
  Speed offset;
  Speed scatter;
};

struct DriftingCraft {
  std::string_view name;  // as in the published list
  LeewayFit downwind;
  LeewayFit crosswind;
};

/// Magnitude of the fit at a wind, >= 0: offsets can turn its sign in light winds.
[[nodiscard]] Speed leeway_of(const LeewayFit& fit, Speed wind10);

/// The rows taken for a hull, and why they were.
struct CraftForHull {
  std::span<const DriftingCraft> craft;  // one or more
  std::string_view because;
};
[[nodiscard]] CraftForHull craft_for(Hull hull);

/// Drift through the water. The bounds are one standard deviation beyond the rows, but never more
/// than half of the leeway itself: the table gives one scatter for all winds, and a calm leaves a
/// boat where she is (our rule, no source).
struct DriftFan {
  Speed downwind;        // greatest of the rows, as fitted
  Speed crosswind;       // greatest of the rows, as fitted, to either side
  Speed downwind_least;  // >= 0
  Speed downwind_most;
  Speed crosswind_most;
};
/// `wind10` relative to the water.
[[nodiscard]] DriftFan drift_fan(Hull hull, Speed wind10);

/// The fan's four corners over the ground, current included: least and most downwind, to either
/// side. What a disabled boat does lies within the rectangle they span. `wind` over the ground, at
/// 10 m; she feels it less the current.
[[nodiscard]] std::array<Velocity, 4> drift_corners(Hull hull, Velocity wind, Velocity current);

/// The fastest she can close something on that bearing; negative when she is carried away from it.
[[nodiscard]] Speed greatest_drift_toward(TrueBearing toward, Hull hull, Velocity wind,
                                          Velocity current);

}  // namespace passage_brief
