#include "facts/tide/subordinate_curve.h"

#include <algorithm>
#include <chrono>
#include <expected>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

#include "facts/tide/curve.h"
#include "facts/tide/harmonic.h"
#include "facts/tide/high_low_curve.h"
#include "units/check.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// The events are worked out for this long at a time, and kept.
constexpr Interval kBlock = std::chrono::days(32);
/// No harmonic tide has fewer than two turns in this time, so that a block's curve reaches past
/// both its ends.
constexpr Interval kReach = std::chrono::hours(72);

Interval::rep number_of(Instant instant) {
  const Interval since = instant.time_since_epoch();
  return since / kBlock - (since % kBlock < Interval(0) ? 1 : 0);
}

Span span_of(Interval::rep number) {
  const Instant begin(kBlock * number);
  return {begin, begin + kBlock - Interval(1)};
}

}  // namespace

std::expected<HighLowCurve, std::string> moved(std::vector<Turn> reference, double plane,
                                               const TideOffsets& offsets,
                                               HighLowCurve::Complete complete) {
  for (Turn& turn : reference) {
    const HeightOffset& height = turn.high ? offsets.high_height : offsets.low_height;
    turn.at += turn.high ? offsets.high_time : offsets.low_time;
    turn.value = (turn.value - plane) * height.ratio + height.addition;
  }
  return HighLowCurve::through(std::move(reference), complete);
}

/// Kept blocks; a node of a map stays where it is, so references to it last.
struct SubordinateCurve::Worked {
  std::mutex guard;
  std::map<Interval::rep, Known<HighLowCurve>> blocks;
};

SubordinateCurve::SubordinateCurve(HarmonicCurve reference, double plane, TideOffsets offsets)
    : reference_(std::move(reference)),
      plane_(plane),
      offsets_(offsets),
      worked_(std::make_shared<Worked>()) {}

const Known<HighLowCurve>& SubordinateCurve::block(Interval::rep number) const {
  const std::scoped_lock lock(worked_->guard);
  const auto kept = worked_->blocks.find(number);
  if (kept != worked_->blocks.end()) return kept->second;
  const Span span = span_of(number);
  const auto [earlier, later] = std::minmax(offsets_.high_time, offsets_.low_time);
  const auto curve = [&]() -> Known<HighLowCurve> {
    auto turns = reference_.turns({span.begin - later - kReach, span.end - earlier + kReach});
    if (!turns) return not_known_as(turns);
    auto events = moved(*std::move(turns), plane_, offsets_, HighLowCurve::Complete::yes);
    if (events) return *std::move(events);
    return not_known("its offsets change the order of high and low water: " + events.error());
  };
  return worked_->blocks.emplace(number, curve()).first->second;
}

Known<CurvePoint> SubordinateCurve::at(Instant instant) const {
  const Known<HighLowCurve>& curve = block(number_of(instant));
  if (!curve) return not_known_as(curve);
  return curve->at(instant);
}

Known<std::vector<Turn>> SubordinateCurve::turns(Span span) const {
  check(span.begin <= span.end, "a span that runs forward");
  std::vector<Turn> all;
  for (auto number = number_of(span.begin); number <= number_of(span.end); ++number) {
    const Known<HighLowCurve>& curve = block(number);
    if (!curve) return not_known_as(curve);
    const Span whole = span_of(number);
    const Known<std::vector<Turn>> some =
        curve->turns({std::max(span.begin, whole.begin), std::min(span.end, whole.end)});
    if (!some) return not_known_as(some);
    all.insert(all.end(), some->begin(), some->end());
  }
  return all;
}

}  // namespace passage_brief
