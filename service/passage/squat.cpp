#include "passage/squat.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "passage/hull.h"
#include "units/check.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr double kGravity = 9.80665;  // m/s2, standard gravity (CGPM 1901)
constexpr double kGreatestOpenBlockage = 0.1;
constexpr double kSpeedRounding = 1e-9;  // a speed exactly at a limit is within it

Speed wave_speed(Length water) {
  return metres_per_second(std::sqrt(kGravity * std::max(0.0, in_metres(water))));
}

double squared_knots(Speed v) { return in_knots(v) * in_knots(v); }

bool is_confined(const HullForm& hull, Length water, const ChannelSection& section) {
  if (section.width) return blockage(hull, water, *section.width) > kGreatestOpenBlockage;
  return section.narrow;
}

Length volume_by_length_squared(const HullForm& hull) {
  return hull.canoe_draft * (hull.block_coefficient * (hull.beam / hull.waterline));
}

Length water_counted(const HullForm& hull, Length water) { return std::max(water, hull.draft); }

}  // namespace

double depth_froude(Speed through_water, Length water) {
  check(water > metres(0), "a depth Froude number needs water");
  return through_water / wave_speed(water);
}

Length barrass_open(double block_coefficient, Speed through_water) {
  return metres(block_coefficient * squared_knots(through_water) / 100);
}

Length barrass_confined(double block_coefficient, Speed through_water) {
  return metres(block_coefficient * squared_knots(through_water) / 50);
}

Length icorels(const HullForm& hull, Speed through_water, Length water) {
  const double Fnh = depth_froude(through_water, water);
  check(Fnh < 1, "ICORELS has no value at or above the speed of the wave");
  return volume_by_length_squared(hull) * (2.4 * Fnh * Fnh / std::sqrt(1 - Fnh * Fnh));
}

double blockage(const HullForm& hull, Length water, Length width) {
  check(water > metres(0) && width > metres(0), "a channel has a section");
  const Area As = hull.beam * hull.canoe_draft * 0.98;
  const Area Ac = width * water;
  return As / Ac;
}

Known<Squat> squat_of(const HullForm& hull, Speed through_water, Length water,
                      const ChannelSection& section) {
  if (through_water <= knots(0)) return Squat{metres(0), 0, "no squat at rest", metres(0)};
  const Length h = water_counted(hull, water);
  const double Fnh = depth_froude(through_water, h);
  if (Fnh > kGreatestDepthFroude + kSpeedRounding) {
    return not_known(fmt::format(
        "squat cannot be foretold at a depth Froude number of {:.2f}, above {:.2f}: slow "
        "down",
        Fnh, kGreatestDepthFroude));
  }
  if (through_water > hull_speed(hull) * (1 + kSpeedRounding)) {
    return not_known("squat cannot be foretold above hull speed: slow down");
  }

  const bool confined = is_confined(hull, h, section);
  const Length barrass = confined ? barrass_confined(hull.block_coefficient, through_water)
                                  : barrass_open(hull.block_coefficient, through_water);
  const Length open = icorels(hull, through_water, h);
  const Length sinkage = std::max(barrass, open);
  const char* formula = open >= barrass ? "ICORELS: 2.4 (volume / L^2) Fnh^2 / sqrt(1 - Fnh^2)"
                        : confined      ? "Barrass, confined water: Cb V^2 / 50"
                                        : "Barrass, open water: Cb V^2 / 100";
  return Squat{sinkage, Fnh, formula, sinkage * kSquatScatter};
}

Speed hull_speed(const HullForm& hull) {
  return knots(2.43 * std::sqrt(in_metres(hull.waterline)));
}

Speed greatest_speed_with_a_squat_figure(const HullForm& hull, Length water) {
  return std::min(wave_speed(water_counted(hull, water)) * kGreatestDepthFroude, hull_speed(hull));
}

Speed greatest_speed_squatting(const HullForm& hull, Length sinkage, Length water,
                               const ChannelSection& section) {
  if (sinkage <= metres(0)) return knots(0);
  const Length h = water_counted(hull, water);
  const double by = is_confined(hull, h, section) ? 50 : 100;
  const Speed barrass = knots(std::sqrt(by * in_metres(sinkage) / hull.block_coefficient));
  // ICORELS for Fnh: with y = S / (2.4 volume / L^2), Fnh^4 = y^2 (1 - Fnh^2).
  const double y = sinkage / (volume_by_length_squared(hull) * 2.4);
  const double Fnh_squared = y * (std::sqrt(y * y + 4) - y) / 2;
  return std::min(barrass, wave_speed(h) * std::sqrt(Fnh_squared));
}

Speed half_wave_speed(Length water) { return wave_speed(water) * 0.5; }

}  // namespace passage_brief
