// How soon a moving line meets a shape that stands still.
#pragma once

#include <cmath>
#include <optional>
#include <vector>

#include "passage/plane_shape.h"

namespace passage_brief {

/// Seconds until the line from `a` to `b`, carried along at `v`, first touches the shape; 0 where
/// it touches at once, nothing where it never does. The shape as its runs of vertices
/// (PlaneShape::runs), areas by their edges. What takes longer than `within_s` may be left out.
[[nodiscard]] std::optional<double> seconds_until_met(
    PlanePoint a, PlanePoint b, PlaneVelocity v, const std::vector<std::vector<PlanePoint>>& shape,
    double within_s = INFINITY);

/// Corners of the box round a shape.
struct PlaneBox {
  PlanePoint low;
  PlanePoint high;
};
[[nodiscard]] PlaneBox box_round(const std::vector<std::vector<PlanePoint>>& shape);

/// A time before which the line cannot meet anything in the box; nothing where it never can. Errs
/// toward too soon, by less than a millisecond.
[[nodiscard]] std::optional<double> seconds_until_near(PlanePoint a, PlanePoint b, PlaneVelocity v,
                                                       const PlaneBox& box);

/// The least of them over all velocities whose parts along x and y lie between `least` and
/// `most`; infinite where none ever can.
[[nodiscard]] double seconds_until_any_is_near(PlanePoint a, PlanePoint b, PlaneVelocity least,
                                               PlaneVelocity most, const PlaneBox& box);

}  // namespace passage_brief
