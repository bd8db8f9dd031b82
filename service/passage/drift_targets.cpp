#include "passage/drift_targets.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include "facts/waterway/waterway.h"
#include "passage/corridor_depths.h"
#include "passage/findings.h"
#include "passage/meetings.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr Length kFarthest = nautical_miles(6);

DriftTarget shoal_area(const DepthArea& area, const Stretch& stretch) {
  return {area.name,
          "shoal water",
          DangerKind::shoal_water,
          area.bottom,
          stretch.project(area.shape),
          false,
          DepthSource{DepthSourceKind::depth_area, area.name, area.least_depth, false,
                      area.stations, area.bottom, area.surveyed, area.survey_quality}};
}

DriftTarget shoal_sounding(const Sounding& sounding, const Stretch& stretch) {
  return {
      sounding.name,
      "shoal sounding",
      DangerKind::shoal_water,
      sounding.bottom,
      stretch.project(Shape(sounding.shape)),
      true,
      DepthSource{DepthSourceKind::sounding, sounding.name, sounding.depth, false,
                  sounding.stations, sounding.bottom, sounding.surveyed, sounding.survey_quality}};
}

DriftTarget hazard_target(const Hazard& hazard, const Stretch& stretch) {
  PlaneShape shape = stretch.project(hazard.shape);
  if (hazard.position_within && *hazard.position_within > metres(0)) {
    shape = shape.grown(*hazard.position_within);
  }
  return {hazard.name,   hazard.what,      DangerKind::hazard,
          hazard.bottom, std::move(shape), std::holds_alternative<PointShape>(hazard.shape),
          std::nullopt};
}

}  // namespace

std::vector<DriftTarget> drift_targets(const Waterway& waterway,
                                       const std::vector<Meeting>& bridges_on_the_way,
                                       const Stretch& stretch) {
  std::vector<DriftTarget> targets;
  const auto near = [&stretch](const Shape& shape) {
    return stretch.may_come_within(shape, kFarthest);
  };
  for (const Hazard& hazard : waterway.hazards) {
    if (near(hazard.shape)) targets.push_back(hazard_target(hazard, stretch));
  }
  for (std::size_t i = 0; i < waterway.bridges.size(); ++i) {
    if (std::ranges::any_of(bridges_on_the_way, [i](const Meeting& m) { return m.index == i; })) {
      continue;
    }
    const Bridge& bridge = waterway.bridges[i];
    const Shape shape = std::visit([](const auto& s) { return Shape(s); }, bridge.shape);
    if (!near(shape)) continue;
    targets.push_back({bridge.name, in_words(bridge.what) + " bridge", DangerKind::bridge,
                       Bottom::not_stated, stretch.project(shape), false, std::nullopt});
  }
  for (const DepthArea& area : waterway.depth_areas) {
    if (near(area.shape)) targets.push_back(shoal_area(area, stretch));
  }
  for (const Sounding& sounding : waterway.soundings) {
    if (near(sounding.shape)) targets.push_back(shoal_sounding(sounding, stretch));
  }
  return targets;
}

TargetOff target_off(const DriftTarget& target, const Stretch& stretch, Length begin, Length end) {
  const PlanePoint a{in_metres(begin - stretch.begins_along()), 0};
  const PlanePoint b{in_metres(end - stretch.begins_along()), 0};
  const auto [there, here] = target.shape.nearest_pair(PlaneShape::line({a, b}));
  TargetOff off{metres(std::hypot(there.x_m - here.x_m, there.y_m - here.y_m)), there.y_m,
                metres(0), metres(0)};
  if (target.single_point) {
    off.from_begin = target.shape.distance_to(PlaneShape::point(a));
    off.from_end = target.shape.distance_to(PlaneShape::point(b));
  }
  return off;
}

}  // namespace passage_brief
