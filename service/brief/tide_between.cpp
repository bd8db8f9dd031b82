#include "brief/tide_between.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "brief/alike.h"
#include "brief/forecast_between.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/water_level.h"
#include "rules/fact_table.h"
#include "rules/verdict.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr TideSwing kUnbounded{kInfiniteLength, kInfiniteLength, true, kInfiniteLength,
                               kInfiniteLength};
// Harmonic curves step at New Year (facts/tide/constituent.h), by some centimetres.
constexpr Length kNewYearStep = metres(0.05);
constexpr Interval kHullPasses = std::chrono::minutes(5);

Length new_year_step(Span span) {
  const auto year_of = [](Instant at) {
    return std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(at)).year();
  };
  return year_of(span.begin) != year_of(span.end) ? kNewYearStep : metres(0);
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
  const std::span<const TrackPiece> round = track_round(found, along);
  const bool to_the_end = &round.back() == &found.track.back();
  // A wait for a bridge lies between the end of a piece and the begin of the next, or the arrival.
  return join([](Instant begins, Instant ends) { return Span{begins, ends}; }, round.front().begins,
              to_the_end ? found.passage.arrives : (&round.back() + 1)->begins);
}

/// When she is past a bridge or a cable, and past all drawbridges that she may lie short of and of
/// it too: who leaves sooner is so sooner. Nothing where she goes under it at once; not known where
/// that is not.
template <class Overhead>
Known<std::optional<Instant>> clear_at(const Findings& found, const Overhead& thing) {
  Known<std::optional<Instant>> clear = std::optional<Instant>();
  const auto take = [&clear](const Known<Instant>& until) {
    clear = join([](const std::optional<Instant>& held,
                    Instant at) { return std::optional(std::max(held.value_or(at), at)); },
                 clear, until);
  };
  if (takes_long(thing.passing)) {
    take(join([](Span span) { return span.end; }, while_under(thing.passing)));
  }
  for (const BridgeFinding* bridge : drawbridges_beyond(thing.name, thing.passing, found)) {
    take(join([](Instant at, Interval wait) { return at + wait; }, bridge->opening->reached,
              bridge->opening->wait));
  }
  return clear;
}

/// Room overhead falls as the tide rises.
TideSwing upside_down(const TideSwing& tide) {
  return {tide.up, tide.down, tide.turns, tide.error, tide.waves};
}

}  // namespace

TideBetween::TideBetween(const Findings& earlier, const Findings& later, const Facts& facts,
                         Interval stay)
    : earlier_(earlier),
      later_(later),
      facts_(facts),
      longest_(2 * std::max(longest_stay(earlier), longest_stay(later)) + kHullPasses),
      stay_(stay) {}

TideSwing TideBetween::swing_of(SubjectKind kind, std::size_t a, std::size_t b) const {
  const auto [found, first] = swings_.try_emplace({kind, a});
  if (first) found->second = work_out(kind, a, b);
  return found->second;
}

TideSwing TideBetween::swing_in(std::size_t a, std::size_t b) const {
  return swing_in(earlier_.depths[a], later_.depths[b]);
}

TideSwing TideBetween::work_out(SubjectKind kind, std::size_t a, std::size_t b) const {
  if (is_of_depth(kind)) return of_depth(kind, a, b);
  if (kind == SubjectKind::bridge) return overhead(earlier_.bridges[a], later_.bridges[b]);
  if (kind == SubjectKind::cable) return overhead(earlier_.cables[a], later_.cables[b]);
  return {};
}

template <class Overhead>
TideSwing TideBetween::overhead(const Overhead& earlier, const Overhead& later) const {
  const bool waves_count = earlier_.legs[earlier.passing.leg].open_water;
  const Known<std::optional<Instant>> clear = clear_at(later_, later);
  if (!clear.has_value()) return kUnbounded;
  if (*clear) {
    return room_all_the_while(earlier.tide_station, earlier.passing, later.passing, **clear,
                              waves_count);
  }
  return upside_down(
      swing_at(earlier.tide_station, earlier.passing, later.passing, Interval(0), waves_count));
}

/// The figure is taken at the highest water from coming to it until some time before `clear`: that
/// stands no higher than the highest of all that time, and no lower than the lowest she may come to
/// it at.
TideSwing TideBetween::room_all_the_while(const std::string& station, const Passing& earlier,
                                          const Passing& later, Instant clear,
                                          bool waves_count) const {
  const Known<const TideStation*> found = facts_.tide(station);
  const Known<Span> first = while_under(earlier);
  const Known<Span> second = while_under(later);
  if (!found.has_value()) return {};
  if (!first.has_value() || !second.has_value()) return kUnbounded;
  const TideStation& tide = **found;
  const Span comes{std::min(first->begin, second->begin), std::max(first->begin, second->begin)};
  const Span there{comes.begin, std::max({first->end, second->end, clear}) + kHullPasses};
  const auto turns = tide.high_low(there);
  if (!turns.has_value()) return kUnbounded;
  const BesideStrays beside = beside_strays(facts_, earlier_.margins, station, there);
  const Length waves = waves_count ? wave_range(facts_, there) / 2 : metres(0);
  const Length aside = new_year_step(there) + beside.level + waves;
  return join(
             [&](TideHeight one, TideHeight other, TideHeight low, TideHeight high) {
               const Length less = std::max(high - std::max(one, other), metres(0));
               const Length more = std::max(std::min(one, other) - low, metres(0));
               return TideSwing{less + aside, more + aside, !turns->empty(), beside.error, waves};
             },
             tide.highest(*first), tide.highest(*second), tide.lowest(comes), tide.highest(there))
      .value_or(kUnbounded);
}

TideSwing TideBetween::of_depth(SubjectKind kind, std::size_t earlier, std::size_t later) const {
  const Depth& a = earlier_.depths[earlier];
  const Depth& b = later_.depths[later];
  if (kind == SubjectKind::bar && (takes_long(a.passing) || takes_long(b.passing))) {
    return kUnbounded;
  }
  const Interval stay = kind == SubjectKind::berth ? stay_ : Interval(0);
  const TideSwing at_the_place =
      swing_at(a.tide_station, a.passing, b.passing, stay, a.open_water || b.open_water);
  if (kind != SubjectKind::reach) return at_the_place;
  const TideSwing whole = swing_in(a, b);
  const bool one_place = a.passing.along == b.passing.along;
  return {whole.down, one_place ? at_the_place.up : whole.up, whole.turns, whole.error,
          whole.waves};
}

TideSwing TideBetween::swing_at(const std::string& station, const Passing& earlier,
                                const Passing& later, Interval stay, bool waves_count) const {
  const Known<const TideStation*> found = facts_.tide(station);
  if (!found.has_value() || !earlier.at.has_value() || !later.at.has_value()) return {};
  const Span span{std::min(*earlier.at, *later.at),
                  std::max(*earlier.at, *later.at) + longest_ + stay};
  const TideStation& tide = **found;
  const auto turns = tide.high_low(span);
  if (!turns.has_value()) return kUnbounded;
  const BesideStrays beside = beside_strays(facts_, earlier_.margins, station, span);
  const Length waves = waves_count ? wave_range(facts_, span) / 2 : metres(0);
  const Length aside = new_year_step(span) + beside.level + waves;
  if (turns->empty() && stay == Interval(0)) return {aside, aside, false, beside.error, waves};
  return join(
             [&](TideHeight begin, TideHeight end, TideHeight low, TideHeight high) {
               const Length dips = std::max(std::min(begin, end) - low, metres(0));
               const Length rises = std::max(high - std::max(begin, end), metres(0));
               // The lowest water of a stay may rise from one to the next by all there is.
               const Length of_stay = stay > Interval(0) ? high - low : metres(0);
               return TideSwing{dips + aside, rises + of_stay + aside, true, beside.error, waves};
             },
             tide.height(*earlier.at), tide.height(*later.at), tide.lowest(span),
             tide.highest(span))
      .value_or(kUnbounded);
}

/// Of a reach, of which another part may be the shoalest in each departure. The figure is the least
/// of all its parts: it falls below the lesser of both ends no more than the tide dips between, and
/// is nowhere above what the part that is shoalest at one end has, which rises by no more than the
/// tide does. Parts may have a tide station each.
TideSwing TideBetween::swing_in(const Depth& earlier, const Depth& later) const {
  const Known<Span> first = while_round(earlier_, earlier.passing.along);
  const Known<Span> second = while_round(later_, later.passing.along);
  if (!first.has_value() || !second.has_value()) return kUnbounded;
  const Span span{std::min(first->begin, second->begin) - kHullPasses,
                  std::max(first->end, second->end) + longest_};
  Length range = metres(0);
  BesideStrays beside{metres(0), metres(0)};
  bool turns = false;
  for (const TideStation& tide : facts_.tides) {
    const auto of_station = tide.high_low(span);
    const auto all = join([](TideHeight low, TideHeight high) { return high - low; },
                          tide.lowest(span), tide.highest(span));
    if (!of_station.has_value() || !all.has_value()) {
      // Of another station that tells nothing all the while: what has it is not known either.
      const bool tells =
          tide.height(first->begin).has_value() || tide.height(first->end).has_value() ||
          tide.height(second->begin).has_value() || tide.height(second->end).has_value();
      if (tells || tide.name() == earlier.tide_station) return kUnbounded;
      continue;
    }
    turns = turns || !of_station->empty();
    range = std::max(range, *all);
    const BesideStrays here = beside_strays(facts_, earlier_.margins, tide.name(), span);
    beside = {std::max(beside.level, here.level), std::max(beside.error, here.error)};
  }
  const auto is_open = [&earlier](const Depth& depth) {
    return depth.place == earlier.place && depth.number == earlier.number && depth.open_water;
  };
  const bool waves_count =
      std::ranges::any_of(earlier_.depths, is_open) || std::ranges::any_of(later_.depths, is_open);
  const Length waves = waves_count ? wave_range(facts_, span) / 2 : metres(0);
  const Length aside = new_year_step(span) + beside.level + waves;
  return {(turns ? range : metres(0)) + aside, range + aside, turns, beside.error, waves};
}

}  // namespace passage_brief
