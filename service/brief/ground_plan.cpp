#include "brief/ground_plan.h"

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "facts/waterway/waterway.h"
#include "passage/plane_shape.h"
#include "passage/route_survey.h"
#include "plan/route.h"
#include "units/geodesy.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using Runs = std::vector<std::vector<ChartPlane::Point>>;

/// Where the drawing begins: any place on it will do.
Position first_of(const PointShape& shape) { return shape; }
Position first_of(const LineShape& shape) { return shape.front(); }
Position first_of(const PolygonShape& shape) { return shape.rings.front().front(); }
template <class... Shapes>
Position first_of(const std::variant<Shapes...>& shape) {
  return std::visit([](const auto& one) { return first_of(one); }, shape);
}

template <class Item>
bool take_first(std::optional<Position>& origin, const std::vector<Item>& items) {
  if (!origin && !items.empty()) origin = first_of(items.front().shape);
  return origin.has_value();
}

Position origin_of(const Waterway& w, const Route* route) {
  if (route != nullptr) return route->points.front().position;
  std::optional<Position> origin;
  const bool found = take_first(origin, w.reaches) || take_first(origin, w.depth_areas) ||
                     take_first(origin, w.soundings) || take_first(origin, w.hazards) ||
                     take_first(origin, w.bars) || take_first(origin, w.bridges) ||
                     take_first(origin, w.cables) || take_first(origin, w.marks) ||
                     take_first(origin, w.berths) || take_first(origin, w.refuges) ||
                     take_first(origin, w.turning_places) || take_first(origin, w.notes);
  return found ? *origin : position_at(0, 0);
}

class GroundLayer {
 public:
  GroundLayer(GroundPlan& plan, Position origin) : plan_(plan), plane_(origin) {}

  void add(GroundPart part, const std::string& name, std::optional<Known<Length>> depth,
           const PointShape& shape) {
    put(part, name, std::move(depth), false, {{plane_.project(shape)}});
  }
  void add(GroundPart part, const std::string& name, std::optional<Known<Length>> depth,
           const LineShape& shape) {
    put(part, name, std::move(depth), false, {projected(shape)});
  }
  void add(GroundPart part, const std::string& name, std::optional<Known<Length>> depth,
           const PolygonShape& shape) {
    Runs runs;
    for (const std::vector<Position>& ring : shape.rings) runs.push_back(projected(ring));
    put(part, name, std::move(depth), true, std::move(runs));
  }
  template <class... Shapes>
  void add(GroundPart part, const std::string& name, std::optional<Known<Length>> depth,
           const std::variant<Shapes...>& shape) {
    std::visit([&](const auto& one) { add(part, name, std::move(depth), one); }, shape);
  }

  void add_reach(const Reach& reach) {
    const auto* line = std::get_if<LineShape>(&reach.shape);
    if (line == nullptr || !reach.width) {
      add(GroundPart::reach, reach.name, reach.controlling_depth, reach.shape);
      return;
    }
    std::vector<PlanePoint> middle;
    for (const ChartPlane::Point& point : projected(*line)) {
      middle.push_back({in_metres(point.east), in_metres(point.north)});
    }
    Runs runs;
    for (const auto& ring : PlaneShape::line(middle).grown(*reach.width / 2).runs()) {
      runs.emplace_back();
      for (const PlanePoint& p : ring) runs.back().push_back({metres(p.x_m), metres(p.y_m)});
    }
    put(GroundPart::reach, reach.name, reach.controlling_depth, true, std::move(runs));
  }

  void add_corridor(const std::vector<std::vector<Position>>& rings) {
    Runs runs;
    for (const std::vector<Position>& ring : rings) runs.push_back(projected(ring));
    put(GroundPart::corridor, "", std::nullopt, true, std::move(runs));
  }

 private:
  std::vector<ChartPlane::Point> projected(const std::vector<Position>& positions) const {
    std::vector<ChartPlane::Point> points;
    for (const Position& position : positions) points.push_back(plane_.project(position));
    return points;
  }
  void put(GroundPart part, const std::string& name, std::optional<Known<Length>> depth, bool area,
           Runs runs) {
    plan_.shapes.push_back({part, name, std::move(depth), area, std::move(runs)});
  }

  GroundPlan& plan_;
  ChartPlane plane_;
};

std::string mark_name(const Mark& mark) {
  switch (mark.hand) {
    case MarkHand::port:
      return mark.name + " (port hand)";
    case MarkHand::starboard:
      return mark.name + " (starboard hand)";
    case MarkHand::preferred_channel_to_port:
      return mark.name + " (preferred channel to port)";
    case MarkHand::preferred_channel_to_starboard:
      return mark.name + " (preferred channel to starboard)";
    case MarkHand::none:
      return mark.name;
    case MarkHand::not_stated:
      return mark.name + " (hand not known)";
  }
  return mark.name;
}

void add_features(GroundLayer& layer, const Waterway& w) {
  const std::optional<Known<Length>> none;
  for (const DepthArea& a : w.depth_areas) {
    layer.add(GroundPart::depth_area, a.name, a.least_depth, a.shape);
  }
  for (const Reach& r : w.reaches) layer.add_reach(r);
  for (const Sounding& s : w.soundings) layer.add(GroundPart::sounding, "", s.depth, s.shape);
  for (const Hazard& h : w.hazards) {
    layer.add(GroundPart::hazard, h.name, h.above_water ? none : std::optional(h.depth), h.shape);
  }
  for (const Bar& b : w.bars) layer.add(GroundPart::bar, b.name, b.depth, b.shape);
  for (const Bridge& b : w.bridges) layer.add(GroundPart::bridge, b.name, none, b.shape);
  for (const OverheadCable& c : w.cables) layer.add(GroundPart::cable, c.name, none, c.shape);
  for (const Mark& m : w.marks) layer.add(GroundPart::mark, mark_name(m), none, m.shape);
  for (const Berth& b : w.berths) layer.add(GroundPart::berth, b.name, b.depth, b.shape);
  for (const Refuge& r : w.refuges) layer.add(GroundPart::refuge, r.name, none, r.shape);
  for (const TurningPlace& t : w.turning_places) {
    layer.add(GroundPart::turning_place, t.name, none, t.shape);
  }
  for (const Note& n : w.notes) layer.add(GroundPart::note, n.text, none, n.shape);
}

}  // namespace

GroundPlan ground_plan(const Waterway& waterway, const Route* route, const RouteSurvey* survey) {
  GroundPlan plan{waterway.name, {}};
  GroundLayer layer(plan, origin_of(waterway, route));
  add_features(layer, waterway);
  if (survey != nullptr) {
    for (std::size_t i = 0; i < survey->track().stretches.size(); ++i) {
      layer.add_corridor(survey->corridor_rings(i));
    }
  }
  if (route == nullptr) return plan;
  LineShape line;
  for (const RoutePoint& point : route->points) line.push_back(point.position);
  layer.add(GroundPart::route, "", std::nullopt, line);
  for (const RoutePoint& point : route->points) {
    layer.add(GroundPart::route, point.name, std::nullopt, point.position);
  }
  return plan;
}

}  // namespace passage_brief
