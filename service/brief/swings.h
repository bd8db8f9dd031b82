// How far the facts of a departure can stray between two judged ones.
//
// Figures that hang on the tide run one way between its turns; where a turn lies between, they
// stray by what the station's curve does there (exact). Wind, gusts and waves stay within the hours
// of the forecast, and what wind makes strays as it does (forecast_between.h). What is neither is
// taken to run evenly, and may stray by a share of its change.
#pragma once

#include <optional>
#include <span>

#include "brief/forecast_between.h"
#include "brief/tide_between.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "rules/fact_table.h"
#include "rules/verdict.h"
#include "units/quantity.h"

namespace passage_brief {

/// In the fact's SI unit, degrees or seconds.
struct Range {
  double least;
  double greatest;
};

/// What a fact like "the keel touches" may come to: told with its error, it has three answers.
struct Touching {
  bool be_yes = false;
  bool be_unknown = false;
  bool be_no = false;
};

class Swings {
 public:
  /// Two departures that are alike, or are by themselves in what is asked for (alike.h). All must
  /// outlive it. `stay`: in the berth they end in.
  Swings(const Findings& earlier, const Findings& later, const Facts& facts, Interval stay);

  /// Of a fact that is a number, known at both ends; nothing where that cannot be told.
  [[nodiscard]] std::optional<Range> range(const Fact& fact, std::size_t a, std::size_t b,
                                           double from, double to) const;
  /// Whether a word, or yes or no, that is alike at both ends is so all the way.
  [[nodiscard]] bool stays(const Fact& fact, std::size_t a, std::size_t b) const;
  /// Whether what is known at neither end is known nowhere between.
  [[nodiscard]] bool stays_unknown(const Fact& fact) const;
  /// Of a fact of daylight, whatever is met on the way; otherwise as range().
  [[nodiscard]] std::optional<Range> whenever_in(const Fact& fact, double from) const;
  /// Nothing for facts of another kind. `figure`: where it is taken to be in there.
  [[nodiscard]] std::optional<Touching> touching(const Fact& fact, std::size_t a, std::size_t b,
                                                 const std::optional<Range>& figure) const;
  /// Whether the wind strays so little that a drift between is much like those at both ends.
  [[nodiscard]] bool drift_stays() const;
  /// Whether the corridor is as wide in every departure between, the same pieces of both given.
  [[nodiscard]] bool corridor_stays(std::span<const TrackPiece> earlier,
                                    std::span<const TrackPiece> later) const;
  [[nodiscard]] bool corridor_stays() const { return corridor_stays(earlier_.track, later_.track); }
  /// How much more than at either end can be left at a depth, a bridge or a cable.
  [[nodiscard]] Length rise_of(SubjectKind kind, std::size_t index) const;

 private:
  [[nodiscard]] std::optional<Range> of_length(const Fact& fact, std::size_t a, std::size_t b,
                                               double from, double to) const;
  [[nodiscard]] std::optional<WindStray> stray_at(const Fact& fact, std::size_t a,
                                                  std::size_t b) const;
  [[nodiscard]] std::optional<Range> of_wind(const Fact& fact, std::size_t a, std::size_t b,
                                             double from, double to) const;
  [[nodiscard]] std::optional<Range> of_weather(const Fact& fact, double from, double to) const;
  [[nodiscard]] bool fits_stays(std::size_t bridge) const;
  [[nodiscard]] bool headway_stays(std::size_t leg) const;
  [[nodiscard]] bool line_stays(std::size_t leg) const;

  const Findings& earlier_;
  const Findings& later_;
  const Facts& facts_;
  TideBetween tide_;
};

}  // namespace passage_brief
