// Clock changes as the IANA time zone data base has them. The dates of the rules beside the tests
// are those of the laws named (from memory).
#include "units/zone.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <string>
#include <vector>

#include "units/check.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::year;
using std::chrono::year_month_day;

Zone zone(const char* name) { return Zone::named(name).value(); }
WallTime wall(const char* text) { return parse_wall_time(text).value(); }
Instant utc(const char* text) { return parse_instant(text).value(); }
Interval length_of(const Zone& in, year_month_day day) {
  const Span span = in.local_day(day);
  return span.end - span.begin;
}

/// The message names every one of these.
void expect_words(const std::string& message, const std::vector<std::string>& words) {
  for (const std::string& word : words) {
    EXPECT_NE(message.find(word), std::string::npos) << "\"" << word << "\" in: " << message;
  }
}

TEST(Zone, IsKnownByItsNameInTheDataBase) {
  EXPECT_EQ(zone("America/New_York").name(), "America/New_York");
  EXPECT_EQ(Zone::utc().name(), "UTC");
  for (const char* name : {"", "EDT5", "America/Nowhere", "america/new_york", "+05:00", "../UTC"}) {
    EXPECT_FALSE(Zone::named(name)) << name;
  }
}

struct WallAndUtc {
  const char* zone;
  const char* wall;
  const char* utc;
  const char* letters;
};

// Standard time and daylight-saving time, both hemispheres, offsets in half and quarter hours.
TEST(Zone, WallTimeThereAndBack) {
  for (const WallAndUtc& row : std::vector<WallAndUtc>{
           {"UTC", "2026-06-14T09:30", "2026-06-14T09:30Z", "UTC"},
           {"America/New_York", "2026-01-14T09:30", "2026-01-14T14:30Z", "EST"},
           {"America/New_York", "2026-06-14T09:30", "2026-06-14T13:30Z", "EDT"},
           {"Europe/London", "2026-01-14T09:30", "2026-01-14T09:30Z", "GMT"},
           {"Europe/London", "2026-06-14T09:30", "2026-06-14T08:30Z", "BST"},
           {"Australia/Sydney", "2026-01-14T09:30", "2026-01-13T22:30Z", "AEDT"},
           {"Australia/Sydney", "2026-06-14T09:30", "2026-06-13T23:30Z", "AEST"},
           {"America/St_Johns", "2026-06-14T09:30", "2026-06-14T12:00Z", "NDT"},
           {"America/St_Johns", "2026-01-14T09:30", "2026-01-14T13:00Z", "NST"},
           {"Asia/Kolkata", "2026-06-14T09:30", "2026-06-14T04:00Z", "IST"},
           {"Asia/Kathmandu", "2026-06-14T09:30", "2026-06-14T03:45Z", "UTC+05:45"},
           {"Pacific/Chatham", "2026-01-14T09:30", "2026-01-13T19:45Z", "UTC+13:45"},
           {"Pacific/Apia", "2026-06-14T09:30", "2026-06-13T20:30Z", "UTC+13:00"},
           {"Pacific/Kiritimati", "2026-06-14T09:30", "2026-06-13T19:30Z", "UTC+14:00"}}) {
    const Zone here = zone(row.zone);
    const auto instant = here.instant_of(wall(row.wall));
    ASSERT_TRUE(instant) << row.zone << ": " << instant.error();
    EXPECT_EQ(to_rfc3339(*instant), to_rfc3339(utc(row.utc))) << row.zone << " " << row.wall;
    const ZonedTime time = here.at(*instant);
    EXPECT_EQ(time.wall, wall(row.wall)) << row.zone;
    EXPECT_EQ(time.abbreviation, row.letters) << row.zone << " " << row.wall;
    EXPECT_EQ(Instant(time.wall.time_since_epoch()) - time.offset, *instant) << row.zone;
  }
}

// United States, 15 U.S.C. 260a: from 2 h on the second Sunday of March (8 March 2026) to 2 h on
// the first Sunday of November (1 November 2026).
TEST(Zone, TimeSkippedInSpringIsRefusedWithBothOffsets) {
  const Zone new_york = zone("America/New_York");
  EXPECT_EQ(new_york.instant_of(wall("2026-03-08T01:59:59")), utc("2026-03-08T06:59:59Z"));
  EXPECT_EQ(new_york.instant_of(wall("2026-03-08T03:00")), utc("2026-03-08T07:00Z"));
  for (const char* skipped : {"2026-03-08T02:00", "2026-03-08T02:30", "2026-03-08T02:59:59"}) {
    const auto instant = new_york.instant_of(wall(skipped));
    ASSERT_FALSE(instant) << skipped;
    expect_words(instant.error(),
                 {skipped, "does not exist", "America/New_York", "-05:00 (EST)", "-04:00 (EDT)"});
  }
}

TEST(Zone, TimeThatComesTwiceInAutumnIsRefusedWithBothOffsets) {
  const Zone new_york = zone("America/New_York");
  EXPECT_EQ(new_york.instant_of(wall("2026-11-01T00:59:59")), utc("2026-11-01T04:59:59Z"));
  EXPECT_EQ(new_york.instant_of(wall("2026-11-01T02:00")), utc("2026-11-01T07:00Z"));
  for (const char* twice : {"2026-11-01T01:00", "2026-11-01T01:30", "2026-11-01T01:59:59"}) {
    const auto instant = new_york.instant_of(wall(twice));
    ASSERT_FALSE(instant) << twice;
    expect_words(instant.error(), {twice, "comes twice", "-04:00 (EDT)", "-05:00 (EST)"});
  }
  // The message's own two ways of saying it are read, an hour apart.
  const auto first = parse_time_in(new_york, "2026-11-01T01:30:00-04:00");
  const auto second = parse_time_in(new_york, "2026-11-01T01:30:00-05:00");
  EXPECT_EQ(first.value() + hours(1), second.value());
  EXPECT_EQ(new_york.at(*first).wall, new_york.at(*second).wall);
}

// New South Wales, Standard Time Act 1987: clocks go forward on the first Sunday of October (4
// October 2026), back on the first Sunday of April (5 April 2026).
TEST(Zone, SouthernSummerTimeRunsOverNewYear) {
  const Zone sydney = zone("Australia/Sydney");
  const auto skipped = sydney.instant_of(wall("2026-10-04T02:30"));
  ASSERT_FALSE(skipped);
  expect_words(skipped.error(), {"does not exist", "+10:00 (AEST)", "+11:00 (AEDT)"});
  const auto twice = sydney.instant_of(wall("2026-04-05T02:30"));
  ASSERT_FALSE(twice);
  expect_words(twice.error(), {"comes twice", "+11:00 (AEDT)", "+10:00 (AEST)"});
  EXPECT_EQ(sydney.at(utc("2025-12-31T13:00Z")).wall, wall("2026-01-01T00:00"));
}

// Lord Howe Island changes by half an hour: +10:30 in winter, +11 in summer.
TEST(Zone, HalfHourOfSummerTime) {
  const Zone island = zone("Australia/Lord_Howe");
  EXPECT_FALSE(island.instant_of(wall("2026-10-04T02:15")));
  EXPECT_TRUE(island.instant_of(wall("2026-10-04T02:30")));
  EXPECT_FALSE(island.instant_of(wall("2026-04-05T01:45")));
  EXPECT_TRUE(island.instant_of(wall("2026-04-05T02:00")));
  EXPECT_EQ(length_of(island, year(2026) / 10 / 4), hours(23) + minutes(30));
  EXPECT_EQ(length_of(island, year(2026) / 4 / 5), hours(24) + minutes(30));
}

TEST(LocalDay, LastsWhatTheClocksMakeIt) {
  const Zone new_york = zone("America/New_York");
  EXPECT_EQ(length_of(new_york, year(2026) / 6 / 14), hours(24));
  EXPECT_EQ(length_of(new_york, year(2026) / 3 / 8), hours(23));
  EXPECT_EQ(length_of(new_york, year(2026) / 11 / 1), hours(25));
  EXPECT_EQ(length_of(zone("Australia/Sydney"), year(2026) / 10 / 4), hours(23));
  EXPECT_EQ(length_of(zone("Australia/Sydney"), year(2026) / 4 / 5), hours(25));
  EXPECT_EQ(length_of(zone("Asia/Kolkata"), year(2026) / 3 / 8), hours(24));
  EXPECT_EQ(new_york.local_day(year(2026) / 6 / 14),
            (Span{utc("2026-06-14T04:00Z"), utc("2026-06-15T04:00Z")}));
  EXPECT_EQ(length_of(new_york, year(2024) / 2 / 29), hours(24));
}

// Egypt, law of 2023: clocks go forward at midnight before the last Friday of April (24 April
// 2026), so that day begins at 1 h. Cuba: back from 1 h to midnight on the first Sunday of November
// (1 November 2026), so that day has two midnights.
TEST(LocalDay, BeginsAtTheStepWhereMidnightIsSkippedAndAtTheFirstOfTwo) {
  const Zone cairo = zone("Africa/Cairo");
  EXPECT_FALSE(cairo.instant_of(wall("2026-04-24T00:00")));
  EXPECT_EQ(cairo.local_day(year(2026) / 4 / 24),
            (Span{utc("2026-04-23T22:00Z"), utc("2026-04-24T21:00Z")}));
  const Zone havana = zone("America/Havana");
  EXPECT_FALSE(havana.instant_of(wall("2026-11-01T00:00")));
  EXPECT_EQ(havana.local_day(year(2026) / 11 / 1),
            (Span{utc("2026-11-01T04:00Z"), utc("2026-11-02T05:00Z")}));
}

// Samoa went to the other side of the date line and had no 30 December 2011.
TEST(LocalDay, ThatWasSkippedHasNoLength) {
  const Zone apia = zone("Pacific/Apia");
  EXPECT_EQ(length_of(apia, year(2011) / 12 / 29), hours(24));
  EXPECT_EQ(length_of(apia, year(2011) / 12 / 30), hours(0));
  EXPECT_EQ(length_of(apia, year(2011) / 12 / 31), hours(24));
}

TEST(LocalDay, FollowsTheDayBeforeWithoutAGap) {
  for (const char* name : {"America/New_York", "Australia/Lord_Howe", "Africa/Cairo",
                           "America/Havana", "Pacific/Chatham", "America/St_Johns"}) {
    const Zone here = zone(name);
    Instant end = here.local_day(year(2025) / 12 / 31).end;
    for (std::chrono::sys_days day = year(2026) / 1 / 1; day <= year(2026) / 12 / 31;
         day += std::chrono::days(1)) {
      const Span span = here.local_day(day);
      ASSERT_EQ(span.begin, end) << name << " " << to_rfc3339(Instant(day));
      EXPECT_EQ(here.day_of(span.begin), year_month_day(day));
      EXPECT_EQ(here.day_of(span.end - Interval(1)), year_month_day(day));
      end = span.end;
    }
  }
}

TEST(Zone, DayOfAnInstantIsTheDayOnTheWall) {
  const Instant at = utc("2026-06-14T03:30Z");
  EXPECT_EQ(Zone::utc().day_of(at), year(2026) / 6 / 14);
  EXPECT_EQ(zone("America/New_York").day_of(at), year(2026) / 6 / 13);
  EXPECT_EQ(zone("Pacific/Kiritimati").day_of(utc("2026-06-14T10:00Z")), year(2026) / 6 / 15);
}

TEST(Zone, AnswersFrom1900To2037AndRefusesTheRest) {
  const Zone utc_zone = Zone::utc();
  EXPECT_TRUE(Zone::covers(utc("1900-01-01T00:00Z")));
  EXPECT_FALSE(Zone::covers(utc("1899-12-31T23:59:59Z")));
  EXPECT_TRUE(Zone::covers(utc("2037-12-31T23:59:59Z")));
  EXPECT_FALSE(Zone::covers(utc("2038-01-01T00:00Z")));
  EXPECT_THROW((void)utc_zone.at(utc("2038-03-01T00:00Z")), BrokenPromise);
  EXPECT_THROW((void)utc_zone.local_day(year(2038) / 3 / 1), BrokenPromise);
  for (const char* outside : {"1899-12-31T23:59", "2038-01-01T00:00"}) {
    const auto instant = utc_zone.instant_of(wall(outside));
    ASSERT_FALSE(instant) << outside;
    expect_words(instant.error(), {outside, "1900 to 2037"});
  }
}

// A passage begun on the last evening arrives in the new year: Eastern Standard Time and, in the
// southern summer, Australian daylight time (to April) hold past the last change of the tables.
TEST(Zone, AnswersForWhatBeganInTheLastYear) {
  const Instant arrival = utc("2038-01-01T06:10Z");
  EXPECT_EQ(date_and_time(arrival, zone("America/New_York")), "1 January 2038 01:10 EST");
  EXPECT_EQ(date_and_time(arrival, zone("Australia/Sydney")), "1 January 2038 17:10 AEDT");
}

// Found 2026-11: 23:30 of the last evening in New York is past the last instant in UTC; it was
// read, and printing it then broke a promise.
TEST(Zone, WhatItReadsItCanPrint) {
  for (const char* name : {"America/New_York", "Europe/Berlin", "Pacific/Kiritimati"}) {
    for (const char* edge :
         {"1900-01-01T00:30", "1900-01-01T23:30", "2037-12-31T00:30", "2037-12-31T23:30"}) {
      const auto instant = zone(name).instant_of(wall(edge));
      if (!instant) {
        expect_words(instant.error(), {edge, "1900 to 2037"});
        continue;
      }
      EXPECT_NO_THROW((void)zone(name).at(*instant)) << name << " " << edge;
    }
  }
  EXPECT_FALSE(zone("America/New_York").instant_of(wall("2037-12-31T23:30")));
  EXPECT_FALSE(zone("Europe/Berlin").instant_of(wall("1900-01-01T00:30")));
}

TEST(ParseTimeIn, TakesAnOffsetOrTheZonesWallTime) {
  const Zone new_york = zone("America/New_York");
  EXPECT_EQ(parse_time_in(new_york, "2026-06-14T09:30"), utc("2026-06-14T13:30Z"));
  EXPECT_EQ(parse_time_in(new_york, "2026-06-14 09:30:15"), utc("2026-06-14T13:30:15Z"));
  EXPECT_EQ(parse_time_in(new_york, "2026-06-14T09:30Z"), utc("2026-06-14T09:30Z"));
  EXPECT_EQ(parse_time_in(new_york, "2026-06-14T09:30+10:00"), utc("2026-06-13T23:30Z"));
  const auto refused = parse_time_in(new_york, "half past nine");
  ASSERT_FALSE(refused);
  expect_words(refused.error(), {"half past nine", "2026-06-14T09:30", "America/New_York"});
}

TEST(ToRfc3339, InAZoneHasThatZonesOffset) {
  EXPECT_EQ(to_rfc3339(utc("2026-06-14T13:30Z"), zone("America/New_York")),
            "2026-06-14T09:30:00-04:00");
  EXPECT_EQ(to_rfc3339(utc("2026-01-14T13:30Z"), zone("America/New_York")),
            "2026-01-14T08:30:00-05:00");
  EXPECT_EQ(to_rfc3339(utc("2026-06-14T13:30Z"), zone("America/St_Johns")),
            "2026-06-14T11:00:00-02:30");
  EXPECT_EQ(to_rfc3339(utc("2026-06-14T13:30Z"), Zone::utc()), "2026-06-14T13:30:00+00:00");
  // Both halves of the hour that comes twice are told apart.
  EXPECT_EQ(to_rfc3339(utc("2026-11-01T05:30Z"), zone("America/New_York")),
            "2026-11-01T01:30:00-04:00");
  EXPECT_EQ(to_rfc3339(utc("2026-11-01T06:30Z"), zone("America/New_York")),
            "2026-11-01T01:30:00-05:00");
}

TEST(DateAndTime, AsItIsReadThere) {
  EXPECT_EQ(date_and_time(utc("2026-11-01T05:30Z"), zone("America/New_York")),
            "1 November 2026 01:30 EDT");
  EXPECT_EQ(date_and_time(utc("2026-11-01T06:30Z"), zone("America/New_York")),
            "1 November 2026 01:30 EST");
  EXPECT_EQ(date_and_time(utc("2026-06-14T23:59Z"), Zone::utc()), "14 June 2026 23:59 UTC");
  // No zone is known so far ahead.
  EXPECT_EQ(date_and_time(utc("2099-06-14T12:00Z"), zone("America/New_York")),
            "2099-06-14T12:00:00Z");
}

}  // namespace
}  // namespace passage_brief
