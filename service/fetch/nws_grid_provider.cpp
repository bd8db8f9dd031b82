#include "fetch/nws_grid_provider.h"

#include <fmt/format.h>

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
#include "units/position.h"

namespace passage_brief {
namespace {

using nlohmann::json;

}  // namespace

std::expected<WindSeries, Problems> nws_grid(std::string_view name, std::string_view text,
                                             const Asked& asked) {
  const auto tree = reply_tree(name, text);
  if (!tree) return std::unexpected(tree.error());
  const json* properties = member(tree->get(), "properties");
  if (member(properties, "windSpeed") == nullptr) {
    return refused(name, "/properties", "holds no layer of wind speed; give the raw grid");
  }
  Ledger ledger(name, "the reply");
  const auto issued = instant_in(member(properties, "updateTime"));
  if (!issued) ledger.add("/properties/updateTime", issued.error());
  const std::optional<Position> cell = middle_of(member(tree->get(), "geometry"));
  check_cell(cell, asked.place, ledger);
  ForecastLayers layers{.from_deg = nws_layer(*properties, "windDirection", ledger),
                        .speed_m_s = nws_layer(*properties, "windSpeed", ledger),
                        .gust_m_s = nws_layer(*properties, "windGust", ledger),
                        .pressure_pa = nws_layer(*properties, "pressure", ledger),
                        .visibility_m = nws_layer(*properties, "visibility", ledger),
                        .wave_m = nws_layer(*properties, "waveHeight", ledger),
                        .thunder = nws_layer(*properties, "probabilityOfThunder", ledger)};
  if (layers.thunder.empty()) layers.thunder = nws_thunder_in_words(*properties, ledger);
  if (layers.speed_m_s.empty()) {
    ledger.add("/properties/windSpeed", "holds no wind speed with a unit");
  }
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  Source source{"wind forecast",
                fmt::format("US National Weather Service, grid {} {},{}",
                            line_in(member(properties, "gridId"), 20),
                            line_in(member(properties, "gridX"), 20),
                            line_in(member(properties, "gridY"), 20)),
                *issued};
  auto series = wind_series_of(std::move(source), cell, std::move(layers), ledger);
  if (!ledger.clean() || !series) return std::unexpected(ledger.problems());
  return *std::move(series);
}

}  // namespace passage_brief
