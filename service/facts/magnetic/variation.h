// Magnetic variation (declination) from the World Magnetic Model 2025.
//
// Source: NOAA NCEI and British Geological Survey, WMM2025, epoch 2025.0, degree and order 12,
// released 2024-12-17, valid 2025.0 to 2030.0; public domain. At sea level (height 0 on WGS 84).
// The model's own error is in one_sigma: sqrt(0.26^2 + (5417 / H)^2) deg, H the horizontal field in
// nT (WMM2025 technical report; from memory). Local anomalies and the boat's own iron are not in
// it.
#pragma once

#include <chrono>
#include <string_view>

#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

inline constexpr std::string_view kMagneticModel = "WMM2025";
inline constexpr Instant kMagneticValidFrom =
    std::chrono::sys_days(std::chrono::year(2025) / 1 / 1);
inline constexpr Instant kMagneticValidTo = std::chrono::sys_days(std::chrono::year(2030) / 1 / 1);

struct MagneticVariation {
  Variation variation;
  Angle one_sigma;
  bool caution_zone;  // horizontal field below 6000 nT: a compass is sluggish and erratic here
};

/// The field in nT, north, east and down, `height` above the WGS 84 ellipsoid, at a decimal year
/// (2026.5). The model's validity is not looked at here.
struct MagneticField {
  double north_nt, east_nt, down_nt;
};
[[nodiscard]] MagneticField magnetic_field(Position position, Length height, double year);

/// Not known outside 2025.0 to 2030.0, and where the horizontal field is below 2000 nT (near the
/// magnetic poles).
[[nodiscard]] Known<MagneticVariation> variation_at(Position position, Instant at);

}  // namespace passage_brief
