#include "passage/channel_strip.h"

#include <cmath>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include "facts/waterway/reach.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"
#include "units/check.h"
#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

/// Offsets to the right of the line, in metres, left negative.
struct Offsets {
  double from_m;
  double to_m;
};

PlanePoint beside(PlanePoint at, double heading_rad, double right_m) {
  // In this plane y is to starboard, so "right" of a heading measured from x toward y adds 90 deg.
  return {at.x_m - std::sin(heading_rad) * right_m, at.y_m + std::cos(heading_rad) * right_m};
}

/// The wedge that closes the gap on the outside of a bend.
PlaneShape bend(PlanePoint at, double before_rad, double after_rad, Offsets offsets) {
  const double turn_rad =
      in_radians(degrees(folded_180(radians(after_rad - before_rad).in_degrees())));
  const int steps = 2 + static_cast<int>(std::abs(turn_rad) / 0.1);
  std::vector<PlanePoint> ring;
  for (int i = 0; i <= steps; ++i) {
    ring.push_back(beside(at, before_rad + turn_rad * i / steps, offsets.to_m));
  }
  for (int i = steps; i >= 0; --i) {
    ring.push_back(beside(at, before_rad + turn_rad * i / steps, offsets.from_m));
  }
  ring.push_back(ring.front());
  return PlaneShape::polygon({ring});
}

PlaneShape strip(const std::vector<PlanePoint>& line, Offsets offsets) {
  std::vector<PlaneShape> parts;
  double before_rad = 0;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const PlanePoint a = line[i];
    const PlanePoint b = line[i + 1];
    if (std::hypot(b.x_m - a.x_m, b.y_m - a.y_m) == 0) continue;
    const double heading_rad = std::atan2(b.y_m - a.y_m, b.x_m - a.x_m);
    if (!parts.empty()) parts.push_back(bend(a, before_rad, heading_rad, offsets));
    const PlanePoint corner = beside(a, heading_rad, offsets.from_m);
    parts.push_back(PlaneShape::polygon(
        {{corner, beside(b, heading_rad, offsets.from_m), beside(b, heading_rad, offsets.to_m),
          beside(a, heading_rad, offsets.to_m), corner}}));
    before_rad = heading_rad;
  }
  check(!parts.empty(), "a reach's line has a length");
  return PlaneShape::joined(parts);
}

std::optional<Offsets> offsets_of(ChannelPart part, double width_m) {
  switch (part) {
    case ChannelPart::full_width:
      return Offsets{-width_m / 2, width_m / 2};
    case ChannelPart::middle_half:
      return Offsets{-width_m / 4, width_m / 4};
    case ChannelPart::centerline:
      return std::nullopt;
    case ChannelPart::left_outside_quarter:
      return Offsets{-width_m / 2, -width_m / 4};
    case ChannelPart::left_inside_quarter:
      return Offsets{-width_m / 4, 0};
    case ChannelPart::right_inside_quarter:
      return Offsets{0, width_m / 4};
    case ChannelPart::right_outside_quarter:
      return Offsets{width_m / 4, width_m / 2};
  }
  return std::nullopt;
}

std::optional<PlaneShape> part_of(const Reach& reach, ChannelPart part, const Stretch& stretch) {
  if (const auto* polygon = std::get_if<PolygonShape>(&reach.shape)) {
    if (part == ChannelPart::full_width) return stretch.project(*polygon);
    return std::nullopt;  // an area has no centreline to take quarters from
  }
  check(reach.width.has_value(), "a reach drawn as a line has a width");
  const std::optional<Offsets> offsets = offsets_of(part, in_metres(*reach.width));
  if (!offsets) return std::nullopt;
  return strip(stretch.project(std::get<LineShape>(reach.shape)), *offsets);
}

}  // namespace

PlaneShape water_of(const Reach& reach, const Stretch& stretch) {
  std::optional<PlaneShape> water = part_of(reach, ChannelPart::full_width, stretch);
  check(water.has_value(), "a reach has water");
  return std::move(*water);
}

std::optional<PlaneShape> part_with_depth(const Reach& reach, const Stretch& stretch) {
  return part_of(reach, reach.applies_to, stretch);
}

}  // namespace passage_brief
