#include "brief/swings.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "brief/forecast_between.h"
#include "brief/tide_between.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "rules/fact_table.h"
#include "rules/verdict.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
// What runs evenly may stray by this share of its change, and by this much at least (our rule).
constexpr double kUneven = 0.6;
constexpr double kUnevenLength_m = 0.03;  // squat turns a little as she is slowed
constexpr double kUnevenOfTide = 0.05;
constexpr double kEvenWind = 0.02;  // as a share of itself
constexpr Angle kHardlyVeers = degrees(5);
constexpr Interval kForecastStep = std::chrono::hours(6);  // the longest (wind_series.h)
constexpr Interval kLongWay = std::chrono::hours(24);
constexpr double kDriftsAlike = 0.1;  // as a share of the wind
constexpr Angle kDriftTurns = degrees(20);

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

Swings::Swings(const Findings& earlier, const Findings& later, const Facts& facts, Interval stay)
    : earlier_(earlier), later_(later), facts_(facts), tide_(earlier, later, facts, stay) {}

Length Swings::rise_of(SubjectKind kind, std::size_t index) const {
  constexpr Length kRounding = metres(1e-4);
  return tide_.swing_of(kind, index, index).up + kRounding;
}

std::optional<Range> Swings::of_length(const Fact& fact, std::size_t a, std::size_t b, double from,
                                       double to) const {
  const TideSwing swing = tide_.swing_of(fact.of, a, b);
  double down_m = in_metres(swing.down);
  double up_m = in_metres(swing.up);
  if (!rises_with_the_tide(fact)) down_m = up_m = std::max(down_m, up_m);
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
  if (fact.of == SubjectKind::passage && fact.type != FactType::number &&
      (fact.name == "wind" || fact.name == "gust" || fact.name == "wave" ||
       fact.name == "visibility")) {
    return of_weather(fact, from, to);
  }
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

/// She is in no sooner than she leaves, and the later she leaves the later.
std::optional<Range> Swings::whenever_in(const Fact& fact, double from) const {
  const bool one_day = earlier_.light.sunset == later_.light.sunset;
  if (fact.name != "before_sunset" || !one_day) return std::nullopt;
  const Interval under_way = *earlier_.passage.arrives - earlier_.passage.departs;
  return Range{-kInfinite, from + in_seconds(under_way)};
}

bool Swings::drift_stays() const {
  for (std::size_t i = 0; i < earlier_.track.size(); ++i) {
    const TrackPiece& a = earlier_.track[i];
    const TrackPiece& b = later_.track[i];
    if (!a.begins.has_value() || !b.begins.has_value()) continue;
    const std::optional<WindStray> wind = wind_stray(facts_, *a.begins, *b.begins);
    if (!wind || wind->share > kDriftsAlike || wind->veers > kDriftTurns) return false;
  }
  return true;
}

/// In every piece of the track the same step, by what the wind may do between too.
bool Swings::corridor_stays(std::span<const TrackPiece> earlier,
                            std::span<const TrackPiece> later) const {
  for (std::size_t i = 0; i < earlier.size(); ++i) {
    const TrackPiece& a = earlier[i];
    const TrackPiece& b = later[i];
    if (!a.begins.has_value() || !b.begins.has_value()) continue;
    const std::optional<WindStray> wind = wind_stray(facts_, *a.begins, *b.begins);
    if (!wind) return false;
    const double grown = (1 + wind->share) * (1 + wind->share);
    const Length even = metres(kUneven * std::abs(in_metres(a.blown_aside - b.blown_aside)));
    const Length most = std::max(a.blown_aside, b.blown_aside) * grown + even;
    const Length least = std::min(a.blown_aside, b.blown_aside) / grown - even;
    for (const Length aside : {least, most}) {
      if (RouteSurvey::leeward_step(Side::starboard, aside) != std::abs(a.leeward_step))
        return false;
    }
  }
  return true;
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
  for (std::size_t i = 0; i < earlier_.track.size(); ++i) {
    if (earlier_.track[i].leg != leg) continue;
    const Known<Speed>& a = earlier_.track[i].over_ground;
    const Known<Speed>& b = later_.track[i].over_ground;
    if (!a.has_value() || !b.has_value()) return false;
    least = std::min({least, in_knots(*a), in_knots(*b)});
    change = std::max(change, std::abs(in_knots(*a) - in_knots(*b)));
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
    const Depth& first = earlier_.depths[a];
    const Depth& second = later_.depths[b];
    if (!first.open_water) return true;
    // Waves of twice the significant height break at 0.78 of the depth: half of that in hand.
    const auto calm_enough = [](const Depth& d) {
      return d.wave.has_value() && d.water.has_value() &&
             in_metres(*d.wave) * 4 < 0.78 / 2 * in_metres(*d.water);
    };
    return calm_enough(first) && calm_enough(second);
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
