// The 37 tidal constituents that NOAA publishes, with their equilibrium arguments and the lunar
// nodal corrections of each year.
//
// A constituent is A cos(speed t - phase); the Moon's orbit turns once in 18.6 years and changes
// its amplitude by a factor f and its phase by u. NOAA takes V0 at 1 January 00:00 GMT and f and u
// at the middle of that year and holds them all the year, so that a prediction steps at New Year (9
// mm at San Francisco, 2018-01-01); so do we.
//
// Source: P. Schureman, Manual of Harmonic Analysis and Prediction of Tides, US Coast and Geodetic
// Survey Special Publication 98 (revised 1940, 1958 print), public domain; speeds as NOAA lists
// them. With these NOAA's published heights of 1990 to 2025 come out to 0.4 mm; years beyond are
// the same formulas, unproved.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "units/direction.h"

namespace passage_brief {

inline constexpr std::size_t kConstituents = 37;

/// Years for which nodal corrections are given, both included: those for which local time is known.
inline constexpr int kFirstTidalYear = 1900;
inline constexpr int kLastTidalYear = 2037;

/// One of the 37, by its place in NOAA's order (M2 first).
class Constituent {
 public:
  /// By NOAA's name ("M2", "RHO", "LAM2"), or the other name in use for the last two (RHO1, LDA2).
  [[nodiscard]] static std::optional<Constituent> named(std::string_view name);
  /// All 37 in their order.
  [[nodiscard]] static std::vector<Constituent> all();
  [[nodiscard]] std::size_t index() const { return index_; }
  [[nodiscard]] std::string_view name() const;
  [[nodiscard]] double speed_deg_per_h() const;
  friend bool operator==(Constituent, Constituent) = default;

 private:
  explicit Constituent(std::size_t index) : index_(index) {}
  std::size_t index_;
};

/// What one constituent is through one calendar year (GMT).
struct YearlyArgument {
  Angle equilibrium;  // V0 at 1 January 00:00 GMT, [0, 360) degrees
  Angle nodal_phase;  // u at mid-year
  double factor;      // f at mid-year, no dimension
};

/// All 37, by Constituent::index().
using YearlyArguments = std::array<YearlyArgument, kConstituents>;

/// For a year from kFirstTidalYear to kLastTidalYear; throws BrokenPromise outside. Quick: looked
/// up in a table worked out once.
[[nodiscard]] const YearlyArguments& yearly_arguments(int year);

/// The same formulas worked out for any year, for checks against published tables.
[[nodiscard]] YearlyArguments work_out_yearly_arguments(int year);

}  // namespace passage_brief
