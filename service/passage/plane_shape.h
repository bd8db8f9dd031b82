// Areas, lines and points in a plane of metres: cutting, joining, and how far they reach along x.
//
// A thin value over the GEOS library (GEOS C API 3.11); the only file that sees it. Coordinates are
// those of passage/stretch.h: x along the track, y to starboard. Results are exact to the rounding
// of doubles, far below 1 mm over a stretch.
#pragma once

#include <memory>
#include <utility>
#include <vector>

#include "units/quantity.h"

namespace passage_brief {

struct PlanePoint {
  double x_m;
  double y_m;
};

struct PlaneVelocity {
  double x_m_s;
  double y_m_s;
};

/// How far one piece of a shape reaches along x.
struct Reaches {
  Length begin;
  Length end;
};

class PlaneShape {
 public:
  static PlaneShape point(PlanePoint at);
  static PlaneShape line(const std::vector<PlanePoint>& points);
  /// First ring outside, further ones holes; each closed. A ring that crosses itself is mended by
  /// GEOS's MakeValid (every area it encloses counts).
  static PlaneShape polygon(const std::vector<std::vector<PlanePoint>>& rings);
  static PlaneShape rectangle(PlanePoint low, PlanePoint high);
  static PlaneShape joined(const std::vector<PlaneShape>& shapes);

  PlaneShape(PlaneShape&&) noexcept;
  PlaneShape& operator=(PlaneShape&&) noexcept;
  ~PlaneShape();

  /// Everything within `radius` (>= 0) of the shape; the circle is drawn outside the true one, so
  /// that nothing within is missed (at most 2 % of the radius too wide).
  [[nodiscard]] PlaneShape grown(Length radius) const;
  /// What is farther than `depth` from the edge of an area.
  [[nodiscard]] PlaneShape shrunk(Length depth) const;
  [[nodiscard]] PlaneShape common_with(const PlaneShape& other) const;
  [[nodiscard]] PlaneShape without(const PlaneShape& other) const;

  [[nodiscard]] bool empty() const;
  [[nodiscard]] bool touches(const PlaneShape& other) const;
  [[nodiscard]] bool covers(PlanePoint at) const;
  [[nodiscard]] Length distance_to(const PlaneShape& other) const;
  /// The two points, of this shape and of another, that are nearest to each other.
  [[nodiscard]] std::pair<PlanePoint, PlanePoint> nearest_pair(const PlaneShape& other) const;
  /// The first of nearest_pair().
  [[nodiscard]] PlanePoint nearest_to(const PlaneShape& other) const;
  [[nodiscard]] PlanePoint low() const;  // of the bounding box; the shape is not empty
  [[nodiscard]] PlanePoint high() const;
  /// The reach along x of every connected piece, by rising begin.
  [[nodiscard]] std::vector<Reaches> pieces() const;
  /// All vertices, ring after ring or line after line, each run by itself.
  [[nodiscard]] std::vector<std::vector<PlanePoint>> runs() const;

 private:
  struct Geometry;
  explicit PlaneShape(std::unique_ptr<Geometry> geometry);
  std::unique_ptr<Geometry> geometry_;
};

}  // namespace passage_brief
