#include "brief/swings.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/water_level.h"
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
constexpr double kUnevenLength_m = 0.01;
constexpr double kUnevenOfTide = 0.05;
// Harmonic curves step at New Year (facts/tide/constituent.h), by some centimetres.
constexpr double kNewYearStep_m = 0.05;
constexpr Interval kHullPasses = std::chrono::minutes(5);

bool has_new_year(Span span) {
  const auto year_of = [](Instant at) {
    return std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(at)).year();
  };
  return year_of(span.begin) != year_of(span.end);
}

template <class Item, class Same>
bool same_lists(const std::vector<Item>& a, const std::vector<Item>& b, const Same& same) {
  return std::ranges::equal(a, b, same);
}

/// Alike, whatever the reasons where neither is known.
bool same(const Known<bool>& a, const Known<bool>& b) {
  return a.has_value() ? a == b : !b.has_value();
}

bool same_depth(const Depth& a, const Depth& b) {
  return a.name == b.name && a.place == b.place && a.controlled_by == b.controlled_by &&
         a.tide_station == b.tide_station && a.bottom == b.bottom && a.open_water == b.open_water &&
         a.margin == b.margin && a.blocked == b.blocked &&
         a.under_keel.has_value() == b.under_keel.has_value();
}

bool same_bridge(const BridgeFinding& a, const BridgeFinding& b) {
  if (a.name != b.name || !same(a.fits, b.fits) || a.opening.has_value() != b.opening.has_value()) {
    return false;
  }
  return !a.opening || (same(a.opening->through_opening, b.opening->through_opening) &&
                        same(a.opening->passes, b.opening->passes));
}

bool same_piece(const TrackPiece& a, const TrackPiece& b) {
  return a.begin == b.begin && a.end == b.end && a.charted.has_value() == b.charted.has_value() &&
         a.begins.has_value() == b.begins.has_value();
}

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

Interval longest_stay(const Findings& findings) {
  Interval longest{0};
  for (const TrackPiece& piece : findings.track) {
    if (piece.begins.has_value() && piece.ends.has_value()) {
      longest = std::max<Interval>(longest, *piece.ends - *piece.begins);
    }
  }
  for (const BridgeFinding& bridge : findings.bridges) {
    if (bridge.opening && bridge.opening->wait.has_value()) {
      longest = std::max(longest, *bridge.opening->wait);
    }
  }
  return longest;
}

/// While she is in the reach, or the water outside every reach, that lies at a place of the track.
Known<Span> while_round(const Findings& found, Length along) {
  const auto& track = found.track;
  const auto there =
      std::ranges::find_if(track, [along](const TrackPiece& piece) { return along <= piece.end; });
  if (there == track.end()) return not_known("beyond the track");
  auto first = there;
  auto last = there;
  while (first != track.begin() && (first - 1)->reach == there->reach) --first;
  while (last + 1 != track.end() && (last + 1)->reach == there->reach) ++last;
  return join([](Instant begins, Instant ends) { return Span{begins, ends}; }, first->begins,
              last->ends);
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

bool alike(const Findings& earlier, const Findings& later) {
  const auto same_cable = [](const CableFinding& a, const CableFinding& b) {
    return a.name == b.name && a.to_spare.has_value() == b.to_spare.has_value();
  };
  const auto same_leg = [](const Leg& a, const Leg& b) {
    return same(a.makes_headway, b.makes_headway) && same(a.holds_line, b.holds_line);
  };
  return same_lists(earlier.depths, later.depths, same_depth) &&
         same_lists(earlier.bridges, later.bridges, same_bridge) &&
         same_lists(earlier.cables, later.cables, same_cable) &&
         same_lists(earlier.legs, later.legs, same_leg) &&
         same_lists(earlier.track, later.track, same_piece) &&
         earlier.passage.arrives.has_value() == later.passage.arrives.has_value();
}

Swings::Swings(const Findings& earlier, const Findings& later, const Facts& facts, Interval stay)
    : earlier_(earlier),
      later_(later),
      facts_(facts),
      longest_(2 * std::max(longest_stay(earlier), longest_stay(later)) + kHullPasses),
      stay_(stay) {}

Swings::Swing Swings::swing_at(const std::string& station, const Passing& earlier,
                               const Passing& later, Interval stay) const {
  const Known<const TideStation*> found = facts_.tide(station);
  if (!found.has_value() || !earlier.at.has_value() || !later.at.has_value()) return {0, 0, false};
  const Span span{std::min(*earlier.at, *later.at),
                  std::max(*earlier.at, *later.at) + longest_ + stay};
  const double step_m = has_new_year(span) ? kNewYearStep_m : 0;
  const TideStation& tide = **found;
  const auto turns = tide.high_low(span);
  if (!turns.has_value()) return {kInfinite, kInfinite, true};
  const double beside_m = in_metres(beside_strays(facts_, earlier_.margins, station, span));
  if (turns->empty() && stay == Interval(0)) return {step_m + beside_m, step_m + beside_m, false};
  const auto swing = join(
      [](TideHeight begin, TideHeight end, TideHeight low, TideHeight high) {
        return Swing{std::max(0.0, in_metres(std::min(begin, end) - low)),
                     std::max(0.0, in_metres(high - std::max(begin, end))), true,
                     in_metres(high - low)};
      },
      tide.height(*earlier.at), tide.height(*later.at), tide.lowest(span), tide.highest(span));
  if (!swing.has_value()) return {kInfinite, kInfinite, true};
  // The lowest water of a stay may rise from one to the next by all there is between low and high.
  const double in_a_stay_m = stay > Interval(0) ? swing->range_m : 0;
  return {swing->down_m + step_m + beside_m, swing->up_m + in_a_stay_m + step_m + beside_m, true};
}

/// Of a reach of which another part is the shoalest in the one departure than in the other. The
/// figure is the least of all its parts: it falls below the lesser of both ends no more than the
/// tide dips between, and is nowhere above what the part that is shoalest at one end has, which
/// rises by no more than the tide does.
Swings::Swing Swings::swing_in(const Depth& earlier, const Depth& later) const {
  const Known<Span> first = while_round(earlier_, earlier.passing.along);
  const Known<Span> second = while_round(later_, later.passing.along);
  const Known<const TideStation*> found = facts_.tide(earlier.tide_station);
  if (!first.has_value() || !second.has_value() || !found.has_value()) {
    return {kInfinite, kInfinite, true};
  }
  const Span span{std::min(first->begin, second->begin) - kHullPasses,
                  std::max(first->end, second->end) + kHullPasses};
  const TideStation& tide = **found;
  const auto turns = tide.high_low(span);
  const auto range = join([](TideHeight low, TideHeight high) { return high - low; },
                          tide.lowest(span), tide.highest(span));
  if (!turns.has_value() || !range.has_value()) return {kInfinite, kInfinite, true};
  const double aside_m =
      (has_new_year(span) ? kNewYearStep_m : 0) +
      in_metres(beside_strays(facts_, earlier_.margins, earlier.tide_station, span));
  const double range_m = in_metres(*range);
  return {(turns->empty() ? 0 : range_m) + aside_m, range_m + aside_m, !turns->empty()};
}

Swings::Swing Swings::swing_of(SubjectKind kind, std::size_t index) const {
  const auto [found, first] = swings_.try_emplace({kind, index});
  if (first) found->second = work_out(kind, index);
  return found->second;
}

/// Room overhead falls as the tide rises.
Swings::Swing Swings::upside_down(const Swing& tide) {
  return {tide.up_m, tide.down_m, tide.turns, tide.range_m};
}

Swings::Swing Swings::work_out(SubjectKind kind, std::size_t index) const {
  switch (kind) {
    case SubjectKind::berth:
    case SubjectKind::reach:
    case SubjectKind::bar: {
      const Depth& a = earlier_.depths[index];
      const Depth& b = later_.depths[index];
      const Interval stay = kind == SubjectKind::berth ? stay_ : Interval(0);
      Swing swing = a.passing.along == b.passing.along
                        ? swing_at(a.tide_station, a.passing, b.passing, stay)
                        : swing_in(a, b);
      if (a.open_water && a.wave.has_value() && b.wave.has_value()) {
        const double wave_m = in_metres(std::max(*a.wave, *b.wave));
        swing.up_m += *a.wave == *b.wave ? 0 : wave_m;
        swing.down_m += *a.wave == *b.wave ? 0 : wave_m;
      }
      return swing;
    }
    case SubjectKind::bridge:
      return upside_down(swing_at(earlier_.bridges[index].tide_station,
                                  earlier_.bridges[index].passing, later_.bridges[index].passing));
    case SubjectKind::cable:
      return upside_down(swing_at(earlier_.cables[index].tide_station,
                                  earlier_.cables[index].passing, later_.cables[index].passing));
    case SubjectKind::passage:
    case SubjectKind::leg:
    case SubjectKind::danger:
    case SubjectKind::mark:
    case SubjectKind::light:
      break;
  }
  return {0, 0, false};
}

Length Swings::rise_of(SubjectKind kind, std::size_t index) const {
  constexpr double kRounding_m = 1e-4;
  return metres(swing_of(kind, index).up_m + kRounding_m);
}

std::optional<Range> Swings::of_length(const Fact& fact, std::size_t index, double from,
                                       double to) const {
  Swing swing = swing_of(fact.of, index);
  if (!rises_with_the_tide(fact)) swing.down_m = swing.up_m = std::max(swing.down_m, swing.up_m);
  if (!std::isfinite(swing.down_m) || !std::isfinite(swing.up_m)) return std::nullopt;
  const double uneven = kUnevenLength_m + kUnevenOfTide * std::abs(from - to);
  return Range{std::min(from, to) - swing.down_m - uneven,
               std::max(from, to) + swing.up_m + uneven};
}

std::optional<Range> Swings::of_weather(const Fact& fact, double from, double to) const {
  Range range{std::min(from, to), std::max(from, to)};
  if (!later_.passage.arrives.has_value()) return std::nullopt;
  for (const WindSeries& series : facts_.winds) {
    for (const WindHour& hour : series.hours()) {
      if (hour.at < earlier_.passage.departs || hour.at > *later_.passage.arrives) continue;
      const auto take = [&range](const auto& figure) {
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
  return range;
}

std::optional<Range> Swings::range(const Fact& fact, std::size_t a, std::size_t, double from,
                                   double to) const {
  if (is_tidal(fact.of)) {
    if (fact.type == FactType::length) return of_length(fact, a, from, to);
    if (from == to) return Range{from, to};
  }
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
  const auto range = of_length(*find_fact(SubjectKind::bridge, "over_mast"), bridge,
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
  if (name == "tide") {
    const Swing swing = swing_of(fact.of, a);
    return !swing.turns && swing.down_m == 0;
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

std::optional<Touching> Swings::touching(const Fact& fact, std::size_t a, std::size_t b) const {
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
    return of_length(*row, a, in_metres(std::get<Length>(*from)), in_metres(std::get<Length>(*to)));
  };
  const std::optional<Range> first = range_of(figure);
  if (!first) return Touching{true, true, true};
  return touching_of(*first, range_of(could_be));
}

}  // namespace passage_brief
