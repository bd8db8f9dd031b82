#include "brief/forecast_between.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "facts/facts.h"
#include "given/open_water.h"
#include "given/units.h"

namespace passage_brief {
namespace {

using given::kTen;
using std::chrono::minutes;

/// 10 kn from the west, but another wind at 10:00; waves of 1 m then, else none.
Facts facts_with(double from_deg, std::optional<Speed> at_ten) {
  Facts facts = given::facts_over(given::empty_waterway(), metres(0));
  const WindSeries steady = given::steady_wind(270, knots(10));
  std::vector<WindHour> hours = steady.hours();
  for (WindHour& hour : hours) {
    if (hour.at != kTen) continue;
    hour.from = WindFrom{TrueBearing::from_degrees(from_deg)};
    hour.speed = at_ten;
    hour.wave = metres(1);
  }
  facts.winds = {WindSeries(steady.source(), steady.position(), hours)};
  return facts;
}

/// Half an hour each side the wind is 15 kn (half of the way from 10 to 20), at the hour 20.
TEST(ForecastBetween, APeakAtAnHour) {
  const auto stray = wind_stray(facts_with(270, knots(20)), kTen - minutes(30), kTen + minutes(30));
  ASSERT_TRUE(stray.has_value());
  EXPECT_NEAR(in_knots(stray->most), 5, 1e-6);
  EXPECT_NEAR(stray->share, 5.0 / 15, 1e-6);
  EXPECT_NEAR(stray->veers.in_degrees(), 0, 1e-6);
}

/// From the west to the north and back: half an hour each side 7.07 kn from the north-west.
TEST(ForecastBetween, AVeerAndBack) {
  const auto stray = wind_stray(facts_with(360, knots(10)), kTen - minutes(30), kTen + minutes(30));
  ASSERT_TRUE(stray.has_value());
  EXPECT_NEAR(in_knots(stray->most), 7.071, 1e-3);
  EXPECT_NEAR(stray->veers.in_degrees(), 45 + 45, 1e-6);
}

TEST(ForecastBetween, BetweenTheHoursItRunsEvenly) {
  const auto stray = wind_stray(facts_with(360, knots(30)), kTen + minutes(5), kTen + minutes(50));
  ASSERT_TRUE(stray.has_value());
  EXPECT_NEAR(in_knots(stray->most), 0, 1e-6);
}

TEST(ForecastBetween, AWindThatIsNotKnownForAWhile) {
  EXPECT_FALSE(wind_stray(facts_with(270, std::nullopt), kTen - minutes(70), kTen + minutes(70)));
}

TEST(ForecastBetween, WavesOfTheHoursThatCount) {
  const Facts facts = facts_with(270, knots(10));
  EXPECT_EQ(wave_range(facts, {kTen - minutes(20), kTen - minutes(10)}), metres(1));
  EXPECT_EQ(wave_range(facts, {kTen - minutes(150), kTen - minutes(100)}), metres(0));
}

/// Known at one hour and not at the next: between they are known for a while.
TEST(ForecastBetween, WavesThatAreNotKnownForAWhile) {
  Facts facts = facts_with(270, knots(10));
  const WindSeries& series = facts.winds.front();
  std::vector<WindHour> hours = series.hours();
  for (WindHour& hour : hours) {
    if (hour.at == kTen) hour.wave = std::nullopt;
  }
  facts.winds = {WindSeries(series.source(), series.position(), hours)};
  EXPECT_TRUE(std::isinf(in_metres(wave_range(facts, {kTen - minutes(20), kTen - minutes(10)}))));
  EXPECT_EQ(wave_range(facts, {kTen - minutes(150), kTen - minutes(100)}), metres(0));
}

}  // namespace
}  // namespace passage_brief
