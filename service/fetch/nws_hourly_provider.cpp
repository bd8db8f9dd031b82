#include "fetch/nws_hourly_provider.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "facts/source.h"
#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "fetch/forecast_layers.h"
#include "fetch/nws_layers.h"
#include "fetch/reply.h"
#include "reading/problem.h"
#include "reading/quantity_text.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using nlohmann::json;

constexpr std::array<std::string_view, 16> kCompass{"N",  "NNE", "NE", "ENE", "E",  "ESE",
                                                    "SE", "SSE", "S",  "SSW", "SW", "WSW",
                                                    "W",  "WNW", "NW", "NNW"};

std::optional<double> direction_deg(const std::string& word) {
  const auto found = std::ranges::find(kCompass, word);
  if (found == kCompass.end()) return std::nullopt;
  return 22.5 * static_cast<double>(found - kCompass.begin());
}

/// "5 to 10 mph" -> 10 mph.
std::expected<Speed, std::string> greater_speed(const std::string& words) {
  const auto to = words.rfind(" to ");
  return parse_speed(to == std::string::npos ? words : words.substr(to + 4));
}

void put_period(const json* period, const std::string& place, ForecastLayers& layers,
                Ledger& ledger) {
  const auto begin = instant_in(member(period, "startTime"));
  const auto end = instant_in(member(period, "endTime"));
  if (!begin) ledger.add(place + "/startTime", begin.error());
  if (!end) ledger.add(place + "/endTime", end.error());
  if (!begin || !end) return;
  const std::string words = text_in(member(period, "windSpeed"));
  if (words.empty()) return;
  const auto speed = greater_speed(words);
  if (!speed) {
    ledger.add(place + "/windSpeed", speed.error());
    return;
  }
  layers.speed_m_s.push_back({*begin, *end, speed->si()});
  const std::string compass = text_in(member(period, "windDirection"));
  const auto from_deg = direction_deg(compass);
  if (!from_deg && !compass.empty()) {
    ledger.add(place + "/windDirection",
               "\"" + compass.substr(0, 20) + "\" is none of the 16 compass words");
  }
  layers.from_deg.push_back({*begin, *end, from_deg});
}

}  // namespace

std::expected<WindSeries, Problems> nws_hourly(std::string_view name, std::string_view text,
                                               const Asked& asked) {
  const auto tree = reply_tree(name, text);
  if (!tree) return std::unexpected(tree.error());
  const json* properties = member(tree->get(), "properties");
  const json* periods = member(properties, "periods");
  if (periods == nullptr || !periods->is_array() || periods->empty()) {
    return refused(name, "/properties/periods", "holds no hours");
  }
  Ledger ledger(name, "the reply");
  const auto issued = instant_in(member(properties, "updateTime"));
  if (!issued) ledger.add("/properties/updateTime", issued.error());
  const std::optional<Position> cell = middle_of(member(tree->get(), "geometry"));
  check_cell(cell, asked.place, ledger);
  ForecastLayers layers;
  for (std::size_t i = 0; i < periods->size(); ++i) {
    put_period(element(periods, i), fmt::format("/properties/periods/{}", i), layers, ledger);
  }
  if (layers.speed_m_s.empty()) ledger.add("/properties/periods", "holds no wind speed");
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  auto series = wind_series_of(
      Source{"wind forecast", "US National Weather Service, hourly forecast in words", *issued},
      cell, std::move(layers), ledger);
  if (!ledger.clean() || !series) return std::unexpected(ledger.problems());
  return *std::move(series);
}

}  // namespace passage_brief
