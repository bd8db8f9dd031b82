#include "passage/level_until.h"

#include <algorithm>
#include <chrono>
#include <vector>

#include "facts/tide/tide_station.h"
#include "units/check.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr Interval kInstant{1};
constexpr Interval kFound{100};

/// The part of a span, from its begin, in which the station predicts.
Span predicted(const TideStation& station, Span span) {
  if (station.lowest(span).has_value()) return span;
  Instant known = span.begin;
  Instant beyond = span.end;
  while (beyond - known > kFound) {
    const Instant middle = known + (beyond - known) / 2;
    (station.lowest({span.begin, middle}).has_value() ? known : beyond) = middle;
  }
  return {span.begin, known};
}

/// Times between which the level runs one way, both ends of the span among them.
std::vector<Instant> joints(const TideStation& station, Span span) {
  std::vector<Instant> all{span.begin};
  const auto turns = station.high_low(span);
  check(turns.has_value(), "turns are known where heights are");
  for (const TideEvent& turn : *turns) all.push_back(turn.at);
  const auto year =
      std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(span.end)).year();
  const Instant new_year = std::chrono::sys_days(year / 1 / 1);
  if (new_year > span.begin) {
    all.push_back(new_year - kInstant);
    all.push_back(new_year);
  }
  all.push_back(span.end);
  std::ranges::sort(all);
  return all;
}

}  // namespace

LevelHeld level_held(const TideStation& station, const std::vector<LevelLimit>& limits,
                     LostBy lost_by) {
  check(!limits.empty(), "a level is held to a limit");
  for (const LevelLimit& limit : limits) {
    const auto holds = [&](Instant at) {
      const Known<TideHeight> level = station.height(at);
      return level.has_value() &&
             (lost_by == LostBy::falling ? *level >= limit.level : *level <= limit.level);
    };
    if (!station.height(limit.span.begin).has_value()) {
      return {limit.span.begin, LevelHeld::End::prediction_ends};
    }
    const Span span = predicted(station, limit.span);
    const std::vector<Instant> times = joints(station, span);
    Instant held = span.begin;
    for (const Instant next : times) {
      if (holds(next)) {
        held = next;
        continue;
      }
      Instant lost = next;
      while (lost - held > kFound) {
        const Instant middle = held + (lost - held) / 2;
        (holds(middle) ? held : lost) = middle;
      }
      return {held, LevelHeld::End::lost};
    }
    if (span.end < limit.span.end) return {span.end, LevelHeld::End::prediction_ends};
  }
  return {limits.back().span.end, LevelHeld::End::all_through};
}

}  // namespace passage_brief
