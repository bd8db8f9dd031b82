#include "facts/weather/wind_series.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "facts/source.h"
#include "units/check.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

constexpr Interval kGreatestStep = std::chrono::hours(3);
constexpr Interval kGreatestCoarseStep = std::chrono::hours(6);
constexpr Speed kCalm = metres_per_second(1e-9);  // less is rounding

/// The hours on either side of a time, and how far it is from the first to the second.
struct Around {
  const WindHour* before;
  const WindHour* after;  // the same as before where the time is an hour of the forecast
  double fraction;        // [0, 1)
};

/// Longest step across which a series may be read: a series of 6 h steps throughout is one made so,
/// a hole of 6 h in one of 1 h steps is a hole.
Interval longest_step(const std::vector<WindHour>& series) {
  for (std::size_t i = 1; i < series.size(); ++i) {
    if (series[i].at - series[i - 1].at < kGreatestCoarseStep) return kGreatestStep;
  }
  return kGreatestCoarseStep;
}

/// Nothing where a time is not between two hours near enough to each other.
std::optional<Around> around(const std::vector<WindHour>& series, Instant at) {
  const auto after = std::ranges::lower_bound(series, at, {}, &WindHour::at);
  if (after != series.end() && after->at == at) return Around{&*after, &*after, 0};
  if (after == series.begin() || after == series.end()) return std::nullopt;
  const WindHour& before = *(after - 1);
  const Interval step = after->at - before.at;
  if (step > longest_step(series)) return std::nullopt;
  return Around{&before, &*after, in_seconds(at - before.at) / in_seconds(step)};
}

/// Where around() finds nothing.
std::unexpected<NotKnown> why_not(const std::vector<WindHour>& series, const Source& source,
                                  Instant at) {
  const auto after = std::ranges::lower_bound(series, at, {}, &WindHour::at);
  if (after == series.begin()) {
    return not_known(fmt::format("{} begins only at {}", source.what, to_rfc3339(after->at)));
  }
  if (after == series.end()) {
    return not_known(fmt::format("{} ends at {}", source.what, to_rfc3339(series.back().at)));
  }
  return not_known(fmt::format("{} has a gap from {} to {}", source.what,
                               to_rfc3339((after - 1)->at), to_rfc3339(after->at)));
}

/// One figure of the forecast at a time, from that figure in the hours on either side.
template <class T, class Between>
Known<T> read(const std::vector<WindHour>& series, const Source& source, Instant at,
              std::string_view what, std::optional<T> WindHour::* figure, const Between& between) {
  const std::optional<Around> place = around(series, at);
  if (!place) return why_not(series, source, at);
  const std::optional<T>& before = place->before->*figure;
  const std::optional<T>& after = place->after->*figure;
  if (!before.has_value() || !after.has_value()) {
    const WindHour* lacks_it = before.has_value() ? place->after : place->before;
    return not_known(
        fmt::format("{} gives no {} for {}", source.what, what, to_rfc3339(lacks_it->at)));
  }
  return between(*before, *after, place->fraction);
}

constexpr auto kLinear = [](auto a, auto b, double f) { return a * (1 - f) + b * f; };
constexpr auto kGreaterOfHours = [](auto a, auto b, double) { return std::max(a, b); };
constexpr auto kLesserOfHours = [](auto a, auto b, double) { return std::min(a, b); };

/// The wind of one hour; a calm without direction is from the north by convention.
Known<Wind> wind_of(const WindHour& hour, const Source& source) {
  const bool calm = hour.speed.has_value() && *hour.speed <= kCalm;
  if (!hour.speed.has_value() || (!hour.from.has_value() && !calm)) {
    return not_known(fmt::format("{} gives no wind {} for {}", source.what,
                                 hour.speed.has_value() ? "direction" : "speed",
                                 to_rfc3339(hour.at)));
  }
  return Wind{hour.from.value_or(WindFrom{TrueBearing::from_degrees(0)}), *hour.speed};
}

}  // namespace

WindSeries::WindSeries(Source source, std::optional<Position> position, std::vector<WindHour> hours)
    : source_(std::move(source)), position_(position), hours_(std::move(hours)) {
  check(!hours_.empty(), "a wind forecast has hours");
  for (std::size_t i = 1; i < hours_.size(); ++i) {
    check(hours_[i - 1].at < hours_[i].at, "the hours of a wind forecast rise");
  }
  for (const WindHour& hour : hours_) {
    if (!hour.pressure) continue;
    lowest_pressure_ = std::min(lowest_pressure_.value_or(*hour.pressure), *hour.pressure);
    highest_pressure_ = std::max(highest_pressure_.value_or(*hour.pressure), *hour.pressure);
  }
}

Span WindSeries::covers() const { return {hours_.front().at, hours_.back().at}; }

Known<Wind> WindSeries::wind(Instant at) const {
  const std::optional<Around> place = around(hours_, at);
  if (!place) return why_not(hours_, source_, at);
  const Known<Wind> before = wind_of(*place->before, source_);
  if (place->before == place->after) return before;
  const auto between = [&](const Wind& a, const Wind& b) {
    const Velocity mean =
        kLinear(velocity(a.from, a.speed), velocity(b.from, b.speed), place->fraction);
    if (speed_of(mean) <= kCalm) return Wind{a.from, knots(0)};
    return Wind{WindFrom{bearing_of(mean).reversed()}, speed_of(mean)};
  };
  return join(between, before, wind_of(*place->after, source_));
}

Known<Speed> WindSeries::gust(Instant at) const {
  return read(hours_, source_, at, "gust", &WindHour::gust, kGreaterOfHours);
}
std::optional<Pressure> WindSeries::pressure(Instant at) const {
  const std::optional<Around> place = around(hours_, at);
  if (!place || !place->before->pressure || !place->after->pressure) return std::nullopt;
  return kLinear(*place->before->pressure, *place->after->pressure, place->fraction);
}
Known<Length> WindSeries::visibility(Instant at) const {
  return read(hours_, source_, at, "visibility", &WindHour::visibility, kLesserOfHours);
}
Known<Length> WindSeries::wave(Instant at) const {
  return read(hours_, source_, at, "wave height", &WindHour::wave, kGreaterOfHours);
}
Known<double> WindSeries::thunder(Instant at) const {
  return read(hours_, source_, at, "chance of thunder", &WindHour::thunder, kLinear);
}

}  // namespace passage_brief
