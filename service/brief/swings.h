// How far the facts of a departure can stray between two judged ones.
//
// Figures that hang on the tide run one way between its turns; where a turn lies between, they
// stray by what the station's curve does there (exact). Wind, gusts and waves stay within the hours
// of the forecast, and what wind makes strays as it does (forecast_between.h). What is neither is
// taken to run evenly, and may stray by a share of its change.
#pragma once

#include <optional>

#include "brief/alike.h"
#include "brief/forecast_between.h"
#include "brief/tide_between.h"
#include "brief/truths.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "rules/fact_table.h"
#include "rules/verdict.h"
#include "units/quantity.h"

namespace passage_brief {

/// What is left anywhere in a reach in every departure between two, whatever part of it is told.
struct LeastLeft {
  double under_keel_m;
  std::optional<double> could_be_m;  // empty: not known somewhere
  bool seas_are_low;                 // they break nowhere
};

/// What a fact like "the keel touches" may come to: told with its error, it has three answers.
struct Touching {
  bool be_yes = false;
  bool be_unknown = false;
  bool be_no = false;
};

/// Of the whole way, and made by the hours of the forecast alone.
[[nodiscard]] bool is_weather(const Fact& fact);

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
  /// Of a fact of daylight, where what is met on the way is not alike; otherwise as range().
  [[nodiscard]] std::optional<Range> of_light(const Fact& fact, double from, double to) const;
  /// Nothing for facts of another kind. `figure`: where it is taken to be in there.
  [[nodiscard]] std::optional<Touching> touching(const Fact& fact, std::size_t a, std::size_t b,
                                                 const std::optional<Range>& figure) const;
  /// Nothing where that cannot be told, or some of it is not known.
  [[nodiscard]] std::optional<LeastLeft> least_left(const PlaceOfBoth& reach) const;
  /// How much more than at either end can be left at a depth, a bridge or a cable.
  [[nodiscard]] Length rise_of(SubjectKind kind, std::size_t a, std::size_t b) const;

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
