// A published series (heights, or speeds of a current) read between its rows.
//
// Between two rows: a cubic with the rows' values and the slopes of parabolas through three rows.
// How far off: h^3/62 of the third derivative, h the step; for an hourly series of semidiurnal tide
// 0.21 % of the amplitude, for a 6-minute one nothing to speak of beside the rows' own rounding.
// Nothing is read across a gap of more than an hour between rows, nor outside them (our rule).
#pragma once

#include <chrono>
#include <cstddef>
#include <string>
#include <vector>

#include "facts/tide/curve.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

struct SeriesRow {
  Instant at;
  double value;  // in the curve's own unit
};

/// A row that stands off the straight line between its neighbours.
struct SeriesSpike {
  std::size_t row;
  double off_line;  // in the curve's own unit, never negative
};

/// No height of tide lies further off the line between neighbours at most two hours apart, metres:
/// in the Bay of Fundy (16 m of range, semidiurnal) hourly heights lie up to 8 (1 - cos 29 deg) =
/// 1.0 m off it.
inline constexpr double kMostOffLine_m = 1.5;

/// Every row that lies more than `most_off_line` off the straight line between the row before and
/// the row after it, where these are at most two hours apart. Of rows next to each other only the
/// one furthest off: a spike bends the lines of its neighbours too.
[[nodiscard]] std::vector<SeriesSpike> spikes(const std::vector<SeriesRow>& rows,
                                              double most_off_line);

/// "the height at 2026-06-14T10:00:00Z lies 7.9 m off the line between ...".
[[nodiscard]] std::string height_spike_in_words(const std::vector<SeriesRow>& rows,
                                                const SeriesSpike& spike);

/// Published heights are rounded to a millimetre or to 0.001 ft, published speeds to 0.01 kn at the
/// finest.
inline constexpr double kHeightsRounding_m = 0.002;
inline constexpr double kSpeedsRounding_m_s = knots(0.02).si();

class SeriesCurve {
 public:
  static constexpr std::chrono::hours kWidestStep{1};

  /// Rows by rising time, no two alike, at least one; throws BrokenPromise otherwise. `rounding`: a
  /// high and a low next to each other that differ by less are the rows' own rounding, and no
  /// turns.
  SeriesCurve(const std::vector<SeriesRow>& rows, double rounding);

  // All below are not known, with the reason, where a part of the instant or span has no rows.

  [[nodiscard]] Known<CurvePoint> at(Instant instant) const;
  [[nodiscard]] Known<std::vector<Turn>> turns(Span span) const;
  [[nodiscard]] Known<std::vector<ZeroCrossing>> zeros(Span span) const;
  [[nodiscard]] Known<Extremes> extremes(Span span) const { return extremes_of(*this, span); }

 private:
  struct Knot {
    Instant at;
    double value;
    double slope_per_s;
    bool joined;  // to the next knot
  };
  [[nodiscard]] Known<std::size_t> piece_at(Instant instant) const;
  [[nodiscard]] Known<std::vector<std::size_t>> pieces_of(Span span) const;
  std::vector<Knot> knots_;
  double rounding_;
};

}  // namespace passage_brief
