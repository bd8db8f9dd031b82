#include "fetch/compare_forecasts.h"

#include <gtest/gtest.h>

#include <chrono>
#include <optional>
#include <vector>

#include "facts/source.h"
#include "facts/weather/wind_series.h"
#include "given/units.h"
#include "units/direction.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::kTen;

/// Two hours of the same weather.
WindSeries of(double kn, std::optional<Length> wave) {
  const auto hour = [&](int at) {
    return WindHour{kTen + std::chrono::hours(at),
                    WindFrom{TrueBearing::from_degrees(200)},
                    knots(kn),
                    knots(kn + 4),
                    std::nullopt,
                    std::nullopt,
                    wave,
                    std::nullopt};
  };
  return WindSeries(Source{"forecast", "invented", std::nullopt}, std::nullopt, {hour(0), hour(1)});
}

const Span kBothHours{kTen, kTen + std::chrono::hours(1)};

TEST(CompareForecasts, SeasDifferThoughWindsDoNot) {
  const WindSeries calm = of(10, metres(0.2));
  const WindSeries rough = of(10, metres(4));
  EXPECT_NEAR(in_knots(*greatest_difference(calm, rough, kBothHours)), 0, 1e-9);
  EXPECT_NEAR(in_metres(*greatest_wave_difference(calm, rough, kBothHours)), 3.8, 1e-9);
  EXPECT_NEAR(in_metres(*greatest_wave_difference(rough, calm, kBothHours)), 3.8, 1e-9);
  EXPECT_NEAR(in_metres(*worse_of(calm, rough).wave(kTen)), 4, 1e-9);
  EXPECT_FALSE(greatest_wave_difference(calm, of(10, std::nullopt), kBothHours).has_value());
}

TEST(CompareForecasts, WindsDifferByTheirGreatestHour) {
  EXPECT_NEAR(in_knots(*greatest_difference(of(10, metres(1)), of(28, metres(1)), kBothHours)), 18,
              1e-9);
}

}  // namespace
}  // namespace passage_brief
