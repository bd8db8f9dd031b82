// The Gauss coefficients of the World Magnetic Model 2025.
#pragma once

#include <array>

namespace passage_brief {

/// Schmidt semi-normalised, in nT at 2025.0, and their change in nT a year.
struct GaussCoefficient {
  int n, m;
  double g_nt, h_nt;
  double g_nt_per_year, h_nt_per_year;
};

inline constexpr int kMagneticDegree = 12;

/// Degree by degree: (1,0), (1,1), (2,0), ... (12,12).
extern const std::array<GaussCoefficient, 90> kGaussCoefficients;

}  // namespace passage_brief
