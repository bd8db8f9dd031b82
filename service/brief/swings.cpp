#include "brief/swings.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "brief/alike.h"
#include "brief/corridor_between.h"
#include "brief/forecast_between.h"
#include "brief/tide_between.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "rules/fact_table.h"
#include "rules/verdict.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kUnevenLength_m = 0.03;  // squat turns a little as she is slowed
constexpr double kUnevenOfTide = 0.05;
constexpr double kEvenWind = 0.02;  // as a share of itself
constexpr Angle kHardlyVeers = degrees(5);
constexpr Interval kForecastStep = std::chrono::hours(6);  // the longest (wind_series.h)
constexpr Interval kLongWay = std::chrono::hours(24);

bool is_tidal(SubjectKind kind) {
  switch (kind) {
    case SubjectKind::berth:
    case SubjectKind::reach:
    case SubjectKind::bar:
    case SubjectKind::bridge:
    case SubjectKind::cable:
      return true;
    case SubjectKind::passage:
    case SubjectKind::leg:
    case SubjectKind::danger:
    case SubjectKind::mark:
    case SubjectKind::light:
      return false;
  }
  return false;
}

/// As it is, metre for metre.
bool rises_with_the_tide(const Fact& fact) {
  return fact.name == "under_keel" || fact.name == "under_keel_could_be" || fact.name == "water";
}

bool tells_an_error(const Fact& fact) { return fact.name.ends_with("_could_be"); }

/// Waves of twice the significant height break at 0.78 of the depth: half of that in hand.
bool seas_are_low(const Depth& depth) {
  if (!depth.open_water) return true;
  return depth.wave.has_value() && depth.water.has_value() &&
         in_metres(*depth.wave) * 4 < 0.78 / 2 * in_metres(*depth.water);
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

}  // namespace

bool is_weather(const Fact& fact) {
  return fact.of == SubjectKind::passage && (fact.name == "wind" || fact.name == "gust" ||
                                             fact.name == "wave" || fact.name == "visibility");
}

Swings::Swings(const Findings& earlier, const Findings& later, const Facts& facts, Interval stay)
    : earlier_(earlier), later_(later), facts_(facts), tide_(earlier, later, facts, stay) {}

Length Swings::rise_of(SubjectKind kind, std::size_t a, std::size_t b) const {
  constexpr Length kRounding = metres(1e-4);
  return tide_.swing_of(kind, a, b).up + kRounding;
}

std::optional<Range> Swings::of_length(const Fact& fact, std::size_t a, std::size_t b, double from,
                                       double to) const {
  const TideSwing swing = tide_.swing_of(fact.of, a, b);
  double down_m = in_metres(swing.down);
  double up_m = in_metres(swing.up);
  if (!rises_with_the_tide(fact)) down_m = up_m = std::max(down_m, up_m);
  if (tells_an_error(fact)) {
    down_m += in_metres(swing.error);
    up_m += in_metres(swing.error);
  }
  if (!std::isfinite(down_m) || !std::isfinite(up_m)) return std::nullopt;
  const double uneven = kUnevenLength_m + kUnevenOfTide * std::abs(from - to);
  return Range{std::min(from, to) - down_m - uneven, std::max(from, to) + up_m + uneven};
}

std::optional<Range> Swings::of_weather(const Fact& fact, double from, double to) const {
  Range range{std::min(from, to), std::max(from, to)};
  if (!later_.passage.arrives.has_value()) return std::nullopt;
  bool all_known = true;
  for (const WindSeries& series : facts_.winds) {
    for (const WindHour& hour : series.hours()) {
      if (hour.at < earlier_.passage.departs || hour.at > *later_.passage.arrives) continue;
      const auto take = [&](const auto& figure) {
        all_known = all_known && figure.has_value();
        if (!figure) return;
        range.least = std::min(range.least, figure->si());
        range.greatest = std::max(range.greatest, figure->si());
      };
      if (fact.name == "wind") take(hour.speed);
      if (fact.name == "gust") take(hour.gust);
      if (fact.name == "wave") take(hour.wave);
      if (fact.name == "visibility") take(hour.visibility);
    }
  }
  if (!all_known) return std::nullopt;
  return range;
}

std::optional<WindStray> Swings::stray_at(const Fact& fact, std::size_t a, std::size_t b) const {
  const auto between = [&](const Known<Instant>& first, const Known<Instant>& second) {
    return first.has_value() && second.has_value() ? wind_stray(facts_, *first, *second)
                                                   : std::nullopt;
  };
  const auto middle = [](const Leg& leg) {
    return join([](Instant starts, Instant ends) { return starts + (ends - starts) / 2; },
                leg.starts, leg.ends);
  };
  if (fact.of == SubjectKind::leg) {
    return between(middle(earlier_.legs[a]), middle(later_.legs[b]));
  }
  if (fact.of == SubjectKind::bridge) {
    return between(earlier_.bridges[a].passing.at, later_.bridges[b].passing.at);
  }
  if (fact.of == SubjectKind::cable) return WindStray{};
  if (!is_tidal(fact.of)) return WindStray{};
  return between(earlier_.depths[a].passing.at, later_.depths[b].passing.at);
}

/// Of a figure that wind makes, or may: the forces of wind go by its square.
std::optional<Range> Swings::of_wind(const Fact& fact, std::size_t a, std::size_t b, double from,
                                     double to) const {
  const std::optional<WindStray> wind = stray_at(fact, a, b);
  if (!wind) return std::nullopt;
  const double even = kUneven * std::abs(from - to);
  const double by_wind =
      fact.type == FactType::speed
          ? in_metres_per_second(wind->most)
          : std::max(std::abs(from), std::abs(to)) * ((1 + wind->share) * (1 + wind->share) - 1);
  const bool turns = fact.name == "wind_from" || fact.name == "spare_width";
  if (turns && wind->share > kEvenWind) return std::nullopt;
  return Range{std::min(from, to) - even - by_wind, std::max(from, to) + even + by_wind};
}

std::optional<Range> Swings::range(const Fact& fact, std::size_t a, std::size_t b, double from,
                                   double to) const {
  const bool by_tide = is_tidal(fact.of) && fact.type == FactType::length;
  if (by_tide && fact.name != "spare_width") return of_length(fact, a, b, from, to);
  if (is_tidal(fact.of) || fact.of == SubjectKind::leg) return of_wind(fact, a, b, from, to);
  if (is_weather(fact)) return of_weather(fact, from, to);
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
  return Range{std::min(from, to) - stray, std::max(from, to) + stray};
}

/// She is in no sooner than she leaves; where the corridor is another, about when those of both
/// ends are, unless a bridge keeps her.
std::optional<Range> Swings::of_light(const Fact& fact, double from, double to) const {
  constexpr double kAbout_s = 1200;
  if (fact.name != "before_sunset" || earlier_.light.sunset != later_.light.sunset) {
    return std::nullopt;
  }
  if (alike_but_for_depths(earlier_, later_)) return Range{to - kAbout_s, from + kAbout_s};
  const Interval under_way = *earlier_.passage.arrives - earlier_.passage.departs;
  return Range{-kInfinite, from + in_seconds(under_way)};
}

/// A narrower corridor has less in it; and what is in it has at most the tide of the whole time
/// less than it had at an end.
std::optional<LeastLeft> Swings::least_left(const PlaceOfBoth& reach) const {
  const Length along = earlier_.depths[reach.earlier.front()].passing.along;
  if (corridor_between(facts_, track_round(earlier_, along), track_round(later_, along)) ==
      CorridorBetween::may_be_wider) {
    return std::nullopt;
  }
  const TideSwing swing = tide_.swing_in(reach.earlier.front(), reach.later.front());
  const double falls_m = in_metres(swing.up) + kUnevenLength_m;
  const double could_fall_m = falls_m + in_metres(swing.error);
  LeastLeft left{kInfinite, kInfinite, true};
  const auto take = [&](const Findings& findings, std::size_t i) {
    const Depth& depth = findings.depths[i];
    if (!depth.under_keel.has_value()) return false;
    left.under_keel_m = std::min(left.under_keel_m, in_metres(*depth.under_keel) - falls_m);
    if (!depth.under_keel_could_be.has_value()) left.could_be_m.reset();
    if (left.could_be_m) {
      left.could_be_m =
          std::min(*left.could_be_m, in_metres(*depth.under_keel_could_be) - could_fall_m);
    }
    left.seas_are_low = left.seas_are_low && seas_are_low(depth);
    return !depth.blocked;
  };
  const auto take_earlier = [&](std::size_t i) { return take(earlier_, i); };
  const auto take_later = [&](std::size_t i) { return take(later_, i); };
  if (!std::ranges::all_of(reach.earlier, take_earlier) ||
      !std::ranges::all_of(reach.later, take_later) || !std::isfinite(left.under_keel_m)) {
    return std::nullopt;
  }
  return left;
}

/// The mast is farther from the margin at both ends than the tide carries it between.
bool Swings::fits_stays(std::size_t bridge) const {
  const BridgeFinding& a = earlier_.bridges[bridge];
  const BridgeFinding& b = later_.bridges[bridge];
  const OverMast* first = most_room(a.over_mast);
  const OverMast* second = most_room(b.over_mast);
  if (first == nullptr || second == nullptr) return true;
  if (!first->over_mast.has_value() || !second->over_mast.has_value()) {
    return first->over_mast.has_value() == second->over_mast.has_value();
  }
  const auto range = of_length(*find_fact(SubjectKind::bridge, "over_mast"), bridge, bridge,
                               in_metres(*first->over_mast), in_metres(*second->over_mast));
  const double margin_m = in_metres(a.margin);
  return range && (range->least > margin_m || range->greatest < margin_m);
}

bool Swings::headway_stays(std::size_t leg) const {
  if (earlier_.legs[leg].makes_headway != Known<bool>(true)) return true;
  double least = kInfinite;
  double change = 0;
  for (const auto& [a, b] : side_by_side(earlier_.track, later_.track)) {
    if (a->leg != leg) continue;
    if (!a->over_ground.has_value() || !b->over_ground.has_value()) return false;
    const double first = in_knots(*a->over_ground);
    const double second = in_knots(*b->over_ground);
    least = std::min({least, first, second});
    change = std::max(change, std::abs(first - second));
  }
  return least > 0.2 + kUneven * change;
}

/// The cross current leaves a sixth of her speed in hand at both ends.
bool Swings::line_stays(std::size_t leg) const {
  if (earlier_.legs[leg].holds_line != Known<bool>(true)) return true;
  constexpr double kInHand = 5.0 / 6;
  for (const Findings* findings : {&earlier_, &later_}) {
    const Leg& one = findings->legs[leg];
    if (!one.current.has_value()) continue;
    const double across = std::abs(std::sin(in_radians(one.current->toward.bearing - one.course))) *
                          in_knots(one.current->speed);
    for (const TrackPiece& piece : findings->track) {
      if (piece.leg == leg && across > kInHand * in_knots(piece.through_water)) return false;
    }
  }
  return true;
}

bool Swings::stays(const Fact& fact, std::size_t a, std::size_t b) const {
  const std::string_view name = fact.name;
  if (fact.of == SubjectKind::leg && name == "makes_headway") return headway_stays(a);
  if (fact.of == SubjectKind::leg && name == "holds_line") return line_stays(a);
  if (fact.of == SubjectKind::bridge &&
      (name == "fits" || name == "opening_needed" || name == "passes" || name == "antennas")) {
    return fits_stays(a);
  }
  if (fact.of == SubjectKind::passage &&
      (name == "wind_passes_category" || name == "wave_passes_category")) {
    const Known<Speed>& wind_a = earlier_.passage.wind;
    const Known<Speed>& wind_b = later_.passage.wind;
    if (!wind_a.has_value() || !wind_b.has_value()) return true;
    const Fact* figure =
        find_fact(SubjectKind::passage, name == "wind_passes_category" ? "wind" : "wave");
    const Known<FactValue> from = figure->value(earlier_, 0);
    const Known<FactValue> to = figure->value(later_, 0);
    if (!from.has_value() || !to.has_value()) return from.has_value() == to.has_value();
    const auto si = [](const FactValue& value) {
      const auto* speed = std::get_if<Speed>(&value);
      return speed != nullptr ? speed->si() : std::get<Length>(value).si();
    };
    const auto range = of_weather(*figure, si(*from), si(*to));
    return range && range->greatest <= std::max(si(*from), si(*to));
  }
  if (!is_tidal(fact.of)) return true;
  if (name == "open_to_wind") {
    const std::optional<WindStray> wind = stray_at(fact, a, b);
    return wind && wind->veers <= kHardlyVeers;
  }
  if (name == "tide") {
    const TideSwing swing = tide_.swing_of(fact.of, a, b);
    return !swing.turns && swing.down == metres(0);
  }
  if (name == "seas_could_break") {
    return seas_are_low(earlier_.depths[a]) && seas_are_low(later_.depths[b]);
  }
  return true;
}

/// Weather over the whole way may be known for those who pass between two holes of a forecast, and
/// without a category whether it passes hers is known while it is light.
bool Swings::stays_unknown(const Fact& fact) const {
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
  if (name == "visibility") return !holds_any(&WindHour::visibility);
  return true;
}

std::optional<Touching> Swings::touching(const Fact& fact, std::size_t a, std::size_t b,
                                         const std::optional<Range>& taken) const {
  const bool keel = fact.name == "keel_touches";
  const bool mast = fact.name == "mast_touches";
  const bool wire = fact.name == "inside_gap";
  if (!is_tidal(fact.of) || (!keel && !mast && !wire)) return std::nullopt;
  const char* figure = keel ? "under_keel" : mast ? "over_mast" : "to_spare";
  const char* could_be = keel   ? "under_keel_could_be"
                         : mast ? "over_mast_could_be"
                                : "to_spare_could_be";
  const auto range_of = [&](const char* name) -> std::optional<Range> {
    const Fact* row = find_fact(fact.of, name);
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
