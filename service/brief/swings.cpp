#include "brief/swings.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <initializer_list>
#include <iterator>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "brief/alike.h"
#include "brief/corridor_between.h"
#include "brief/current_between.h"
#include "brief/forecast_between.h"
#include "brief/tide_between.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "plan/vessel.h"
#include "rules/fact_table.h"
#include "rules/verdict.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
// Squat turns a little as she is slowed: by so much in an hour, by less in less (our rule).
constexpr Length kUnevenLength = metres(0.03);
constexpr Interval kUnevenIn = std::chrono::hours(1);
constexpr double kUnevenOfTide = 0.05;
// Over more water she goes faster, and squats by a part of what the water rises: what is left
// strays by this share of how her squat changes, and of how far the water rises between (our rule).
constexpr double kUnevenOfSquat = 0.5;
constexpr Length kHighWaterBetween = metres(1);            // no farther above both ends (our rule)
constexpr Interval kForecastStep = std::chrono::hours(6);  // the longest (wind_series.h)
constexpr Interval kLongWay = std::chrono::hours(24);

bool is_tidal(SubjectKind kind) {
  return is_of_depth(kind) || kind == SubjectKind::bridge || kind == SubjectKind::cable;
}

/// As it is, metre for metre.
bool rises_with_the_tide(const Fact& fact) {
  return fact.name == "under_keel" || fact.name == "under_keel_could_be" || fact.name == "water";
}

bool tells_an_error(const Fact& fact) { return fact.name.ends_with("_could_be"); }

/// Waves of twice the significant height break at 0.78 of the depth (rules/depth_facts.cpp): with
/// as much higher half waves, and as much less water.
bool seas_are_low(const Depth& depth, Length more_wave, Length less_water) {
  if (!depth.open_water) return true;
  return depth.wave.has_value() && depth.water.has_value() &&
         (*depth.wave + more_wave) * 4 < (*depth.water - less_water) * 0.78;
}

/// What is drawn, or is the boat's own; where the same depth is told (alike.h) what it is of.
bool stands_still(const Fact& fact) {
  constexpr std::string_view kNames[] = {
      "name",         "place",          "channel",        "bottom",
      "hard_bottom",  "open_water",     "opens",          "carries",
      "hull",         "draft_measured", "draft_is",       "air_draft_measured",
      "air_draft_is", "category",       "hull_estimated", "what",
      "piled",        "in_channel",     "survey_quality", "clearance_gauge"};
  return std::ranges::find(kNames, fact.name) != std::end(kNames);
}

/// Yes where the figure is below zero, no where what it could be is not, else unknown.
Touching touching_of(Range figure, const std::optional<Range>& could_be) {
  Touching may;
  may.be_yes = figure.least < 0;
  const bool not_below = figure.greatest >= 0;
  may.be_unknown = not_below && (!could_be || could_be->least < 0);
  may.be_no = not_below && could_be && could_be->greatest >= 0;
  return may;
}

/// From the departure of the earlier to the last that is known of either.
Span whole_way(const Findings& earlier, const Findings& later) {
  Instant end = later.passage.departs;
  for (const Findings* findings : {&earlier, &later}) {
    end = std::max(end, findings->passage.arrives.value_or(end));
    for (const TrackPiece& piece : findings->track) {
      if (piece.ends.has_value()) end = std::max(end, *piece.ends);
    }
  }
  return {earlier.passage.departs, end};
}

/// What is met at two times: how much its figure may stray from running evenly between them.
Length uneven_between(const Known<Instant>& a, const Known<Instant>& b) {
  if (!a.has_value() || !b.has_value()) return kUnevenLength;
  const double apart_s = std::abs(in_seconds(*b - *a));
  return kUnevenLength * std::min(apart_s / in_seconds(kUnevenIn), 1.0);
}

/// From the least squat to the greatest, where it is known.
Length squat_range(std::initializer_list<const Depth*> depths) {
  Length least = kInfiniteLength;
  Length greatest = metres(0);
  for (const Depth* depth : depths) {
    if (!depth->squat.has_value()) continue;
    least = std::min(least, *depth->squat);
    greatest = std::max(greatest, *depth->squat);
  }
  return std::max(greatest - least, metres(0));
}

const Passing& passing_of(SubjectKind kind, std::size_t index, const Findings& findings) {
  if (kind == SubjectKind::bridge) return findings.bridges[index].passing;
  if (kind == SubjectKind::cable) return findings.cables[index].passing;
  return findings.depths[index].passing;
}

bool trend_stays(const TideStation& station, Instant from, Instant to) {
  constexpr std::chrono::minutes kLookedAtEvery{2};
  const Known<Trend> trend = station.trend(from);
  for (Instant at = from; at < to; at += kLookedAtEvery) {
    if (station.trend(at) != trend) return false;
  }
  return trend.has_value() && station.trend(to) == trend;
}

}  // namespace

Swings::Swings(const Findings& earlier, const Findings& later, const RouteSurvey& survey,
               const Facts& facts, Interval stay, bool least)
    : earlier_(earlier),
      later_(later),
      facts_(facts),
      least_(least),
      tide_(earlier, later, facts, stay),
      currents_(facts, whole_way(earlier, later)),
      corridors_(survey, facts, currents_, earlier.track, later.track) {}

Length Swings::rise_of(SubjectKind kind, std::size_t a, std::size_t b) const {
  constexpr Length kRounding = metres(0.005);  // figures are the lowest of the while she is there
  const TideSwing swing = tide_.swing_of(kind, a, b);
  const Length squats =
      is_of_depth(kind) ? squat_range({&earlier_.depths[a], &later_.depths[b]}) : metres(0);
  return swing.up + (least_ ? swing.error : metres(0)) + squats * kUnevenOfSquat + kRounding;
}

std::optional<Range> Swings::of_length(const Fact& fact, std::size_t a, std::size_t b, double from,
                                       double to) const {
  const TideSwing swing = tide_.swing_of(fact.of, a, b);
  double down_m = in_metres(swing.down);
  double up_m = in_metres(swing.up);
  if (!rises_with_the_tide(fact)) down_m = up_m = std::max(down_m, up_m);
  if (fact.name == "wave_height") down_m = up_m = 2 * in_metres(swing.waves);
  if (least_ || tells_an_error(fact)) {
    down_m += in_metres(swing.error);
    up_m += in_metres(swing.error);
  }
  if (!std::isfinite(down_m) || !std::isfinite(up_m)) return std::nullopt;
  if (is_of_depth(fact.of) && fact.name.starts_with("under_keel")) {
    const Length squats = squat_range({&earlier_.depths[a], &later_.depths[b]});
    down_m += kUnevenOfSquat * (in_metres(squats) + up_m);
    up_m += kUnevenOfSquat * in_metres(squats);
  }
  const double uneven = in_metres(uneven_between(passing_of(fact.of, a, earlier_).at,
                                                 passing_of(fact.of, b, later_).at)) +
                        kUnevenOfTide * std::abs(from - to);
  return Range{std::min(from, to) - down_m - uneven, std::max(from, to) + up_m + uneven};
}

std::optional<Range> Swings::of_weather(const Fact& fact, const Known<Instant>& begin,
                                        const Known<Instant>& end, double from, double to) const {
  Range range{std::min(from, to), std::max(from, to)};
  if (!begin.has_value() || !end.has_value()) return std::nullopt;
  bool all_known = true;
  for (const WindSeries& series : facts_.winds) {
    const auto& hours = series.hours();
    for (std::size_t i = 0; i < hours.size(); ++i) {
      const WindHour& hour = hours[i];
      const bool before = i + 1 < hours.size() && hours[i + 1].at <= *begin;
      const bool after = i > 0 && hours[i - 1].at >= *end;
      if (before || after) continue;
      const auto take = [&](const auto& figure) {
        all_known = all_known && figure.has_value();
        if (!figure) return;
        range.least = std::min(range.least, figure->si());
        range.greatest = std::max(range.greatest, figure->si());
      };
      const bool of_wind = fact.name == "wind" || fact.name == "wind_on_beam";
      if (of_wind) take(hour.speed);
      // Between two hours that it comes from two sides the wind is weaker than at both.
      const bool turns =
          of_wind && i > 0 && hour.from && hours[i - 1].from &&
          std::abs((hour.from->bearing - hours[i - 1].from->bearing).in_degrees()) > 10;
      if (turns || fact.name == "wind_on_beam") range.least = 0;
      if (fact.name == "gust") take(hour.gust);
      if (fact.name == "wave") take(hour.wave);
      if (fact.name == "visibility") take(hour.visibility);
    }
  }
  if (!all_known) return std::nullopt;
  return range;
}

/// Of what pointing up to wind and current takes, 0 or more. The forces of wind go by its square;
/// wind and current may take from each other, so that it may come to nothing, and by as much as
/// `most` more grows with either.
std::optional<Range> Swings::of_crabbing(const Known<Instant>& begin, const Known<Instant>& end,
                                         double from, double to, double most) const {
  if (!begin.has_value() || !end.has_value()) return std::nullopt;
  const std::optional<WindStray> wind = wind_stray(facts_, *begin, *end);
  const std::optional<double> current = currents_.grows(*begin, *end);
  if (!wind || !current) return std::nullopt;
  const double grown = (1 + wind->share) * (1 + wind->share) * *current * *current;
  const double even = kUneven * std::abs(from - to);
  return Range{0, std::max(from, to) * grown + most * (grown - 1) + even};
}

/// Only of facts of which it is known how they run between; the rest are for each minute to say.
std::optional<Range> Swings::range(const Fact& fact, std::size_t a, std::size_t b, double from,
                                   double to) const {
  const auto named = [&fact](std::initializer_list<std::string_view> names) {
    return std::ranges::find(names, fact.name) != names.end();
  };
  const bool steady = named({"channel_width", "lengths_wide", "speed_limit", "draft", "margin",
                             "gap", "voltage", "width_to_spare", "length", "beam", "engines",
                             "distance", "category_wind", "category_wave"});
  if (steady && from == to) return Range{from, from};
  const bool by_tide = named({"under_keel", "under_keel_could_be", "water", "wave_height",
                              "over_mast", "over_mast_could_be", "to_spare", "to_spare_could_be",
                              "clearance", "clearance_could_be"});
  const bool as_passed =
      named({"over_mast", "over_mast_could_be", "to_spare", "to_spare_could_be"});
  if (as_passed && !antennas_stay(fact.of, a)) return std::nullopt;
  if (is_tidal(fact.of) && by_tide) return of_length(fact, a, b, from, to);
  if (fact.of == SubjectKind::reach && named({"crabbing_takes", "spare_width"})) {
    // It may be told of any part of the reach.
    const auto first = track_round(earlier_, earlier_.depths[a].passing.along);
    const auto last = track_round(later_, later_.depths[b].passing.along);
    const auto taken = [&](double at_first, double at_last, double room) {
      return of_crabbing(first.front().begins, last.back().ends, at_first, at_last, room);
    };
    if (fact.name == "crabbing_takes") return taken(from, to, 1);
    const Known<Length>& width = earlier_.depths[a].channel_width;
    if (!width.has_value()) return std::nullopt;
    const double room = in_metres(*width - earlier_.passage.beam);
    const auto of_room = taken(room - from, room - to, std::max(room, 0.0));
    return of_room ? std::optional<Range>({room - of_room->greatest, room - of_room->least})
                   : std::nullopt;
  }
  if (fact.of == SubjectKind::leg && fact.name == "crabbing") {
    constexpr double kMost_deg = 45;
    return of_crabbing(earlier_.legs[a].starts, later_.legs[b].ends, from, to, kMost_deg);
  }
  if (fact.of == SubjectKind::passage && named({"wind", "gust", "wave", "visibility"})) {
    return of_weather(fact, earlier_.passage.departs, later_.passage.arrives, from, to);
  }
  if (fact.of == SubjectKind::leg && named({"wind", "gust", "wind_on_beam"})) {
    return of_weather(fact, earlier_.legs[a].starts, later_.legs[b].ends, from, to);
  }
  if (fact.of == SubjectKind::passage && fact.name == "forecast_age") return Range{from, to};
  if (fact.of == SubjectKind::light && fact.name == "before_sunset") {
    // Less the later she arrives; past midnight it is another day's sunset.
    if (to > from) return std::nullopt;
    return Range{to, from};
  }
  const double stray = kUneven * std::abs(from - to);
  if (fact.of == SubjectKind::danger && fact.name == "reached_in") {
    const double least = std::min(from, to) * 0.75 - 15 - stray;
    return Range{least, std::max(from, to) * 1.25 + 15 + stray};
  }
  if (fact.of == SubjectKind::danger && fact.name == "distance") {
    return Range{std::min(from, to) - stray, std::max(from, to) + stray};
  }
  return std::nullopt;
}

/// She is in no sooner than she leaves.
std::optional<Range> Swings::of_light(const Fact& fact, double from, double to) const {
  if (fact.name != "before_sunset" || earlier_.light.sunset != later_.light.sunset || to > from) {
    return std::nullopt;
  }
  const Interval under_way = *earlier_.passage.arrives - earlier_.passage.departs;
  return Range{-kInfinite, from + in_seconds(under_way)};
}

/// A narrower corridor has less in it, and over more water she is left no less (timeline.h); what
/// is in it has at most the tide of the whole time less than it had at an end.
std::optional<LeastLeft> Swings::least_left(const PlaceOfBoth& reach) const {
  const Length along = earlier_.depths[reach.earlier.front()].passing.along;
  const std::span<const TrackPiece> first = track_round(earlier_, along);
  const std::span<const TrackPiece> last = track_round(later_, along);
  if (corridors_.over(first, last) == CorridorBetween::may_be_wider) return std::nullopt;
  const Length uneven = std::max(uneven_between(first.front().begins, last.front().begins),
                                 uneven_between(first.back().ends, last.back().ends));
  const TideSwing swing = tide_.swing_in(reach.earlier.front(), reach.later.front());
  Length squats = metres(0);
  for (const std::size_t first_part : reach.earlier) {
    for (const std::size_t last_part : reach.later) {
      squats =
          std::max(squats, squat_range({&earlier_.depths[first_part], &later_.depths[last_part]}));
    }
  }
  const Length falls = swing.up * (1 + kUnevenOfSquat) + squats * kUnevenOfSquat + uneven +
                       (least_ ? swing.error : metres(0));
  if (!std::isfinite(in_metres(falls))) return std::nullopt;
  LeastLeft left{kInfiniteLength, kInfiniteLength, true};
  const auto take = [&](const Depth& depth) {
    if (!depth.under_keel.has_value() || depth.blocked) return false;
    left.under_keel = std::min(left.under_keel, *depth.under_keel - falls);
    if (!depth.under_keel_could_be.has_value()) left.could_be.reset();
    if (left.could_be) {
      left.could_be = std::min(*left.could_be, *depth.under_keel_could_be - falls - swing.error);
    }
    left.seas_are_low = left.seas_are_low && seas_are_low(depth, swing.waves, falls);
    return true;
  };
  const bool all_known =
      std::ranges::all_of(reach.earlier, [&](std::size_t i) { return take(earlier_.depths[i]); }) &&
      std::ranges::all_of(reach.later, [&](std::size_t i) { return take(later_.depths[i]); });
  return all_known ? std::optional<LeastLeft>(left) : std::nullopt;
}

/// In each antenna state; where waves are not known, that not even a calm leaves room for it under
/// the clearance.
bool Swings::room_stays(SubjectKind kind, std::size_t index, const std::vector<OverMast>& earlier,
                        const std::vector<OverMast>& later, Length wanted,
                        const std::optional<Range>& clearance) const {
  const Fact& figure = *find_fact(kind, "over_mast");
  const double wanted_m = in_metres(wanted);
  return std::ranges::all_of(earlier, [&](const OverMast& first) {
    const OverMast* second = in_state(later, first.antennas);
    if (second == nullptr) return false;
    if (!first.over_mast.has_value() && !second->over_mast.has_value()) {
      return clearance && clearance->greatest - in_metres(first.air_draft) < wanted_m;
    }
    if (!first.over_mast.has_value() || !second->over_mast.has_value()) return false;
    const auto range =
        of_length(figure, index, index, in_metres(*first.over_mast), in_metres(*second->over_mast));
    return range && (range->least > wanted_m || range->greatest < wanted_m);
  });
}

bool Swings::antennas_stay(SubjectKind kind, std::size_t index) const {
  if (kind == SubjectKind::bridge) {
    const BridgeFinding& first = earlier_.bridges[index];
    const BridgeFinding& last = later_.bridges[index];
    return first.open_span.has_value() == last.open_span.has_value() &&
           room_stays(kind, index, first.over_mast, last.over_mast, first.margin,
                      clearance_between(index, first.clearance, last.clearance)) &&
           room_stays(kind, index, passed_under(first), passed_under(last), first.margin,
                      clearance_between(index, clearance_passed(first), clearance_passed(last)));
  }
  const CableFinding& cable = earlier_.cables[index];
  return cable.gap.has_value() &&
         room_stays(kind, index, cable.over_mast, later_.cables[index].over_mast,
                    cable.margin + *cable.gap, std::nullopt);
}

std::optional<Range> Swings::clearance_between(std::size_t bridge, const Known<Length>& earlier,
                                               const Known<Length>& later) const {
  if (!earlier.has_value() || !later.has_value()) return std::nullopt;
  return of_length(*find_fact(SubjectKind::bridge, "clearance"), bridge, bridge,
                   in_metres(*earlier), in_metres(*later));
}

bool Swings::told_between(std::size_t bridge) const {
  const BridgeFinding& first = earlier_.bridges[bridge];
  const BridgeFinding& last = later_.bridges[bridge];
  if (!first.charted.has_value() || !first.clearance_datum.has_value()) return true;
  const auto waits_on_waves = [this](const BridgeFinding& b) {
    if (!b.opening) return false;
    const OpeningFinding& opening = *b.opening;
    const auto tide =
        join([](const TideStation* station, Instant at) { return station->height(at); },
             facts_.tide(b.tide_station), opening.reached);
    if (!tide.has_value()) return false;  // nor is it known then what waves are left of
    if (!opening.fits_on_arrival.has_value()) return true;
    return opening.through_opening == Known<bool>(true) && opening.next.has_value() &&
           !opening.passes.has_value();
  };
  if (waits_on_waves(first) || waits_on_waves(last)) return false;
  // She comes to it at a time not known, or the tide is not known then.
  if (!first.clearance.has_value() && !last.clearance.has_value()) return true;
  if (first.opening && first.fits.has_value() && !antennas_stay(SubjectKind::bridge, bridge)) {
    return false;
  }
  if (first.fits == Known<bool>(true)) return true;
  const auto waves_known = [](const OverMast& state) { return state.over_mast.has_value(); };
  if (std::ranges::all_of(first.over_mast, waves_known) &&
      std::ranges::all_of(last.over_mast, waves_known)) {
    return true;
  }
  if (first.fits.has_value()) return antennas_stay(SubjectKind::bridge, bridge);
  const auto clearance = clearance_between(bridge, first.clearance, last.clearance);
  const OverMast& lowest = *std::ranges::min_element(first.over_mast, {}, &OverMast::air_draft);
  return clearance && clearance->least - in_metres(lowest.air_draft) > in_metres(first.margin);
}

/// Wherever on its leg a danger is come to from, in every departure between.
bool Swings::anchor_holds(std::size_t a, std::size_t b) const {
  const Danger& danger = earlier_.dangers[a];
  if (danger.anchor_would_hold != Known<bool>(true) ||
      later_.dangers[b].anchor_would_hold != Known<bool>(true)) {
    return false;
  }
  const auto is_shoal_enough = [&danger](const TrackPiece& piece) {
    return piece.leg != danger.leg ||
           (piece.charted.has_value() && piece.height_of_tide.has_value() &&
            *piece.charted + piece.height_of_tide->above_datum() + kHighWaterBetween <=
                *danger.anchor_holds_in);
  };
  return std::ranges::all_of(earlier_.track, is_shoal_enough) &&
         std::ranges::all_of(later_.track, is_shoal_enough);
}

bool Swings::times_stay() const {
  for (std::size_t leg = 0; leg < earlier_.legs.size(); ++leg) {
    if (!headway_stays(leg) || !line_stays(leg)) return false;
  }
  return true;
}

bool Swings::headway_stays(std::size_t leg) const {
  if (earlier_.legs[leg].makes_headway != Known<bool>(true)) return true;
  return std::ranges::all_of(side_by_side(earlier_.track, later_.track), [&](const auto& pair) {
    const auto [a, b] = pair;
    if (a->leg != leg) return true;
    const std::optional<Speed> strays = current_strays(*a, *b);
    if (!strays || !a->over_ground.has_value() || !b->over_ground.has_value()) return false;
    const Speed least = std::min(*a->over_ground, *b->over_ground);
    const Speed change = std::max(*a->over_ground, *b->over_ground) - least;
    return least - *strays > knots(0.2) + change * kUneven;
  });
}

/// While she is on a piece, in every departure between.
std::optional<Speed> Swings::current_strays(const TrackPiece& a, const TrackPiece& b) const {
  if (!a.begins.has_value() || !b.begins.has_value() || !a.ends.has_value() ||
      !b.ends.has_value()) {
    return std::nullopt;
  }
  return currents_.strays(std::min(*a.begins, *b.begins), std::max(*a.ends, *b.ends));
}

/// The cross current leaves a sixth of her speed in hand, as far as it may stray.
bool Swings::line_stays(std::size_t leg) const {
  if (earlier_.legs[leg].holds_line != Known<bool>(true)) return true;
  constexpr double kInHand = 5.0 / 6;
  return std::ranges::all_of(side_by_side(earlier_.track, later_.track), [&](const auto& pair) {
    const auto [a, b] = pair;
    if (a->leg != leg) return true;
    const std::optional<Speed> strays = current_strays(*a, *b);
    return strays && std::max(a->across, b->across) + kUneven * std::abs(a->across - b->across) +
                             *strays / std::min(a->through_water, b->through_water) <=
                         kInHand;
  });
}

/// Without a category it is known only up to the ceiling of D.
bool Swings::category_stays(const Fact& passes) const {
  const bool of_wind = passes.name == "wind_passes_category";
  const Fact& figure = *find_fact(SubjectKind::passage, of_wind ? "wind" : "wave");
  const Known<FactValue> from = figure.value(earlier_, 0);
  const Known<FactValue> to = figure.value(later_, 0);
  if (!from.has_value() || !to.has_value()) return false;
  const auto range = of_weather(figure, earlier_.passage.departs, later_.passage.arrives,
                                *as_number(*from), *as_number(*to));
  const DesignCategory category = earlier_.passage.design_category.value_or(DesignCategory::d);
  const std::optional<Speed> wind = wind_ceiling(category);
  const std::optional<Length> wave = wave_ceiling(category);
  if (!wind || !wave) return true;  // none has a ceiling to pass
  const double ceiling = of_wind ? wind->si() : wave->si();
  return range && (range->greatest <= ceiling || range->least > ceiling);
}

bool Swings::stays(const Fact& fact, std::size_t a, std::size_t b) const {
  const std::string_view name = fact.name;
  if (fact.of == SubjectKind::leg && name == "makes_headway") return headway_stays(a);
  if (fact.of == SubjectKind::leg && name == "holds_line") return line_stays(a);
  if (fact.of == SubjectKind::cable && name == "antennas") return antennas_stay(fact.of, a);
  if (fact.of == SubjectKind::bridge &&
      (name == "fits" || name == "opening_needed" || name == "passes" || name == "antennas" ||
       name == "under_open_span")) {
    return antennas_stay(fact.of, a);
  }
  if (fact.of == SubjectKind::passage &&
      (name == "wind_passes_category" || name == "wave_passes_category")) {
    return category_stays(fact);
  }
  if (fact.of == SubjectKind::light) {
    return name == "after_sunrise" && earlier_.light.sunrise == later_.light.sunrise;
  }
  if (fact.of == SubjectKind::danger && name == "anchor_would_hold") return anchor_holds(a, b);
  if (fact.of == SubjectKind::danger || stands_still(fact)) return true;
  if (!is_tidal(fact.of)) return false;
  if (name == "tide" && is_of_depth(fact.of)) {
    const Depth& first = earlier_.depths[a];
    const Depth& last = later_.depths[b];
    const TideSwing swing = tide_.swing_of(fact.of, a, b);
    const Known<const TideStation*> station = facts_.tide(first.tide_station);
    return !swing.turns && swing.down == metres(0) && station.has_value() &&
           first.passing.at.has_value() && last.passing.at.has_value() &&
           trend_stays(**station, std::min(*first.passing.at, *last.passing.at),
                       std::max(*first.passing.at, *last.passing.at) + tide_.longest());
  }
  if (name == "seas_could_break") {
    const TideSwing swing = tide_.swing_of(fact.of, a, b);
    return seas_are_low(earlier_.depths[a], swing.waves, swing.down) &&
           seas_are_low(later_.depths[b], swing.waves, swing.down);
  }
  return name == "blocked" || name == "opens";
}

/// Weather over the whole way may be known for those who pass between two holes of a forecast, and
/// without a category whether it passes hers is known while it is light.
bool Swings::stays_unknown(const Fact& fact) const {
  if (fact.of == SubjectKind::light || fact.of == SubjectKind::leg) return false;
  if (fact.name == "wind_onto_bridge" || fact.name == "current_onto_bridge") return false;
  if (fact.of != SubjectKind::passage) return true;
  const auto holds_any = [&](auto figure) {
    return std::ranges::any_of(facts_.winds, [&](const WindSeries& series) {
      return std::ranges::any_of(series.hours(), [&](const WindHour& hour) {
        return (hour.*figure).has_value() && hour.at > earlier_.passage.departs - kForecastStep &&
               hour.at < later_.passage.departs + kLongWay;
      });
    });
  };
  const std::string_view name = fact.name;
  if (name == "wind" || name == "wind_passes_category") {
    return !holds_any(&WindHour::speed);
  }
  if (name == "wave" || name == "wave_passes_category") {
    return !holds_any(&WindHour::wave);
  }
  if (name == "gust") return !holds_any(&WindHour::gust);
  if (name == "thunder") return !holds_any(&WindHour::thunder);
  if (name == "visibility") return !holds_any(&WindHour::visibility);
  return true;
}

std::optional<Touching> Swings::touching(const Fact& fact, std::size_t a, std::size_t b,
                                         const std::optional<Range>& taken) const {
  if (fact.name != "keel_touches" && fact.name != "mast_touches" && fact.name != "inside_gap") {
    return std::nullopt;
  }
  const bool overhead = fact.of == SubjectKind::bridge || fact.of == SubjectKind::cable;
  if (overhead && !antennas_stay(fact.of, a)) return Touching{true, true, true};
  const Fact* figure = figure_of(fact.of);
  const Fact* could_be = find_fact(fact.of, figure->name + "_could_be");
  const auto range_of = [&](const Fact* row) -> std::optional<Range> {
    const Known<FactValue> from = row->value(earlier_, a);
    const Known<FactValue> to = row->value(later_, b);
    if (!from.has_value() || !to.has_value()) return std::nullopt;
    return of_length(*row, a, b, in_metres(std::get<Length>(*from)),
                     in_metres(std::get<Length>(*to)));
  };
  const std::optional<Range> first = taken ? taken : range_of(figure);
  if (!first) return Touching{true, true, true};
  return touching_of(*first, range_of(could_be));
}

}  // namespace passage_brief
