#include "fetch/nws_points_provider.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "fetch/reply.h"
#include "reading/problem.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using nlohmann::json;

constexpr Length kFarthestFromAsked = kilometres(1);
constexpr double kMostCells = 2000;

std::optional<int> cell_number(const json* value) {
  const auto number = number_in(value);
  if (!number || !*number || **number < 0 || **number > kMostCells) return std::nullopt;
  if (std::floor(**number) != **number) return std::nullopt;
  return static_cast<int>(**number);
}

bool is_office(const std::string& text) {
  return text.size() == 3 &&
         std::ranges::all_of(text, [](char c) { return (c >= 'A' && c <= 'Z'); });
}

/// Degrees with at most four decimals and no zeros behind: more are redirected or refused.
std::string four_decimals(double deg) {
  std::string text = fmt::format("{:.4f}", deg);
  while (text.ends_with('0')) text.pop_back();
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

}  // namespace

std::string nws_points_path(Position place) {
  return fmt::format("/points/{},{}", four_decimals(place.latitude.in_degrees()),
                     four_decimals(place.longitude.in_degrees()));
}

std::expected<NwsPoint, Problems> nws_point(std::string_view name, std::string_view text,
                                            Position place) {
  const auto tree = reply_tree(name, text);
  if (!tree) return std::unexpected(tree.error());
  const json* geometry = member(tree->get(), "geometry");
  const auto east = number_in(element(member(geometry, "coordinates"), 0));
  const auto north = number_in(element(member(geometry, "coordinates"), 1));
  if (!east || !*east || !north || !*north) {
    return refused(name, "/geometry", "does not say which place it is for");
  }
  const auto latitude = Latitude::from_degrees(**north);
  const auto longitude = Longitude::from_degrees(**east);
  if (!latitude || !longitude ||
      geodesic_distance({*latitude, *longitude}, place) > kFarthestFromAsked) {
    return refused(name, "/geometry", "is for another place than the one asked for");
  }
  const json* properties = member(tree->get(), "properties");
  const std::string office = text_in(member(properties, "gridId"));
  const auto x = cell_number(member(properties, "gridX"));
  const auto y = cell_number(member(properties, "gridY"));
  if (!is_office(office) || !x || !y) {
    return refused(name, "/properties", "names no grid cell: the place may be outside the grid");
  }
  return NwsPoint{office, *x, *y};
}

std::string nws_grid_path(const NwsPoint& point) {
  return fmt::format("/gridpoints/{}/{},{}", point.office, point.x, point.y);
}

std::string nws_hourly_path(const NwsPoint& point) {
  return nws_grid_path(point) + "/forecast/hourly";
}

}  // namespace passage_brief
