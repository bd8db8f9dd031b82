#include "fetch/forecast_layers.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "facts/source.h"
#include "facts/weather/read_wind_forecast.h"
#include "facts/weather/wind_series.h"
#include "reading/problem.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// What a forecast may say, as in wind forecast files (read_wind_forecast.cpp).
struct SayableRange {
  double least;
  double most;
};
constexpr SayableRange kDirection{0, 360};
constexpr SayableRange kSpeed{0, knots(200).si()};
constexpr SayableRange kGust{0, knots(250).si()};
constexpr SayableRange kPressure{85'000, 110'000};
constexpr SayableRange kVisibility{0, nautical_miles(100).si()};
constexpr SayableRange kWave{0, 30};
constexpr SayableRange kThunder{0, 1};
constexpr std::chrono::minutes kRounding{1};

void check_layer(Layer& layer, const char* what, SayableRange range, Ledger& ledger) {
  for (std::size_t i = 0; i < layer.size(); ++i) {
    LayerPiece& piece = layer[i];
    if (i > 0 && piece.begin > layer[i - 1].end - kRounding) {
      piece.begin = std::max(piece.begin, layer[i - 1].end);
    }
    const std::string at = to_rfc3339(piece.begin);
    if (piece.begin >= piece.end) ledger.add(what, "holds for no time from " + at);
    if (i > 0 && piece.begin < layer[i - 1].end) {
      ledger.add(what, fmt::format("the value of {} stands out of order or overlaps another", at));
    }
    if (piece.value && !(*piece.value >= range.least && *piece.value <= range.most)) {
      ledger.add(what, fmt::format("the value of {} cannot be right: {}", at, *piece.value));
    }
  }
}

std::optional<double> value_at(const Layer& layer, Instant at) {
  const auto after = std::ranges::upper_bound(layer, at, {}, &LayerPiece::begin);
  if (after == layer.begin() || at >= (after - 1)->end) return std::nullopt;
  return (after - 1)->value;
}

std::set<Instant> times_of(const std::vector<const Layer*>& layers) {
  std::set<Instant> times;
  for (const Layer* layer : layers) {
    for (const LayerPiece& piece : *layer) {
      for (Instant at = piece.begin; at < piece.end; at += std::chrono::hours(1)) {
        times.insert(at);
        if (times.size() > kMostForecastHours) return times;
      }
    }
  }
  return times;
}

bool all_zero(const Layer& layer) {
  return std::ranges::all_of(layer,
                             [](const LayerPiece& piece) { return piece.value.value_or(0) == 0; });
}

WindHour hour_at(const ForecastLayers& layers, Instant at) {
  const auto from_deg = value_at(layers.from_deg, at);
  const auto speed = value_at(layers.speed_m_s, at);
  const auto gust = value_at(layers.gust_m_s, at);
  const auto pressure = value_at(layers.pressure_pa, at);
  const auto visibility = value_at(layers.visibility_m, at);
  const auto wave = value_at(layers.wave_m, at);
  WindHour hour{.at = at,
                .from = std::nullopt,
                .speed = std::nullopt,
                .gust = std::nullopt,
                .pressure = std::nullopt,
                .visibility = std::nullopt,
                .wave = std::nullopt,
                .thunder = value_at(layers.thunder, at)};
  if (from_deg) hour.from = WindFrom{TrueBearing::from_degrees(*from_deg)};
  if (speed) hour.speed = metres_per_second(*speed);
  if (gust) hour.gust = metres_per_second(std::max(*gust, speed.value_or(0)));
  if (pressure) hour.pressure = Pressure::from_si(*pressure);
  if (visibility) hour.visibility = metres(*visibility);
  if (wave) hour.wave = metres(*wave);
  return hour;
}

}  // namespace

std::optional<WindSeries> wind_series_of(Source source, std::optional<Position> position,
                                         ForecastLayers layers, Ledger& ledger) {
  check_layer(layers.from_deg, "wind direction", kDirection, ledger);
  check_layer(layers.speed_m_s, "wind speed", kSpeed, ledger);
  check_layer(layers.gust_m_s, "gust", kGust, ledger);
  check_layer(layers.pressure_pa, "pressure", kPressure, ledger);
  check_layer(layers.visibility_m, "visibility", kVisibility, ledger);
  check_layer(layers.wave_m, "wave height", kWave, ledger);
  check_layer(layers.thunder, "chance of thunder", kThunder, ledger);
  if (all_zero(layers.wave_m)) layers.wave_m.clear();
  const auto times = times_of({&layers.from_deg, &layers.speed_m_s, &layers.gust_m_s,
                               &layers.visibility_m, &layers.wave_m, &layers.thunder});
  if (times.empty()) ledger.add("", "holds no wind at all");
  if (times.size() > kMostForecastHours) ledger.add("", "holds more hours than a forecast has");
  if (!ledger.clean()) return std::nullopt;
  std::vector<WindHour> hours;
  for (const Instant at : times) hours.push_back(hour_at(layers, at));
  return WindSeries(std::move(source), position, std::move(hours));
}

}  // namespace passage_brief
