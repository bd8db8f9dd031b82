#include "passage/plane_shape.h"

#include <geos_c.h>

#include <algorithm>
#include <memory>
#include <utility>
#include <vector>

#include "units/check.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

/// One GEOS context for each thread: the library's contexts are not to be shared.
GEOSContextHandle_t context() {
  struct Owned {
    GEOSContextHandle_t handle = GEOS_init_r();
    Owned() = default;
    Owned(const Owned&) = delete;
    Owned& operator=(const Owned&) = delete;
    ~Owned() { GEOS_finish_r(handle); }
  };
  thread_local const Owned owned;
  return owned.handle;
}

constexpr int kSegmentsInQuarter = 8;
// A polygon of 32 sides drawn through the circle lies inside it by 1 - cos(180/32 degrees) = 0.5 %;
// radii are lengthened by this so that it lies outside everywhere.
constexpr double kOutsideCircle = 1.005;

GEOSCoordSequence* sequence(const std::vector<PlanePoint>& points) {
  GEOSCoordSequence* coordinates =
      GEOSCoordSeq_create_r(context(), static_cast<unsigned>(points.size()), 2);
  for (unsigned i = 0; i < points.size(); ++i) {
    GEOSCoordSeq_setXY_r(context(), coordinates, i, points[i].x_m, points[i].y_m);
  }
  return coordinates;
}

std::vector<PlanePoint> points_of(const GEOSGeometry* line) {
  const GEOSCoordSequence* coordinates = GEOSGeom_getCoordSeq_r(context(), line);
  unsigned size = 0;
  GEOSCoordSeq_getSize_r(context(), coordinates, &size);
  std::vector<PlanePoint> points(size);
  for (unsigned i = 0; i < size; ++i) {
    GEOSCoordSeq_getXY_r(context(), coordinates, i, &points[i].x_m, &points[i].y_m);
  }
  return points;
}

void add_runs(const GEOSGeometry* shape, std::vector<std::vector<PlanePoint>>& runs) {
  if (GEOSisEmpty_r(context(), shape) != 0) return;
  switch (GEOSGeomTypeId_r(context(), shape)) {
    case GEOS_POINT:
    case GEOS_LINESTRING:
    case GEOS_LINEARRING:
      runs.push_back(points_of(shape));
      return;
    case GEOS_POLYGON:
      runs.push_back(points_of(GEOSGetExteriorRing_r(context(), shape)));
      for (int i = 0; i < GEOSGetNumInteriorRings_r(context(), shape); ++i) {
        runs.push_back(points_of(GEOSGetInteriorRingN_r(context(), shape, i)));
      }
      return;
    default:
      for (int i = 0; i < GEOSGetNumGeometries_r(context(), shape); ++i) {
        add_runs(GEOSGetGeometryN_r(context(), shape, i), runs);
      }
  }
}

}  // namespace

struct PlaneShape::Geometry {
  explicit Geometry(GEOSGeometry* made) : shape(made) {
    check(made != nullptr, "the geometry library answers");
  }
  Geometry(const Geometry&) = delete;
  Geometry& operator=(const Geometry&) = delete;
  ~Geometry() { GEOSGeom_destroy_r(context(), shape); }
  GEOSGeometry* shape;
};

PlaneShape::PlaneShape(std::unique_ptr<Geometry> geometry) : geometry_(std::move(geometry)) {}
PlaneShape::PlaneShape(PlaneShape&&) noexcept = default;
PlaneShape& PlaneShape::operator=(PlaneShape&&) noexcept = default;
PlaneShape::~PlaneShape() = default;

PlaneShape PlaneShape::point(PlanePoint at) {
  return PlaneShape(
      std::make_unique<Geometry>(GEOSGeom_createPointFromXY_r(context(), at.x_m, at.y_m)));
}

PlaneShape PlaneShape::line(const std::vector<PlanePoint>& points) {
  return PlaneShape(
      std::make_unique<Geometry>(GEOSGeom_createLineString_r(context(), sequence(points))));
}

PlaneShape PlaneShape::polygon(const std::vector<std::vector<PlanePoint>>& rings) {
  check(!rings.empty(), "a polygon has an outside");
  std::vector<GEOSGeometry*> holes;
  for (std::size_t i = 1; i < rings.size(); ++i) {
    holes.push_back(GEOSGeom_createLinearRing_r(context(), sequence(rings[i])));
  }
  GEOSGeometry* outside = GEOSGeom_createLinearRing_r(context(), sequence(rings.front()));
  const Geometry drawn(GEOSGeom_createPolygon_r(context(), outside, holes.data(),
                                                static_cast<unsigned>(holes.size())));
  return PlaneShape(std::make_unique<Geometry>(GEOSMakeValid_r(context(), drawn.shape)));
}

PlaneShape PlaneShape::rectangle(PlanePoint low, PlanePoint high) {
  return PlaneShape(std::make_unique<Geometry>(
      GEOSGeom_createRectangle_r(context(), low.x_m, low.y_m, high.x_m, high.y_m)));
}

PlaneShape PlaneShape::joined(const std::vector<PlaneShape>& shapes) {
  std::vector<GEOSGeometry*> copies;
  copies.reserve(shapes.size());
  for (const PlaneShape& shape : shapes) {
    copies.push_back(GEOSGeom_clone_r(context(), shape.geometry_->shape));
  }
  const Geometry all(GEOSGeom_createCollection_r(context(), GEOS_GEOMETRYCOLLECTION, copies.data(),
                                                 static_cast<unsigned>(copies.size())));
  return PlaneShape(std::make_unique<Geometry>(GEOSUnaryUnion_r(context(), all.shape)));
}

PlaneShape PlaneShape::grown(Length radius) const {
  check(in_metres(radius) >= 0, "a shape grows outward");
  return PlaneShape(std::make_unique<Geometry>(GEOSBuffer_r(
      context(), geometry_->shape, in_metres(radius) * kOutsideCircle, kSegmentsInQuarter)));
}

PlaneShape PlaneShape::shrunk(Length depth) const {
  check(in_metres(depth) >= 0, "a shape shrinks inward");
  return PlaneShape(std::make_unique<Geometry>(
      GEOSBuffer_r(context(), geometry_->shape, -in_metres(depth), kSegmentsInQuarter)));
}

PlaneShape PlaneShape::common_with(const PlaneShape& other) const {
  return PlaneShape(std::make_unique<Geometry>(
      GEOSIntersection_r(context(), geometry_->shape, other.geometry_->shape)));
}

PlaneShape PlaneShape::without(const PlaneShape& other) const {
  return PlaneShape(std::make_unique<Geometry>(
      GEOSDifference_r(context(), geometry_->shape, other.geometry_->shape)));
}

bool PlaneShape::empty() const { return GEOSisEmpty_r(context(), geometry_->shape) != 0; }

bool PlaneShape::touches(const PlaneShape& other) const {
  return GEOSIntersects_r(context(), geometry_->shape, other.geometry_->shape) == 1;
}

bool PlaneShape::covers(PlanePoint at) const { return touches(point(at)); }

Length PlaneShape::distance_to(const PlaneShape& other) const {
  double distance_m = 0;
  GEOSDistance_r(context(), geometry_->shape, other.geometry_->shape, &distance_m);
  return metres(distance_m);
}

std::pair<PlanePoint, PlanePoint> PlaneShape::nearest_pair(const PlaneShape& other) const {
  GEOSCoordSequence* pair =
      GEOSNearestPoints_r(context(), geometry_->shape, other.geometry_->shape);
  check(pair != nullptr, "neither shape is empty");
  PlanePoint here{};
  PlanePoint there{};
  GEOSCoordSeq_getXY_r(context(), pair, 0, &here.x_m, &here.y_m);
  GEOSCoordSeq_getXY_r(context(), pair, 1, &there.x_m, &there.y_m);
  GEOSCoordSeq_destroy_r(context(), pair);
  return {here, there};
}

PlanePoint PlaneShape::nearest_to(const PlaneShape& other) const {
  return nearest_pair(other).first;
}

PlanePoint PlaneShape::low() const {
  PlanePoint corner{};
  check(GEOSGeom_getXMin_r(context(), geometry_->shape, &corner.x_m) == 1, "not empty");
  check(GEOSGeom_getYMin_r(context(), geometry_->shape, &corner.y_m) == 1, "not empty");
  return corner;
}

PlanePoint PlaneShape::high() const {
  PlanePoint corner{};
  check(GEOSGeom_getXMax_r(context(), geometry_->shape, &corner.x_m) == 1, "not empty");
  check(GEOSGeom_getYMax_r(context(), geometry_->shape, &corner.y_m) == 1, "not empty");
  return corner;
}

std::vector<Reaches> PlaneShape::pieces() const {
  std::vector<Reaches> reaches;
  const int count = GEOSGetNumGeometries_r(context(), geometry_->shape);
  for (int i = 0; i < count; ++i) {
    const GEOSGeometry* piece = GEOSGetGeometryN_r(context(), geometry_->shape, i);
    if (GEOSisEmpty_r(context(), piece) != 0) continue;
    double begin_m = 0;
    double end_m = 0;
    GEOSGeom_getXMin_r(context(), piece, &begin_m);
    GEOSGeom_getXMax_r(context(), piece, &end_m);
    reaches.push_back({metres(begin_m), metres(end_m)});
  }
  std::ranges::sort(reaches, {}, [](const Reaches& r) { return std::pair(r.begin, r.end); });
  return reaches;
}

std::vector<std::vector<PlanePoint>> PlaneShape::runs() const {
  std::vector<std::vector<PlanePoint>> runs;
  add_runs(geometry_->shape, runs);
  return runs;
}

}  // namespace passage_brief
