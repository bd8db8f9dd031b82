#include "units/time.h"

#include <fmt/format.h>

#include <chrono>
#include <cstddef>
#include <expected>
#include <optional>
#include <string>
#include <string_view>

namespace passage_brief {
namespace {

constexpr const char* kInstantExample =
    "an instant like 2026-06-14T13:30:00Z or 2026-06-14T09:30-04:00";
constexpr const char* kWallExample = "a wall time like 2026-06-14T09:30";
constexpr const char* kDateExample = "a date like 2026-06-14";

/// Takes fixed-width numbers and letters off the front of a text; remembers the first failure.
class Taker {
 public:
  explicit Taker(std::string_view text) : rest_(text) {}

  int digits(std::size_t count) {
    int value = 0;
    if (rest_.size() < count) return fail();
    for (std::size_t i = 0; i < count; ++i) {
      if (rest_[i] < '0' || rest_[i] > '9') return fail();
      value = value * 10 + (rest_[i] - '0');
    }
    rest_.remove_prefix(count);
    return value;
  }
  void letter(std::string_view any_of) {
    if (rest_.empty() || any_of.find(rest_.front()) == std::string_view::npos) {
      fail();
      return;
    }
    rest_.remove_prefix(1);
  }
  [[nodiscard]] bool next_is(char c) const { return ok_ && !rest_.empty() && rest_.front() == c; }
  [[nodiscard]] bool ended() const { return ok_ && rest_.empty(); }
  [[nodiscard]] bool ok() const { return ok_; }
  /// Milliseconds from ".5", ".123456"; digits past the third are dropped.
  int fraction_ms() {
    letter(".");
    int value = 0;
    int places = 0;
    while (ok_ && !rest_.empty() && rest_.front() >= '0' && rest_.front() <= '9') {
      if (places < 3) value = value * 10 + (rest_.front() - '0');
      ++places;
      rest_.remove_prefix(1);
    }
    if (places == 0 || places > 9) return fail();
    for (; places < 3; ++places) value *= 10;
    return value;
  }

 private:
  int fail() {
    ok_ = false;
    return 0;
  }
  std::string_view rest_;
  bool ok_ = true;
};

std::optional<std::chrono::year_month_day> take_date(Taker& text) {
  const int year = text.digits(4);
  text.letter("-");
  const int month = text.digits(2);
  text.letter("-");
  const int day = text.digits(2);
  const std::chrono::year_month_day date{std::chrono::year(year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  if (!text.ok() || !date.ok()) return std::nullopt;
  return date;
}

/// Time of day with optional seconds and, where allowed, a fraction.
std::optional<Interval> take_time_of_day(Taker& text, bool fraction_allowed) {
  const int hour = text.digits(2);
  text.letter(":");
  const int minute = text.digits(2);
  int second = 0;
  int ms = 0;
  if (text.next_is(':')) {
    text.letter(":");
    second = text.digits(2);
    if (fraction_allowed && text.next_is('.')) ms = text.fraction_ms();
  }
  if (!text.ok() || hour > 23 || minute > 59 || second > 59) return std::nullopt;
  return std::chrono::hours(hour) + std::chrono::minutes(minute) + std::chrono::seconds(second) +
         Interval(ms);
}

std::unexpected<std::string> expected_but(std::string_view text, const char* example) {
  return std::unexpected(fmt::format("\"{}\" is not {}", text.substr(0, 60), example));
}

}  // namespace

std::expected<Instant, std::string> parse_instant(std::string_view text) {
  Taker taker(text);
  const auto date = take_date(taker);
  taker.letter("Tt");
  const auto time = take_time_of_day(taker, true);
  if (!date || !time) return expected_but(text, kInstantExample);
  std::chrono::minutes offset{0};
  if (taker.next_is('Z') || taker.next_is('z')) {
    taker.letter("Zz");
  } else {
    const bool west = taker.next_is('-');
    taker.letter("+-");
    const int hours = taker.digits(2);
    taker.letter(":");
    const int minutes = taker.digits(2);
    if (hours > 23 || minutes > 59) return expected_but(text, kInstantExample);
    offset = std::chrono::minutes((west ? -1 : 1) * (hours * 60 + minutes));
  }
  if (!taker.ended()) return expected_but(text, kInstantExample);
  return Instant(std::chrono::sys_days(*date)) + *time - offset;
}

std::expected<WallTime, std::string> parse_wall_time(std::string_view text) {
  Taker taker(text);
  const auto date = take_date(taker);
  taker.letter("Tt ");
  const auto time = take_time_of_day(taker, false);
  if (!date || !time || !taker.ended()) return expected_but(text, kWallExample);
  return WallTime(std::chrono::sys_days(*date).time_since_epoch() +
                  std::chrono::duration_cast<std::chrono::seconds>(*time));
}

std::expected<std::chrono::year_month_day, std::string> parse_date(std::string_view text) {
  Taker taker(text);
  const auto date = take_date(taker);
  if (!date || !taker.ended()) return expected_but(text, kDateExample);
  return *date;
}

std::string to_rfc3339(Instant instant) {
  const auto second = std::chrono::floor<std::chrono::seconds>(instant);
  const auto day = std::chrono::floor<std::chrono::days>(second);
  const std::chrono::year_month_day date(day);
  const std::chrono::hh_mm_ss time(second - day);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     time.hours().count(), time.minutes().count(), time.seconds().count());
}

}  // namespace passage_brief
