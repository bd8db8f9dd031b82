#include "reading/geojson.h"

#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "reading/form.h"
#include "reading/json_text.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "units/geodesy.h"
#include "units/position.h"

namespace passage_brief {
namespace {

using nlohmann::json;
using Line = std::vector<Position>;

constexpr const char* kPositionWords =
    "[longitude, latitude] in degrees, for example [-76.4, 38.5]";

std::optional<Position> read_position(const json& value, const Place& place) {
  const bool numbers = value.is_array() && (value.size() == 2 || value.size() == 3) &&
                       value[0].is_number() && value[1].is_number() && value.back().is_number();
  if (!numbers) {
    refuse_value(value, place, kPositionWords);
    return std::nullopt;
  }
  const auto longitude = Longitude::from_degrees(value[0].get<double>());
  const auto latitude = Latitude::from_degrees(value[1].get<double>());
  if (longitude && latitude) {
    if (std::abs(latitude->in_degrees()) <= kMostLatitude_deg) {
      return Position{*latitude, *longitude};
    }
    place.refuse(fmt::format("found the latitude {}; nothing is worked out beyond {} degrees",
                             value[1].dump(), kMostLatitude_deg));
    return std::nullopt;
  }
  place.refuse(fmt::format("found [{}, {}]; expected {}: the longitude comes first",
                           value[0].dump(), value[1].dump(), kPositionWords));
  return std::nullopt;
}

/// Written 180 or -180, it is the same meridian: an edge that ends there lies on the side of its
/// other end and does not cross (RFC 7946, 3.1.9).
bool on_180th(const Position& position) { return position.longitude.in_degrees() == -180; }

std::optional<Line> read_line(const json& value, const Place& place, std::size_t least) {
  const auto size = form_detail::list_size(
      value, place, fmt::format("a list of {} to {} places", least, kMostVertices), least,
      kMostVertices);
  if (!size) return std::nullopt;
  Line line;
  for (std::size_t i = 0; i < *size; ++i) {
    const std::optional<Position> position = read_position(value[i], place.inside(i));
    if (position) line.push_back(*position);
  }
  if (line.size() != *size) return std::nullopt;
  for (std::size_t i = 1; i < line.size(); ++i) {
    if (on_180th(line[i]) || on_180th(line[i - 1])) continue;
    const double east = line[i].longitude.in_degrees() - line[i - 1].longitude.in_degrees();
    if (std::abs(east) <= 180) continue;
    place.inside(i).refuse(
        "the edge to here crosses the 180th meridian; end it there, at 180 or -180");
    return std::nullopt;
  }
  return line;
}

bool all_one_place(const Line& line) {
  for (const Position& position : line) {
    if (position != line.front()) return false;
  }
  return true;
}

/// Corners that differ from the one before.
std::size_t corners(const Line& ring) {
  std::size_t count = 0;
  for (std::size_t i = 1; i < ring.size(); ++i) count += ring[i] == ring[i - 1] ? 0 : 1;
  return count;
}

std::optional<Line> read_ring(const json& value, const Place& place) {
  std::optional<Line> ring = read_line(value, place, 4);
  if (!ring) return std::nullopt;
  if (ring->front() != ring->back()) {
    place.refuse("the ring is not closed; its last place must be its first again");
    return std::nullopt;
  }
  if (corners(*ring) < 3) {
    place.refuse("the ring has fewer than 3 corners");
    return std::nullopt;
  }
  return ring;
}

std::optional<Geometry> read_coordinates(GeometryType type, const json& value, const Place& place) {
  switch (type) {
    case GeometryType::point: {
      const std::optional<Position> position = read_position(value, place);
      if (!position) return std::nullopt;
      return Geometry{type, {{*position}}};
    }
    case GeometryType::line_string: {
      std::optional<Line> line = read_line(value, place, 2);
      if (!line) return std::nullopt;
      if (all_one_place(*line)) {
        place.refuse("all places of the line are one; a line needs two that differ");
        return std::nullopt;
      }
      return Geometry{type, {*std::move(line)}};
    }
    case GeometryType::polygon: {
      constexpr std::size_t most_rings = 100;
      const auto size =
          form_detail::list_size(value, place, "a list of 1 to 100 rings", 1, most_rings);
      if (!size) return std::nullopt;
      Geometry polygon{type, {}};
      for (std::size_t i = 0; i < *size; ++i) {
        std::optional<Line> ring = read_ring(value[i], place.inside(i));
        if (ring) polygon.parts.push_back(*std::move(ring));
      }
      if (polygon.parts.size() != *size) return std::nullopt;
      return polygon;
    }
  }
  return std::nullopt;
}

/// "MultiPolygon" and the like deserve a better answer than the list of words.
std::string advice_for(const json& type) {
  if (type.is_string() &&
      (type.get_ref<const std::string&>().starts_with("Multi") || type == "GeometryCollection")) {
    return "; split it into features of one part each";
  }
  return "";
}

constexpr const char* kGeometrySchema = R"({"type": "object",
 "properties": {"type": {"enum": ["Point", "LineString", "Polygon"]}, "coordinates": {"type": "array"}},
 "required": ["type", "coordinates"], "additionalProperties": false})";

std::optional<Geometry> read_geometry(const json& value, const Place& place) {
  if (!value.is_object() || !value.contains("type") || !value.contains("coordinates")) {
    if (value.is_object() && value.contains("geometries")) {
      place.refuse("found a GeometryCollection; split it into features of one part each");
    } else {
      refuse_value(value, place, "a geometry with \"type\" and \"coordinates\"");
    }
    return std::nullopt;
  }
  for (const auto& [key, unused] : value.items()) {
    const std::vector<std::string> known{"type", "coordinates", "bbox"};
    if (std::find(known.begin(), known.end(), key) != known.end()) continue;
    place.inside(key).refuse(
        fmt::format("the key {} is not known here{}", json_quoted(key), did_you_mean(key, known)));
  }
  for (const GeometryType type :
       {GeometryType::point, GeometryType::line_string, GeometryType::polygon}) {
    if (value["type"] != in_words(type)) continue;
    return read_coordinates(type, value["coordinates"], place.inside("coordinates"));
  }
  place.inside("type").refuse(
      fmt::format("found {}; expected \"Point\", \"LineString\" or \"Polygon\"{}",
                  found(value["type"]), advice_for(value["type"])));
  return std::nullopt;
}

}  // namespace

std::string in_words(GeometryType type) {
  switch (type) {
    case GeometryType::point:
      return "Point";
    case GeometryType::line_string:
      return "LineString";
    case GeometryType::polygon:
      return "Polygon";
  }
  return {};
}

Form<Geometry> geometry() {
  return form_of<Geometry>("a GeoJSON Point, LineString or Polygon", kGeometrySchema,
                           read_geometry);
}

std::vector<Field> members_passed_over() {
  return {passed_over("id", "GeoJSON identifier; passed over."),
          passed_over("bbox", "GeoJSON bounding box; passed over.")};
}

Field coordinate_system() {
  constexpr const char* words = "a coordinate system that is WGS 84 with longitude first (CRS84)";
  Field field = may_be_left_out(
      "crs",
      form_of<bool>(words, R"({"type": "object"})",
                    [](const json& value, const Place& place) -> std::optional<bool> {
                      const json::json_pointer name("/properties/name");
                      const json said =
                          value.is_object() && value.contains(name) ? value[name] : json();
                      if (said == "urn:ogc:def:crs:OGC:1.3:CRS84" || said == "EPSG:4326") {
                        return true;
                      }
                      refuse_value(said, place, words);
                      return std::nullopt;
                    }),
      "Written by older programs; GeoJSON is always WGS 84.",
      R"({"type": "name", "properties": {"name": "urn:ogc:def:crs:OGC:1.3:CRS84"}})");
  field.built_from = false;
  return field;
}

}  // namespace passage_brief
