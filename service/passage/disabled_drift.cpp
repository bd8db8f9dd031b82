#include "passage/disabled_drift.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <utility>

#include "plan/vessel.h"
#include "units/check.h"
#include "units/direction.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

constexpr double kGreatestScatter = 0.5;  // of the leeway itself

constexpr LeewayFit fit(double slope_percent, double offset_cm_s, double scatter_cm_s) {
  return {slope_percent / 100, metres_per_second(offset_cm_s / 100),
          metres_per_second(scatter_cm_s / 100)};
}

// Rows of the published table: percent, cm/s, cm/s.
constexpr DriftingCraft kSkiff = {"skiff-v-hull", fit(2.87, 3.98, 3.33), fit(0.32, -2.93, 2.53)};
constexpr DriftingCraft kRunabout = {"skiff-modified-v-runabout", fit(3.15, 0, 2.2),
                                     fit(1.29, 0, 2.2)};
constexpr DriftingCraft kSportFisher = {"sport-fisher-center-console", fit(5.55, 0, 3.3),
                                        fit(2.27, 0, 3.0)};
constexpr DriftingCraft kSportBoat = {"sport-boat-modified-v", fit(6.54, 0, 3.0),
                                      fit(2.19, 0, 2.8)};
constexpr DriftingCraft kFishingVessel = {"fishing-vessel-general", fit(2.47, 0, 12.0),
                                          fit(2.76, 0, 9.4)};
constexpr DriftingCraft kBareMast = {"sailboat-bare-mast-average", fit(5.23, 0, 18.52),
                                     fit(5.89, 0, 18.87)};
constexpr DriftingCraft kShoalFinKeel = {"sailboat-fin-keel-shoal", fit(2.67, 0, 8.3),
                                         fit(2.98, 0, 6.7)};

constexpr std::array kMotorDisplacement = {kSportFisher, kFishingVessel};
constexpr std::array kMotorPlaning = {kSportFisher, kSportBoat};
constexpr std::array kSail = {kShoalFinKeel, kBareMast};
constexpr std::array kCatamaran = {kFishingVessel, kSportBoat, kBareMast};
constexpr std::array kOpenBoat = {kSkiff, kRunabout, kSportFisher};

Speed allowed_scatter(const LeewayFit& fit, Speed leeway) {
  return std::min(fit.scatter, leeway * kGreatestScatter);
}

}  // namespace

Speed leeway_of(const LeewayFit& fit, Speed wind10) {
  if (wind10 <= knots(0)) return knots(0);
  return Speed::from_si(std::abs(fit.slope * wind10.si() + fit.offset.si()));
}

CraftForHull craft_for(Hull hull) {
  switch (hull) {
    case Hull::motor_displacement:
      return {kMotorDisplacement, "high sides as a sport fisher, a deep hull as a fishing vessel"};
    case Hull::motor_planing:
      return {kMotorPlaning, "the two planing motor boats of the table"};
    case Hull::sail_fin_keel:
      return {kSail, "from a shoal fin keel to the average of masts without sail"};
    case Hull::sail_long_keel:
      return {kSail, "no long keel in the table: from a shoal fin keel to masts without sail"};
    case Hull::catamaran:
      return {kCatamaran, "no catamaran in the table: the widest fan of the boats in it"};
    case Hull::open_boat:
      return {kOpenBoat, "skiffs and an open boat with a center console"};
  }
  check(false, "every hull has its craft");
  std::unreachable();
}

DriftFan drift_fan(Hull hull, Speed wind10) {
  const std::span<const DriftingCraft> rows = craft_for(hull).craft;
  DriftFan fan{knots(0), knots(0), leeway_of(rows.front().downwind, wind10), knots(0), knots(0)};
  for (const DriftingCraft& craft : rows) {
    const Speed down = leeway_of(craft.downwind, wind10);
    const Speed cross = leeway_of(craft.crosswind, wind10);
    const Speed down_scatter = allowed_scatter(craft.downwind, down);
    fan.downwind = std::max(fan.downwind, down);
    fan.crosswind = std::max(fan.crosswind, cross);
    fan.downwind_least = std::min(fan.downwind_least, down - down_scatter);
    fan.downwind_most = std::max(fan.downwind_most, down + down_scatter);
    fan.crosswind_most =
        std::max(fan.crosswind_most, cross + allowed_scatter(craft.crosswind, cross));
  }
  return fan;
}

std::array<Velocity, 4> drift_corners(Hull hull, Velocity wind, Velocity current) {
  const Velocity felt = wind - current;
  const Speed wind_felt = speed_of(felt);
  const DriftFan fan = drift_fan(hull, wind_felt);
  const bool calm = wind_felt <= knots(0);  // nothing drives her then, to any side
  const double east = calm ? 0 : felt.east / wind_felt;
  const double north = calm ? 1 : felt.north / wind_felt;
  const auto corner = [&](Speed down, Speed to_the_right) {
    return current +
           Velocity{down * east + to_the_right * north, down * north - to_the_right * east};
  };
  return {corner(fan.downwind_least, -fan.crosswind_most),
          corner(fan.downwind_least, fan.crosswind_most),
          corner(fan.downwind_most, -fan.crosswind_most),
          corner(fan.downwind_most, fan.crosswind_most)};
}

Speed greatest_drift_toward(TrueBearing toward, Hull hull, Velocity wind, Velocity current) {
  const std::array<Velocity, 4> corners = drift_corners(hull, wind, current);
  Speed greatest = component_toward(toward, corners.front());
  for (const Velocity& corner : corners) {
    greatest = std::max(greatest, component_toward(toward, corner));
  }
  return greatest;
}

}  // namespace passage_brief
