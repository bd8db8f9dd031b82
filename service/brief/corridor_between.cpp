#include "brief/corridor_between.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>
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

/// How far she is blown aside by so much wind on the beam, at most and at least: it goes by the
/// strength of the wind aboard, and the less is on the beam the more each part of it does
/// (passage/leeway.h).
class BlownAside {
 public:
  BlownAside(const TrackPiece& a, const TrackPiece& b, double share)
      : more_(std::abs(abeam(a)) > std::abs(abeam(b)) ? a : b) {
    const auto [weaker, stronger] = std::minmax({a.wind_aboard.speed, b.wind_aboard.speed});
    by_light_air_ = std::max(a.blown_by_light_air, b.blown_by_light_air) * (1 + share);
    if (more_.wind_aboard.speed <= knots(0)) return;
    stronger_ = stronger / more_.wind_aboard.speed * (1 + share);
    weaker_ = weaker / more_.wind_aboard.speed / (1 + share);
  }

  [[nodiscard]] Length at_most(double abeam_m_s) const {
    const Length as_light_air =
        by_light_air_ * std::max(abeam_m_s / in_metres_per_second(kLightAir), 1.0);
    if (std::abs(abeam(more_)) < in_metres_per_second(kLightAir)) return as_light_air;
    const double of_more = abeam_m_s / std::abs(abeam(more_));
    return std::min(as_light_air, more_.blown_aside * stronger_ * std::max(of_more, 1.0));
  }
  [[nodiscard]] Length at_least(double abeam_m_s) const {
    if (abeam_m_s <= 0) return metres(0);
    const double of_more = abeam_m_s / std::abs(abeam(more_));
    return more_.blown_aside * weaker_ * std::min(of_more, 1.0);
  }

 private:
  const TrackPiece& more_;  // of the two with more wind on the beam
  Length by_light_air_ = metres(0);
  double stronger_ = 1;
  double weaker_ = 1;
};

/// Steps of the corridor there may be, 0 or more.
struct CorridorSteps {
  int to_port;       // at most; wind from starboard blows her there
  int to_starboard;  // likewise
  int at_least;      // to either
};

/// The narrowest of the same depths along a block.
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
  const BlownAside aside(a, b, wind.share);
  const auto step = [](Length blown) { return RouteSurvey::leeward_step(Side::starboard, blown); };
  return {step(aside.at_most(std::max(from.greatest, 0.0))),
          step(aside.at_most(std::max(-from.least, 0.0))),
          step(aside.at_least(std::max({from.least, -from.greatest, 0.0})))};
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

CorridorsBetween::CorridorsBetween(const RouteSurvey& survey, const Facts& facts,
                                   const CurrentBetween& currents,
                                   const std::vector<TrackPiece>& earlier,
                                   const std::vector<TrackPiece>& later)
    : survey_(survey), facts_(facts), currents_(currents) {
  for (const auto& [a, b] : side_by_side(earlier, later)) pairs_.push_back({a, b, std::nullopt});
}

CorridorBetween CorridorsBetween::over(std::span<const TrackPiece> earlier,
                                       std::span<const TrackPiece> later) const {
  const auto is_of = [](const TrackPiece* piece, std::span<const TrackPiece> pieces) {
    return !pieces.empty() && piece >= &pieces.front() && piece <= &pieces.back();
  };
  CorridorBetween all = CorridorBetween::the_same;
  for (Pair& pair : pairs_) {
    if (!is_of(pair.earlier, earlier) || !is_of(pair.later, later)) continue;
    if (!pair.found) pair.found = of_pieces(survey_, facts_, currents_, *pair.earlier, *pair.later);
    all = std::max(all, *pair.found);
    if (all == CorridorBetween::may_be_wider) break;
  }
  return all;
}

}  // namespace passage_brief
