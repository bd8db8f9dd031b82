// The tide of a subordinate station: the high and low waters of a reference station, each moved in
// time and changed in height, and a half cosine between them.
//
//   t = t_reference + time offset;  h = h_reference * ratio, or h_reference + addition
//
// separately for high and low waters; h above the plane that both stations share (NOAA: MLLW).
// Source: NOAA Tide Tables, table 2 (from memory). How far off: on the one published example at
// hand 3.3 minutes and 0.025 m, most of it from a later revision of the reference station's
// constants.
#pragma once

#include <expected>
#include <memory>
#include <string>
#include <vector>

#include "facts/tide/curve.h"
#include "facts/tide/harmonic.h"
#include "facts/tide/high_low_curve.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {

struct HeightOffset {
  double ratio = 1;
  double addition = 0;  // in the curve's own unit
};

struct TideOffsets {
  Interval high_time;
  Interval low_time;
  HeightOffset high_height;
  HeightOffset low_height;
};

/// Events moved by the offsets. `plane`: where the plane both stations share lies on the
/// reference's curve. The message says where the offsets change the order of high and low water.
[[nodiscard]] std::expected<HighLowCurve, std::string> moved(std::vector<Turn> reference,
                                                             double plane,
                                                             const TideOffsets& offsets,
                                                             HighLowCurve::Complete complete);

/// Over a harmonic reference the events are worked out for the stretch asked for and kept; safe to
/// share between threads. Not known where moved() refuses.
class SubordinateCurve {
 public:
  SubordinateCurve(HarmonicCurve reference, double plane, TideOffsets offsets);

  [[nodiscard]] Known<CurvePoint> at(Instant instant) const;
  [[nodiscard]] Known<std::vector<Turn>> turns(Span span) const;
  [[nodiscard]] Known<Extremes> extremes(Span span) const { return extremes_of(*this, span); }

 private:
  struct Worked;
  [[nodiscard]] const Known<HighLowCurve>& block(Interval::rep number) const;
  HarmonicCurve reference_;
  double plane_;
  TideOffsets offsets_;
  std::shared_ptr<Worked> worked_;
};

}  // namespace passage_brief
