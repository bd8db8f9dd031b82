#include "facts/tide/high_low_curve.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <expected>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "facts/tide/curve.h"
#include "units/check.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {

namespace {

/// The longest stretch between two neighbours that is no hole in a table.
Interval longest_stretch(const std::vector<Turn>& turns) {
  std::vector<Interval> stretches;
  for (std::size_t i = 0; i + 1 < turns.size(); ++i) {
    stretches.push_back(turns[i + 1].at - turns[i].at);
  }
  const auto middle = stretches.begin() + static_cast<std::ptrdiff_t>((stretches.size() - 1) / 2);
  std::ranges::nth_element(stretches, middle);
  return std::min<Interval>(std::chrono::hours(30), *middle * 5 / 2);
}

}  // namespace

std::expected<HighLowCurve, std::string> HighLowCurve::through(std::vector<Turn> turns,
                                                               Complete complete) {
  if (turns.size() < 2) return std::unexpected("fewer than two high and low waters");
  for (std::size_t i = 0; i + 1 < turns.size(); ++i) {
    const Turn& a = turns[i];
    const Turn& b = turns[i + 1];
    const auto refused = [&](const char* why) {
      return std::unexpected(fmt::format("{} and {} {}", to_rfc3339(a.at), to_rfc3339(b.at), why));
    };
    if (a.at >= b.at) return refused("do not follow each other in time");
    if (a.high == b.high) return refused(a.high ? "are both high water" : "are both low water");
    if ((a.high ? a.value - b.value : b.value - a.value) < 0) {
      return refused("have their high water below their low water");
    }
  }
  const Interval longest = complete == Complete::yes ? Interval::max() : longest_stretch(turns);
  return HighLowCurve(std::move(turns), longest);
}

HighLowCurve::HighLowCurve(std::vector<Turn> turns, Interval longest)
    : turns_(std::move(turns)), longest_(longest) {}

Known<std::size_t> HighLowCurve::stretch_at(Instant instant) const {
  if (instant < turns_.front().at || instant > turns_.back().at) {
    return not_known(fmt::format("its high and low waters run from {} to {}, which leaves out {}",
                                 to_rfc3339(turns_.front().at), to_rfc3339(turns_.back().at),
                                 to_rfc3339(instant)));
  }
  const auto after = std::ranges::upper_bound(turns_, instant, {}, &Turn::at);
  const auto i = std::min(static_cast<std::size_t>(after - turns_.begin()), turns_.size() - 1) - 1;
  // An event at the edge of a hole belongs to the stretch before it.
  if (i > 0 && turns_[i].at == instant && !stretch(i)) return stretch(i - 1);
  return stretch(i);
}

Known<std::size_t> HighLowCurve::stretch(std::size_t i) const {
  if (turns_[i + 1].at - turns_[i].at <= longest_) return i;
  return not_known(fmt::format("its table has no high or low water between {} and {}",
                               to_rfc3339(turns_[i].at), to_rfc3339(turns_[i + 1].at)));
}

Known<CurvePoint> HighLowCurve::at(Instant instant) const {
  return join(
      [&](std::size_t i) {
        const Turn& a = turns_[i];
        const Turn& b = turns_[i + 1];
        const double w = std::numbers::pi / in_seconds(b.at - a.at);
        const double angle = w * in_seconds(instant - a.at);
        const double half = (a.value - b.value) / 2;
        return CurvePoint{(a.value + b.value) / 2 + half * std::cos(angle),
                          -half * w * std::sin(angle)};
      },
      stretch_at(instant));
}

Known<std::vector<Turn>> HighLowCurve::turns(Span span) const {
  check(span.begin <= span.end, "a span that runs forward");
  const Known<std::size_t> first = stretch_at(span.begin);
  const Known<std::size_t> last = stretch_at(span.end);
  return join(
      [&](std::size_t from, std::size_t to) -> Known<std::vector<Turn>> {
        std::vector<Turn> inside;
        for (std::size_t i = from; i <= to; ++i) {
          if (const auto whole = stretch(i); !whole) return not_known_as(whole);
        }
        for (std::size_t i = from; i <= to + 1; ++i) {
          if (turns_[i].at >= span.begin && turns_[i].at <= span.end) inside.push_back(turns_[i]);
        }
        return inside;
      },
      first, last);
}

}  // namespace passage_brief
