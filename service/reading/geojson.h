// Geometry of GeoJSON (RFC 7946): Point, LineString, Polygon; longitude THEN latitude, WGS 84.
//
// A third number (elevation) is passed over. Refused: the Multi... types and collections (split
// them into features), a line of one place, a ring that is not closed or has fewer than 3 corners,
// an edge across the 180th meridian (one that ends on it is taken, written 180 or -180), a latitude
// beyond kMostLatitude_deg. Whether a ring crosses itself is not looked at here.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "reading/form.h"
#include "units/position.h"

namespace passage_brief {

enum class GeometryType { point, line_string, polygon };
[[nodiscard]] std::string in_words(GeometryType type);

inline constexpr std::size_t kMostVertices = 20'000;

struct Geometry {
  GeometryType type;
  /// A point: one list of one; a line: one list of 2 or more; a polygon: its closed rings, the
  /// outside first.
  std::vector<std::vector<Position>> parts;
};

[[nodiscard]] Form<Geometry> geometry();

/// Members that other programs write and that change nothing: `id`, `bbox`.
[[nodiscard]] std::vector<Field> members_passed_over();
/// The old `crs` member: only one that says WGS 84 with longitude first.
[[nodiscard]] Field coordinate_system();

}  // namespace passage_brief
