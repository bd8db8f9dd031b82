#include "brief/dangers_between.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "brief/alike.h"
#include "brief/current_between.h"
#include "brief/forecast_between.h"
#include "facts/facts.h"
#include "facts/tide/tide_station.h"
#include "passage/drift_targets.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "passage/timeline.h"
#include "passage/water_level.h"
#include "passage/weather_here.h"
#include "units/direction.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

constexpr double kDriftsAlike = 0.1;  // as a share of the wind
constexpr Angle kDriftTurns = degrees(20);
constexpr Speed kCurrentsAlike = knots(0.1);
constexpr Speed kCurrentsChange = knots(0.5);  // from one end to the other
constexpr Length kMayStandOff = metres(0.5);   // the level at a low water, from what is told
constexpr Speed kHardlyAnyPush = knots(0.02);  // less than dangers.cpp counts

/// One piece of the way in both departures.
class PieceBetween {
 public:
  PieceBetween(const RouteSurvey& survey, const Facts& facts, const TrackPiece& a,
               const TrackPiece& b, const WindStray& wind, Speed current)
      : survey_(survey),
        facts_(facts),
        a_(a),
        times_{std::min(*a.begins, *b.begins), std::max(*a.begins, *b.begins)},
        wind_(wind),
        current_(current) {}

  /// A shoal that the tide covers and uncovers counts at the lower of both ends, but for a low
  /// water between.
  [[nodiscard]] bool shoals_stay(Length draft, const Margins& margins) const {
    const std::size_t stretch = survey_.blocks()[a_.block].stretch;
    return std::ranges::all_of(survey_.drift_targets(stretch), [&](const DriftTarget& target) {
      if (!target.depth || !target.depth->charted.has_value()) return true;
      const Known<const TideStation*> station = facts_.tide(target.depth->stations.tide);
      if (!station.has_value()) return true;
      const Known<std::vector<TideEvent>> turns = (*station)->high_low(times_);
      if (!turns.has_value()) return false;
      const Length beside =
          beside_range(LevelFor::depths, facts_, margins, (*station)->name(), times_).least;
      return std::ranges::none_of(*turns, [&](const TideEvent& turn) {
        const Length water = *target.depth->charted + turn.height.above_datum() + beside;
        return !turn.high && water - kMayStandOff < draft;
      });
    });
  }

  /// What lies at the edge is reached at once, but told only where wind or current push that way.
  [[nodiscard]] bool edges_stay(const Findings& earlier, const Findings& later) const {
    const std::vector<SurveyedPiece>& pieces = survey_.pieces(a_.block, a_.leeward_step);
    const auto piece = std::ranges::find(pieces, a_.begin, &SurveyedPiece::begin);
    if (piece == pieces.end()) return false;
    const auto& targets = survey_.drift_targets(piece->stretch);
    const Length edge = survey_.lee_edge(piece->run);
    for (std::size_t t = 0; t < targets.size(); ++t) {
      const TargetOff& off = piece->targets[t];
      const auto is_told = [&](const Danger& danger) {
        return danger.leg == a_.leg && danger.name == targets[t].name &&
               danger.reached_in.value_or(Interval(0)) == Interval(0);
      };
      if (off.nearest > edge || is_deep(targets[t], earlier) ||
          std::ranges::any_of(earlier.dangers, is_told) ||
          std::ranges::any_of(later.dangers, is_told)) {
        continue;
      }
      if (may_be_pushed(*piece, off.side < 0 ? -1 : 1)) return false;
    }
    return true;
  }

 private:
  /// A shoal that she floats over at both ends, and so between (shoals_stay()).
  [[nodiscard]] bool is_deep(const DriftTarget& target, const Findings& findings) const {
    if (!target.depth) return false;
    const auto floats_at = [&](Instant at) {
      const Known<Length> water =
          join([](Length charted, TideHeight level) { return charted + level.above_datum(); },
               target.depth->charted,
               level_at(facts_, findings.margins, target.depth->stations, Known<Instant>(at)));
      return water.has_value() && *water >= findings.depths.front().draft;
    };
    return floats_at(times_.begin) && floats_at(times_.end);
  }

  /// To starboard where `side` is 1, to port where it is -1.
  [[nodiscard]] bool may_be_pushed(const SurveyedPiece& piece, double side) const {
    const TrueBearing abeam = survey_.track().stretches[piece.stretch].course() + degrees(90);
    const auto pushes = [&](const Known<Velocity>& first, const Known<Velocity>& last,
                            Speed stray) {
      if (!first.has_value() || !last.has_value()) return true;
      const Speed a = component_toward(abeam, *first) * side;
      const Speed b = component_toward(abeam, *last) * side;
      const Speed uneven = (std::max(a, b) - std::min(a, b)) * kUneven;
      return std::max(a, b) + stray + uneven > kHardlyAnyPush;
    };
    const auto wind_at = [&](Instant at) {
      return join([](const Wind& w) { return velocity(w.from, w.speed); },
                  wind_here(facts_, piece.middle, at));
    };
    const auto current_at = [&](Instant at) {
      return current_here(survey_, facts_, (piece.begin + piece.end) / 2, Known<Instant>(at));
    };
    return pushes(wind_at(times_.begin), wind_at(times_.end), wind_.most) ||
           pushes(current_at(times_.begin), current_at(times_.end), current_);
  }

  const RouteSurvey& survey_;
  const Facts& facts_;
  const TrackPiece& a_;
  Span times_;
  const WindStray& wind_;
  Speed current_;
};

}  // namespace

bool no_danger_between_alone(const Findings& earlier, const Findings& later,
                             const RouteSurvey& survey, const Facts& facts,
                             const CurrentBetween& currents) {
  const Length draft = earlier.depths.front().draft;
  return std::ranges::all_of(side_by_side(earlier.track, later.track), [&](const auto& pair) {
    const auto [a, b] = pair;
    if (!a->begins.has_value() || !b->begins.has_value()) return true;
    const auto [sooner, last] = std::minmax(*a->begins, *b->begins);
    const std::optional<WindStray> wind = wind_stray(facts, sooner, last);
    const std::optional<Speed> current = currents.strays(sooner, last);
    const std::optional<Speed> changes = currents.changes(sooner, last);
    if (!wind || wind->share > kDriftsAlike || wind->veers > kDriftTurns || !current ||
        *current > kCurrentsAlike || !changes || *changes > kCurrentsChange) {
      return false;
    }
    const PieceBetween piece(survey, facts, *a, *b, *wind, *current);
    return piece.shoals_stay(draft, earlier.margins) && piece.edges_stay(earlier, later);
  });
}

}  // namespace passage_brief
