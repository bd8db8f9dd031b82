// A tide or tidal current as a sum of cosines, by NOAA's method.
//
//   h(t) = mean + sum f A cos(speed (t - T0) + (V0 + u) - G)
//
// T0 is 1 January 00:00 GMT of the year of t; V0, u and f as in constituent.h, held for that year;
// G is the phase as published against GMT (Greenwich epoch), A the amplitude. Rounding apart this
// gives NOAA's published heights: RMS below 0.4 mm and at most 1 mm on the series in tests/tables,
// in a range up to 7 m. The weather is not in it.
//
// At 1 January 00:00 GMT the curve steps (up to about 2 cm), because f and u do.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "facts/tide/constituent.h"
#include "facts/tide/curve.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {

struct HarmonicTerm {
  Constituent constituent;
  double amplitude;  // >= 0, in the curve's own unit; 0 means "not resolved" and adds nothing
  Angle phase;       // G
};

class HarmonicCurve {
 public:
  /// No constituent twice; throws BrokenPromise otherwise.
  HarmonicCurve(double mean, std::vector<HarmonicTerm> terms);

  // All below are not known outside the years for which nodal corrections are at hand (1900 to
  // 2037).

  [[nodiscard]] Known<CurvePoint> at(Instant instant) const;
  /// `count` values from `begin`, `step` (forward) apart: much quicker than one by one, and the
  /// same to 1e-10 of the amplitudes.
  [[nodiscard]] Known<std::vector<double>> values(Instant begin, Interval step,
                                                  std::size_t count) const;
  /// Every turn and every zero in the span, in order of time, to the millisecond. A turn that
  /// exists only because the curve steps at New Year, between two that are less than an hour away,
  /// is left out together with the first of these.
  [[nodiscard]] Known<std::vector<Turn>> turns(Span span) const;
  [[nodiscard]] Known<std::vector<ZeroCrossing>> zeros(Span span) const;
  /// Exact: both ends, every turn inside, both sides of a step.
  [[nodiscard]] Known<Extremes> extremes(Span span) const;

 private:
  struct Years;
  std::shared_ptr<const Years> years_;  // the terms of every year, worked out once
};

}  // namespace passage_brief
