// What the tide curves have in common: a number against time, in the unit of whoever made the curve
// (the stations use metres above chart datum, and metres a second along the flood).
#pragma once

#include <algorithm>
#include <vector>

#include "units/known.h"
#include "units/time.h"

namespace passage_brief {

/// What a curve does at one instant.
struct CurvePoint {
  double value;
  double rate_per_s;
};

/// A place where a curve turns: greatest (high) or least among its neighbours.
struct Turn {
  Instant at;
  double value;
  bool high;
};

/// A place where a curve passes through zero.
struct ZeroCrossing {
  Instant at;
  bool upward;
};

struct Extremes {
  double least;
  double greatest;

  [[nodiscard]] static Extremes of(double a, double b) { return {std::min(a, b), std::max(a, b)}; }
  [[nodiscard]] Extremes with(double value) const {
    return {std::min(least, value), std::max(greatest, value)};
  }
};

/// The extremes of a curve without steps: at both ends and at its turns.
template <class Curve>
[[nodiscard]] Known<Extremes> extremes_of(const Curve& curve, Span span) {
  return join(
      [](const CurvePoint& begin, const CurvePoint& end, const std::vector<Turn>& turns) {
        Extremes extremes = Extremes::of(begin.value, end.value);
        for (const Turn& turn : turns) extremes = extremes.with(turn.value);
        return extremes;
      },
      curve.at(span.begin), curve.at(span.end), curve.turns(span));
}

}  // namespace passage_brief
