// Squat: how much a hull settles, bow or stern, as she moves through shoal water.
//
// With V through the water, h the depth of water, Fnh = V / sqrt(g h), g = 9.80665 m/s2:
//   Barrass, open water       S = Cb V^2 / 100       m, V in knots
//   Barrass, confined water   S = Cb V^2 / 50        blockage As/Ac above 0.1, As = 0.98 B T
//   ICORELS, open water       S = 2.4 (volume / L^2) Fnh^2 / sqrt(1 - Fnh^2),  volume = Cb L B T
// C. B. Barrass, Ship Design and Performance for Masters and Mates (2004); PIANC Report 121 (2014)
// for ICORELS (its constant from memory).
//
// None was fitted to small craft: length/beam 2.5 to 4 and beam/draft 3 to 8 lie outside every
// published range. The greater of Barrass and ICORELS is taken, up to Fnh 0.7 and hull speed.
// Beyond either there is no figure; planing lift is never counted on.
#pragma once

#include <optional>
#include <string>

#include "passage/hull.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {

/// What confines the water round the boat.
struct ChannelSection {
  bool narrow;                  // banks or shoals close on both sides
  std::optional<Length> width;  // of the water as deep as here; empty: not known
};

inline constexpr double kGreatestDepthFroude = 0.7;

/// The squat figures' own error, one standard deviation over the figure. Our rule, no source: on
/// small craft the formulas differ among themselves by about that much.
inline constexpr double kSquatScatter = 0.3;

struct Squat {
  Length sinkage;  // >= 0, downward
  double depth_froude;
  std::string formula;  // the one that controls, as the working prints it
  Length one_sigma;
};

/// Fnh; water > 0.
[[nodiscard]] double depth_froude(Speed through_water, Length water);
[[nodiscard]] Length barrass_open(double block_coefficient, Speed through_water);
[[nodiscard]] Length barrass_confined(double block_coefficient, Speed through_water);
/// Fnh below 1.
[[nodiscard]] Length icorels(const HullForm& hull, Speed through_water, Length water);
/// As/Ac in a channel of that width, Ac = width x water; both > 0.
[[nodiscard]] double blockage(const HullForm& hull, Length water, Length width);

/// The squat to take from the depth. Confined instead of open where the blockage is above 0.1, or
/// the channel is narrow and of unknown width. Zero at rest. Not known, with the reason, beyond Fnh
/// 0.7 or hull speed. Water shoaler than the draft, or none, counts as the draft: she is aground
/// there with any squat, and "aground" must not turn into "not known".
[[nodiscard]] Known<Squat> squat_of(const HullForm& hull, Speed through_water, Length water,
                                    const ChannelSection& section);

/// 2.43 sqrt(waterline in m) kn = 1.34 sqrt(ft): the speed whose wave is as long as the hull (any
/// handbook; from g and the wave length).
[[nodiscard]] Speed hull_speed(const HullForm& hull);

/// The greatest speed at which squat_of gives a figure, over 0.
[[nodiscard]] Speed greatest_speed_with_a_squat_figure(const HullForm& hull, Length water);

/// The greatest speed at which squat_of is no more than `sinkage`, its limits of Fnh and hull speed
/// left aside. Zero for none.
[[nodiscard]] Speed greatest_speed_squatting(const HullForm& hull, Length sinkage, Length water,
                                             const ChannelSection& section);

/// Half of sqrt(g h), half the speed of the longest wave the water carries: the speed not to pass
/// in shoal water (common practice, no source). Zero where there is no water.
[[nodiscard]] Speed half_wave_speed(Length water);

}  // namespace passage_brief
