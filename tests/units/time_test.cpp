#include "units/time.h"

#include <gtest/gtest.h>

#include <chrono>
#include <string>
#include <utility>
#include <vector>

#include "units/quantity.h"

namespace passage_brief {
namespace {

using std::chrono::days;
using std::chrono::hours;
using std::chrono::milliseconds;
using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_days;
using std::chrono::year;

Instant utc(int y, unsigned m, unsigned d, Interval of_day) {
  return Instant(sys_days(year(y) / static_cast<int>(m) / static_cast<int>(d))) + of_day;
}

// The examples of RFC 3339 section 5.8 (from memory): 20 minutes 50.52 seconds after 23 h on 12
// April 1985; 16:39:57 eight hours behind UTC is 00:39:57 of the next day; 12:00:27.87 at the
// Netherlands' old offset of 20 minutes is 11:40:27.87.
TEST(ParseInstant, ExamplesOfTheStandard) {
  const std::vector<std::pair<std::string, Instant>> rows{
      {"1985-04-12T23:20:50.52Z",
       utc(1985, 4, 12, hours(23) + minutes(20) + seconds(50) + milliseconds(520))},
      {"1996-12-19T16:39:57-08:00", utc(1996, 12, 20, minutes(39) + seconds(57))},
      {"1937-01-01T12:00:27.87+00:20",
       utc(1937, 1, 1, hours(11) + minutes(40) + seconds(27) + milliseconds(870))}};
  for (const auto& [text, instant] : rows) EXPECT_EQ(parse_instant(text), instant) << text;
}

TEST(ParseInstant, SecondsFractionsAndSmallLetters) {
  const Instant half_past_one = utc(2026, 6, 14, hours(13) + minutes(30));
  for (const char* text :
       {"2026-06-14T13:30Z", "2026-06-14T13:30:00Z", "2026-06-14t13:30:00z",
        "2026-06-14T13:30:00.000Z", "2026-06-14T09:30-04:00", "2026-06-14T13:30:00.0009Z",
        "2026-06-14T13:30+00:00", "2026-06-14T13:30-00:00", "2026-06-14T19:00+05:30",
        "2026-06-15T03:29:00+13:59"}) {
    EXPECT_EQ(parse_instant(text), half_past_one) << text;
  }
  EXPECT_EQ(parse_instant("2026-06-14T13:30:00.5Z"), half_past_one + milliseconds(500));
  EXPECT_EQ(parse_instant("2026-06-14T13:30:00.123456789Z"), half_past_one + milliseconds(123));
}

// Leap years of the Gregorian calendar: by 4, not by 100, but by 400.
TEST(ParseInstant, LeapDayOnlyInALeapYear) {
  for (const char* text : {"2024-02-29T00:00Z", "2000-02-29T00:00Z", "2028-02-29T00:00Z"}) {
    EXPECT_TRUE(parse_instant(text)) << text;
  }
  for (const char* text : {"2026-02-29T00:00Z", "1900-02-29T00:00Z", "2100-02-29T00:00Z"}) {
    EXPECT_FALSE(parse_instant(text)) << text;
  }
  EXPECT_EQ(*parse_instant("2024-03-01T00:00Z") - *parse_instant("2024-02-28T00:00Z"), days(2));
  EXPECT_EQ(*parse_instant("2026-03-01T00:00Z") - *parse_instant("2026-02-28T00:00Z"), days(1));
}

TEST(ParseInstant, RefusesWhatIsNoInstantAndShowsHowToWriteOne) {
  for (const char* text : {"",
                           "2026-06-14",
                           "2026-06-14T09:30",
                           "2026-06-14 09:30Z",
                           "2026-6-14T09:30Z",
                           "2026-06-14T9:30Z",
                           "2026-06-14T24:00Z",
                           "2026-06-14T09:60Z",
                           "2026-06-14T23:59:60Z",
                           "2026-13-01T00:00Z",
                           "2026-00-01T00:00Z",
                           "2026-06-31T00:00Z",
                           "2026-06-00T00:00Z",
                           "2026-06-14T09:30+24:00",
                           "2026-06-14T09:30+04:60",
                           "2026-06-14T09:30+0400",
                           "2026-06-14T09:30+04",
                           "2026-06-14T09:30Z ",
                           " 2026-06-14T09:30Z",
                           "2026-06-14T09:30ZZ",
                           "2026-06-14T09:30:00.Z",
                           "2026-06-14T09:30.5Z",
                           "2026-06-14T09:30:00,5Z",
                           "2026-06-14T09:30 EDT",
                           "-2026-06-14T09:30Z",
                           "12026-06-14T09:30Z",
                           "now"}) {
    const auto instant = parse_instant(text);
    ASSERT_FALSE(instant) << text;
    EXPECT_NE(instant.error().find("2026-06-14T13:30:00Z"), std::string::npos) << instant.error();
  }
  const std::string long_text(5000, '9');
  EXPECT_LT(parse_instant(long_text).error().size(), 200U);
}

TEST(ParseWallTime, TakesNoOffset) {
  const WallTime half_past_nine(sys_days(year(2026) / 6 / 14).time_since_epoch() + hours(9) +
                                minutes(30));
  EXPECT_EQ(parse_wall_time("2026-06-14T09:30"), half_past_nine);
  EXPECT_EQ(parse_wall_time("2026-06-14 09:30"), half_past_nine);
  EXPECT_EQ(parse_wall_time("2026-06-14T09:30:05"), half_past_nine + seconds(5));
  for (const char* text : {"2026-06-14T09:30Z", "2026-06-14T09:30-04:00", "2026-06-14T09:30:00.5",
                           "2026-06-14", "2026-02-29T09:30", "09:30", "2026-06-14T24:00"}) {
    EXPECT_FALSE(parse_wall_time(text)) << text;
  }
}

TEST(ParseDate, TakesADayAndNothingAfterIt) {
  EXPECT_EQ(parse_date("2026-06-14"), year(2026) / 6 / 14);
  EXPECT_EQ(parse_date("2024-02-29"), year(2024) / 2 / 29);
  for (const char* text : {"2026-02-29", "2026-06-14T00:00", "14-06-2026", "2026-6-14", "20260614",
                           "2026-06-14 ", ""}) {
    EXPECT_FALSE(parse_date(text)) << text;
  }
}

TEST(ToRfc3339, ToTheSecondRoundedDown) {
  EXPECT_EQ(to_rfc3339(utc(2026, 6, 14, hours(13) + minutes(30))), "2026-06-14T13:30:00Z");
  EXPECT_EQ(to_rfc3339(utc(2026, 6, 14, milliseconds(59999))), "2026-06-14T00:00:59Z");
  EXPECT_EQ(to_rfc3339(utc(1970, 1, 1, milliseconds(-1))), "1969-12-31T23:59:59Z");
  EXPECT_EQ(to_rfc3339(utc(1999, 12, 31, hours(24))), "2000-01-01T00:00:00Z");
}

TEST(ToRfc3339, ReadsBackAsTheSameInstant) {
  // Steps of 7 h 31 min 47 s pass through every hour of day and every day of year.
  for (Instant at = utc(1900, 1, 1, Interval(0)); at < utc(2038, 1, 1, Interval(0));
       at += hours(7 + 24 * 31) + minutes(31) + seconds(47)) {
    ASSERT_EQ(parse_instant(to_rfc3339(at)), at) << to_rfc3339(at);
  }
}

TEST(Interval, ReadsInHoursAndSeconds) {
  EXPECT_EQ(in_hours(minutes(90)), 1.5);
  EXPECT_EQ(in_seconds(milliseconds(1500)), 1.5);
  EXPECT_EQ(seconds_long(1.5), milliseconds(1500));
  EXPECT_EQ(seconds_long(0.0006), milliseconds(1));
  EXPECT_EQ(seconds_long(-0.0006), milliseconds(-1));
}

TEST(Interval, TimesSpeedIsALength) {
  EXPECT_NEAR(in_nautical_miles(knots(6) * minutes(30)), 3, 1e-12);
  EXPECT_NEAR(in_metres(metres_per_second(2) * milliseconds(500)), 1, 1e-12);
}

}  // namespace
}  // namespace passage_brief
