#include "units/zone.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cstdlib>
#include <expected>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

#include "units/check.h"

namespace passage_brief {
namespace {

constexpr Instant kFirst = std::chrono::sys_days(std::chrono::year(1900) / 1 / 1);
constexpr Instant kPastLast = std::chrono::sys_days(std::chrono::year(2038) / 1 / 1);
// What began before the end may lie past it: before March no zone's tables fail for want of a
// change.
constexpr Instant kPastAnswers = std::chrono::sys_days(std::chrono::year(2038) / 3 / 1);
constexpr Instant kFirstAnswer = std::chrono::sys_days(std::chrono::year(1899) / 12 / 1);

bool answers(Instant instant) { return instant >= kFirstAnswer && instant < kPastAnswers; }

const date::time_zone& rules_of(const void* rules) {
  return *static_cast<const date::time_zone*>(rules);
}

/// "-04:00".
std::string offset_in_words(std::chrono::seconds offset) {
  const long long minutes = std::abs(offset.count()) / 60;
  return fmt::format("{}{:02}:{:02}", offset.count() < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

std::string wall_in_words(WallTime wall) {
  std::string text = to_rfc3339(Instant(wall.time_since_epoch()));
  text.pop_back();  // its "Z": this is no UTC time
  return text;
}

}  // namespace

std::optional<Zone> Zone::named(std::string_view name) {
  try {
    return Zone(std::string(name), date::locate_zone(std::string(name)));
  } catch (const std::runtime_error&) {  // how the library says "no such zone"
    return std::nullopt;
  }
}

Zone Zone::utc() {
  const std::optional<Zone> utc = named("UTC");
  if (!utc) broken_promise("the time zone data base is installed and knows UTC");
  return *utc;
}

bool Zone::covers(Instant instant) { return instant >= kFirst && instant < kPastLast; }

std::expected<Instant, std::string> Zone::instant_of(WallTime wall) const {
  const Instant as_if_utc{wall.time_since_epoch()};
  const auto outside = [wall] {
    return std::unexpected(fmt::format(
        "{} is outside the years 1900 to 2037 for which local time is known", wall_in_words(wall)));
  };
  if (!covers(as_if_utc)) return outside();
  const auto info = rules_of(rules_).get_info(date::local_seconds(wall.time_since_epoch()));
  if (info.result == date::local_info::nonexistent) {
    return std::unexpected(fmt::format(
        "{} does not exist in {}: clocks go forward past it, from {} ({}) to {} ({}). Give the "
        "time with its offset, like {}{}",
        wall_in_words(wall), name_, offset_in_words(info.first.offset), info.first.abbrev,
        offset_in_words(info.second.offset), info.second.abbrev, wall_in_words(wall),
        offset_in_words(info.second.offset)));
  }
  if (info.result == date::local_info::ambiguous) {
    return std::unexpected(
        fmt::format("{} comes twice in {}: clocks go back, from {} ({}) to {} ({}). Say which, "
                    "like {}{} or {}{}",
                    wall_in_words(wall), name_, offset_in_words(info.first.offset),
                    info.first.abbrev, offset_in_words(info.second.offset), info.second.abbrev,
                    wall_in_words(wall), offset_in_words(info.first.offset), wall_in_words(wall),
                    offset_in_words(info.second.offset)));
  }
  const Instant instant = as_if_utc - info.first.offset;
  if (!covers(instant)) return outside();  // the last evening of 2037 west of Greenwich, say
  return instant;
}

ZonedTime Zone::at(Instant instant) const {
  check(answers(instant), "local time is known for the years 1900 to 2037");
  const auto second = std::chrono::floor<std::chrono::seconds>(instant);
  const auto info = rules_of(rules_).get_info(date::sys_seconds(second.time_since_epoch()));
  std::string letters = info.abbrev;
  if (letters.empty() || letters.front() == '+' || letters.front() == '-') {
    letters = "UTC" + offset_in_words(info.offset);
  }
  return {WallTime(second.time_since_epoch() + info.offset), info.offset, letters};
}

std::chrono::year_month_day Zone::day_of(Instant instant) const {
  const auto wall = at(instant).wall.time_since_epoch();
  return std::chrono::year_month_day(
      std::chrono::floor<std::chrono::days>(std::chrono::sys_seconds(wall)));
}

Span Zone::local_day(std::chrono::year_month_day day) const {
  const auto first_instant = [this](std::chrono::sys_days of) {
    const date::local_seconds midnight{of.time_since_epoch()};
    const auto info = rules_of(rules_).get_info(midnight);
    // Where midnight comes twice the day begins at the first; where it is skipped, at the step.
    if (info.result == date::local_info::nonexistent) {
      return Instant(info.first.end.time_since_epoch());
    }
    return Instant(midnight.time_since_epoch() - info.first.offset);
  };
  const std::chrono::sys_days begin(day);
  check(answers(Instant(begin)), "local time is known for the years 1900 to 2037");
  return {first_instant(begin), first_instant(begin + std::chrono::days(1))};
}

std::expected<Instant, std::string> parse_time_in(const Zone& zone, std::string_view text) {
  if (const auto wall = parse_wall_time(text)) return zone.instant_of(*wall);
  if (auto instant = parse_instant(text)) return instant;
  return std::unexpected(
      fmt::format("\"{}\" is not a time like 2026-06-14T09:30 (wall time in {}) or "
                  "2026-06-14T13:30:00Z",
                  text.substr(0, 60), zone.name()));
}

std::string date_text(std::chrono::year_month_day day) {
  constexpr std::array names = {"January",   "February", "March",    "April",
                                "May",       "June",     "July",     "August",
                                "September", "October",  "November", "December"};
  check(day.ok(), "a date of the calendar");
  return fmt::format("{} {} {}", static_cast<unsigned>(day.day()),
                     names.at(static_cast<unsigned>(day.month()) - 1),
                     static_cast<int>(day.year()));
}

std::string hours_and_minutes(const ZonedTime& time) {
  const auto since_midnight = time.wall - std::chrono::floor<std::chrono::days>(time.wall);
  const std::chrono::hh_mm_ss clock(since_midnight);
  return fmt::format("{:02}:{:02}", clock.hours().count(), clock.minutes().count());
}

std::string date_and_time(Instant instant, const Zone& zone) {
  if (!answers(instant)) return to_rfc3339(instant);
  const ZonedTime time = zone.at(instant);
  return fmt::format("{} {} {}", date_text(zone.day_of(instant)), hours_and_minutes(time),
                     time.abbreviation);
}

std::string to_rfc3339(Instant instant, const Zone& zone) {
  const ZonedTime time = zone.at(instant);
  return wall_in_words(time.wall) +
         offset_in_words(std::chrono::floor<std::chrono::seconds>(time.offset));
}

}  // namespace passage_brief
