#include "passage/route_survey.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "facts/waterway/waterway.h"
#include "passage/buoyage.h"
#include "passage/channel_strip.h"
#include "passage/corridor_depths.h"
#include "passage/drift_targets.h"
#include "passage/margins.h"
#include "passage/meetings.h"
#include "passage/passes.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"
#include "passage/sweep.h"
#include "plan/plan.h"
#include "units/check.h"
#include "units/geodesy.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr Length kNoExtra = metres(0.3);  // less is a helm's wander (our rule)
constexpr Length kFirstExtra = metres(1.5);
constexpr int kMostSteps = 10;  // 768 m
// A bridge or a cable drawn as a point is passed within 50 m, or the width of the reach it is drawn
// in, or 0.25 nm in one drawn as an area (our rule). Not within the width between its fenders: no
// bridge may be gone where that is not known.
constexpr Length kBridgeNear = metres(50);
constexpr Length kBridgeNearInArea = nautical_miles(0.25);
constexpr Length kMarkNear = nautical_miles(0.25);
constexpr Length kRefugeNear = nautical_miles(1);
constexpr Length kTurningNear = nautical_miles(0.1);
constexpr Length kBerthNear = metres(100);
constexpr double kLeastTurn_deg = 5;    // less than a helm's wander is no turn (our rule)
constexpr double kShortestRun_m = 0.5;  // shorter ones are rounding at shared edges
constexpr Length kLongestPiece = metres(500);
constexpr Length kLongestBlock = nautical_miles(1);
constexpr Length kShortestPiece = metres(0.01);

/// She is over either within a second or two (our rule).
bool same_place(Length a, Length b) { return std::abs(in_metres(a - b)) < 2; }

bool same_depths(const std::vector<SurveyedPiece>& a, const std::vector<SurveyedPiece>& b) {
  const auto met_alike = [](const DepthOnTrack* x, const DepthOnTrack* y) {
    return same_place(x->begin, y->begin) && same_place(x->end, y->end) && x->source == y->source;
  };
  return std::ranges::equal(a, b, [&](const SurveyedPiece& x, const SurveyedPiece& y) {
    return same_place(x.begin, y.begin) && same_place(x.end, y.end) &&
           std::ranges::equal(x.depths, y.depths, met_alike);
  });
}

Shape shape_of(const Reach& reach) {
  return std::visit([](const auto& shape) { return Shape(shape); }, reach.shape);
}

template <class Narrow>
Shape widened(const Narrow& shape) {
  return std::visit([](const auto& of_kind) { return Shape(of_kind); }, shape);
}

/// A stretch of a metre, for its plane: its zero is the position.
Stretch plane_at(Position position) {
  const TrueBearing north = TrueBearing::from_degrees(0);
  return {0, position, along_rhumb(position, north, metres(1)), metres(0), north, metres(1)};
}

void sort_by_passing(std::vector<Meeting>& all) {
  std::ranges::stable_sort(all, {}, [](const Meeting& c) { return c.along; });
}

/// Of the reaches that hold a point, the narrowest one drawn as a line, else the first.
std::optional<std::size_t> reach_at(const std::vector<std::pair<std::size_t, PlaneShape>>& waters,
                                    const Waterway& waterway, PlanePoint at) {
  std::optional<std::size_t> best;
  for (const auto& [index, water] : waters) {
    if (!water.covers(at)) continue;
    const std::optional<Length>& width = waterway.reaches[index].width;
    if (!best ||
        (width && (!waterway.reaches[*best].width || *width < *waterway.reaches[*best].width))) {
      best = index;
    }
  }
  return best;
}

/// A place without a depth on file comes before any depth.
DepthSource shoalest_in(const Waterway& waterway, const Stretch& here, const PlaneShape& area) {
  // Never empty: water without a depth is found as such.
  const std::vector<DepthOnTrack> all = depths_in_corridor(waterway, here, area);
  const auto shoaler = [](const DepthOnTrack& a, const DepthOnTrack& b) {
    if (!b.source.charted.has_value()) return false;
    return !a.source.charted.has_value() || *a.source.charted < *b.source.charted;
  };
  return std::ranges::min_element(all, shoaler)->source;
}

}  // namespace

RouteSurvey::RouteSurvey(const Plan& plan, const Waterway& waterway, const Margins& margins)
    : waterway_(waterway),
      track_(track_of(plan.route)),
      half_width_(plan.vessel.beam / 2 + margins.track + margins.position),
      half_length_(plan.vessel.length / 2) {
  find_runs();
  find_own_currents();
  find_meetings();
  find_bar_depths();
  find_depths_of_places();
  berth_left_ = berth_near(plan.route.points.front().position);
  berth_reached_ = berth_near(plan.route.points.back().position);
  find_blocks();
  for (const Stretch& stretch : track_.stretches) {
    targets_.push_back(passage_brief::drift_targets(waterway_, bridges_, stretch));
  }
}

const Run& RouteSurvey::run_at(Length along) const {
  const auto after =
      std::ranges::upper_bound(runs_, along, {}, [](const Run& run) { return run.begin; });
  return after == runs_.begin() ? runs_.front() : *(after - 1);
}

Known<std::string> RouteSurvey::current_station_at(Length along) const {
  const Run& run = run_at(along);
  if (run.reach) return waterway_.reaches[*run.reach].stations.current;
  const DepthArea* of = nullptr;
  for (const OwnCurrent& own : own_currents_) {
    const bool at_the_end = own.end >= track_.length - metres(1e-6);
    if (along < own.begin || (along >= own.end && !at_the_end)) continue;
    const DepthArea& area = waterway_.depth_areas[own.area];
    if (of != nullptr && of->stations.current != area.stations.current) {
      return not_known(of->name + " and " + area.name + " name two current stations for one place");
    }
    of = &area;
  }
  return of != nullptr ? of->stations.current : waterway_.stations.current;
}

int RouteSurvey::leeward_step(Side side, Length extra) {
  if (extra < kNoExtra) return 0;
  int step = 1;
  while (step < kMostSteps && extra_of(step) < extra) ++step;
  return side == Side::port ? -step : step;
}

Length RouteSurvey::extra_of(int step) {
  return step == 0 ? metres(0) : kFirstExtra * std::exp2(std::abs(step) - 1);
}

/// Piled, or marks of both hands kept by an authority or with a permit name it as their reach.
bool RouteSurvey::marked_on_both_sides(const Reach& reach) const {
  if (reach.piled) return true;
  bool port = false;
  bool starboard = false;
  for (const Mark& mark : waterway_.marks) {
    if (mark.kept_by == KeptBy::unofficial || mark.kept_by == KeptBy::not_stated) continue;
    if (!mark.direction_of_buoyage) continue;
    const auto* named = std::get_if<std::string>(&*mark.direction_of_buoyage);
    if (named == nullptr || *named != reach.name) continue;
    port = port || mark.hand == MarkHand::port;
    starboard = starboard || mark.hand == MarkHand::starboard;
  }
  return port && starboard;
}

void RouteSurvey::find_runs() {
  for (const Stretch& stretch : track_.stretches) {
    std::vector<std::pair<std::size_t, PlaneShape>> waters;
    std::vector<double> cuts{0, in_metres(stretch.length())};
    for (std::size_t i = 0; i < waterway_.reaches.size(); ++i) {
      const Reach& reach = waterway_.reaches[i];
      const Length half = reach.width ? *reach.width / 2 : metres(0);
      if (!stretch.may_come_within(shape_of(reach), half)) continue;
      PlaneShape water = water_of(reach, waterway_, stretch);
      for (const Reaches& piece : water.common_with(stretch.line()).pieces()) {
        cuts.push_back(in_metres(piece.begin));
        cuts.push_back(in_metres(piece.end));
      }
      waters.emplace_back(i, std::move(water));
    }
    std::ranges::sort(cuts);
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      if (cuts[i + 1] - cuts[i] < kShortestRun_m && !runs_.empty()) {
        runs_.back().end = stretch.begins_along() + metres(cuts[i + 1]);
        continue;
      }
      const std::optional<std::size_t> reach =
          reach_at(waters, waterway_, {(cuts[i] + cuts[i + 1]) / 2, 0});
      const Length begin = runs_.empty() ? metres(0) : runs_.back().end;  // runs join end to end
      const Length end = stretch.begins_along() + metres(cuts[i + 1]);
      if (!runs_.empty() && runs_.back().reach == reach) {
        runs_.back().end = end;
      } else {
        runs_.push_back(
            {reach, begin, end, reach && marked_on_both_sides(waterway_.reaches[*reach])});
      }
    }
  }
  check(!runs_.empty(), "a track has a run");
  runs_.back().end = track_.length;
}

/// How far from the track a bridge or a cable drawn as a point is still over the water she is in.
Length RouteSurvey::counts_within(Position point) const {
  const Stretch here = plane_at(point);
  Length within = kBridgeNear;
  for (const Reach& reach : waterway_.reaches) {
    const Length half = reach.width.value_or(metres(0)) / 2;
    if (!here.may_come_within(shape_of(reach), half + kBridgeNear)) continue;
    const Length off = water_of(reach, waterway_, here).distance_to(PlaneShape::point({0, 0}));
    if (off <= kBridgeNear) within = std::max(within, reach.width.value_or(kBridgeNearInArea));
  }
  return within;
}

void RouteSurvey::find_own_currents() {
  for (const Stretch& stretch : track_.stretches) {
    for (std::size_t i = 0; i < waterway_.depth_areas.size(); ++i) {
      const DepthArea& area = waterway_.depth_areas[i];
      if (area.stations.current.empty()) continue;
      if (!stretch.may_come_within(area.shape, metres(0))) continue;
      for (const Reaches& piece :
           stretch.project(area.shape).common_with(stretch.line()).pieces()) {
        const bool from_the_begin = in_metres(piece.begin) < kShortestRun_m;
        const bool to_the_end = in_metres(stretch.length() - piece.end) < kShortestRun_m;
        own_currents_.push_back(
            {from_the_begin ? stretch.begins_along() : stretch.begins_along() + piece.begin,
             to_the_end ? stretch.ends_along() : stretch.begins_along() + piece.end, i});
      }
    }
  }
}

void RouteSurvey::find_meetings() {
  const auto add = [](std::vector<Meeting>& all, const std::vector<Meeting>& more) {
    all.insert(all.end(), more.begin(), more.end());
  };
  const auto met_overhead = [this](std::size_t i, const Shape& shape) {
    const auto* point = std::get_if<PointShape>(&shape);
    return point != nullptr ? passes_of(track_, i, shape, counts_within(*point))
                            : meetings_with(track_, i, shape, half_width_);
  };
  for (std::size_t i = 0; i < waterway_.bridges.size(); ++i) {
    add(bridges_, met_overhead(i, widened(waterway_.bridges[i].shape)));
  }
  for (std::size_t i = 0; i < waterway_.cables.size(); ++i) {
    add(cables_, met_overhead(i, widened(waterway_.cables[i].shape)));
  }
  for (std::size_t i = 0; i < waterway_.bars.size(); ++i) {
    add(bars_, meetings_with(track_, i, waterway_.bars[i].shape, half_width_));
  }
  for (std::size_t i = 0; i < waterway_.marks.size(); ++i) {
    add(marks_, passes_of(track_, i, waterway_.marks[i].shape, kMarkNear));
  }
  for (std::size_t i = 0; i < waterway_.refuges.size(); ++i) {
    add(refuges_, nearest_passing(track_, i, waterway_.refuges[i].shape, kRefugeNear));
  }
  for (std::size_t i = 0; i < waterway_.turning_places.size(); ++i) {
    add(turning_places_,
        nearest_passing(track_, i, widened(waterway_.turning_places[i].shape), kTurningNear));
  }
  for (std::size_t i = 0; i < waterway_.notes.size(); ++i) {
    add(notes_, nearest_passing(track_, i, waterway_.notes[i].shape, kMarkNear));
  }
  for (auto* all : {&bridges_, &cables_, &bars_, &marks_, &refuges_, &turning_places_, &notes_}) {
    sort_by_passing(*all);
  }
  for (const Meeting& meeting : marks_) {
    buoyage_.push_back(buoyage_at(waterway_.marks[meeting.index], waterway_));
  }
}

void RouteSurvey::find_bar_depths() {
  for (const Meeting& bar : bars_) {
    bar_depths_.push_back({source_of(waterway_.bars[bar.index]), bar.begin, bar.end});
  }
}

/// In a plane with its zero near the place: the straight way there from the nearest point of the
/// track, as wide as the corridor. Nothing where the corridor reaches the place.
std::optional<PlaneShape> RouteSurvey::way_to(const Meeting& meeting, const Stretch& here,
                                              const PlaneShape& place) const {
  if (meeting.off <= half_width_) return std::nullopt;
  const PlanePoint from = here.project(track_.position_at(meeting.along));
  const PlanePoint to = place.nearest_to(PlaneShape::point(from));
  const double length_m = std::hypot(to.x_m - from.x_m, to.y_m - from.y_m);
  if (length_m <= 0) return std::nullopt;
  const double aside = in_metres(half_width_) / length_m;
  const double x_m = (from.y_m - to.y_m) * aside;
  const double y_m = (to.x_m - from.x_m) * aside;
  return PlaneShape::polygon({{{from.x_m + x_m, from.y_m + y_m},
                               {to.x_m + x_m, to.y_m + y_m},
                               {to.x_m - x_m, to.y_m - y_m},
                               {from.x_m - x_m, from.y_m - y_m},
                               {from.x_m + x_m, from.y_m + y_m}}});
}

/// A bridge or a cable over the way to a place; empty: none.
std::string RouteSurvey::over_the_way(const Stretch& here, const PlaneShape& way) const {
  const auto crosses = [&](const auto& feature) {
    const Shape shape = widened(feature.shape);
    const PlaneShape drawn = here.project(shape);
    const auto* point = std::get_if<PointShape>(&shape);
    return point != nullptr ? drawn.distance_to(way) <= counts_within(*point) : drawn.touches(way);
  };
  for (const Bridge& bridge : waterway_.bridges) {
    if (crosses(bridge)) return bridge.name;
  }
  for (const OverheadCable& cable : waterway_.cables) {
    if (crosses(cable)) return cable.name;
  }
  return "";
}

DepthSource RouteSurvey::shoalest_on_the_way(const Meeting& meeting, const Stretch& here,
                                             const PlaneShape& place, PlaneShape water) const {
  std::optional<PlaneShape> way = way_to(meeting, here, place);
  if (!way) return shoalest_in(waterway_, here, water);
  const std::string over = over_the_way(here, *way);
  std::vector<PlaneShape> both;
  both.push_back(std::move(water));
  both.push_back(*std::move(way));
  DepthSource shoalest = shoalest_in(waterway_, here, PlaneShape::joined(both));
  if (!over.empty()) shoalest.charted = not_known("the way there is under " + over);
  return shoalest;
}

void RouteSurvey::find_depths_of_places() {
  const auto round_point = [this] { return PlaneShape::point({0, 0}).grown(half_length_ * 2); };
  for (const Meeting& meeting : refuges_) {
    const Stretch here = plane_at(waterway_.refuges[meeting.index].shape);
    refuge_depths_.push_back(
        shoalest_on_the_way(meeting, here, PlaneShape::point({0, 0}), round_point()));
  }
  for (const Meeting& meeting : turning_places_) {
    const auto& shape = waterway_.turning_places[meeting.index].shape;
    const auto* area = std::get_if<PolygonShape>(&shape);
    const Stretch here =
        plane_at(area != nullptr ? area->rings.front().front() : std::get<PointShape>(shape));
    turning_depths_.push_back(
        area != nullptr
            ? shoalest_on_the_way(meeting, here, here.project(*area), here.project(*area))
            : shoalest_on_the_way(meeting, here, PlaneShape::point({0, 0}), round_point()));
  }
}

std::optional<std::size_t> RouteSurvey::berth_near(Position position) const {
  const Stretch here = plane_at(position);
  std::optional<std::size_t> best;
  Length least = kBerthNear;
  for (std::size_t i = 0; i < waterway_.berths.size(); ++i) {
    const Shape& shape = waterway_.berths[i].shape;
    if (!here.may_come_within(shape, kBerthNear)) continue;
    const Length off = here.project(shape).distance_to(PlaneShape::point({0, 0}));
    if (off > least) continue;
    least = off;
    best = i;
  }
  return best;
}

/// Whether the boat swings where a stretch begins; the ends of the track are no turns.
bool RouteSurvey::turns_at_begin_of(std::size_t stretch_index) const {
  if (stretch_index == 0 || stretch_index >= track_.stretches.size()) return false;
  const Angle turn =
      track_.stretches[stretch_index].course() - track_.stretches[stretch_index - 1].course();
  return std::abs(turn.in_degrees()) >= kLeastTurn_deg;
}

bool belongs_to(const Run& run, const DepthOnTrack& depth) {
  // Shorter than this along the track it is a point, as a sounding is.
  constexpr Length kShortThing = metres(0.01);
  const Length common = std::min(depth.end, run.end) - std::max(depth.begin, run.begin);
  return depth.end - depth.begin < kShortThing ? common >= metres(0) : common > metres(0);
}

std::string RouteSurvey::name_of(const Run& run) const {
  if (run.reach) return waterway_.reaches[*run.reach].name;
  const LegOfTrack& leg = track_.legs[track_.stretch_at(run.begin).leg()];
  return "water outside every reach, " + leg.from + " to " + leg.to;
}

std::vector<const DepthOnTrack*> RouteSurvey::depths_under(std::size_t stretch, int step,
                                                           Length along) const {
  std::vector<const DepthOnTrack*> under;
  for (const DepthOnTrack& depth : depths(stretch, step)) {
    if (depth.begin <= along + half_length_ && depth.end >= along - half_length_) {
      under.push_back(&depth);
    }
  }
  return under;
}

std::vector<std::vector<Position>> RouteSurvey::corridor_rings(std::size_t stretch) const {
  std::vector<std::vector<Position>> rings;
  for (const std::vector<PlanePoint>& run : corridor(stretch, 0).runs()) {
    rings.emplace_back();
    for (const PlanePoint& point : run) {
      rings.back().push_back(track_.stretches[stretch].position(point));
    }
  }
  return rings;
}

PlaneShape RouteSurvey::corridor(std::size_t stretch_index, int step) const {
  const Stretch& stretch = track_.stretches[stretch_index];
  const double port_m = in_metres(half_width_ + (step < 0 ? extra_of(step) : metres(0)));
  const double starboard_m = in_metres(half_width_ + (step > 0 ? extra_of(step) : metres(0)));
  const double length_m = in_metres(stretch.length());
  const Length at_turn = half_width_ + half_length_;
  const bool turns_in = turns_at_begin_of(stretch_index);
  const bool turns_out = turns_at_begin_of(stretch_index + 1);
  // Where the track goes straight on, what the hull's ends reach is in the next corridor.
  const bool first = stretch_index == 0;
  const bool last = stretch_index + 1 == track_.stretches.size();
  const double behind_m = turns_in || first ? in_metres(half_length_) : 0;
  const double ahead_m = turns_out || last ? in_metres(half_length_) : 0;
  std::vector<PlaneShape> parts;
  parts.push_back(PlaneShape::rectangle({-behind_m, -port_m}, {length_m + ahead_m, starboard_m}));
  if (turns_in) parts.push_back(PlaneShape::point({0, 0}).grown(at_turn));
  if (turns_out) parts.push_back(PlaneShape::point({length_m, 0}).grown(at_turn));
  PlaneShape whole = PlaneShape::joined(parts);
  const double far_m = 2 * (port_m + starboard_m + in_metres(at_turn));
  for (const Run& run : runs_) {
    if (!run.clipped || run.end <= stretch.begins_along() || run.begin >= stretch.ends_along()) {
      continue;
    }
    const double begin_m = in_metres(run.begin - stretch.begins_along());
    const double end_m = in_metres(run.end - stretch.begins_along());
    // Where the run goes on round the turn, or the track ends, the band takes the whole end of the
    // corridor with it.
    const bool from_behind = begin_m < 0 || run.begin <= metres(0);
    const bool to_beyond = end_m > length_m || run.end >= track_.length;
    const PlaneShape band = PlaneShape::rectangle({from_behind ? -far_m : begin_m, -far_m},
                                                  {to_beyond ? length_m + far_m : end_m, far_m});
    PlaneShape inside = whole.common_with(band).common_with(
        water_of(waterway_.reaches[*run.reach], waterway_, stretch));
    std::vector<PlaneShape> both;
    both.push_back(whole.without(band));
    both.push_back(std::move(inside));
    whole = PlaneShape::joined(both);
  }
  return whole;
}

std::vector<DepthOnTrack> RouteSurvey::find_depths(std::size_t stretch, int step) const {
  std::vector<DepthOnTrack> found =
      depths_in_corridor(waterway_, track_.stretches[stretch], corridor(stretch, step));
  // Of a reach that begins or ends at the joint only the hull's end is met from here: it is judged
  // in the run through that reach.
  const Length joint = metres(kShortestRun_m);
  const auto is_next_door = [&](const DepthOnTrack& depth) {
    if (!depth.source.reach || depth.begin < depth.end) return false;
    const bool at_begin = depth.begin <= track_.stretches[stretch].begins_along();
    const Run& here = run_at(at_begin ? depth.begin + joint : depth.begin - joint);
    const Run& there = run_at(at_begin ? depth.begin - joint : depth.begin + joint);
    return here.reach != depth.source.reach && there.reach == depth.source.reach;
  };
  std::erase_if(found, is_next_door);
  return found;
}

void RouteSurvey::find_blocks() {
  for (std::size_t s = 0; s < track_.stretches.size(); ++s) {
    const Stretch& stretch = track_.stretches[s];
    for (std::size_t r = 0; r < runs_.size(); ++r) {
      const Length begin = std::max(runs_[r].begin, stretch.begins_along());
      const Length end = std::min(runs_[r].end, stretch.ends_along());
      if (end - begin < kShortestPiece) continue;
      const int parts = static_cast<int>(std::ceil((end - begin) / kLongestBlock));
      for (int p = 0; p < parts; ++p) {
        const Length from = begin + (end - begin) * (double(p) / parts);
        blocks_.push_back({s, r, blocks_.empty() ? metres(0) : blocks_.back().end, from,
                           begin + (end - begin) * ((p + 1.0) / parts), track_.position_at(from)});
      }
    }
  }
}

std::vector<Length> RouteSurvey::cuts_of(const TrackBlock& block,
                                         const std::vector<DepthOnTrack>& depths) const {
  std::vector<Length> cuts{block.begin, block.end};
  const auto add = [&](Length at) {
    if (at > block.begin && at < block.end) cuts.push_back(at);
  };
  for (const auto* all : {&depths, &bar_depths_}) {
    for (const DepthOnTrack& depth : *all) {
      add(depth.begin - half_length_);
      add(depth.end + half_length_);
    }
  }
  for (const Meeting& bridge : bridges_) add(bridge.along);
  for (const OwnCurrent& own : own_currents_) {
    add(own.begin);
    add(own.end);
  }
  std::ranges::sort(cuts);
  std::vector<Length> fine;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const int parts = static_cast<int>(std::ceil((cuts[i + 1] - cuts[i]) / kLongestPiece));
    for (int p = 0; p < parts; ++p) {
      fine.push_back(cuts[i] + (cuts[i + 1] - cuts[i]) * (double(p) / parts));
    }
  }
  fine.push_back(cuts.back());
  return fine;
}

SurveyedPiece RouteSurvey::piece_of(const TrackBlock& block, int step,
                                    const std::vector<DepthOnTrack>& depths, Length begin,
                                    Length end) const {
  SurveyedPiece piece{block.stretch,
                      block.run,
                      step,
                      begin,
                      end,
                      track_.position_at(begin),
                      track_.position_at((begin + end) / 2),
                      {},
                      {},
                      {}};
  const auto comes_over = [&](const DepthOnTrack& depth) {
    return depth.begin - half_length_ < end && depth.end + half_length_ > begin;
  };
  // Over one tide the least water is over the least charted depth; an unknown one hides nothing.
  const auto take_least = [&piece](const DepthOnTrack& depth) {
    const auto same_tide = std::ranges::find_if(piece.least, [&depth](const DepthOnTrack* other) {
      return other->source.charted.has_value() == depth.source.charted.has_value() &&
             other->source.stations == depth.source.stations;
    });
    if (same_tide == piece.least.end()) {
      piece.least.push_back(&depth);
    } else if (depth.source.charted.has_value() &&
               *depth.source.charted < *(*same_tide)->source.charted) {
      *same_tide = &depth;
    }
  };
  for (const DepthOnTrack& depth : depths) {
    if (!comes_over(depth)) continue;
    piece.depths.push_back(&depth);
    take_least(depth);
  }
  // Told by itself, but she is slowed for it as for any depth.
  for (const DepthOnTrack& bar : bar_depths_) {
    if (comes_over(bar)) take_least(bar);
  }
  for (const DriftTarget& target : targets_[block.stretch]) {
    piece.targets.push_back(
        target_off(target, track_.stretches[block.stretch], piece.begin, piece.end));
  }
  return piece;
}

std::vector<SurveyedPiece> RouteSurvey::find_pieces(const TrackBlock& block, int step) const {
  const std::vector<DepthOnTrack>& here = depths(block.stretch, step);
  const std::vector<Length> cuts = cuts_of(block, here);
  std::vector<SurveyedPiece> pieces;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    if (cuts[i + 1] - cuts[i] < kShortestPiece && i + 2 < cuts.size()) continue;
    pieces.push_back(
        piece_of(block, step, here, pieces.empty() ? block.joins : pieces.back().end, cuts[i + 1]));
  }
  return pieces;
}

const std::vector<SurveyedPiece>& RouteSurvey::pieces(std::size_t block, int step) const {
  const std::scoped_lock lock(pieces_mutex_);
  std::unique_ptr<std::vector<SurveyedPiece>>& found = pieces_[{block, step}];
  if (!found) {
    found = std::make_unique<std::vector<SurveyedPiece>>(find_pieces(blocks_[block], step));
  }
  return *found;
}

int RouteSurvey::as_narrow_as(std::size_t block, int step) const {
  if (step == 0) return 0;
  {
    const std::scoped_lock lock(narrow_mutex_);
    const auto known = narrow_.find({block, step});
    if (known != narrow_.end()) return known->second;
  }
  int found = 0;
  if (!same_depths(pieces(block, step), pieces(block, 0))) {
    const int narrower = as_narrow_as(block, step > 0 ? step - 1 : step + 1);
    found = same_depths(pieces(block, step), pieces(block, narrower)) ? narrower : step;
  }
  const std::scoped_lock lock(narrow_mutex_);
  return narrow_[{block, step}] = found;
}

Length RouteSurvey::lee_edge(std::size_t run_index) const {
  const Run& run = runs_[run_index];
  Length half = half_width_;
  if (run.clipped && waterway_.reaches[*run.reach].width) {
    half = std::min(half, *waterway_.reaches[*run.reach].width / 2);
  }
  return half + half_length_;
}

const GrownTarget& RouteSurvey::grown_target(std::size_t stretch, std::size_t target,
                                             std::size_t run) const {
  const Length edge = lee_edge(run);
  const std::scoped_lock lock(grown_mutex_);
  std::unique_ptr<GrownTarget>& grown = grown_[{stretch, target, in_metres(edge)}];
  if (!grown) {
    std::vector<std::vector<PlanePoint>> edges = targets_[stretch][target].shape.grown(edge).runs();
    const PlaneBox box = box_round(edges);
    grown = std::make_unique<GrownTarget>(GrownTarget{std::move(edges), box});
  }
  return *grown;
}

Position RouteSurvey::position_at(Length along) const {
  const std::scoped_lock lock(positions_mutex_);
  const auto held = positions_.find(in_metres(along));
  if (held != positions_.end()) return held->second;
  return positions_.emplace(in_metres(along), track_.position_at(along)).first->second;
}

const SunOfDay& RouteSurvey::sun_on(Span day) const {
  const std::scoped_lock lock(days_mutex_);
  const auto held = days_.find(day.begin);
  if (held != days_.end()) return held->second;
  const SunOfDay sun{sun_times_of_day(track_.legs.front().begin, day),
                     sun_times_of_day(track_.legs.back().end, day)};
  return days_.emplace(day.begin, sun).first->second;
}

const std::vector<DepthOnTrack>& RouteSurvey::depths(std::size_t stretch, int step) const {
  const std::scoped_lock lock(depths_mutex_);
  std::unique_ptr<std::vector<DepthOnTrack>>& found = depths_[{stretch, step}];
  if (!found) found = std::make_unique<std::vector<DepthOnTrack>>(find_depths(stretch, step));
  return *found;
}

}  // namespace passage_brief
