#include "passage/dangers.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/facts.h"
#include "passage/disabled_drift.h"
#include "passage/drift_targets.h"
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

constexpr Length kNearUnknown = nautical_miles(0.25);
constexpr Length kSamePlace = metres(1);
constexpr int kDown = 5;
constexpr int kAcross = 9;
// A part of the drift this small is neither wind's nor current's doing.
constexpr double kPush_m_s = 0.02;

// A lee edge is grown by at most this much more than its length (PlaneShape::grown), so that a
// drift may meet the edge so much sooner.
constexpr double kGrownOutside = 1.01;
constexpr double kMillisecond_s = 1e-3;

/// The soonest a drift meets a target.
struct Met {
  double seconds;
  PlaneVelocity drift;
};

/// All drifts the fan allows from one piece of the track: those between four corners.
class Fan {
 public:
  explicit Fan(const std::array<PlaneVelocity, 4>& corners) : corners_(corners) {
    for (const PlaneVelocity& v : corners_) {
      least_ = {std::min(least_.x_m_s, v.x_m_s), std::min(least_.y_m_s, v.y_m_s)};
      most_ = {std::max(most_.x_m_s, v.x_m_s), std::max(most_.y_m_s, v.y_m_s)};
    }
    fastest_m_s_ =
        std::hypot(std::max(-least_.x_m_s, most_.x_m_s), std::max(-least_.y_m_s, most_.y_m_s));
  }

  /// The least and the most of their parts.
  [[nodiscard]] PlaneVelocity least() const { return least_; }
  [[nodiscard]] PlaneVelocity most() const { return most_; }
  /// None is faster.
  [[nodiscard]] double fastest_m_s() const { return fastest_m_s_; }
  [[nodiscard]] PlaneVelocity first() const { return corners_[0]; }

  /// Worked out when first asked for: most pieces have nothing within reach.
  const std::vector<PlaneVelocity>& drifts() {
    if (!drifts_.empty()) return drifts_;
    if (least_.x_m_s == most_.x_m_s && least_.y_m_s == most_.y_m_s) {
      drifts_.push_back(corners_[0]);  // a calm: the current alone
      return drifts_;
    }
    for (int d = 0; d < kDown; ++d) {
      for (int c = 0; c < kAcross; ++c) {
        const double right = c / (kAcross - 1.0);
        drifts_.push_back(part_way(part_way(corners_[0], corners_[1], right),
                                   part_way(corners_[2], corners_[3], right), d / (kDown - 1.0)));
      }
    }
    return drifts_;
  }

 private:
  static PlaneVelocity part_way(PlaneVelocity a, PlaneVelocity b, double part) {
    return {a.x_m_s * (1 - part) + b.x_m_s * part, a.y_m_s * (1 - part) + b.y_m_s * part};
  }

  std::array<PlaneVelocity, 4> corners_;  // least and most downwind, each left and right
  PlaneVelocity least_{INFINITY, INFINITY};
  PlaneVelocity most_{-INFINITY, -INFINITY};
  double fastest_m_s_ = 0;
  std::vector<PlaneVelocity> drifts_;
};

/// One target as it is reached from one piece.
struct Reached {
  const TimedPiece* from;
  const DriftTarget* target;
  double side;
  bool by_wind;
  bool by_current;
  Length distance;
  Known<Interval> in;
  std::optional<PlaneVelocity> drift = std::nullopt;  // that brings her there; none from its edge
};

class DangerFinder {
 public:
  DangerFinder(const RouteSurvey& survey, const Timeline& timeline, const Plan& plan,
               const Facts& facts, const Margins& margins, Interval within)
      : survey_(survey),
        timeline_(timeline),
        plan_(plan),
        facts_(facts),
        margins_(margins),
        within_s_(in_seconds(within)) {}

  std::vector<Danger> find() {
    for (const TimedPiece& timed : timeline_.pieces()) {
      levels_.clear();
      const Stretch& stretch = survey_.track().stretches[timed.stretch];
      Known<Fan> fan = fan_of(timed, stretch);
      const std::vector<DriftTarget>& targets = survey_.drift_targets(timed.stretch);
      for (std::size_t t = 0; t < targets.size(); ++t) {
        const bool near = comes_near(timed, t, fan);
        if ((near || targets[t].single_point) && counts(targets[t], timed)) {
          measure(timed, targets[t], timed.surveyed->targets[t]);
          if (near) sweep(timed, t, fan);
        }
      }
    }
    count_once_at_joints();
    std::vector<Danger> dangers;
    for (const auto& [key, reached] : soonest_) dangers.push_back(danger_of(reached));
    std::ranges::stable_sort(dangers, {}, [](const Danger& d) {
      return std::pair(d.leg, d.reached_in.has_value() ? in_seconds(*d.reached_in) : -1.0);
    });
    return dangers;
  }

 private:
  using Key = std::pair<std::size_t, std::string>;  // leg and name

  /// How far a point lies from a leg, and from the leg's two ends.
  struct Offs {
    Length nearest;
    Length at_begin;
    Length at_end;
  };

  void measure(const TimedPiece& timed, const DriftTarget& target, const TargetOff& off) {
    if (!target.single_point) return;
    const auto [found, first] = offs_.try_emplace(Key(timed.piece.leg, target.name),
                                                  Offs{off.nearest, off.from_begin, off.from_end});
    if (first) return;
    found->second.nearest = std::min(found->second.nearest, off.nearest);
    found->second.at_end = off.from_end;
  }

  /// A point abeam of a joint is as near to the leg before as to the leg after: one danger, the
  /// sooner of the two.
  void count_once_at_joints() {
    for (const auto& [key, before] : offs_) {
      const Key next(key.first + 1, key.second);
      const auto after = offs_.find(next);
      if (after == offs_.end()) continue;
      if (before.at_end - before.nearest > kSamePlace ||
          after->second.at_begin - after->second.nearest > kSamePlace) {
        continue;
      }
      const auto one = soonest_.find(key);
      const auto other = soonest_.find(next);
      if (one == soonest_.end() || other == soonest_.end()) continue;
      const bool later_is_sooner = sooner(other->second.in, other->second.distance, one->second);
      soonest_.erase(later_is_sooner ? one : other);
    }
  }

  /// Shoal water counts while it is shoaler than the draft, or may be.
  bool counts(const DriftTarget& target, const TimedPiece& timed) {
    if (!target.depth) return true;
    const Known<Length> water =
        join([](Length charted, TideHeight level) { return charted + level.above_datum(); },
             target.depth->charted, level_over(target.depth->stations, timed));
    return !water.has_value() || *water < plan_.vessel.draft;
  }

  /// As she comes to the piece; many shoals share their stations.
  const Known<TideHeight>& level_over(const FeatureStations& stations, const TimedPiece& timed) {
    for (const auto& [held, level] : levels_) {
      if (held->tide == stations.tide && held->chart_datum == stations.chart_datum) return level;
    }
    levels_.emplace_back(&stations, level_at(facts_, margins_, stations, timed.piece.begins));
    return levels_.back().second;
  }

  /// No: she does not come to it in time however she drifts.
  bool comes_near(const TimedPiece& timed, std::size_t target, const Known<Fan>& fan) const {
    const Length nearest = timed.surveyed->targets[target].nearest;
    const Length edge = survey_.lee_edge(timed.run);
    if (!fan.has_value()) return nearest <= kNearUnknown + edge;
    return in_metres(nearest) - in_metres(edge) * kGrownOutside <= fan->fastest_m_s() * within_s_;
  }

  void sweep(const TimedPiece& timed, std::size_t index, Known<Fan>& fan) {
    const DriftTarget& target = survey_.drift_targets(timed.stretch)[index];
    const TargetOff& off = timed.surveyed->targets[index];
    const Length edge = survey_.lee_edge(timed.run);
    if (!fan.has_value()) {
      keep({&timed, &target, off.side, true, true, std::max(off.nearest - edge, metres(0)),
            not_known_as(fan)});
      return;
    }
    const bool at_the_edge = off.nearest <= edge;
    const std::optional<Met> met =
        at_the_edge ? Met{0, fan->first()} : soonest_met(timed, index, off, edge, *fan);
    if (!met) return;
    const Stretch& stretch = survey_.track().stretches[timed.stretch];
    const auto [by_wind, by_current] = doing(timed, stretch, met->drift, off.side, at_the_edge);
    if (!by_wind && !by_current) return;
    const double speed_m_s = std::hypot(met->drift.x_m_s, met->drift.y_m_s);
    keep({&timed, &target, off.side, by_wind, by_current,
          std::min(metres(speed_m_s * met->seconds), std::max(off.nearest - edge, metres(0))),
          seconds_long(met->seconds), at_the_edge ? std::nullopt : std::optional(met->drift)});
  }

  /// Nothing where it is not in time, or not sooner than what is already kept for the leg.
  std::optional<Met> soonest_met(const TimedPiece& timed, std::size_t index, const TargetOff& off,
                                 Length edge, Fan& fan) const {
    double within_s = within_s_;
    const auto kept =
        soonest_.find(Key(timed.piece.leg, survey_.drift_targets(timed.stretch)[index].name));
    if (kept != soonest_.end()) {
      if (!kept->second.in.has_value()) return std::nullopt;
      within_s = std::min(within_s, in_seconds(*kept->second.in) + kMillisecond_s);
    }
    if (in_metres(off.nearest) - in_metres(edge) * kGrownOutside > fan.fastest_m_s() * within_s) {
      return std::nullopt;
    }
    const Stretch& stretch = survey_.track().stretches[timed.stretch];
    const PlanePoint a{in_metres(timed.piece.begin - stretch.begins_along()), 0};
    const PlanePoint b{in_metres(timed.piece.end - stretch.begins_along()), 0};
    const GrownTarget& grown = survey_.grown_target(timed.stretch, index, timed.run);
    if (seconds_until_any_is_near(a, b, fan.least(), fan.most(), grown.box) > within_s) {
      return std::nullopt;
    }
    struct Near {
      double seconds;
      const PlaneVelocity* drift;
    };
    std::vector<Near> soonest_first;
    for (const PlaneVelocity& drift : fan.drifts()) {
      const std::optional<double> near = seconds_until_near(a, b, drift, grown.box);
      if (near && *near <= within_s) soonest_first.push_back({*near, &drift});
    }
    if (soonest_first.empty()) return std::nullopt;
    std::ranges::stable_sort(soonest_first, {}, &Near::seconds);
    const std::vector<std::vector<PlanePoint>> edges = in_reach(grown.edges, a, b, fan, within_s);
    std::optional<Met> met;
    for (const Near& near : soonest_first) {
      if (met && near.seconds > met->seconds) break;
      const std::optional<double> seconds =
          seconds_until_met(a, b, *near.drift, edges, met ? met->seconds : within_s);
      if (seconds && *seconds <= within_s_ && (!met || *seconds < met->seconds)) {
        met = Met{*seconds, *near.drift};
      }
    }
    return met;
  }

  /// The edges that some drift of the fan may bring the line from a to b to in time.
  static std::vector<std::vector<PlanePoint>> in_reach(
      const std::vector<std::vector<PlanePoint>>& shape, PlanePoint a, PlanePoint b, const Fan& fan,
      double within_s) {
    std::vector<std::vector<PlanePoint>> edges;
    for (const std::vector<PlanePoint>& run : shape) {
      if (run.empty()) continue;
      bool joins = false;  // the edge before this one
      for (std::size_t i = 0; i + 1 < std::max<std::size_t>(run.size(), 2); ++i) {
        const PlanePoint& p = run[i];
        const PlanePoint& q = run[std::min(i + 1, run.size() - 1)];
        const PlaneBox box{{std::min(p.x_m, q.x_m), std::min(p.y_m, q.y_m)},
                           {std::max(p.x_m, q.x_m), std::max(p.y_m, q.y_m)}};
        const bool near = seconds_until_any_is_near(a, b, fan.least(), fan.most(), box) <= within_s;
        if (near && !joins) edges.push_back({p});
        if (near) edges.back().push_back(q);
        joins = near;
      }
    }
    return edges;
  }

  Known<Fan> fan_of(const TimedPiece& timed, const Stretch& stretch) const {
    return join(
        [&](const Wind& wind, const Velocity& current) {
          const auto corners =
              drift_corners(plan_.vessel.hull, velocity(wind.from, wind.speed), current);
          return Fan({stretch.in_plane(corners[0]), stretch.in_plane(corners[1]),
                      stretch.in_plane(corners[2]), stretch.in_plane(corners[3])});
        },
        timed.wind, timed.current);
  }

  /// Whether wind and current each carry her that way.
  std::pair<bool, bool> doing(const TimedPiece& timed, const Stretch& stretch, PlaneVelocity drift,
                              double side, bool at_the_edge) const {
    const PlaneVelocity set = stretch.in_plane(*timed.current);
    const PlaneVelocity blown = stretch.in_plane(velocity(timed.wind->from, timed.wind->speed));
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

  void keep(Reached reached) {
    const Key key(reached.from->piece.leg, reached.target->name);
    const auto found = soonest_.find(key);
    if (found != soonest_.end() && !sooner(reached.in, reached.distance, found->second)) return;
    soonest_.insert_or_assign(key, std::move(reached));
  }

  /// The least as she comes to a piece, but on a bar: off that she drifts at once.
  Known<Length> water_round(const TimedPiece& timed) const {
    std::optional<Known<Length>> least;
    for (const DepthOnTrack* depth : timed.surveyed->depths) {
      const Known<Length> here =
          join([](Length charted, TideHeight level) { return charted + level.above_datum(); },
               depth->source.charted,
               level_at(facts_, margins_, depth->source.stations, timed.piece.begins));
      least = least ? join([](Length a, Length b) { return std::min(a, b); }, *least, here) : here;
    }
    return least.value_or(not_known("no depth is on file here"));
  }

  Danger danger_of(const Reached& reached) const {
    const TimedPiece& timed = *reached.from;
    const Known<Length> holds = anchor_holds_in(plan_.vessel);
    const Known<Length> water = water_round(timed);
    Danger danger{.name = reached.target->name,
                  .what = reached.target->what,
                  .kind = reached.target->kind,
                  .leg = timed.piece.leg,
                  .passing = {timed.piece.begin, timed.piece.begins, timed.surveyed->begins_at,
                              timed.piece.leg},
                  .side = reached.side < 0 ? Side::port : Side::starboard,
                  .to_leeward = reached.by_wind,
                  .set_toward = reached.by_current,
                  .distance = reached.distance,
                  .reached_in = reached.in,
                  .bottom = reached.target->bottom,
                  .anchor_holds_in = holds,
                  .anchor_would_hold =
                      join([](Length most, Length deep) { return deep <= most; }, holds, water),
                  .working = {}};
    danger.working = working_of(danger, reached);
    return danger;
  }

  static bool sooner(const Known<Interval>& reached_in, Length distance, const Reached& than) {
    if (reached_in.has_value() != than.in.has_value()) return !reached_in.has_value();
    if (!reached_in.has_value()) return distance < than.distance;
    return *reached_in < *than.in;
  }

  /// Toward and how fast.
  static void add_motion(Working& working, const std::string& of, Velocity v,
                         const std::string& source) {
    working.inputs.push_back({of + " toward, true", degrees(bearing_of(v).in_degrees()), source});
    working.inputs.push_back({of, speed_of(v), source});
  }

  /// The drift of the fan that is soonest there, and its two parts.
  void add_drift(Working& working, const Reached& reached) const {
    if (!reached.drift || !reached.in.has_value()) return;
    const TimedPiece& timed = *reached.from;
    const Stretch& stretch = survey_.track().stretches[timed.stretch];
    const Speed speed = metres_per_second(std::hypot(reached.drift->x_m_s, reached.drift->y_m_s));
    const Angle off_course = radians(std::atan2(reached.drift->y_m_s, reached.drift->x_m_s));
    const Velocity drift = velocity(stretch.course() + off_course, speed);
    working.inputs.push_back({"way drifted", speed * *reached.in, "worked out"});
    add_motion(working, "drift", drift, "worked out");
    add_motion(working, "of it leeway", drift - *timed.current, "fan of the hull");
    add_motion(working, "of it current", *timed.current, "current station");
  }

  Working working_of(const Danger& danger, const Reached& reached) const {
    const TimedPiece& timed = *reached.from;
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
    add_drift(working, reached);
    if (danger.reached_in.has_value()) working.result = *danger.reached_in;
    return working;
  }

  const RouteSurvey& survey_;
  const Timeline& timeline_;
  const Plan& plan_;
  const Facts& facts_;
  const Margins& margins_;
  double within_s_;
  std::vector<std::pair<const FeatureStations*, Known<TideHeight>>> levels_;  // of one piece
  std::map<Key, Reached> soonest_;
  std::map<Key, Offs> offs_;
};

}  // namespace

Known<Length> anchor_holds_in(const Vessel& vessel) {
  if (!vessel.anchor) return not_known("the vessel file states no anchor");
  const double scope = vessel.anchor->of == RodeOf::chain ? 4 : 7;
  return std::max(vessel.anchor->rode / scope - vessel.anchor->bow_roller, metres(0));
}

std::vector<Danger> dangers_on(const RouteSurvey& survey, const Timeline& timeline,
                               const Plan& plan, const Facts& facts, const Margins& margins,
                               Interval within) {
  return DangerFinder(survey, timeline, plan, facts, margins, within).find();
}

}  // namespace passage_brief
