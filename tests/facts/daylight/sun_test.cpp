#include "facts/daylight/sun.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iostream>
#include <optional>
#include <utility>

#include "given/csv_table.h"
#include "given/stations.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::at;

TEST(SunTimes, AgreeWithTheTable) {
  double worst_s = 0;
  for (const given::CsvRow& row : given::csv_table("sun.csv")) {
    const Position position = position_at(row.number("latitude"), row.number("longitude"));
    const Instant from = at(row.text("from"));
    const Span day{from, from + std::chrono::hours(24)};  // a local one in every row
    const SunTimes in_span = sun_times(position, day);
    const SunTimes of_day = sun_times_of_day(position, day);
    std::vector<std::pair<const char*, std::optional<Instant>>> ours;
    for (const SunTimes& sun : {in_span, of_day}) {
      ours.insert(ours.end(), {{"sunrise", sun.sunrise},
                               {"sunset", sun.sunset},
                               {"civil_dawn", sun.civil_dawn},
                               {"civil_dusk", sun.civil_dusk},
                               {"nautical_dawn", sun.nautical_dawn},
                               {"nautical_dusk", sun.nautical_dusk}});
    }
    for (const auto& [name, instant] : ours) {
      ASSERT_EQ(instant.has_value(), !row.is_empty(name)) << row.place() << " " << name;
      if (!instant) continue;
      const double apart_s = in_seconds(*instant - at(row.text(name)));
      worst_s = std::max(worst_s, std::abs(apart_s));
      EXPECT_LE(std::abs(apart_s), 60) << row.place() << " " << name;
    }
  }
  std::cout << "sun: worst " << worst_s << " s\n";
}

TEST(SunPlace, MeeusExample25a) {
  // J. Meeus, Astronomical Algorithms, 2nd ed., example 25.a: 1992 Oct 13, 0h TD: apparent
  // longitude 199.90895 deg (from memory), declination -7.78507 deg (seen). 59 s of TD - UTC are
  // 0.0007 deg.
  const SunPlace sun = sun_place(at("1992-10-13T00:00:00Z"));
  EXPECT_NEAR(sun.apparent_longitude.in_degrees(), 199.90895, 0.001);
  EXPECT_NEAR(sun.declination.in_degrees(), -7.78507, 0.001);
  EXPECT_NEAR(sun.right_ascension.in_degrees(), 198.38083, 0.001);  // ibid., from memory
}

TEST(Light, ChangesAtSunriseAndAtCivilTwilight) {
  // Boston harbor, 2025-06-21: civil dawn 08:32:42, sunrise 09:07:33 (sun.csv); a minute either
  // side.
  const Position boston = position_at(42.36, -71.05);
  EXPECT_EQ(light_at(boston, at("2025-06-21T08:31:42Z")), Light::dark);
  EXPECT_EQ(light_at(boston, at("2025-06-21T08:33:42Z")), Light::twilight);
  EXPECT_EQ(light_at(boston, at("2025-06-21T09:06:33Z")), Light::twilight);
  EXPECT_EQ(light_at(boston, at("2025-06-21T09:08:33Z")), Light::day);
  EXPECT_LT(Light::day, Light::dark);
}

TEST(SunTimes, ASpanOfDaysGivesTheFirstOfEachAndAnEmptyOneNothing) {
  const Position equator = position_at(0, 0);
  const Instant begin = at("2025-09-22T00:00:00Z");
  const SunTimes week = sun_times(equator, {begin, begin + std::chrono::days(7)});
  const SunTimes day = sun_times(equator, {begin, begin + std::chrono::days(1)});
  EXPECT_LE(std::abs((*week.sunrise - *day.sunrise).count()), 2);
  EXPECT_LE(std::abs((*week.sunset - *day.sunset).count()), 2);
  const SunTimes noon =
      sun_times(equator, {begin + std::chrono::hours(10), begin + std::chrono::hours(14)});
  EXPECT_FALSE(noon.sunrise);
  EXPECT_FALSE(noon.sunset);
}

TEST(SunTimesOfDay, AreThoseRoundTheNoonOfTheDay) {
  // 64.1 N, 20 June 2026: declination 23.436, equation of time -1.7 min (from memory); cos H =
  // (sin -0.833 - sin 64.1 sin 23.436) / (cos 64.1 cos 23.436) = -0.9290: the Sun is up for 633 min
  // either side of noon. Noon is at 13:29.7 UTC in 22 W and at 10:01.7 UTC in 30 E.
  const Span day{at("2026-06-20T00:00:00Z"), at("2026-06-21T00:00:00Z")};
  const auto minutes_off = [](const std::optional<Instant>& when, const char* by_hand) {
    return when ? in_seconds(*when - at(by_hand)) / 60 : 1e9;
  };
  const SunTimes west = sun_times_of_day(position_at(64.1, -22), day);
  EXPECT_NEAR(minutes_off(west.sunrise, "2026-06-20T02:56:40Z"), 0, 1.5);
  EXPECT_NEAR(minutes_off(west.sunset, "2026-06-21T00:02:40Z"), 0, 1.5);
  const SunTimes east = sun_times_of_day(position_at(64.1, 30), day);
  EXPECT_NEAR(minutes_off(east.sunrise, "2026-06-19T23:28:40Z"), 0, 1.5);
  EXPECT_NEAR(minutes_off(east.sunset, "2026-06-20T20:34:40Z"), 0, 1.5);
  const Daylight daylight = daylight_on(position_at(64.1, -22), day);
  EXPECT_EQ(daylight.sunrise, west.sunrise);
  EXPECT_EQ(daylight.sunset, west.sunset);
  // Above 90 - 23.4 deg it does neither.
  EXPECT_FALSE(daylight_on(position_at(70, -22), day).sunset);
}

TEST(SunAltitude, IsZenithUnderTheSunAndTheSameAllDayAtThePole) {
  // 2025-06-21 declination 23.44 deg; equation of time about -1.9 min: noon at Greenwich about
  // 12:02.
  EXPECT_GT(sun_altitude(position_at(23.44, 0), at("2025-06-21T12:02:00Z")).in_degrees(), 89.5);
  for (const char* hour : {"00", "06", "12", "18"}) {
    EXPECT_NEAR(sun_altitude(position_at(90, 0), at("2025-06-21T" + std::string(hour) + ":00:00Z"))
                    .in_degrees(),
                23.44, 0.01);
  }
}

}  // namespace
}  // namespace passage_brief
