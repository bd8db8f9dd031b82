#include "facts/weather/wind_series.h"

#include <gtest/gtest.h>

#include <chrono>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "given/units.h"
#include "units/check.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::why;
using std::chrono::hours;
using std::chrono::minutes;

const Instant kNoon = parse_instant("2026-06-14T12:00:00Z").value();

WindFrom wind_from(double deg) { return {TrueBearing::from_degrees(deg)}; }

WindHour hour(int hours_after_noon, double from_deg, double speed_kn) {
  return {.at = kNoon + hours(hours_after_noon),
          .from = wind_from(from_deg),
          .speed = knots(speed_kn),
          .gust = {},
          .pressure = {},
          .visibility = {},
          .wave = {},
          .thunder = {}};
}

WindSeries series(std::vector<WindHour> given) {
  return {
      {.what = "wind forecast", .from = "nobody", .issued = {}}, std::nullopt, std::move(given)};
}

TEST(WindSeries, HourOfTheForecastIsTakenAsItStands) {
  const WindSeries forecast = series({hour(0, 215, 14), hour(1, 230, 16)});
  EXPECT_EQ(forecast.wind(kNoon)->from.bearing.in_degrees(), 215);
  EXPECT_EQ(forecast.wind(kNoon)->speed, knots(14));
  EXPECT_EQ(forecast.wind(kNoon + hours(1))->from.bearing.in_degrees(), 230);
}

// 350 and 010 at 10 kn: half way from 000 at 10 cos 10 = 9.848 kn, never from 180.
TEST(WindSeries, BackingThroughNorthStaysNorth) {
  const WindSeries forecast = series({hour(0, 350, 10), hour(1, 10, 10)});
  const Wind halfway = forecast.wind(kNoon + minutes(30)).value();
  EXPECT_NEAR((halfway.from.bearing - TrueBearing::from_degrees(0)).in_degrees(), 0, 1e-9);
  EXPECT_NEAR(in_knots(halfway.speed), 9.848, 0.0005);
}

// From 270 at 8 kn to 000 at 4 kn, a quarter of the way: 6 kn of westerly and 1 kn of northerly
// make sqrt 37 = 6.083 kn from 270 + atan(1/6) = 279.462.
TEST(WindSeries, IsLinearInItsEastAndNorthParts) {
  const WindSeries forecast = series({hour(0, 270, 8), hour(1, 0, 4)});
  const Wind quarter = forecast.wind(kNoon + minutes(15)).value();
  EXPECT_NEAR(in_knots(quarter.speed), 6.083, 0.0005);
  EXPECT_NEAR(quarter.from.bearing.in_degrees(), 279.462, 0.0005);
}

TEST(WindSeries, CalmNeedsNoDirectionAndAWindDoes) {
  WindHour calm = hour(0, 0, 0);
  calm.from = std::nullopt;
  WindHour no_direction = hour(2, 0, 12);
  no_direction.from = std::nullopt;
  const WindSeries forecast = series({calm, hour(1, 90, 10), no_direction});
  EXPECT_EQ(forecast.wind(kNoon)->speed, knots(0));
  const Wind rising = forecast.wind(kNoon + minutes(30)).value();
  EXPECT_NEAR(in_knots(rising.speed), 5, 1e-9);
  EXPECT_NEAR(rising.from.bearing.in_degrees(), 90, 1e-9);
  EXPECT_EQ(why(forecast.wind(kNoon + hours(2))),
            "wind forecast gives no wind direction for 2026-06-14T14:00:00Z");
}

TEST(WindSeries, OppositeWindsPassThroughACalm) {
  const WindSeries forecast = series({hour(0, 30, 10), hour(1, 210, 10)});
  EXPECT_NEAR(in_knots(forecast.wind(kNoon + minutes(30))->speed), 0, 1e-9);
}

TEST(WindSeries, WhatIsLeftOutIsNotKnownAndNotCalm) {
  WindHour empty = hour(1, 0, 0);
  empty.from = std::nullopt;
  empty.speed = std::nullopt;
  const WindSeries forecast = series({hour(0, 90, 10), empty, hour(2, 90, 10)});
  EXPECT_TRUE(forecast.wind(kNoon).has_value());
  for (const int minute : {1, 60, 119}) {
    EXPECT_EQ(why(forecast.wind(kNoon + minutes(minute))),
              "wind forecast gives no wind speed for 2026-06-14T13:00:00Z");
  }
  EXPECT_TRUE(forecast.wind(kNoon + minutes(120)).has_value());
  EXPECT_EQ(why(forecast.gust(kNoon)), "wind forecast gives no gust for 2026-06-14T12:00:00Z");
}

TEST(WindSeries, KnowsNothingBeforeItsFirstHourOrAfterItsLast) {
  const WindSeries forecast = series({hour(0, 90, 10), hour(1, 90, 10)});
  EXPECT_EQ(forecast.covers(), (Span{kNoon, kNoon + hours(1)}));
  EXPECT_EQ(why(forecast.wind(kNoon - minutes(1))),
            "wind forecast begins only at 2026-06-14T12:00:00Z");
  EXPECT_EQ(why(forecast.wind(kNoon + minutes(61))), "wind forecast ends at 2026-06-14T13:00:00Z");
  EXPECT_EQ(why(forecast.visibility(kNoon + minutes(61))),
            "wind forecast ends at 2026-06-14T13:00:00Z");
}

TEST(WindSeries, GapOfMoreThanThreeHoursIsNotBridged) {
  const WindSeries three = series({hour(0, 90, 10), hour(1, 90, 10), hour(4, 90, 10)});
  EXPECT_TRUE(three.wind(kNoon + hours(2)).has_value());
  const WindSeries four = series({hour(0, 90, 10), hour(1, 90, 10), hour(5, 90, 10)});
  EXPECT_EQ(why(four.wind(kNoon + hours(2))),
            "wind forecast has a gap from 2026-06-14T13:00:00Z to 2026-06-14T17:00:00Z");
  EXPECT_TRUE(four.wind(kNoon + hours(5)).has_value());
}

TEST(WindSeries, StepsOfSixHoursAreReadOnlyWhereTheWholeSeriesHasThem) {
  const WindSeries coarse = series({hour(0, 90, 10), hour(6, 90, 10), hour(12, 90, 10)});
  EXPECT_TRUE(coarse.wind(kNoon + hours(3)).has_value());
  const WindSeries mixed = series({hour(0, 90, 10), hour(3, 90, 10), hour(9, 90, 10)});
  EXPECT_FALSE(mixed.wind(kNoon + hours(4)).has_value());
  const WindSeries hole = series({hour(0, 90, 10), hour(6, 90, 10), hour(13, 90, 10)});
  EXPECT_FALSE(hole.wind(kNoon + hours(7)).has_value());
}

TEST(WindSeries, GustAndWaveTakeTheGreaterAndVisibilityTheLesser) {
  WindHour first = hour(0, 90, 10);
  first.gust = knots(22);
  first.wave = feet(1);
  first.visibility = nautical_miles(5);
  first.pressure = hectopascals(1012);
  first.thunder = 0.0;
  WindHour second = hour(1, 90, 10);
  second.gust = knots(18);
  second.wave = feet(2);
  second.visibility = nautical_miles(1);
  second.pressure = hectopascals(1008);
  second.thunder = 0.4;
  const WindSeries forecast = series({first, second});
  const Instant quarter = kNoon + minutes(15);
  EXPECT_EQ(forecast.gust(quarter).value(), knots(22));
  EXPECT_EQ(forecast.wave(quarter).value(), feet(2));
  EXPECT_EQ(forecast.visibility(quarter).value(), nautical_miles(1));
  EXPECT_NEAR(in_hectopascals(forecast.pressure(quarter).value()), 1011, 1e-9);
  EXPECT_NEAR(forecast.thunder(quarter).value(), 0.1, 1e-12);
  EXPECT_EQ(forecast.wave(kNoon).value(), feet(1));
  EXPECT_EQ(forecast.gust(kNoon + hours(1)).value(), knots(18));
}

TEST(WindSeries, HoursOutOfOrderAreABrokenPromise) {
  EXPECT_THROW(series({}), BrokenPromise);
  EXPECT_THROW(series({hour(1, 90, 10), hour(0, 90, 10)}), BrokenPromise);
  EXPECT_THROW(series({hour(1, 90, 10), hour(1, 90, 10)}), BrokenPromise);
}

}  // namespace
}  // namespace passage_brief
