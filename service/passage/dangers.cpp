#include "passage/dangers.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "facts/facts.h"
#include "passage/channel_strip.h"
#include "passage/disabled_drift.h"
#include "passage/findings.h"
#include "passage/plane_shape.h"
#include "passage/route_survey.h"
#include "passage/sweep.h"
#include "passage/timeline.h"
#include "passage/water_level.h"
#include "plan/plan.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

constexpr double kHorizon_s = 3600;
constexpr Length kNearUnknown = nautical_miles(0.25);
constexpr Length kFarthest = nautical_miles(6);  // an hour at any drift a small craft survives
constexpr Length kSamePlace = metres(1);
constexpr int kDown = 5;
constexpr int kAcross = 9;
// A part of the drift this small is neither wind's nor current's doing.
constexpr double kPush_m_s = 0.02;

/// Something that may lie in the way of a drifting boat.
struct Target {
  std::string name;
  std::string what;
  DangerKind kind;
  Bottom bottom;
  PlaneShape shape;                  // in the plane of one stretch
  bool single_point;                 // drawn as one
  std::optional<DepthSource> depth;  // of shoal water: counts only while shoaler than the draft
};

bool crossed(const RouteSurvey& survey, std::size_t bridge) {
  return std::ranges::any_of(survey.bridges(),
                             [bridge](const Meeting& m) { return m.index == bridge; });
}

std::vector<Target> targets_near(const RouteSurvey& survey, const Stretch& stretch) {
  const Waterway& waterway = survey.waterway();
  std::vector<Target> targets;
  const auto near = [&stretch](const Shape& shape) {
    return stretch.may_come_within(shape, kFarthest);
  };
  for (const Hazard& hazard : waterway.hazards) {
    if (!near(hazard.shape)) continue;
    PlaneShape shape = stretch.project(hazard.shape);
    if (hazard.position_within && *hazard.position_within > metres(0)) {
      shape = shape.grown(*hazard.position_within);
    }
    targets.push_back({hazard.name, hazard.what, DangerKind::hazard, hazard.bottom,
                       std::move(shape), std::holds_alternative<PointShape>(hazard.shape),
                       std::nullopt});
  }
  for (std::size_t i = 0; i < waterway.bridges.size(); ++i) {
    // A bridge on the way is no danger to leeward: it is passed, and judged, as a bridge.
    if (crossed(survey, i)) continue;
    const Bridge& bridge = waterway.bridges[i];
    const Shape shape = std::visit([](const auto& s) { return Shape(s); }, bridge.shape);
    if (!near(shape)) continue;
    targets.push_back({bridge.name, in_words(bridge.what) + " bridge", DangerKind::bridge,
                       Bottom::not_stated, stretch.project(shape), false, std::nullopt});
  }
  for (const DepthArea& area : waterway.depth_areas) {
    if (!near(area.shape)) continue;
    targets.push_back(
        {area.name, "shoal water", DangerKind::shoal_water, area.bottom,
         stretch.project(area.shape), false,
         DepthSource{DepthSourceKind::depth_area, area.name, area.least_depth, false, area.stations,
                     area.bottom, area.surveyed, area.survey_quality}});
  }
  for (const Sounding& sounding : waterway.soundings) {
    if (!near(sounding.shape)) continue;
    targets.push_back({sounding.name, "shoal sounding", DangerKind::shoal_water, sounding.bottom,
                       stretch.project(Shape(sounding.shape)), true,
                       DepthSource{DepthSourceKind::sounding, sounding.name, sounding.depth, false,
                                   sounding.stations, sounding.bottom, sounding.surveyed,
                                   sounding.survey_quality}});
  }
  return targets;
}

/// The soonest a drift meets a target.
struct Met {
  double seconds;
  PlaneVelocity drift;
};

class DangerFinder {
 public:
  DangerFinder(const RouteSurvey& survey, const Timeline& timeline, const Plan& plan,
               const Facts& facts)
      : survey_(survey), timeline_(timeline), plan_(plan), facts_(facts) {}

  std::vector<Danger> find() {
    for (std::size_t s = 0; s < survey_.track().stretches.size(); ++s) {
      const std::vector<Target> targets = targets_near(survey_, survey_.track().stretches[s]);
      for (const Target& target : targets) sweep_target(s, target);
    }
    count_once_at_joints();
    std::vector<Danger> dangers;
    for (auto& [key, danger] : soonest_) dangers.push_back(std::move(danger));
    std::ranges::stable_sort(dangers, {}, [](const Danger& d) {
      return std::pair(d.leg, d.reached_in.has_value() ? in_seconds(*d.reached_in) : -1.0);
    });
    return dangers;
  }

 private:
  /// How far a point lies from a leg, and from the leg's two ends.
  struct Offs {
    Length nearest;
    Length at_begin;
    Length at_end;
  };

  void measure(const TimedPiece& timed, const Target& target, PlanePoint begin, PlanePoint end,
               Length off) {
    if (!target.single_point) return;
    const Length at_begin = target.shape.distance_to(PlaneShape::point(begin));
    const Length at_end = target.shape.distance_to(PlaneShape::point(end));
    const auto [found, first] =
        offs_.try_emplace(std::pair(timed.piece.leg, target.name), Offs{off, at_begin, at_end});
    if (first) return;
    found->second.nearest = std::min(found->second.nearest, off);
    found->second.at_end = at_end;
  }

  /// A point abeam of a joint is as near to the leg before as to the leg after: one danger, the
  /// sooner of the two.
  void count_once_at_joints() {
    for (const auto& [key, before] : offs_) {
      const auto next = std::pair(key.first + 1, key.second);
      const auto after = offs_.find(next);
      if (after == offs_.end()) continue;
      if (before.at_end - before.nearest > kSamePlace ||
          after->second.at_begin - after->second.nearest > kSamePlace) {
        continue;
      }
      const auto one = soonest_.find(key);
      const auto other = soonest_.find(next);
      if (one == soonest_.end() || other == soonest_.end()) continue;
      const bool later_is_sooner =
          sooner(other->second.reached_in, other->second.distance, one->second);
      soonest_.erase(later_is_sooner ? one : other);
    }
  }

  void sweep_target(std::size_t stretch_index, const Target& target) {
    // One growth for each width of lee edge: clipped channels are narrower.
    std::map<double, std::vector<std::vector<PlanePoint>>> grown;
    for (const TimedPiece& timed : timeline_.pieces()) {
      if (timed.stretch != stretch_index || !counts(target, timed)) continue;
      const double edge_m = in_metres(lee_edge(timed));
      auto found = grown.find(edge_m);
      if (found == grown.end()) {
        found = grown.emplace(edge_m, target.shape.grown(metres(edge_m)).runs()).first;
      }
      sweep_piece(timed, target, found->second, metres(edge_m));
    }
  }

  /// Half the corridor, or half the channel where that is narrower, and half a length.
  Length lee_edge(const TimedPiece& timed) const {
    const Run& run = survey_.runs()[timed.run];
    Length half = survey_.half_width();
    if (run.clipped && survey_.waterway().reaches[*run.reach].width) {
      half = std::min(half, *survey_.waterway().reaches[*run.reach].width / 2);
    }
    return half + plan_.vessel.length / 2;
  }

  /// Shoal water counts while it is shoaler than the draft, or may be.
  bool counts(const Target& target, const TimedPiece& timed) const {
    if (!target.depth) return true;
    const Known<Length> water =
        join([](Length charted, TideHeight level) { return charted + level.above_datum(); },
             target.depth->charted, level_at(facts_, target.depth->stations, timed.piece.begins));
    return !water.has_value() || *water < plan_.vessel.draft;
  }

  void sweep_piece(const TimedPiece& timed, const Target& target,
                   const std::vector<std::vector<PlanePoint>>& grown, Length edge) {
    const Stretch& stretch = survey_.track().stretches[timed.stretch];
    const PlanePoint a{in_metres(timed.piece.begin - stretch.begins_along()), 0};
    const PlanePoint b{in_metres(timed.piece.end - stretch.begins_along()), 0};
    const PlaneShape line = PlaneShape::line({a, b});
    const Length off = target.shape.distance_to(line);
    const double side = target.shape.nearest_to(line).y_m;
    measure(timed, target, a, b, off);
    const Known<std::vector<PlaneVelocity>> fan = fan_of(timed, stretch);
    if (!fan.has_value()) {
      if (off > kNearUnknown + edge) return;
      keep(timed, target, side, true, true, std::max(off - edge, metres(0)), not_known_as(fan));
      return;
    }
    std::optional<Met> met;
    for (const PlaneVelocity& drift : *fan) {
      // Overlapping the lee edge already counts as met at once.
      const std::optional<double> seconds =
          off <= edge ? std::optional<double>(0) : seconds_until_met(a, b, drift, grown);
      if (seconds && *seconds <= kHorizon_s && (!met || *seconds < met->seconds)) {
        met = Met{*seconds, drift};
      }
    }
    if (!met) return;
    const auto [by_wind, by_current] = doing(timed, stretch, met->drift, side, off <= edge);
    if (!by_wind && !by_current) return;
    const double speed_m_s = std::hypot(met->drift.x_m_s, met->drift.y_m_s);
    keep(timed, target, side, by_wind, by_current,
         std::min(metres(speed_m_s * met->seconds), std::max(off - edge, metres(0))),
         seconds_long(met->seconds));
  }

  Known<std::vector<PlaneVelocity>> fan_of(const TimedPiece& timed, const Stretch& stretch) const {
    return join(
        [&](const Wind& wind, const Velocity& current) {
          const auto corners =
              drift_corners(plan_.vessel.hull, velocity(wind.from, wind.speed), current);
          std::vector<PlaneVelocity> fan;
          for (int d = 0; d < kDown; ++d) {
            for (int c = 0; c < kAcross; ++c) {
              const double down = d / (kDown - 1.0);
              const double right = c / (kAcross - 1.0);
              const Velocity v = (corners[0] * (1 - right) + corners[1] * right) * (1 - down) +
                                 (corners[2] * (1 - right) + corners[3] * right) * down;
              fan.push_back(in_plane(stretch, v));
            }
          }
          return fan;
        },
        timed.wind, timed.current);
  }

  static PlaneVelocity in_plane(const Stretch& stretch, Velocity v) {
    const PlanePoint toward = stretch.toward(bearing_of(v));
    const double speed_m_s = in_metres_per_second(speed_of(v));
    return {toward.x_m * speed_m_s, toward.y_m * speed_m_s};
  }

  /// Whether wind and current each carry her that way.
  std::pair<bool, bool> doing(const TimedPiece& timed, const Stretch& stretch, PlaneVelocity drift,
                              double side, bool at_the_edge) const {
    const PlaneVelocity set = in_plane(stretch, *timed.current);
    const PlaneVelocity blown = in_plane(stretch, velocity(timed.wind->from, timed.wind->speed));
    // What already lies at the edge is met whichever way she goes to that side.
    const double toward_x = at_the_edge ? 0 : drift.x_m_s;
    const double toward_y = at_the_edge ? (side < 0 ? -1.0 : 1.0) : drift.y_m_s;
    const double length = std::hypot(toward_x, toward_y);
    if (length == 0) return {false, false};
    const auto part = [&](PlaneVelocity v) {
      return (v.x_m_s * toward_x + v.y_m_s * toward_y) / length;
    };
    return {part(blown) > kPush_m_s, part(set) > kPush_m_s};
  }

  void keep(const TimedPiece& timed, const Target& target, double side, bool by_wind,
            bool by_current, Length distance, Known<Interval> reached_in) {
    const std::size_t leg = timed.piece.leg;
    const auto key = std::pair(leg, target.name);
    const auto found = soonest_.find(key);
    if (found != soonest_.end() && !sooner(reached_in, distance, found->second)) return;
    const Known<Length> holds = anchor_holds_in(plan_.vessel);
    const Known<Length> water =
        join([](Length charted, TideHeight h) { return charted + h.above_datum(); },
             timed.piece.charted, timed.piece.height_of_tide);
    Danger danger{.name = target.name,
                  .what = target.what,
                  .kind = target.kind,
                  .leg = leg,
                  .passing = {timed.piece.begin, timed.piece.begins,
                              survey_.track().position_at(timed.piece.begin), leg},
                  .side = side < 0 ? Side::port : Side::starboard,
                  .to_leeward = by_wind,
                  .set_toward = by_current,
                  .distance = distance,
                  .reached_in = std::move(reached_in),
                  .bottom = target.bottom,
                  .anchor_holds_in = holds,
                  .anchor_would_hold =
                      join([](Length most, Length deep) { return deep <= most; }, holds, water),
                  .working = {}};
    danger.working = working_of(danger, timed);
    soonest_.insert_or_assign(key, std::move(danger));
  }

  static bool sooner(const Known<Interval>& reached_in, Length distance, const Danger& than) {
    if (reached_in.has_value() != than.reached_in.has_value()) return !reached_in.has_value();
    if (!reached_in.has_value()) return distance < than.distance;
    return *reached_in < *than.reached_in;
  }

  Working working_of(const Danger& danger, const TimedPiece& timed) const {
    Working working{"time to " + danger.name + " with engines stopped",
                    "way drifted from the lee edge of the corridor / drift, soonest of the fan; "
                    "the distance is "
                    "the straight one",
                    {{"distance", danger.distance, "waterway"}},
                    std::string("not known"),
                    "Allen & Plourde 1999; Allen 2005"};
    if (timed.wind.has_value()) {
      working.inputs.push_back({"wind", timed.wind->speed, "forecast"});
    }
    if (timed.current.has_value()) {
      working.inputs.push_back({"current", speed_of(*timed.current), "current station"});
    }
    if (danger.reached_in.has_value()) working.result = *danger.reached_in;
    return working;
  }

  const RouteSurvey& survey_;
  const Timeline& timeline_;
  const Plan& plan_;
  const Facts& facts_;
  std::map<std::pair<std::size_t, std::string>, Danger> soonest_;  // by leg and name
  std::map<std::pair<std::size_t, std::string>, Offs> offs_;
};

}  // namespace

Known<Length> anchor_holds_in(const Vessel& vessel) {
  if (!vessel.anchor) return not_known("the vessel file states no anchor");
  const double scope = vessel.anchor->of == RodeOf::chain ? 4 : 7;
  return std::max(vessel.anchor->rode / scope - vessel.anchor->bow_roller, metres(0));
}

std::vector<Danger> dangers_on(const RouteSurvey& survey, const Timeline& timeline,
                               const Plan& plan, const Facts& facts) {
  return DangerFinder(survey, timeline, plan, facts).find();
}

}  // namespace passage_brief
