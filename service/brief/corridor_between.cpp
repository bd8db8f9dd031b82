#include "brief/corridor_between.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

#include "brief/alike.h"
#include "brief/forecast_between.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr double kDriftsAlike = 0.1;  // as a share of the wind
constexpr Angle kDriftTurns = degrees(20);

/// By the steps at both ends, and by what the wind may do between.
CorridorBetween of_pieces(const Facts& facts, const TrackPiece& a, const TrackPiece& b) {
  if (!a.begins.has_value() || !b.begins.has_value()) return CorridorBetween::the_same;
  const std::optional<WindStray> wind = wind_stray(facts, *a.begins, *b.begins);
  if (!wind) return CorridorBetween::may_be_wider;
  const double grown = (1 + wind->share) * (1 + wind->share);
  const Length even = metres(kUneven * std::abs(in_metres(a.blown_aside - b.blown_aside)));
  const auto step = [](Length aside) { return RouteSurvey::leeward_step(Side::starboard, aside); };
  const int most = step(std::max(a.blown_aside, b.blown_aside) * grown + even);
  const int least = step(std::min(a.blown_aside, b.blown_aside) / grown - even);
  const auto [less, more] = std::minmax({std::abs(a.leeward_step), std::abs(b.leeward_step)});
  if (a.leeward_step == b.leeward_step && most == more && least == more) {
    return CorridorBetween::the_same;
  }
  const bool to_both_sides = (a.leeward_step < 0) != (b.leeward_step < 0) && less > 0;
  return most <= (to_both_sides ? less : more) ? CorridorBetween::within_that_of_the_ends
                                               : CorridorBetween::may_be_wider;
}

}  // namespace

CorridorBetween corridor_between(const Facts& facts, std::span<const TrackPiece> earlier,
                                 std::span<const TrackPiece> later) {
  CorridorBetween all = CorridorBetween::the_same;
  for (const auto& [a, b] : side_by_side(earlier, later)) {
    all = std::max(all, of_pieces(facts, *a, *b));
    if (all == CorridorBetween::may_be_wider) break;
  }
  return all;
}

bool drift_stays(const Facts& facts, std::span<const TrackPiece> earlier,
                 std::span<const TrackPiece> later) {
  return std::ranges::all_of(side_by_side(earlier, later), [&facts](const auto& pair) {
    const auto [a, b] = pair;
    if (!a->begins.has_value() || !b->begins.has_value()) return true;
    const std::optional<WindStray> wind = wind_stray(facts, *a->begins, *b->begins);
    return wind && wind->share <= kDriftsAlike && wind->veers <= kDriftTurns;
  });
}

}  // namespace passage_brief
