#include "brief/corridor_between.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <limits>
#include <optional>
#include <span>

#include "brief/alike.h"
#include "brief/current_between.h"
#include "brief/forecast_between.h"
#include "brief/truths.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/relative_wind.h"
#include "passage/route_survey.h"
#include "units/direction.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr double kDriftsAlike = 0.1;  // as a share of the wind
constexpr Angle kDriftTurns = degrees(20);

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kHardlyAnyAbeam_m_s = 0.05;  // of wind: blows nobody a foot aside

double abeam(const TrackPiece& piece) {
  return in_metres_per_second(piece.wind_aboard.speed) *
         std::sin(in_radians(piece.wind_aboard.from));
}

/// The even run of the wind abeam from one end to the other, and what it may stray off it; from
/// starboard positive.
Range abeam_between(const TrackPiece& a, const TrackPiece& b, Speed stray) {
  const double first = abeam(a);
  const double second = abeam(b);
  const double strays = in_metres_per_second(stray) + kUneven * std::abs(first - second);
  return {std::min(first, second) - strays, std::max(first, second) + strays};
}

/// How far she is blown aside for each metre a second of wind abeam: that goes by the strength of
/// the wind aboard.
Range aside_for_each(const TrackPiece& a, const TrackPiece& b, double share) {
  const TrackPiece& more = std::abs(abeam(a)) > std::abs(abeam(b)) ? a : b;
  const auto [weaker, stronger] = std::minmax({a.wind_aboard.speed, b.wind_aboard.speed});
  if (std::abs(abeam(more)) < kHardlyAnyAbeam_m_s) {
    const Length each = std::max(a.blown_by_light_air, b.blown_by_light_air);
    const double grown = weaker > knots(0) ? stronger / weaker * (1 + share) : kInfinite;
    return {0, in_metres(each) * grown};
  }
  const double each = in_metres(more.blown_aside) / std::abs(abeam(more));
  return {each * (weaker / more.wind_aboard.speed) / (1 + share),
          each * (stronger / more.wind_aboard.speed) * (1 + share)};
}

/// Steps of the corridor there may be, 0 or more.
struct CorridorSteps {
  int to_port;       // at most; wind from starboard blows her there
  int to_starboard;  // likewise
  int at_least;      // to either
};

/// What they come to at the begin of a block.
CorridorSteps as_narrow_as(const RouteSurvey& survey, std::size_t block, CorridorSteps steps,
                           Side falls_off_to) {
  const int to = falls_off_to == Side::port ? -1 : 1;
  return {-survey.as_narrow_as(block, -steps.to_port),
          survey.as_narrow_as(block, steps.to_starboard),
          std::abs(survey.as_narrow_as(block, to * steps.at_least))};
}

/// A current moves the air she goes through, and turns her bow off the line.
Speed strays_by_current(const TrackPiece& a, const TrackPiece& b, Speed current) {
  const Speed felt = std::max(a.wind_aboard.speed, b.wind_aboard.speed);
  return current * (1 + felt / std::min(a.through_water, b.through_water));
}

CorridorSteps steps_between(const TrackPiece& a, const TrackPiece& b, const WindStray& wind,
                            Speed current) {
  const Range from = abeam_between(a, b, wind.most + strays_by_current(a, b, current));
  if (std::max(-from.least, from.greatest) < kHardlyAnyAbeam_m_s) return {0, 0, 0};
  const Range each = aside_for_each(a, b, wind.share);
  const auto step = [](double aside_m) {
    return RouteSurvey::leeward_step(Side::starboard, metres(std::max(aside_m, 0.0)));
  };
  const double least = std::max({from.least, -from.greatest, 0.0});
  return {step(each.greatest * from.greatest), step(each.greatest * -from.least),
          step(each.least * least)};
}

/// Where the corridor is another she may be slowed at another time: then her speed must be the same
/// at both ends.
CorridorBetween of_pieces(const RouteSurvey& survey, const Facts& facts,
                          const CurrentBetween& currents, const TrackPiece& a,
                          const TrackPiece& b) {
  if (!a.begins.has_value() || !b.begins.has_value()) return CorridorBetween::the_same;
  const std::optional<WindStray> wind = wind_stray(facts, *a.begins, *b.begins);
  const auto [sooner, later] = std::minmax(*a.begins, *b.begins);
  const std::optional<Speed> current = currents.strays(sooner, later);
  if (!wind || !current) return CorridorBetween::may_be_wider;
  const CorridorSteps steps = as_narrow_as(survey, a.block, steps_between(a, b, *wind, *current),
                                           a.leeward_step < 0 ? Side::port : Side::starboard);
  const int to_port = std::max({-a.leeward_step, -b.leeward_step, 0});
  const int to_starboard = std::max({a.leeward_step, b.leeward_step, 0});
  if (steps.to_port > to_port || steps.to_starboard > to_starboard) {
    return CorridorBetween::may_be_wider;
  }
  if (a.leeward_step == b.leeward_step &&
      (a.leeward_step == 0 || steps.at_least == std::abs(a.leeward_step))) {
    return CorridorBetween::the_same;
  }
  return a.through_water == b.through_water ? CorridorBetween::within_that_of_the_ends
                                            : CorridorBetween::may_be_wider;
}

}  // namespace

CorridorBetween corridor_between(const RouteSurvey& survey, const Facts& facts,
                                 const CurrentBetween& currents,
                                 std::span<const TrackPiece> earlier,
                                 std::span<const TrackPiece> later) {
  CorridorBetween all = CorridorBetween::the_same;
  for (const auto& [a, b] : side_by_side(earlier, later)) {
    all = std::max(all, of_pieces(survey, facts, currents, *a, *b));
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
