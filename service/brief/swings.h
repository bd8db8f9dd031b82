// How far the facts of a departure can stray between two judged ones.
//
// Figures that hang on the tide run one way between its turns; where a turn lies between, they
// stray by what the station's curve does there (exact). Wind, gusts and waves stay within the hours
// of the forecast, and what wind makes strays as it does (forecast_between.h). What is neither is
// taken to run evenly, and may stray by a share of its change.
#pragma once

#include <optional>

#include "brief/alike.h"
#include "brief/corridor_between.h"
#include "brief/current_between.h"
#include "brief/forecast_between.h"
#include "brief/tide_between.h"
#include "brief/truths.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "rules/fact_table.h"
#include "rules/verdict.h"
#include "units/quantity.h"

namespace passage_brief {

/// What is left anywhere in a reach in every departure between two, whatever part of it is told.
struct LeastLeft {
  Length under_keel;
  std::optional<Length> could_be;  // empty: not known somewhere
  bool seas_are_low;               // they break nowhere
};

/// What a fact like "the keel touches" may come to: told with its error, it has three answers.
struct Touching {
  bool be_yes = false;
  bool be_unknown = false;
  bool be_no = false;
};

class Swings {
 public:
  /// What is asked for must be alike in both (alike.h), but for least_left() and of_light(). All
  /// must outlive it. `stay`: in the berth they end in; `least`: the figures of both are what they
  /// could be as little as (rules/at_their_least.h).
  Swings(const Findings& earlier, const Findings& later, const RouteSurvey& survey,
         const Facts& facts, Interval stay, bool least);
  Swings(const Swings&) = delete;  // corridors_ looks into currents_

  [[nodiscard]] const CorridorsBetween& corridors() const { return corridors_; }
  [[nodiscard]] const CurrentBetween& currents() const { return currents_; }
  /// Of a fact that is a number, known at both ends; nothing where that cannot be told.
  [[nodiscard]] std::optional<Range> range(const Fact& fact, std::size_t a, std::size_t b,
                                           double from, double to) const;
  /// Whether a word, or yes or no, that is alike at both ends is so all the way.
  [[nodiscard]] bool stays(const Fact& fact, std::size_t a, std::size_t b) const;
  /// Whether what is known at neither end is known nowhere between.
  [[nodiscard]] bool stays_unknown(const Fact& fact) const;
  /// Of a fact of daylight, whatever is met on the way; otherwise as range().
  [[nodiscard]] std::optional<Range> of_light(const Fact& fact, double from, double to) const;
  /// Nothing for facts of another kind. `figure`: where it is taken to be in there.
  [[nodiscard]] std::optional<Touching> touching(const Fact& fact, std::size_t a, std::size_t b,
                                                 const std::optional<Range>& figure) const;
  /// Nothing where that cannot be told, or some of it is not known.
  [[nodiscard]] std::optional<LeastLeft> least_left(const PlaceOfBoth& reach) const;
  /// The room over the mast is farther from what is wanted at both ends than the tide carries it
  /// between: she passes with the same antennas, through an opening or under the bridge.
  [[nodiscard]] bool antennas_stay(SubjectKind kind, std::size_t index) const;
  /// Without waves a mast is told of only where not even a calm leaves it room: whether every
  /// departure between is told of a bridge what both ends are, or at both ends waves are known.
  [[nodiscard]] bool told_between(std::size_t bridge) const;
  /// Where she makes headway and holds the line at both ends she does in every departure between.
  [[nodiscard]] bool times_stay() const;
  /// How much more than at either end can be left at a depth, a bridge or a cable.
  [[nodiscard]] Length rise_of(SubjectKind kind, std::size_t a, std::size_t b) const;

 private:
  [[nodiscard]] std::optional<Range> of_length(const Fact& fact, std::size_t a, std::size_t b,
                                               double from, double to) const;
  [[nodiscard]] std::optional<Range> of_crabbing(const Known<Instant>& begin,
                                                 const Known<Instant>& end, double from, double to,
                                                 double most) const;
  [[nodiscard]] std::optional<Range> of_weather(const Fact& fact, const Known<Instant>& begin,
                                                const Known<Instant>& end, double from,
                                                double to) const;
  [[nodiscard]] bool category_stays(const Fact& passes) const;
  [[nodiscard]] bool room_stays(SubjectKind kind, std::size_t index,
                                const std::vector<OverMast>& earlier,
                                const std::vector<OverMast>& later, Length wanted,
                                const std::optional<Range>& clearance) const;
  [[nodiscard]] std::optional<Range> clearance_between(std::size_t bridge,
                                                       const Known<Length>& earlier,
                                                       const Known<Length>& later) const;
  [[nodiscard]] std::optional<Speed> current_strays(const TrackPiece& a, const TrackPiece& b) const;
  [[nodiscard]] bool anchor_holds(std::size_t a, std::size_t b) const;
  [[nodiscard]] bool headway_stays(std::size_t leg) const;
  [[nodiscard]] bool line_stays(std::size_t leg) const;

  const Findings& earlier_;
  const Findings& later_;
  const Facts& facts_;
  bool least_;
  TideBetween tide_;
  CurrentBetween currents_;
  CorridorsBetween corridors_;
};

}  // namespace passage_brief
