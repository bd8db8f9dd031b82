// A published table of high and low waters, read between them by a half cosine:
//
//   h(t) = (h1 + h2)/2 + (h1 - h2)/2 cos(pi (t - t1)/(t2 - t1))
//
// Source: NOAA Tide Tables, table 3 (from memory); the same rule serves subordinate stations. How
// far off between the events: a few hundredths of the range at a plain semidiurnal station, a tenth
// and more where overtides are strong. At the events themselves: the table's own rounding.
#pragma once

#include <expected>
#include <string>
#include <vector>

#include "facts/tide/curve.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {

class HighLowCurve {
 public:
  /// Whether events may be missing from the list.
  enum class Complete { yes, perhaps };

  /// The message says which two events do not follow each other in time, are both high or both low,
  /// or have their high water below their low water.
  [[nodiscard]] static std::expected<HighLowCurve, std::string> through(std::vector<Turn> turns,
                                                                        Complete complete);

  // All below are not known outside the events. Where events may be missing, nothing is read across
  // a stretch of more than 2.5 times the usual one, nor of more than 30 hours (our rule).

  [[nodiscard]] Known<CurvePoint> at(Instant instant) const;
  /// The events themselves.
  [[nodiscard]] Known<std::vector<Turn>> turns(Span span) const;
  [[nodiscard]] Known<Extremes> extremes(Span span) const { return extremes_of(*this, span); }

  [[nodiscard]] const std::vector<Turn>& events() const { return turns_; }

 private:
  HighLowCurve(std::vector<Turn> turns, Interval longest);
  /// The stretch from event i to the next, when it is read.
  [[nodiscard]] Known<std::size_t> stretch(std::size_t i) const;
  [[nodiscard]] Known<std::size_t> stretch_at(Instant instant) const;
  std::vector<Turn> turns_;
  Interval longest_;  // stretch that is still read
};

}  // namespace passage_brief
