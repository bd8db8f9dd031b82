#include "brief/truths_between.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "brief/alike.h"
#include "brief/corridor_between.h"
#include "brief/swings.h"
#include "brief/truths.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "rules/fact_table.h"
#include "rules/fact_value.h"
#include "rules/kleene.h"
#include "rules/rule_set.h"
#include "rules/test_truth.h"
#include "rules/verdict.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

/// Drawn once for a whole reach.
bool is_of_the_whole(const Fact& fact) {
  constexpr std::string_view kNames[] = {"name",           "place",        "channel",
                                         "channel_width",  "lengths_wide", "speed_limit",
                                         "draft_measured", "spare_width",  "crabbing_takes"};
  return std::ranges::find(kNames, fact.name) != std::end(kNames);
}

bool sums_up_depths(const Fact& fact) {
  return fact.of == SubjectKind::passage &&
         (fact.name == "least_under_keel" || fact.name == "depths_not_known" ||
          fact.name == "squat_left_out");
}

Truths of_touching(const Comparison& comparison, const Touching& may) {
  std::optional<Truths> all;
  const auto add = [&all](bool possible, Truth truth) {
    if (possible) all = all ? *all | Truths::of(truth) : Truths::of(truth);
  };
  const bool asks_known = comparison.op == Comparison::Operator::known;
  const auto asked = [&](bool value) {
    return std::ranges::any_of(comparison.values,
                               [value](const FactValue& v) { return std::get<bool>(v) == value; });
  };
  if (asks_known) {
    add(may.be_yes || may.be_no, truth_of(asked(true)));
    add(may.be_unknown, truth_of(asked(false)));
  } else {
    add(may.be_yes, truth_of(asked(true)));
    add(may.be_no, truth_of(asked(false)));
    add(may.be_unknown, Truth::unknown);
  }
  return all.value_or(Truths::any());
}

}  // namespace

TruthsBetween::TruthsBetween(const Findings& earlier, const Findings& later,
                             const RouteSurvey& survey, const Facts& facts, Interval stay,
                             bool least)
    : earlier_(earlier),
      later_(later),
      facts_(facts),
      swings_(earlier, later, survey, facts, stay, least) {}

CorridorBetween TruthsBetween::corridor() const {
  return swings_.corridors().over(earlier_.track, later_.track);
}

bool TruthsBetween::bridges_told_between() const {
  if (!bridges_told_) {
    bridges_told_ = true;
    for (std::size_t i = 0; i < earlier_.bridges.size(); ++i) {
      bridges_told_ = *bridges_told_ && swings_.told_between(i);
    }
  }
  return *bridges_told_;
}

bool TruthsBetween::times_are_between() const {
  return alike_but_for_depths(earlier_, later_) && bridges_told_between() &&
         corridor() != CorridorBetween::may_be_wider && swings_.times_stay();
}

bool TruthsBetween::all_alike() const {
  return alike(earlier_, later_) && bridges_told_between() &&
         corridor() == CorridorBetween::the_same;
}

bool TruthsBetween::alike_at(const PlaceOfBoth& place) const {
  if (!passage_brief::alike_at(place, earlier_, later_)) return false;
  if (place.kind == SubjectKind::berth) return true;
  const Length along = earlier_.depths[place.earlier.front()].passing.along;
  return swings_.corridors().over(track_round(earlier_, along), track_round(later_, along)) ==
         CorridorBetween::the_same;
}

std::optional<InBoth> TruthsBetween::in_both(const Subject& subject) const {
  if (all_alike()) return InBoth{subject.index, subject.index};
  const bool one_alone = subject.kind == SubjectKind::light || subject.kind == SubjectKind::passage;
  if (one_alone && times_are_between()) return InBoth{subject.index, subject.index};
  if (subject.kind == SubjectKind::light) return InBoth{.a = 0, .b = 0, .hour_alone = true};
  const std::optional<std::size_t> there = alike_up_to(subject, earlier_, later_);
  if (!there || !bridges_told_between()) return std::nullopt;
  const auto earlier = track_up_to(subject.kind, subject.index, earlier_);
  const auto later = track_up_to(subject.kind, *there, later_);
  if (swings_.corridors().over(earlier, later) != CorridorBetween::the_same) return std::nullopt;
  return InBoth{subject.index, *there};
}

std::vector<InBoth> TruthsBetween::cases_of(SubjectKind kind, const InBoth& thing) const {
  const Fact* figure = figure_of(kind);
  const std::optional<Range> range = figure == nullptr ? std::nullopt : range_of(*figure, thing);
  if (!range) return {thing};
  std::vector<InBoth> cases;
  Range rest = *range;
  const double margin = *as_number(figure->margin(earlier_, thing.a));
  for (const double at : {std::min(0.0, margin), std::max(0.0, margin)}) {
    if (!is_below(rest.least, at) || is_below(rest.greatest, at)) continue;
    const auto [below, above] = cut_at(rest, at);
    cases.push_back({thing.a, thing.b, below});
    rest = above;
  }
  cases.push_back({thing.a, thing.b, rest});
  return cases;
}

Truths TruthsBetween::truths(const Test& test, const InBoth& thing) const {
  return truths_of(test, [&](const Comparison& asked) { return of_comparison(asked, thing); });
}

Truths TruthsBetween::truths(const Test& test, const InBoth& whole, const LeastLeft& left) const {
  return truths_of(test, [&](const Comparison& asked) {
    if (asked.fact->of_part) return of_part(asked, left);
    return is_of_the_whole(*asked.fact) ? of_comparison(asked, whole) : Truths::any();
  });
}

/// Of a number known at both ends.
std::optional<Range> TruthsBetween::range_of(const Fact& fact, const InBoth& thing) const {
  const Known<FactValue> first = fact.value(earlier_, thing.a);
  const Known<FactValue> second = fact.value(later_, thing.b);
  if (!first.has_value() || !second.has_value()) return std::nullopt;
  if (thing.figure && &fact == figure_of(fact.of)) return thing.figure;
  const std::optional<double> from = as_number(*first);
  const std::optional<double> to = as_number(*second);
  if (!from || !to) return std::nullopt;
  return thing.hour_alone ? swings_.of_light(fact, *from, *to)
                          : swings_.range(fact, thing.a, thing.b, *from, *to);
}

Truths TruthsBetween::of_comparison(const Comparison& comparison, const InBoth& thing) const {
  const std::size_t a = thing.a;
  const std::size_t b = thing.b;
  const Fact& fact = *comparison.fact;
  if (sums_up_depths(fact)) return Truths::any();
  if (const auto three = swings_.touching(fact, a, b, thing.figure)) {
    return of_touching(comparison, *three);
  }
  const Known<FactValue> first = fact.value(earlier_, a);
  const Known<FactValue> second = fact.value(later_, b);
  if (first.has_value() != second.has_value()) return Truths::any();
  const bool asks_known = comparison.op == Comparison::Operator::known;
  if (!first.has_value()) {
    if (!swings_.stays_unknown(fact)) return Truths::any();
    if (!asks_known) return Truths::of(Truth::unknown);
  } else if (as_number(*first) && as_number(*second)) {
    const std::optional<Range> range = range_of(fact, thing);
    if (!range) return Truths::any();
    if (!asks_known) return over_range(comparison.op, *range, against(comparison, a));
  } else if (*first != *second || !swings_.stays(fact, a, b)) {
    return Truths::any();
  }
  // The comparison itself, where the fact is the same at both ends and cannot leave it between.
  return Truths::of(truth_of(Test{comparison}, earlier_, a));
}

std::vector<double> TruthsBetween::against(const Comparison& comparison, std::size_t a) const {
  if (comparison.against_margin) return {*as_number(comparison.fact->margin(earlier_, a))};
  std::vector<double> all;
  for (const FactValue& value : comparison.values) all.push_back(*as_number(value));
  return all;
}

Truths TruthsBetween::of_part(const Comparison& comparison, const LeastLeft& left) const {
  const std::string& name = comparison.fact->name;
  const auto from = [&](Length least) {
    const auto over = [&](double number) {
      return over_range(comparison.op, {in_metres(least), std::numeric_limits<double>::infinity()},
                        {number});
    };
    if (!comparison.against_margin) return over(*as_number(comparison.values.front()));
    const Margins& margins = earlier_.margins;
    return over(in_metres(margins.under_keel)) | over(in_metres(margins.under_keel_hard));
  };
  const bool one_number =
      comparison.op != Comparison::Operator::known && comparison.op != Comparison::Operator::one_of;
  if (name == "under_keel" && one_number) return from(left.under_keel);
  if (name == "under_keel_could_be" && one_number && left.could_be) {
    return from(*left.could_be);
  }
  const bool touches_not =
      left.under_keel > metres(0) && left.could_be.value_or(metres(-1)) > metres(0);
  const bool is_no = (name == "keel_touches" && touches_not) || name == "blocked" ||
                     (name == "seas_could_break" && left.seas_are_low);
  if (is_no && comparison.op == Comparison::Operator::is) {
    return Truths::of(truth_of(!std::get<bool>(comparison.values.front())));
  }
  return Truths::any();
}

}  // namespace passage_brief
