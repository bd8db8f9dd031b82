// The part of a channel's width that a depth holds for, as an area beside its line.
#pragma once

#include <optional>

#include "facts/waterway/reach.h"
#include "facts/waterway/waterway.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"

namespace passage_brief {

/// The water of a reach in the plane of a stretch: its polygon, or its line with its full width.
/// The ends of a line are square; where another reach's line begins or ends at the same point
/// (within 1 m) the wedge on the outside of the bend between the two belongs to both.
[[nodiscard]] PlaneShape water_of(const Reach& reach, const Waterway& waterway,
                                  const Stretch& stretch);

/// The part of a reach its controlling depth holds for. Left and right are as seen along the line
/// as drawn, from seaward. Nothing for `centerline`, which covers no area, and where the part is
/// not stated.
[[nodiscard]] std::optional<PlaneShape> part_with_depth(const Reach& reach,
                                                        const Waterway& waterway,
                                                        const Stretch& stretch);

}  // namespace passage_brief
