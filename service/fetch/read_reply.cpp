#include "fetch/read_reply.h"

#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "facts/tide/current_station.h"
#include "facts/tide/read_tide_station.h"
#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "fetch/co_ops_currents_provider.h"
#include "fetch/co_ops_levels_provider.h"
#include "fetch/co_ops_predictions_provider.h"
#include "fetch/co_ops_station_provider.h"
#include "fetch/grib2_provider.h"
#include "fetch/nws_grid_provider.h"
#include "fetch/nws_hourly_provider.h"
#include "fetch/open_meteo_provider.h"
#include "fetch/reply.h"
#include "reading/json_text.h"
#include "reading/problem.h"

namespace passage_brief {
namespace {

using nlohmann::json;

std::optional<ReplyShape> shape_of(const json& tree) {
  const auto has = [&](const char* key) { return member(&tree, key) != nullptr; };
  if (has("kind")) return std::nullopt;
  if (has("predictions")) return ReplyShape::co_ops_predictions;
  if (has("current_predictions")) return ReplyShape::co_ops_currents;
  if (has("metadata") && has("data")) return ReplyShape::co_ops_levels;
  if (has("stations")) return ReplyShape::co_ops_station;
  if (has("hourly")) return ReplyShape::open_meteo;
  const json* properties = member(&tree, "properties");
  if (member(properties, "periods") != nullptr) return ReplyShape::nws_hourly;
  if (member(properties, "forecastGridData") != nullptr) return ReplyShape::nws_points;
  if (member(properties, "windSpeed") != nullptr || member(properties, "gridX") != nullptr) {
    return ReplyShape::nws_grid;
  }
  if (text_in(member(&tree, "type")) == "FeatureCollection" && has("features") && has("@context")) {
    return ReplyShape::nws_alerts;
  }
  if (has("error") || has("errorMsg") || (has("status") && has("detail"))) {
    return ReplyShape::error;
  }
  return std::nullopt;
}

std::unexpected<Problems> not_of_use(std::string_view name, ReplyShape shape,
                                     std::string_view bytes, std::string_view expected) {
  if (shape == ReplyShape::error) {
    if (const auto tree = reply_tree(name, bytes); !tree) return std::unexpected(tree.error());
  }
  return refused(name, "",
                 "holds " + std::string(in_words(shape)) + "; expected " + std::string(expected));
}

}  // namespace

std::string_view in_words(ReplyShape shape) {
  switch (shape) {
    case ReplyShape::co_ops_predictions:
      return "NOAA CO-OPS tide predictions";
    case ReplyShape::co_ops_levels:
      return "NOAA CO-OPS observed levels";
    case ReplyShape::co_ops_currents:
      return "NOAA CO-OPS predictions of currents";
    case ReplyShape::co_ops_station:
      return "NOAA CO-OPS station metadata";
    case ReplyShape::nws_grid:
      return "a US National Weather Service grid";
    case ReplyShape::nws_hourly:
      return "a US National Weather Service hourly forecast";
    case ReplyShape::nws_points:
      return "a US National Weather Service answer about a place";
    case ReplyShape::nws_alerts:
      return "US National Weather Service alerts";
    case ReplyShape::open_meteo:
      return "an Open-Meteo forecast";
    case ReplyShape::grib2:
      return "a GRIB forecast";
    case ReplyShape::error:
      return "an error message of a service";
  }
  return {};
}

std::optional<ReplyShape> shape_of_reply(std::string_view bytes) {
  if (is_grib(bytes)) return ReplyShape::grib2;
  const auto tree = parse_json("", bytes);
  if (!tree) return std::nullopt;
  return shape_of(**tree);
}

std::expected<TideStationFile, Problems> read_tide_reply(std::string_view name,
                                                         std::string_view bytes,
                                                         const Asked& asked) {
  const ReplyShape shape = shape_of_reply(bytes).value_or(ReplyShape::error);
  if (shape == ReplyShape::co_ops_predictions) return co_ops_predictions(name, bytes, asked);
  if (shape == ReplyShape::co_ops_levels) return co_ops_levels_as_station(name, bytes, asked);
  if (shape == ReplyShape::co_ops_station) return co_ops_station(name, bytes, asked);
  return not_of_use(name, shape, bytes, "tide predictions or station metadata");
}

std::expected<CurrentStation, Problems> read_current_reply(std::string_view name,
                                                           std::string_view bytes,
                                                           const Asked& asked) {
  const ReplyShape shape = shape_of_reply(bytes).value_or(ReplyShape::error);
  if (shape == ReplyShape::co_ops_currents) return co_ops_currents(name, bytes, asked);
  return not_of_use(name, shape, bytes, "predictions of currents");
}

std::expected<WindSeries, Problems> read_wind_reply(std::string_view name, std::string_view bytes,
                                                    const Asked& asked) {
  const ReplyShape shape = shape_of_reply(bytes).value_or(ReplyShape::error);
  if (shape == ReplyShape::nws_grid) return nws_grid(name, bytes, asked);
  if (shape == ReplyShape::nws_hourly) return nws_hourly(name, bytes, asked);
  if (shape == ReplyShape::open_meteo) return open_meteo(name, bytes, asked);
  if (shape == ReplyShape::grib2) return grib2_winds(name, bytes, asked);
  return not_of_use(name, shape, bytes, "a wind forecast");
}

}  // namespace passage_brief
