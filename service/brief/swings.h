// How far the facts of a departure can stray between two judged ones.
//
// Figures that hang on the tide run one way between its turns; where a turn lies between, they
// stray by what the station's curve does there (exact). Wind, gusts and waves stay within the hours
// of the forecast. What is neither is taken to run evenly, and may stray by a share of its change.
#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

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

/// Whether two departures meet the same things under the same names: then index by index what is
/// said of one is said of the other, and of all between.
[[nodiscard]] bool alike(const Findings& earlier, const Findings& later);

class Swings {
 public:
  /// Two departures that are alike(). All must outlive it. `stay`: in the berth they end in.
  Swings(const Findings& earlier, const Findings& later, const Facts& facts, Interval stay);

  /// Of a fact that is a number, known at both ends; nothing where that cannot be told.
  [[nodiscard]] std::optional<Range> range(const Fact& fact, std::size_t a, std::size_t b,
                                           double from, double to) const;
  /// Whether a word, or yes or no, that is alike at both ends is so all the way.
  [[nodiscard]] bool stays(const Fact& fact, std::size_t a, std::size_t b) const;
  /// Nothing for facts of another kind.
  [[nodiscard]] std::optional<Touching> touching(const Fact& fact, std::size_t a,
                                                 std::size_t b) const;
  /// How much more than at either end can be left at a depth, a bridge or a cable.
  [[nodiscard]] Length rise_of(SubjectKind kind, std::size_t index) const;

 private:
  struct Swing {
    double down_m;       // below the lesser of both ends
    double up_m;         // above the greater
    bool turns;          // there is a high or low water in it
    double range_m = 0;  // from the lowest to the highest of all
  };
  struct Hours;
  [[nodiscard]] Swing swing_of(SubjectKind kind, std::size_t index) const;
  [[nodiscard]] static Swing upside_down(const Swing& tide);
  [[nodiscard]] Swing work_out(SubjectKind kind, std::size_t index) const;
  [[nodiscard]] Swing swing_at(const std::string& station, const Passing& earlier,
                               const Passing& later, Interval stay = Interval(0)) const;
  [[nodiscard]] Swing swing_in(const Depth& earlier, const Depth& later) const;
  [[nodiscard]] std::optional<Range> of_length(const Fact& fact, std::size_t index, double from,
                                               double to) const;
  [[nodiscard]] std::optional<Range> of_weather(const Fact& fact, double from, double to) const;
  [[nodiscard]] bool fits_stays(std::size_t bridge) const;
  [[nodiscard]] bool headway_stays(std::size_t leg) const;
  [[nodiscard]] bool line_stays(std::size_t leg) const;

  const Findings& earlier_;
  const Findings& later_;
  const Facts& facts_;
  Interval longest_;  // that any place takes to come over, waits included
  Interval stay_;
  mutable std::map<std::pair<SubjectKind, std::size_t>, Swing> swings_;  // worked out once each
};

}  // namespace passage_brief
