#include "facts/tide/slack_max_curve.h"

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

constexpr std::chrono::hours kLongestToNextEvent{8};

}  // namespace

std::expected<SlackMaxCurve, std::string> SlackMaxCurve::through(std::vector<FlowEvent> events) {
  if (events.size() < 2) return std::unexpected("fewer than two slacks and greatest flows");
  for (std::size_t i = 0; i + 1 < events.size(); ++i) {
    if (events[i].at < events[i + 1].at) continue;
    return std::unexpected(fmt::format("{} and {} do not follow each other in time",
                                       to_rfc3339(events[i].at), to_rfc3339(events[i + 1].at)));
  }
  for (std::size_t i = 0; i + 2 < events.size(); ++i) {
    if (!events[i + 1].slack || events[i].slack || events[i + 2].slack) continue;
    if (events[i].value * events[i + 2].value < 0) continue;
    return std::unexpected(fmt::format("the slack at {} has {} on both sides",
                                       to_rfc3339(events[i + 1].at),
                                       events[i].value > 0 ? "flood" : "ebb"));
  }
  return SlackMaxCurve(std::move(events));
}

Known<std::size_t> SlackMaxCurve::stretch(std::size_t i) const {
  const FlowEvent& a = events_[i];
  const FlowEvent& b = events_[i + 1];
  if (a.slack != b.slack && b.at - a.at <= kLongestToNextEvent) return i;
  return not_known(fmt::format("its table does not say what is between {} and {}", to_rfc3339(a.at),
                               to_rfc3339(b.at)));
}

Known<std::size_t> SlackMaxCurve::stretch_at(Instant instant) const {
  if (instant < events_.front().at || instant > events_.back().at) {
    return not_known(fmt::format(
        "its slacks and greatest flows run from {} to {}, which leaves "
        "out {}",
        to_rfc3339(events_.front().at), to_rfc3339(events_.back().at), to_rfc3339(instant)));
  }
  const auto after = std::ranges::upper_bound(events_, instant, {}, &FlowEvent::at);
  const auto i =
      std::min(static_cast<std::size_t>(after - events_.begin()), events_.size() - 1) - 1;
  // An event at the edge of a hole belongs to the stretch before it.
  if (i > 0 && events_[i].at == instant && !stretch(i)) return stretch(i - 1);
  return stretch(i);
}

Known<CurvePoint> SlackMaxCurve::at(Instant instant) const {
  return join(
      [&](std::size_t i) {
        const FlowEvent& a = events_[i];
        const FlowEvent& b = events_[i + 1];
        const double rate = std::numbers::pi / 2 / in_seconds(b.at - a.at);
        const double angle = rate * in_seconds(instant - a.at);
        if (a.slack) return CurvePoint{b.value * std::sin(angle), b.value * rate * std::cos(angle)};
        return CurvePoint{a.value * std::cos(angle), -a.value * rate * std::sin(angle)};
      },
      stretch_at(instant));
}

Known<std::vector<std::size_t>> SlackMaxCurve::inside(Span span) const {
  check(span.begin <= span.end, "a span that runs forward");
  return join(
      [&](std::size_t from, std::size_t to) -> Known<std::vector<std::size_t>> {
        std::vector<std::size_t> events;
        for (std::size_t i = from; i <= to; ++i) {
          if (const auto whole = stretch(i); !whole) return not_known_as(whole);
        }
        for (std::size_t i = from; i <= to + 1; ++i) {
          if (events_[i].at >= span.begin && events_[i].at <= span.end) events.push_back(i);
        }
        return events;
      },
      stretch_at(span.begin), stretch_at(span.end));
}

Known<std::vector<Turn>> SlackMaxCurve::turns(Span span) const {
  return join(
      [&](const std::vector<std::size_t>& events) {
        std::vector<Turn> turns;
        for (const std::size_t i : events) {
          const FlowEvent& event = events_[i];
          if (!event.slack) turns.push_back({event.at, event.value, event.value > 0});
        }
        return turns;
      },
      inside(span));
}

Known<std::vector<ZeroCrossing>> SlackMaxCurve::zeros(Span span) const {
  return join(
      [&](const std::vector<std::size_t>& events) {
        std::vector<ZeroCrossing> zeros;
        for (const std::size_t i : events) {
          if (!events_[i].slack) continue;
          const double after =
              i + 1 < events_.size() ? events_[i + 1].value : -events_[i - 1].value;
          zeros.push_back({events_[i].at, after > 0});
        }
        return zeros;
      },
      inside(span));
}

}  // namespace passage_brief
