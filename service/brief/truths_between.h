// What a rule's test comes to in every departure between two judged ones.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "brief/alike.h"
#include "brief/corridor_between.h"
#include "brief/swings.h"
#include "brief/truths.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "rules/fact_table.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"
#include "units/quantity.h"

namespace passage_brief {

/// One thing by its places in the lists of two departures.
struct InBoth {
  std::size_t a;
  std::size_t b;
  std::optional<Range> figure = std::nullopt;  // taken to be in there: what is measured here
  bool hour_alone = false;                     // what is met on the way may be anything
};

class TruthsBetween {
 public:
  /// All must outlive it. `stay`, `least`: as in swings.h.
  TruthsBetween(const Findings& earlier, const Findings& later, const RouteSurvey& survey,
                const Facts& facts, Interval stay, bool least);

  [[nodiscard]] const Swings& swings() const { return swings_; }
  /// Every departure between comes to each place between the times of both, and to the same things
  /// but for depths.
  [[nodiscard]] bool times_are_between() const;
  /// All that either meets, the other meets too, and every departure between.
  [[nodiscard]] bool all_alike() const;
  /// The same is told of a place in every departure between.
  [[nodiscard]] bool alike_at(const PlaceOfBoth& place) const;
  /// A thing of the earlier that is met alike by every departure between; nothing where none is
  /// sure.
  [[nodiscard]] std::optional<InBoth> in_both(const Subject& subject) const;
  /// The same thing, once for each side of nought and of the margin that its figure may come to.
  [[nodiscard]] std::vector<InBoth> cases_of(SubjectKind kind, const InBoth& thing) const;

  [[nodiscard]] Truths truths(const Test& test, const InBoth& thing) const;
  /// Of a whole reach, of whose depth nothing is known but what is left in all of it.
  [[nodiscard]] Truths truths(const Test& test, const InBoth& whole, const LeastLeft& left) const;

 private:
  [[nodiscard]] CorridorBetween corridor() const;
  [[nodiscard]] bool bridges_told_between() const;
  [[nodiscard]] std::optional<Range> range_of(const Fact& fact, const InBoth& thing) const;
  [[nodiscard]] Truths of_comparison(const Comparison& comparison, const InBoth& thing) const;
  [[nodiscard]] Truths of_part(const Comparison& comparison, const LeastLeft& left) const;
  [[nodiscard]] std::vector<double> against(const Comparison& comparison, std::size_t a) const;

  const Findings& earlier_;
  const Findings& later_;
  const Facts& facts_;
  Swings swings_;
  mutable std::optional<bool> bridges_told_;  // worked out once
};

}  // namespace passage_brief
