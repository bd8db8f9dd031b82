// A published table of slacks and greatest floods and ebbs, read between them by quarter waves:
//
//   v(t) = V sin(pi/2 (t - t_slack)/(t_max - t_slack))
//
// Source: NOAA Tidal Current Tables, table 3A (from memory). How far off between the events: at
// Hell Gate a tenth of the greatest speed; more where overtides are strong. At the events
// themselves: the table's own rounding.
#pragma once

#include <expected>
#include <string>
#include <vector>

#include "facts/tide/curve.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {

struct FlowEvent {
  Instant at;
  double value;  // in the curve's own unit, flood positive; zero at a slack
  bool slack;
};

class SlackMaxCurve {
 public:
  /// The message says which two events do not follow each other in time, or that one slack has
  /// flood or ebb on both sides.
  [[nodiscard]] static std::expected<SlackMaxCurve, std::string> through(
      std::vector<FlowEvent> events);

  // All below are not known outside the events, between two that are more than 8 hours apart, and
  // between two that are not a slack and a greatest flow: what lies between them was not published
  // (our rule).

  [[nodiscard]] Known<CurvePoint> at(Instant instant) const;
  [[nodiscard]] Known<std::vector<Turn>> turns(Span span) const;
  [[nodiscard]] Known<std::vector<ZeroCrossing>> zeros(Span span) const;

 private:
  explicit SlackMaxCurve(std::vector<FlowEvent> events) : events_(std::move(events)) {}
  /// The stretch from event i to the next, when it is read.
  [[nodiscard]] Known<std::size_t> stretch(std::size_t i) const;
  [[nodiscard]] Known<std::size_t> stretch_at(Instant instant) const;
  /// Events inside a span all of which is read.
  [[nodiscard]] Known<std::vector<std::size_t>> inside(Span span) const;
  std::vector<FlowEvent> events_;
};

}  // namespace passage_brief
