// Several forecasts: of one place the worse counts (our rule; that no figure may come out better
// than the worse of two forecasts is common practice, no source).
#include "passage/weather_here.h"

#include <gtest/gtest.h>

#include <optional>
#include <vector>

#include "facts/facts.h"
#include "facts/weather/wind_series.h"
#include "given/open_water.h"
#include "given/units.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::kTen;

const Position kHere = position_at(40, -40);

WindHour hour(int at, double from_deg, double kn, std::optional<Length> wave) {
  return {kTen + std::chrono::hours(at),
          WindFrom{TrueBearing::from_degrees(from_deg)},
          knots(kn),
          knots(kn + 5),
          std::nullopt,
          std::nullopt,
          wave,
          std::nullopt};
}

WindSeries forecast_here(std::vector<WindHour> hours) {
  return WindSeries(Source{"forecast", "invented", std::nullopt, ""}, kHere, std::move(hours));
}

Facts with(std::vector<WindSeries> winds) {
  Facts facts = given::facts_over(given::empty_waterway(), metres(1));
  facts.winds = std::move(winds);
  return facts;
}

TEST(WeatherHere, OfTwoForecastsForOnePlaceTheStrongerWindCounts) {
  const Facts facts =
      with({forecast_here({hour(0, 180, 10, metres(0.2)), hour(1, 180, 10, metres(0.2))}),
            forecast_here({hour(0, 0, 28, metres(2)), hour(1, 0, 28, metres(2))})});
  const Known<Wind> wind = wind_here(facts, kHere, kTen);
  EXPECT_NEAR(in_knots(wind->speed), 28, 1e-6);
  EXPECT_NEAR(wind->from.bearing.in_degrees(), 0, 1e-6);
  const Span span{kTen, kTen + std::chrono::minutes(30)};
  EXPECT_NEAR(in_knots(*gust_here(facts, kHere, span)), 33, 1e-6);
  EXPECT_NEAR(in_metres(*wave_here(facts, kHere, span)), 2, 1e-9);
  EXPECT_TRUE(share_a_place(facts));
}

TEST(WeatherHere, AForecastThatNeverGivesWavesLeavesThemToTheOther) {
  const WindSeries of_wind =
      forecast_here({hour(0, 180, 10, std::nullopt), hour(1, 180, 10, std::nullopt)});
  const WindSeries of_sea =
      forecast_here({hour(0, 180, 10, metres(2)), hour(1, 180, 10, metres(2))});
  const WindSeries with_hole =
      forecast_here({hour(0, 180, 10, metres(0.1)), hour(1, 180, 10, std::nullopt)});
  const Span span{kTen, kTen + std::chrono::minutes(30)};
  EXPECT_NEAR(in_metres(*wave_here(with({of_wind, of_sea}), kHere, span)), 2, 1e-9);
  // One that gives them in some hour must give them here: what it lacks could be the worse.
  EXPECT_FALSE(wave_here(with({with_hole, of_sea}), kHere, span).has_value());
}

TEST(WeatherHere, TheWorstOfAWhileCountsTheHourThatBeginsInIt) {
  const Facts facts =
      with({forecast_here({hour(0, 180, 10, metres(0.2)), hour(1, 180, 10, metres(0.2)),
                           hour(2, 180, 30, metres(1.5))})});
  const Instant before = kTen + std::chrono::minutes(59);
  const Instant after = kTen + std::chrono::minutes(61);
  EXPECT_NEAR(in_metres(*wave_here(facts, kHere, {before, before})), 0.2, 1e-9);
  EXPECT_NEAR(in_metres(*wave_here(facts, kHere, {before, after})), 1.5, 1e-9);
}

}  // namespace
}  // namespace passage_brief
