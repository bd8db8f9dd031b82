// When to leave: every minute of a span judged, and the runs of good ones.
//
// A window is a longest run of departures in which every limit is kept, all judged on the same
// (window.h). Its ends are minutes: the first and the last good one. An edge names the limit that
// is not kept a minute beyond; the ends of the span are no edges, nor is the end of the forecast.
#pragma once

#include <optional>
#include <vector>

#include "brief/departure_judge.h"
#include "brief/window.h"
#include "units/time.h"

namespace passage_brief {

inline constexpr std::chrono::days kLongestSpan{7};

/// What one minute of departure comes to.
struct MinuteFound {
  bool good;
  JudgedOn judged_on;
  std::optional<Length> left;  // at the tightest place; empty where nothing is measured
};

/// Full minutes from the first at or after the begin of the span to the last at or before its end;
/// the span at most kLongestSpan.
struct Minutes {
  Instant first;
  std::size_t count;
  [[nodiscard]] Instant at(std::size_t index) const {
    return first + std::chrono::minutes(static_cast<int>(index));
  }
};
[[nodiscard]] Minutes minutes_of(Span span);

/// Every one through the judge.
[[nodiscard]] std::vector<MinuteFound> judge_every_minute(const DepartureJudge& judge,
                                                          const Minutes& minutes);

/// The windows among them, in order.
[[nodiscard]] std::vector<Window> windows_among(const DepartureJudge& judge, const Minutes& minutes,
                                                const std::vector<MinuteFound>& found);

/// For a span with no good minute: what never lets go, and how near it comes. `would_open` is left
/// empty. At least one minute.
[[nodiscard]] NoWindow no_window_among(const DepartureJudge& judge, const Minutes& minutes,
                                       const std::vector<MinuteFound>& found);

/// The one a minute lies in.
[[nodiscard]] std::optional<Window> window_at(const std::vector<Window>& windows, Instant departs);

}  // namespace passage_brief
