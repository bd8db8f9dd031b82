#include "passage/channel_strip.h"

#include <cmath>
#include <numbers>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include "facts/waterway/reach.h"
#include "facts/waterway/waterway.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"
#include "units/check.h"
#include "units/direction.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr double kJoined_m = 1;

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

double heading_rad(PlanePoint a, PlanePoint b) { return std::atan2(b.y_m - a.y_m, b.x_m - a.x_m); }

/// Headings in which other lines leave the point `at`.
std::vector<double> leaving(PlanePoint at, const std::vector<std::vector<PlanePoint>>& others) {
  const auto near = [at](PlanePoint p) {
    return std::hypot(p.x_m - at.x_m, p.y_m - at.y_m) < kJoined_m;
  };
  std::vector<double> headings;
  for (const std::vector<PlanePoint>& line : others) {
    if (near(line.front())) headings.push_back(heading_rad(line[0], line[1]));
    if (near(line.back())) headings.push_back(heading_rad(line.back(), line[line.size() - 2]));
  }
  return headings;
}

/// Wedges between this line and those it meets at its ends, where the bend is no sharper than a
/// right angle.
void add_joints(const std::vector<PlanePoint>& line, Offsets offsets,
                const std::vector<std::vector<PlanePoint>>& others,
                std::vector<PlaneShape>& parts) {
  const double first_rad = heading_rad(line[0], line[1]);
  const double last_rad = heading_rad(line[line.size() - 2], line.back());
  const auto gentle = [](double from_rad, double to_rad) {
    return std::abs(folded_180(radians(to_rad - from_rad).in_degrees())) <= 90;
  };
  for (const double out_rad : leaving(line.back(), others)) {
    if (gentle(last_rad, out_rad)) parts.push_back(bend(line.back(), last_rad, out_rad, offsets));
  }
  for (const double out_rad : leaving(line.front(), others)) {
    const double in_rad = out_rad + std::numbers::pi;  // arriving by the other line
    if (gentle(in_rad, first_rad)) parts.push_back(bend(line.front(), in_rad, first_rad, offsets));
  }
}

PlaneShape strip(const std::vector<PlanePoint>& line, Offsets offsets,
                 const std::vector<std::vector<PlanePoint>>& others) {
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
  add_joints(line, offsets, others, parts);
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

/// The lines of the other reaches that begin or end where this one does.
std::vector<std::vector<PlanePoint>> lines_met(const Reach& reach, const Waterway& waterway,
                                               const Stretch& stretch) {
  const auto& own = std::get<LineShape>(reach.shape);
  const auto near = [](Position a, Position b) {
    return geodesic_distance(a, b) < metres(kJoined_m);
  };
  std::vector<std::vector<PlanePoint>> lines;
  for (const Reach& other : waterway.reaches) {
    const auto* line = std::get_if<LineShape>(&other.shape);
    if (&other == &reach || line == nullptr) continue;
    if (near(own.front(), line->front()) || near(own.front(), line->back()) ||
        near(own.back(), line->front()) || near(own.back(), line->back())) {
      lines.push_back(stretch.project(*line));
    }
  }
  return lines;
}

std::optional<PlaneShape> part_of(const Reach& reach, ChannelPart part, const Waterway& waterway,
                                  const Stretch& stretch) {
  if (const auto* polygon = std::get_if<PolygonShape>(&reach.shape)) {
    if (part == ChannelPart::full_width) return stretch.project(*polygon);
    return std::nullopt;  // an area has no centreline to take quarters from
  }
  check(reach.width.has_value(), "a reach drawn as a line has a width");
  const std::optional<Offsets> offsets = offsets_of(part, in_metres(*reach.width));
  if (!offsets) return std::nullopt;
  return strip(stretch.project(std::get<LineShape>(reach.shape)), *offsets,
               lines_met(reach, waterway, stretch));
}

}  // namespace

PlaneShape water_of(const Reach& reach, const Waterway& waterway, const Stretch& stretch) {
  std::optional<PlaneShape> water = part_of(reach, ChannelPart::full_width, waterway, stretch);
  check(water.has_value(), "a reach has water");
  return std::move(*water);
}

std::optional<PlaneShape> part_with_depth(const Reach& reach, const Waterway& waterway,
                                          const Stretch& stretch) {
  if (!reach.applies_to) return std::nullopt;
  return part_of(reach, *reach.applies_to, waterway, stretch);
}

}  // namespace passage_brief
