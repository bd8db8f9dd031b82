// Instants and intervals: the standard library's, on the UTC time line, to the millisecond.
//
// A wall time belongs to a Zone (zone.h) and becomes an Instant only through it.
#pragma once

#include <chrono>
#include <expected>
#include <string>
#include <string_view>

#include "units/quantity.h"

namespace passage_brief {

using Interval = std::chrono::milliseconds;
using Instant = std::chrono::sys_time<Interval>;

/// A wall time without zone: what a clock on the wall shows, to the minute or second.
using WallTime = std::chrono::local_time<std::chrono::seconds>;

[[nodiscard]] constexpr double in_seconds(Interval i) {
  return std::chrono::duration<double>(i).count();
}
[[nodiscard]] constexpr double in_hours(Interval i) {
  return std::chrono::duration<double, std::ratio<3600>>(i).count();
}
/// Rounded to the nearest millisecond.
[[nodiscard]] constexpr Interval seconds_long(double s) {
  return std::chrono::round<Interval>(std::chrono::duration<double>(s));
}

[[nodiscard]] constexpr Length operator*(Speed v, Interval t) {
  return metres(v.si() * in_seconds(t));
}

/// A span of time, begin <= end; both ends belong to it.
struct Span {
  Instant begin;
  Instant end;
  bool operator==(const Span&) const = default;
};

/// RFC 3339 with an offset ("2026-06-14T09:30:00Z", "...-04:00"; seconds and fraction may be left
/// out). The message says what is wrong and how to write it.
[[nodiscard]] std::expected<Instant, std::string> parse_instant(std::string_view text);

/// "2026-06-14T09:30" or with seconds, no offset.
[[nodiscard]] std::expected<WallTime, std::string> parse_wall_time(std::string_view text);

/// RFC 3339 in UTC to the second ("2026-06-14T13:30:00Z"), rounded down.
[[nodiscard]] std::string to_rfc3339(Instant instant);

/// "2026-06-14"; nothing past the day may follow.
[[nodiscard]] std::expected<std::chrono::year_month_day, std::string> parse_date(
    std::string_view text);

}  // namespace passage_brief
