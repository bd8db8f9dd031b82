#include "passage/legs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/daylight/sun.h"
#include "facts/facts.h"
#include "facts/magnetic/variation.h"
#include "passage/figure.h"
#include "passage/findings.h"
#include "passage/hull.h"
#include "passage/leeway.h"
#include "passage/relative_wind.h"
#include "passage/route_survey.h"
#include "passage/timeline.h"
#include "passage/triangle.h"
#include "passage/weather_here.h"
#include "plan/plan.h"
#include "plan/vessel.h"
#include "units/check.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

// Leeway below this is not worth a word (our rule, no source).
constexpr Speed kHardlyBlown = knots(0.005);

/// The side a push across the course carries the boat to.
std::optional<Side> side_of(TrueBearing course, Velocity push) {
  const Speed across = component_toward(course + degrees(90), push);
  if (across > -kLeastPush && across < kLeastPush) return std::nullopt;
  return across > metres_per_second(0) ? Side::starboard : Side::port;
}

std::optional<Side> falls_off(const Leeway& leeway) {
  return leeway.sideways < kHardlyBlown ? std::nullopt : leeway.falls_off_to;
}

/// The worst of a figure over some pieces; not known when any of them is not.
template <class T, class Worse>
Known<T> worst(const std::optional<Known<T>>& so_far, const Known<T>& next, const Worse& worse) {
  if (!so_far) return next;
  return join([&worse](const T& a, const T& b) { return worse(b, a) ? b : a; }, *so_far, next);
}

/// True everywhere on the leg; false as soon as it is false anywhere, whatever is not known.
Known<bool> everywhere(const std::optional<Known<bool>>& so_far, const Known<bool>& next) {
  if (!so_far) return next;
  if (*so_far == Known<bool>(false) || next == Known<bool>(false)) return false;
  return so_far->has_value() ? next : *so_far;
}

struct Worst {
  std::optional<Known<Speed>> gust;
  std::optional<Known<Length>> wave;
  std::optional<Known<Length>> visibility;
  std::optional<Known<bool>> headway;
  std::optional<Known<bool>> line;
  Known<Light> light = Light::day;
  bool open_water = false;
};

Light darker(Light a, Light b) { return std::max(a, b); }

Light darkest_in(Position where, Span span) {
  constexpr std::chrono::minutes kLookedAtEvery{15};
  Light darkest = light_at(where, span.end);
  for (Instant at = span.begin; at < span.end; at += kLookedAtEvery) {
    darkest = darker(darkest, light_at(where, at));
  }
  return darkest;
}

/// Seas count on a bar whatever water it is drawn in.
void add_bars(Worst& worst_found, const RouteSurvey& survey, const Timeline& timeline,
              const std::vector<const TimedPiece*>& pieces, const Facts& facts) {
  for (const Meeting& bar : survey.bars()) {
    const std::size_t leg = pieces.front()->piece.leg;
    if (survey.track().stretch_at(bar.begin).leg() > leg ||
        survey.track().stretch_at(bar.end).leg() < leg) {
      continue;
    }
    const Position where = survey.position_at(bar.along);
    worst_found.open_water = true;
    worst_found.wave = worst(
        worst_found.wave,
        join([&](Span span) { return wave_here(facts, where, span); },
             timeline.between(bar.begin - survey.half_length(), bar.end + survey.half_length())),
        std::greater{});
  }
}

Worst worst_of(const RouteSurvey& survey, const Timeline& timeline,
               const std::vector<const TimedPiece*>& pieces, const Facts& facts) {
  Worst worst_found;
  for (const TimedPiece* timed : pieces) {
    const Length middle = (timed->piece.begin + timed->piece.end) / 2;
    const Position where = timed->surveyed->middle;
    const bool last = timed == &timeline.pieces().back();
    // With the wait for a bridge at its begin, or at the end of the track.
    const Known<Span> span = join(
        [&](Instant comes, Span in) {
          return Span{comes, last ? timeline.arrives().value_or(in.end) : in.end};
        },
        timeline.at(timed->piece.begin), while_in(timed->piece));
    const auto here = [&](auto figure) {
      return join([&](Span s) { return figure(facts, where, s); }, span);
    };
    worst_found.gust = worst(worst_found.gust, here(gust_here), std::greater{});
    worst_found.visibility = worst(worst_found.visibility, here(visibility_here), std::less{});
    if (open_water_at(survey, middle)) {
      worst_found.open_water = true;
      worst_found.wave = worst(worst_found.wave, here(wave_here), std::greater{});
    }
    worst_found.headway = everywhere(worst_found.headway, timed->makes_headway);
    worst_found.line = everywhere(worst_found.line, timed->holds_line);
    worst_found.light =
        join([&](Light so_far, Span s) { return darker(so_far, darkest_in(where, s)); },
             worst_found.light, span);
  }
  add_bars(worst_found, survey, timeline, pieces, facts);
  return worst_found;
}

Known<TrueBearing> steer(const Leg& leg, const TimedPiece& timed) {
  return join(
      [&](const Velocity& current, const Leeway& leeway) -> Known<TrueBearing> {
        const auto course = course_to_steer(leg.course, timed.piece.through_water,
                                            SetToward{bearing_of(current)}, speed_of(current));
        if (!course.has_value()) return not_known(in_words(course.error()));
        return course->steer + point_up(leeway);
      },
      timed.current, timed.leeway);
}

/// The mean of the leg under way, without waits.
Known<Speed> made_good_on(const std::vector<const TimedPiece*>& pieces) {
  Length way = metres(0);
  Known<Interval> taken = Interval(0);
  for (const TimedPiece* timed : pieces) {
    way = way + (timed->piece.end - timed->piece.begin);
    taken = join([](Interval before, Instant begins, Instant ends,
                    Speed) { return Interval(before + (ends - begins)); },
                 taken, timed->piece.begins, timed->piece.ends, timed->piece.over_ground);
  }
  return join(
      [way](Interval t) -> Known<Speed> {
        if (t <= Interval(0)) return not_known("the leg is too short to tell");
        return metres_per_second(in_metres(way) / in_seconds(t));
      },
      taken);
}

/// What leeway.h works it out by.
void add_leeway(Working& working, const Leeway& leeway, const HullForm& hull) {
  const auto add = [&working](const char* what, WorkedValue value, const char* source) {
    working.inputs.push_back({what, std::move(value), source});
  };
  add("wind as she feels it", leeway.wind.speed, "worked out");
  add("off the bow, to starboard positive", leeway.wind.from, "worked out");
  add("windage, m2", in_square_metres(hull.windage), "vessel, or estimated");
  add("lateral plane, m2", in_square_metres(hull.lateral_plane), "vessel, or estimated");
  add("draft, m", in_metres(hull.draft), "vessel");
  add("sideways through the water", leeway.sideways, "worked out");
  add("leeway", leeway.angle, "worked out");
}

Working working_of(const Leg& leg, const TimedPiece& middle, const Known<Speed>& made_good,
                   const Vessel& vessel) {
  Working working{
      "heading to steer, " + leg.from + " to " + leg.to,
      "course to steer by the triangle of velocities, pointed up by the leeway; magnetic: "
      "less variation; time under way: distance / speed made good",
      {},
      std::string("not known"),
      "Bowditch, Dead Reckoning; leeway by a balance of side forces"};
  const auto add = [&working](const std::string& what, WorkedValue value,
                              const std::string& source) {
    working.inputs.push_back({what, std::move(value), source});
  };
  add("course, true", degrees(leg.course.in_degrees()), "route");
  add("distance", leg.distance, "route, rhumb line on WGS 84");
  add("speed through the water", middle.piece.through_water,
      middle.slowed_because.value_or("as chosen for the reach"));
  if (made_good.has_value()) add("speed made good, mean of the leg", *made_good, "worked out");
  if (leg.current.has_value()) {
    add("current toward, true", degrees(leg.current->toward.bearing.in_degrees()),
        "current station");
    add("current", leg.current->speed, "current station");
  }
  if (leg.wind.has_value()) {
    add("wind from, true", degrees(leg.wind->from.bearing.in_degrees()), "forecast");
    add("wind", leg.wind->speed, "forecast");
  }
  if (middle.leeway.has_value()) add_leeway(working, *middle.leeway, hull_form(vessel));
  if (leg.variation.has_value()) {
    add("variation, east positive", leg.variation->east, std::string(kMagneticModel));
  }
  if (leg.steer_true.has_value()) {
    add("heading to steer, true", degrees(leg.steer_true->in_degrees()), "worked out");
  }
  if (leg.steer_magnetic.has_value()) working.result = degrees(leg.steer_magnetic->in_degrees());
  return working;
}

Leg leg_of(const RouteSurvey& survey, const Timeline& timeline, const Plan& plan,
           const Facts& facts, std::size_t index) {
  const LegOfTrack& drawn = survey.track().legs[index];
  std::vector<const TimedPiece*> pieces;
  for (const TimedPiece& timed : timeline.pieces()) {
    if (timed.piece.leg == index) pieces.push_back(&timed);
  }
  check(!pieces.empty(), "a leg has pieces");
  const TimedPiece& middle = timeline.piece_at(drawn.begins_along + drawn.distance / 2);
  const Worst worst_found = worst_of(survey, timeline, pieces, facts);
  const bool last = pieces.back() == &timeline.pieces().back();

  Leg leg{
      .from = drawn.from,
      .to = drawn.to,
      .begin = drawn.begin,
      .end = drawn.end,
      .course = drawn.course,
      .distance = drawn.distance,
      .starts = timeline.at(drawn.begins_along),
      .ends = last ? timeline.arrives() : pieces.back()->piece.ends,
      .reaches = {},
      .piled = false,
      .open_water = worst_found.open_water,
      .wind = middle.wind,
      .gust = *worst_found.gust,
      .wind_is = join(
          [&](const Wind& wind) { return relative_direction(wind.from.bearing - drawn.course); },
          middle.wind),
      .falls_off_to = join(falls_off, middle.leeway),
      .leeway = join([](const Leeway& leeway) { return leeway.angle; }, middle.leeway),
      .current =
          join([](const Velocity& v) { return Current{SetToward{bearing_of(v)}, speed_of(v)}; },
               middle.current),
      .makes_headway = *worst_found.headway,
      .holds_line = *worst_found.line,
      .current_from = join(
          [&](const Velocity& v) {
            return relative_direction(bearing_of(v).reversed() - drawn.course);
          },
          middle.current),
      .set_to = join([&](const Velocity& v) { return side_of(drawn.course, v); }, middle.current),
      .steer_true = not_known("not worked out"),
      .steer_magnetic = not_known("not worked out"),
      .steer_compass = not_known("not worked out"),
      .variation = join(
          [&](Instant at) {
            return join(
                [](const MagneticVariation& v) -> Known<Variation> {
                  if (!v.caution_zone) return v.variation;
                  return not_known(
                      "the compass is not to be trusted here, the horizontal magnetic field is "
                      "below 6000 nT");
                },
                variation_at(drawn.begin, at));
          },
          timeline.at(drawn.begins_along)),
      .light = worst_found.light,
      .wave = worst_found.wave.value_or(metres(0)),
      .visibility = *worst_found.visibility,
      .working = {}};
  for (const TimedPiece* timed : pieces) {
    const Run& run = survey.runs()[timed->run];
    if (!run.reach) continue;
    const Reach& reach = survey.waterway().reaches[*run.reach];
    leg.piled = leg.piled || reach.piled;
    if (leg.reaches.empty() || leg.reaches.back() != reach.name) leg.reaches.push_back(reach.name);
  }
  leg.steer_true = steer(leg, middle);
  leg.steer_magnetic = join([](TrueBearing t, Variation v) { return magnetic(t, v); },
                            leg.steer_true, leg.variation);
  leg.steer_compass =
      join([&](MagneticBearing m) { return compass_heading(plan.vessel.deviation, m); },
           leg.steer_magnetic);
  leg.working = working_of(leg, middle, made_good_on(pieces), plan.vessel);
  return leg;
}

}  // namespace

Known<CompassBearing> compass_heading(const std::vector<DeviationRow>& table,
                                      MagneticBearing heading) {
  if (table.empty()) return not_known("the vessel file has no deviation table");
  constexpr double kMostApart_deg = 90;
  // Deviation changes slowly: taking it by the magnetic instead of the compass heading errs by far
  // less than a helm steers.
  const double deg = heading.in_degrees();
  for (std::size_t i = 0; i < table.size(); ++i) {
    const DeviationRow& low = table[i];
    const DeviationRow& high = table[(i + 1) % table.size()];
    const double from = low.heading.in_degrees();
    double span = folded_360(high.heading.in_degrees() - from);
    if (span == 0) span = 360;
    const double into = folded_360(deg - from);
    if (into > span) continue;
    const bool at_a_row = into == 0 || into == span;
    if (span > kMostApart_deg && !at_a_row) {
      if (table.size() == 1) {
        return not_known(
            fmt::format("the deviation table has one row only, for {:.0f} degrees", from));
      }
      return not_known(fmt::format(
          "the deviation table has no rows between {:.0f} and {:.0f} degrees, which is more than "
          "{:.0f} degrees apart",
          from, high.heading.in_degrees(), kMostApart_deg));
    }
    const double part = into / span;
    const Angle east = low.deviation.east * (1 - part) + high.deviation.east * part;
    return compass(heading, Deviation{east});
  }
  return not_known("the deviation table does not hold this heading");
}

std::vector<Leg> legs_on(const RouteSurvey& survey, const Timeline& timeline, const Plan& plan,
                         const Facts& facts) {
  std::vector<Leg> legs;
  for (std::size_t i = 0; i < survey.track().legs.size(); ++i) {
    legs.push_back(leg_of(survey, timeline, plan, facts, i));
  }
  return legs;
}

}  // namespace passage_brief
