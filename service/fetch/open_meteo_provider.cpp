#include "fetch/open_meteo_provider.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstddef>
#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "facts/source.h"
#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "fetch/forecast_layers.h"
#include "fetch/reply.h"
#include "reading/problem.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using nlohmann::json;

constexpr Length kFarthestGridPoint = nautical_miles(20);
/// Each value stands for the hour that begins with its time.
constexpr std::chrono::hours kValueStandsFor{1};

std::optional<double> unit_named(std::string_view unit) {
  static constexpr std::array<std::pair<std::string_view, double>, 9> kUnits{
      {{"km/h", kilometres_per_hour(1).si()},
       {"m/s", 1.0},
       {"mp/h", miles_per_hour(1).si()},
       {"kn", knots(1).si()},
       {"\xC2\xB0", 1.0},  // degree sign
       {"hPa", 100.0},
       {"m", 1.0},
       {"ft", kMetresInFoot},
       {"wmo code", 1.0}}};
  const auto found = std::ranges::find(kUnits, unit, [](const auto& row) { return row.first; });
  if (found == kUnits.end()) return std::nullopt;
  return found->second;
}

std::vector<Instant> times_of(const json* hourly, Ledger& ledger) {
  std::vector<Instant> times;
  const json* list = member(hourly, "time");
  for (std::size_t i = 0; element(list, i) != nullptr; ++i) {
    const auto at = gmt_time_in(element(list, i));
    const std::string place = fmt::format("/hourly/time/{}", i);
    if (!at) {
      ledger.add(place, at.error());
    } else if (!times.empty() && *at < times.back() + kValueStandsFor) {
      ledger.add(place, "is not an hour or more after the time before");
    } else {
      times.push_back(*at);
    }
  }
  return times;
}

Layer layer_of(const json& tree, const char* key, const std::vector<Instant>& times,
               Ledger& ledger) {
  const json* list = member(member(&tree, "hourly"), key);
  const std::string place = std::string("/hourly/") + key;
  if (list == nullptr || list->is_null()) return {};
  const std::string uom = text_in(member(member(&tree, "hourly_units"), key));
  const auto unit = unit_named(uom);
  if (!unit) {
    ledger.add("/hourly_units/" + std::string(key),
               "the unit \"" + uom.substr(0, 40) + "\" is not known here");
    return {};
  }
  if (!list->is_array() || list->size() != times.size()) {
    ledger.add(place, "does not hold a value for each time");
    return {};
  }
  Layer layer;
  for (std::size_t i = 0; i < times.size(); ++i) {
    const auto value = number_in(element(list, i));
    if (!value) ledger.add(fmt::format("{}/{}", place, i), value.error());
    std::optional<double> si;
    if (value && *value) si = **value * *unit;
    layer.push_back({times[i], times[i] + kValueStandsFor, si});
  }
  return layer;
}

Layer thunder_of(Layer codes) {
  for (LayerPiece& piece : codes) {
    if (piece.value) piece.value = *piece.value >= 95 && *piece.value <= 99 ? 1 : 0;
  }
  return codes;
}

/// Where the cell lies; refuses a reply for another place.
std::optional<Position> cell_of(const json& tree, const Asked& asked, Ledger& ledger) {
  const auto north = number_in(member(&tree, "latitude"));
  const auto east = number_in(member(&tree, "longitude"));
  if (!north || !*north || !east || !*east) {
    ledger.add("/latitude", "does not say where the cell lies");
    return std::nullopt;
  }
  const auto latitude = Latitude::from_degrees(**north);
  const auto longitude = Longitude::from_degrees(**east);
  if (!latitude || !longitude) {
    ledger.add("/latitude", "is no place on Earth");
    return std::nullopt;
  }
  const Position cell{*latitude, *longitude};
  if (asked.place && geodesic_distance(cell, *asked.place) > kFarthestGridPoint) {
    ledger.add("/latitude", "is a cell far from the place that was asked for");
  }
  return cell;
}

std::string path(const char* which, Position place, const char* figures) {
  return fmt::format(
      "/v1/{}?latitude={:.4f}&longitude={:.4f}&hourly={}&wind_speed_unit=kn&"
      "timezone=GMT&forecast_days=7",
      which, place.latitude.in_degrees(), place.longitude.in_degrees(), figures);
}

}  // namespace

std::string open_meteo_forecast_path(Position place) {
  return path("forecast", place,
              "wind_speed_10m,wind_direction_10m,wind_gusts_10m,pressure_msl,visibility,"
              "weather_code");
}

std::string open_meteo_marine_path(Position place) { return path("marine", place, "wave_height"); }

std::expected<WindSeries, Problems> open_meteo(std::string_view name, std::string_view text,
                                               const Asked& asked) {
  const auto tree = reply_tree(name, text);
  if (!tree) return std::unexpected(tree.error());
  Ledger ledger(name, "the reply");
  const auto offset = number_in(member(tree->get(), "utc_offset_seconds"));
  if (!offset || !*offset || **offset != 0) {
    ledger.add("/utc_offset_seconds", "the times are not in GMT; ask for timezone=GMT");
  }
  const std::optional<Position> cell = cell_of(**tree, asked, ledger);
  const std::vector<Instant> times = times_of(member(tree->get(), "hourly"), ledger);
  if (times.empty()) ledger.add("/hourly/time", "holds no hours");
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  ForecastLayers layers{.from_deg = layer_of(**tree, "wind_direction_10m", times, ledger),
                        .speed_m_s = layer_of(**tree, "wind_speed_10m", times, ledger),
                        .gust_m_s = layer_of(**tree, "wind_gusts_10m", times, ledger),
                        .pressure_pa = layer_of(**tree, "pressure_msl", times, ledger),
                        .visibility_m = layer_of(**tree, "visibility", times, ledger),
                        .wave_m = layer_of(**tree, "wave_height", times, ledger),
                        .thunder = thunder_of(layer_of(**tree, "weather_code", times, ledger))};
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  auto series = wind_series_of(Source{"wind forecast", "Open-Meteo (CC BY 4.0)", std::nullopt,
                                      "the reply does not say when its model ran"},
                               cell, std::move(layers), ledger);
  if (!ledger.clean() || !series) return std::unexpected(ledger.problems());
  return *std::move(series);
}

WindSeries with_waves(const WindSeries& winds, const WindSeries& marine) {
  std::vector<WindHour> hours = winds.hours();
  for (WindHour& hour : hours) {
    const auto same = std::ranges::find(marine.hours(), hour.at, &WindHour::at);
    hour.wave = same == marine.hours().end() ? std::nullopt : same->wave;
  }
  return WindSeries(winds.source(), winds.position(), std::move(hours));
}

}  // namespace passage_brief
