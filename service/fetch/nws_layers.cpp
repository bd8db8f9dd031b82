#include "fetch/nws_layers.h"

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

#include "fetch/forecast_layers.h"
#include "fetch/reply.h"
#include "reading/problem.h"
#include "units/direction.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using nlohmann::json;

constexpr std::chrono::hours kLongestLayerPiece{24 * 30};
/// Cells are 2.5 km wide.
constexpr Length kFarthestCell = kilometres(5);

/// "P6DT4H30M": nothing where it is not like that.
std::optional<Interval> iso_duration(std::string_view text) {
  if (!text.starts_with('P')) return std::nullopt;
  Interval all{0};
  bool in_time = false;
  long count = -1;
  for (const char c : text.substr(1)) {
    if (c >= '0' && c <= '9') {
      count = std::max(count, 0L) * 10 + (c - '0');
      if (count > 100'000) return std::nullopt;
    } else if (c == 'T' && !in_time && count < 0) {
      in_time = true;
    } else if (count < 0) {
      return std::nullopt;
    } else {
      if (c == 'D' && !in_time) {
        all += std::chrono::hours(24 * count);
      } else if (c == 'H' && in_time) {
        all += std::chrono::hours(count);
      } else if (c == 'M' && in_time) {
        all += std::chrono::minutes(count);
      } else if (c == 'S' && in_time) {
        all += std::chrono::seconds(count);
      } else {
        return std::nullopt;
      }
      count = -1;
    }
  }
  if (count >= 0) return std::nullopt;
  return all;
}

/// SI of one unit; the vocabulary in front ("wmoUnit:", "unit:", "nwsUnit:") varies.
std::optional<double> wmo_unit_named(std::string_view uom) {
  static constexpr std::array<std::pair<std::string_view, double>, 9> kUnits{
      {{"km_h-1", kilometres_per_hour(1).si()},
       {"m_s-1", 1.0},
       {"kt", knots(1).si()},
       {"degree_(angle)", 1.0},
       {"m", 1.0},
       {"km", 1000.0},
       {"Pa", 1.0},
       {"hPa", 100.0},
       {"percent", 0.01}}};
  const std::string_view unit = uom.substr(uom.find(':') + 1);
  const auto found = std::ranges::find(kUnits, unit, [](const auto& row) { return row.first; });
  if (found == kUnits.end()) return std::nullopt;
  return found->second;
}

double chance_of(const std::string& coverage) {
  if (coverage == "slight_chance" || coverage == "isolated") return 0.24;
  if (coverage == "chance" || coverage == "scattered") return 0.54;
  if (coverage == "likely" || coverage == "numerous") return 0.74;
  return 1;
}

/// The greatest chance among the kinds of weather of one piece.
double thunder_among(const json& kinds) {
  double chance = 0;
  for (const json& kind : kinds) {
    if (text_in(member(&kind, "weather")) != "thunderstorms") continue;
    chance = std::max(chance, chance_of(text_in(member(&kind, "coverage"))));
  }
  return chance;
}

}  // namespace

std::expected<Span, std::string> valid_time(std::string_view text) {
  const auto slash = text.find('/');
  if (slash == std::string_view::npos) {
    return std::unexpected("is no time and duration like 2026-06-14T12:00:00+00:00/PT3H");
  }
  const auto begin = parse_instant(text.substr(0, slash));
  const auto length = iso_duration(text.substr(slash + 1));
  if (!begin) return std::unexpected(begin.error());
  if (!length || *length <= Interval(0) || *length > kLongestLayerPiece) {
    return std::unexpected(fmt::format("\"{}\" is no duration like PT3H or P6DT4H",
                                       text.substr(slash + 1).substr(0, 40)));
  }
  return Span{*begin, *begin + *length};
}

Layer nws_layer(const json& properties, const char* key, Ledger& ledger) {
  const json* layer = member(&properties, key);
  const json* values = member(layer, "values");
  const std::string place = std::string("/properties/") + key;
  if (values == nullptr || !values->is_array() || values->empty()) return {};
  const std::string uom = text_in(member(layer, "uom"));
  if (uom.empty()) return {};
  const auto unit = wmo_unit_named(uom);
  if (!unit) {
    ledger.add(place + "/uom", "the unit \"" + uom.substr(0, 40) + "\" is not known here");
    return {};
  }
  Layer pieces;
  for (std::size_t i = 0; i < values->size(); ++i) {
    const json* row = element(values, i);
    const auto when = valid_time(text_in(member(row, "validTime")));
    const auto value = number_in(member(row, "value"));
    const std::string at = fmt::format("{}/values/{}", place, i);
    if (!when) ledger.add(at + "/validTime", when.error());
    if (!value) ledger.add(at + "/value", value.error());
    if (!when || !value) continue;
    std::optional<double> si;
    if (*value) si = **value * *unit;
    pieces.push_back({when->begin, when->end, si});
  }
  return pieces;
}

Layer nws_thunder_in_words(const json& properties, Ledger& ledger) {
  Layer pieces;
  const json* values = member(member(&properties, "weather"), "values");
  if (values == nullptr || !values->is_array()) return pieces;
  for (std::size_t i = 0; i < values->size(); ++i) {
    const json* row = element(values, i);
    const json* kinds = member(row, "value");
    const auto when = valid_time(text_in(member(row, "validTime")));
    if (!when) ledger.add(fmt::format("/properties/weather/values/{}", i), when.error());
    if (!when || kinds == nullptr || !kinds->is_array()) continue;
    pieces.push_back({when->begin, when->end, thunder_among(*kinds)});
  }
  return pieces;
}

std::optional<Position> middle_of(const json* geometry) {
  const json* ring = element(member(geometry, "coordinates"), 0);
  if (text_in(member(geometry, "type")) != "Polygon" || ring == nullptr) return std::nullopt;
  double latitude_deg = 0;
  double turn_deg = 0;  // east of the first corner, so that a cell may lie across 180 degrees
  double first_deg = 0;
  std::size_t corners = 0;
  for (std::size_t i = 0; i + 1 < ring->size(); ++i) {  // the last corner is the first again
    const auto east = number_in(element(element(ring, i), 0));
    const auto north = number_in(element(element(ring, i), 1));
    if (!east || !*east || !north || !*north) return std::nullopt;
    if (i == 0) first_deg = **east;
    turn_deg += folded_180(**east - first_deg);
    latitude_deg += **north;
    ++corners;
  }
  if (corners < 3) return std::nullopt;
  const auto count = static_cast<double>(corners);
  const auto latitude = Latitude::from_degrees(latitude_deg / count);
  const auto longitude = Longitude::from_degrees(folded_180(first_deg + turn_deg / count));
  if (!latitude || !longitude) return std::nullopt;
  return Position{*latitude, *longitude};
}

void check_cell(const std::optional<Position>& cell, const std::optional<Position>& asked,
                Ledger& ledger) {
  if (!asked) return;
  if (!cell) {
    ledger.add("/geometry", "does not say where the cell lies");
  } else if (const Length off = geodesic_distance(*cell, *asked); off > kFarthestCell) {
    ledger.add("/geometry", fmt::format("is a cell {:.0f} nm from the place that was asked for",
                                        in_nautical_miles(off)));
  }
}

}  // namespace passage_brief
