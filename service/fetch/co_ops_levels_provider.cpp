#include "fetch/co_ops_levels_provider.h"

#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "facts/tide/series_curve.h"
#include "facts/tide/tide_station.h"
#include "fetch/asked.h"
#include "fetch/reply.h"
#include "reading/problem.h"
#include "units/height.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

using nlohmann::json;

/// Flags are "0,0,0,0": how many samples were outliers; then whether the level was flat, changed
/// too fast, was beyond its limits.
bool flagged(const std::string& flags) {
  const std::size_t after_count = flags.find(',');
  return after_count != std::string::npos && flags.find('1', after_count) != std::string::npos;
}

std::vector<ObservedLevel> levels_of(const json& list, double unit_m, Ledger& ledger) {
  std::vector<ObservedLevel> levels;
  std::optional<Instant> before;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const json* row = element(&list, i);
    const std::string place = fmt::format("/data/{}", i);
    const auto at = gmt_time_in(member(row, "t"));
    const auto level = number_in(member(row, "v"));
    if (!at) ledger.add(place + "/t", at.error());
    if (!level) ledger.add(place + "/v", level.error());
    if (!at || !level) continue;
    if (before && *at <= *before) ledger.add(place + "/t", "its time is not after the one before");
    before = *at;
    if (!*level || flagged(text_in(member(row, "f")))) continue;
    const double height_m = **level * unit_m;
    if (std::abs(height_m) > kMostHeight_m) {
      ledger.add(place + "/v", "no tide on Earth is as high or low as that");
    }
    levels.push_back({*at, TideHeight::above(metres(height_m))});
  }
  return levels;
}

Known<Position> position_of(const json* metadata) {
  const auto latitude_deg = number_in(member(metadata, "lat"));
  const auto longitude_deg = number_in(member(metadata, "lon"));
  if (latitude_deg && *latitude_deg && longitude_deg && *longitude_deg) {
    const auto latitude = Latitude::from_degrees(**latitude_deg);
    const auto longitude = Longitude::from_degrees(**longitude_deg);
    if (latitude && longitude) return Position{*latitude, *longitude};
  }
  return not_known("the reply gives no position of the station");
}

}  // namespace

std::string co_ops_levels_path(std::string_view station, std::string_view datum) {
  return fmt::format(
      "/api/prod/datagetter?product=water_level&station={}&datum={}&units=metric&"
      "time_zone=gmt&format=json&application=passage-brief&range=1",
      station, datum);
}

std::expected<ObservedLevels, Problems> co_ops_levels(std::string_view name, std::string_view text,
                                                      const Asked& asked) {
  const auto tree = reply_tree(name, text);
  if (!tree) return std::unexpected(tree.error());
  const json* list = member(tree->get(), "data");
  const json* metadata = member(tree->get(), "metadata");
  if (list == nullptr || !list->is_array() || list->empty()) {
    return refused(name, "/data", "holds no water levels");
  }
  const std::string id = text_in(member(metadata, "id"));
  if (!asked.station.empty() && id != asked.station) {
    return refused(name, "/metadata/id",
                   "is of station \"" + id.substr(0, 20) + "\"; " + asked.station + " was asked");
  }
  if (const std::string words = heights_not_told(asked); !words.empty()) {
    return refused(name, "", "the reply " + words);
  }
  Ledger ledger(name, "the reply");
  ObservedLevels observed{id, line_in(member(metadata, "name"), 80),
                          levels_of(*list, in_metres(*asked.height_unit), ledger)};
  if (observed.levels.empty()) ledger.add("/data", "holds no level that can be used");
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  return observed;
}

std::expected<TideStationFile, Problems> co_ops_levels_as_station(std::string_view name,
                                                                  std::string_view text,
                                                                  const Asked& asked) {
  // What is not told leaves the levels not known; they are looked through all the same.
  const std::string not_told = heights_not_told(asked);
  Asked whole = asked;
  whole.datum = asked.datum.value_or("");
  whole.height_unit = asked.height_unit.value_or(metres(1));
  whole.gmt = true;
  const auto observed = co_ops_levels(name, text, whole);
  if (!observed) return std::unexpected(observed.error());
  const auto tree = reply_tree(name, text);
  std::vector<SeriesRow> rows;
  for (const ObservedLevel& level : observed->levels) {
    rows.push_back({level.at, in_metres(level.height.above_datum())});
  }
  std::string called = asked.name.empty() ? observed->name : asked.name;
  if (called.empty()) called = observed->station;
  TideStationParts parts{
      .name = called,
      .position = position_of(member(tree->get(), "metadata")),
      .zone = asked.zone.value_or(Zone::utc()),
      .source = {.what = "tide at " + called,
                 .from = "NOAA CO-OPS observed levels of station " + observed->station,
                 .issued = std::nullopt},
      .uncertainty = not_known("observed levels come without an uncertainty"),
      .chart_datum = not_known("the reply " + not_told),
      .datums = {},
      .why_no_datum = "",
      .curve = not_known("the reply " + not_told)};
  if (not_told.empty()) {
    parts.source.issued = rows.back().at;
    parts.chart_datum = *asked.datum;
    parts.curve = TideCurve(SeriesCurve(rows, kHeightsRounding_m));
  }
  if (asked.height_uncertainty) parts.uncertainty = *asked.height_uncertainty;
  return TideStationFile{std::string(name), std::move(parts), std::nullopt, observed->station};
}

}  // namespace passage_brief
