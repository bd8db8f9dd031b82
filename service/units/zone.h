// A time zone of the IANA data base, and wall time in it.
//
// Times are read from 1900 to the end of 2037: past that the system's tables lose daylight-saving
// time, so later dates are refused. For what began within those years it answers two months more.
// A wall time that does not exist (clocks go forward) or comes twice (clocks go back) is refused,
// naming both offsets; nothing is guessed.
#pragma once

#include <expected>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "units/time.h"

namespace passage_brief {

/// What a clock in a zone shows at one instant.
struct ZonedTime {
  WallTime wall;             // rounded down to the second
  Interval offset;           // east of Greenwich positive
  std::string abbreviation;  // "EDT"; or "UTC+03" where the zone has no letters
};

class Zone {
 public:
  /// Nothing when the name is not in the data base ("America/New_York", "UTC").
  [[nodiscard]] static std::optional<Zone> named(std::string_view name);
  [[nodiscard]] static Zone utc();

  [[nodiscard]] const std::string& name() const { return name_; }
  /// The message explains: does not exist, comes twice (with both offsets), or out of range.
  [[nodiscard]] std::expected<Instant, std::string> instant_of(WallTime wall) const;
  /// Throws BrokenPromise before December 1899 and from March 2038 on.
  [[nodiscard]] ZonedTime at(Instant instant) const;
  /// Whether a time is one of those years'.
  [[nodiscard]] static bool covers(Instant instant);
  /// Begin of a local day and of the next one; a day may last 23 or 25 hours.
  [[nodiscard]] Span local_day(std::chrono::year_month_day day) const;
  /// The local calendar day of an instant.
  [[nodiscard]] std::chrono::year_month_day day_of(Instant instant) const;

  friend bool operator==(const Zone& a, const Zone& b) { return a.name_ == b.name_; }

 private:
  Zone(std::string name, const void* rules) : name_(std::move(name)), rules_(rules) {}
  std::string name_;
  const void* rules_;  // the data base's own record; lives as long as the program
};

/// An RFC 3339 instant, or a wall time taken in the zone.
[[nodiscard]] std::expected<Instant, std::string> parse_time_in(const Zone& zone,
                                                                std::string_view text);

/// A time and the zone in which people there read it.
struct LocalTime {
  Instant at;
  Zone zone;
};

/// "14 June 2026"
[[nodiscard]] std::string date_text(std::chrono::year_month_day day);
/// "05:12", rounded down.
[[nodiscard]] std::string hours_and_minutes(const ZonedTime& time);
/// "14 June 2026 05:12 EDT", rounded down to the minute; RFC 3339 in UTC where at() has no answer.
[[nodiscard]] std::string date_and_time(Instant instant, const Zone& zone);

/// RFC 3339 with the zone's own offset ("2026-06-14T09:30:00-04:00"), rounded down to the second.
[[nodiscard]] std::string to_rfc3339(Instant instant, const Zone& zone);

}  // namespace passage_brief
