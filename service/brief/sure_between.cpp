#include "brief/sure_between.h"

#include <algorithm>
#include <chrono>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "brief/alike.h"
#include "brief/departure_judge.h"
#include "brief/swings.h"
#include "brief/truths.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "rules/fact_table.h"
#include "rules/fact_value.h"
#include "rules/kleene.h"
#include "rules/rule_set.h"
#include "rules/test_truth.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

// Kinds of which one thing by itself may shut the way.
constexpr SubjectKind kLeastWorkFirst[] = {
    SubjectKind::light,  SubjectKind::reach, SubjectKind::bar, SubjectKind::berth,
    SubjectKind::bridge, SubjectKind::cable, SubjectKind::leg, SubjectKind::passage};

/// One thing in both departures.
struct Pair {
  std::size_t a;
  std::size_t b;
  std::optional<Range> figure = std::nullopt;  // taken to be in there: what is measured here
  bool hour_alone = false;                     // what is met on the way may be anything
};

bool hangs_on_the_hour(const Fact& fact) {
  return fact.of == SubjectKind::light || is_weather(fact);
}

bool sums_up_depths(const Fact& fact) {
  return fact.of == SubjectKind::passage &&
         (fact.name == "least_under_keel" || fact.name == "depths_not_known" ||
          fact.name == "squat_left_out");
}

bool is_of_depth(SubjectKind kind) {
  return kind == SubjectKind::reach || kind == SubjectKind::bar || kind == SubjectKind::berth;
}

/// The figure that is measured against a margin.
const Fact* figure_of(SubjectKind kind) {
  switch (kind) {
    case SubjectKind::berth:
    case SubjectKind::reach:
    case SubjectKind::bar:
      return find_fact(kind, "under_keel");
    case SubjectKind::bridge:
      return find_fact(kind, "over_mast");
    case SubjectKind::cable:
      return find_fact(kind, "to_spare");
    case SubjectKind::passage:
    case SubjectKind::leg:
    case SubjectKind::danger:
    case SubjectKind::mark:
    case SubjectKind::light:
      break;
  }
  return nullptr;
}

class Between {
 public:
  Between(const Findings& earlier, const Findings& later, const Facts& facts, Interval stay)
      : earlier_(earlier), later_(later), swings_(earlier, later, facts, stay) {}

  [[nodiscard]] bool drift_stays() const { return swings_.drift_stays(); }
  /// The same is told of it all the way.
  [[nodiscard]] bool alike_at(const PlaceOfBoth& place) const {
    if (!passage_brief::alike_at(place, earlier_, later_)) return false;
    if (place.kind == SubjectKind::berth) return true;
    const Length along = earlier_.depths[place.earlier.front()].passing.along;
    return swings_.corridor_between(track_round(earlier_, along), track_round(later_, along)) ==
           CorridorBetween::the_same;
  }
  [[nodiscard]] std::optional<LeastLeft> least_left(const PlaceOfBoth& reach) const {
    return swings_.least_left(reach);
  }

  /// How much more can be left at it than at either end.
  [[nodiscard]] Length rise_of(SubjectKind kind, const Pair& pair) const {
    return swings_.rise_of(kind, pair.a, pair.b);
  }

  /// All that either meets, the other meets too, and every departure between.
  [[nodiscard]] bool all_alike() const {
    if (!all_alike_) all_alike_ = alike(earlier_, later_) && swings_.corridor_stays();
    return *all_alike_;
  }

  /// A thing of the earlier that is met alike by every departure between.
  [[nodiscard]] std::optional<Pair> pair_of(const Subject& subject) const {
    if (all_alike()) return Pair{subject.index, subject.index};
    const bool of_the_hour =
        subject.kind == SubjectKind::light || subject.kind == SubjectKind::passage;
    if (of_the_hour) return Pair{.a = 0, .b = 0, .hour_alone = true};
    const std::optional<std::size_t> there = alike_up_to(subject, earlier_, later_);
    if (!there) return std::nullopt;
    const Subject other{subject.kind, *there, {}, {}};
    if (swings_.corridor_between(track_up_to(subject, earlier_), track_up_to(other, later_)) !=
        CorridorBetween::the_same) {
      return std::nullopt;
    }
    return Pair{subject.index, *there};
  }

  /// The same pair, once for each side of nought and of the margin that its figure may come to.
  [[nodiscard]] std::vector<Pair> cases_of(SubjectKind kind, Pair pair) const {
    const Fact* figure = figure_of(kind);
    const std::optional<Range> range = figure == nullptr ? std::nullopt : range_of(*figure, pair);
    if (!range) return {pair};
    std::vector<Pair> cases;
    Range rest = *range;
    const double margin = *as_number(figure->margin(earlier_, pair.a));
    for (const double at : {std::min(0.0, margin), std::max(0.0, margin)}) {
      if (!is_below(rest.least, at) || is_below(rest.greatest, at)) continue;
      const auto [below, above] = cut_at(rest, at);
      cases.push_back({pair.a, pair.b, below});
      rest = above;
    }
    cases.push_back({pair.a, pair.b, rest});
    return cases;
  }

  [[nodiscard]] Truths truths(const Test& test, const Pair& pair) const {
    return truths_of(test, [&](const Comparison& asked) { return of_comparison(asked, pair); });
  }

  /// Of a whole reach, of which nothing is known but what is left in all of it.
  [[nodiscard]] Truths truths(const Test& test, const Pair& whole, const LeastLeft& left) const {
    return truths_of(test, [&](const Comparison& asked) {
      return asked.fact->of_part ? of_part(asked, left) : of_comparison(asked, whole);
    });
  }

 private:
  /// Of a number known at both ends.
  [[nodiscard]] std::optional<Range> range_of(const Fact& fact, const Pair& pair) const {
    const Known<FactValue> first = fact.value(earlier_, pair.a);
    const Known<FactValue> second = fact.value(later_, pair.b);
    if (!first.has_value() || !second.has_value()) return std::nullopt;
    if (pair.figure && &fact == figure_of(fact.of)) return pair.figure;
    const std::optional<double> from = as_number(*first);
    const std::optional<double> to = as_number(*second);
    if (!from || !to) return std::nullopt;
    const bool way_is_alike = fact.of != SubjectKind::light || all_alike();
    return way_is_alike ? swings_.range(fact, pair.a, pair.b, *from, *to)
                        : swings_.of_light(fact, *from, *to);
  }

  [[nodiscard]] Truths of_comparison(const Comparison& comparison, const Pair& pair) const {
    const std::size_t a = pair.a;
    const std::size_t b = pair.b;
    const Fact& fact = *comparison.fact;
    if (pair.hour_alone && !hangs_on_the_hour(fact)) return Truths::any();
    if (sums_up_depths(fact) && !all_alike()) return Truths::any();
    if (const auto three = swings_.touching(fact, a, b, pair.figure)) {
      return of_touching(comparison, *three);
    }
    const Known<FactValue> first = fact.value(earlier_, a);
    const Known<FactValue> second = fact.value(later_, b);
    if (first.has_value() != second.has_value()) return Truths::any();
    if (comparison.op == Comparison::Operator::known) {
      return Truths::of(truth_of(first.has_value() == std::get<bool>(comparison.values.front())));
    }
    if (!first.has_value()) {
      return swings_.stays_unknown(fact) ? Truths::of(Truth::unknown) : Truths::any();
    }
    if (!as_number(*first) || !as_number(*second)) {
      // The comparison itself, where the fact is the same at both ends and cannot leave it between.
      if (*first != *second || !swings_.stays(fact, a, b)) return Truths::any();
      return Truths::of(truth_of(Test{comparison}, earlier_, a));
    }
    const std::optional<Range> range = range_of(fact, pair);
    if (!range) return Truths::any();
    return over_range(comparison.op, *range, against(comparison, a));
  }

  [[nodiscard]] std::vector<double> against(const Comparison& comparison, std::size_t a) const {
    if (comparison.against_margin) return {*as_number(comparison.fact->margin(earlier_, a))};
    std::vector<double> all;
    for (const FactValue& value : comparison.values) all.push_back(*as_number(value));
    return all;
  }

  [[nodiscard]] Truths of_part(const Comparison& comparison, const LeastLeft& left) const {
    const std::string& name = comparison.fact->name;
    const auto from = [&](double least) {
      const auto over = [&](double number) {
        return over_range(comparison.op, {least, std::numeric_limits<double>::infinity()},
                          {number});
      };
      if (!comparison.against_margin) return over(*as_number(comparison.values.front()));
      const Margins& margins = earlier_.margins;
      return over(in_metres(margins.under_keel)) | over(in_metres(margins.under_keel_hard));
    };
    const bool one_number = comparison.op != Comparison::Operator::known &&
                            comparison.op != Comparison::Operator::one_of;
    if (name == "under_keel" && one_number) return from(left.under_keel_m);
    if (name == "under_keel_could_be" && one_number && left.could_be_m) {
      return from(*left.could_be_m);
    }
    const bool touches_not = left.under_keel_m > 0 && left.could_be_m.value_or(-1) > 0;
    const bool is_no = (name == "keel_touches" && touches_not) || name == "blocked" ||
                       (name == "seas_could_break" && left.seas_are_low);
    if (is_no && comparison.op == Comparison::Operator::is) {
      return Truths::of(truth_of(!std::get<bool>(comparison.values.front())));
    }
    return Truths::any();
  }

  static Truths of_touching(const Comparison& comparison, const Touching& may) {
    std::optional<Truths> all;
    const auto add = [&all](bool possible, Truth truth) {
      if (possible) all = all ? *all | Truths::of(truth) : Truths::of(truth);
    };
    const bool asks_known = comparison.op == Comparison::Operator::known;
    const auto asked = [&](bool value) {
      return std::ranges::any_of(
          comparison.values, [value](const FactValue& v) { return std::get<bool>(v) == value; });
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

  const Findings& earlier_;
  const Findings& later_;
  Swings swings_;
  mutable std::optional<bool> all_alike_;
};

/// The same thing in another departure: by its place, but dangers come and go and are known by
/// their names.
std::optional<std::size_t> same_subject(const Subject& subject, const Findings& here,
                                        const Findings& there) {
  if (subject.kind != SubjectKind::danger) return subject.index;
  const Danger& danger = here.dangers[subject.index];
  for (std::size_t i = 0; i < there.dangers.size(); ++i) {
    const Danger& other = there.dangers[i];
    if (other.leg == danger.leg && other.name == danger.name && other.what == danger.what) return i;
  }
  return std::nullopt;
}

const Truths kKept = Truths::of(Truth::no);

/// Whether every limit is kept in every departure between.
class AlwaysKept {
 public:
  AlwaysKept(const JudgedWay& earlier, const JudgedWay& later, const Facts& facts,
             const RuleSet& rules)
      : first_(earlier.departure->findings),
        second_(later.departure->findings),
        rules_(rules),
        between_(first_, second_, facts, later.stay),
        only_first_(first_, first_, facts, later.stay),
        only_second_(second_, second_, facts, later.stay) {}

  [[nodiscard]] bool answer() const {
    return alike_but_for_depths(first_, second_) &&
           std::ranges::all_of(places_of(first_, second_),
                               [this](const PlaceOfBoth& place) {
                                 return between_.alike_at(place) ? by_depths(place)
                                                                 : by_what_is_left(place);
                               }) &&
           std::ranges::all_of(rules_.rules, [this](const Rule& rule) {
             return !rule.limit || is_of_depth(rule.for_each) || by_subjects(rule);
           });
  }

 private:
  template <class Keeps>
  [[nodiscard]] bool all_limits_of(SubjectKind kind, const Keeps& keeps) const {
    return std::ranges::all_of(rules_.rules, [&](const Rule& rule) {
      return !rule.limit || rule.for_each != kind || keeps(rule);
    });
  }

  [[nodiscard]] bool by_depths(const PlaceOfBoth& place) const {
    return all_limits_of(place.kind, [&](const Rule& rule) {
      const bool of_parts = asks_of_parts(rule.when);
      for (std::size_t i = 0; i < place.earlier.size(); ++i) {
        if (first_.depths[place.earlier[i]].part && !of_parts) continue;
        if (between_.truths(rule.when, {place.earlier[i], place.later[i]}) != kKept) return false;
      }
      return true;
    });
  }

  [[nodiscard]] bool by_what_is_left(const PlaceOfBoth& place) const {
    if (place.kind != SubjectKind::reach) return false;
    const std::optional<LeastLeft> left = between_.least_left(place);
    return left && all_limits_of(place.kind, [&](const Rule& rule) {
             const Pair whole{place.earlier.front(), place.later.front()};
             return between_.truths(rule.when, whole, *left) == kKept;
           });
  }

  /// Dangers come and go between.
  [[nodiscard]] bool by_subjects(const Rule& rule) const {
    for (const Subject& subject : subjects(first_, rule.for_each)) {
      const std::optional<std::size_t> there = same_subject(subject, first_, second_);
      const std::size_t a = subject.index;
      const Truths truths =
          there ? between_.truths(rule.when, {a, *there}) : only_first_.truths(rule.when, {a, a});
      if (truths != kKept) return false;
    }
    if (rule.for_each != SubjectKind::danger) return true;
    for (const Subject& subject : subjects(second_, rule.for_each)) {
      const std::size_t b = subject.index;
      if (!same_subject(subject, second_, first_) &&
          only_second_.truths(rule.when, {b, b}) != kKept) {
        return false;
      }
    }
    return between_.drift_stays();
  }

  const Findings& first_;
  const Findings& second_;
  const RuleSet& rules_;
  Between between_;
  Between only_first_;
  Between only_second_;
};

/// Whether one thing that both meet keeps some limit from being kept in every departure between.
bool never_kept(const JudgedWay& earlier, const JudgedWay& later, const Facts& facts,
                const RuleSet& rules) {
  const Findings& first = earlier.departure->findings;
  const Between between(first, later.departure->findings, facts, later.stay);
  const auto shuts = [&](const Subject& subject, const Pair& pair) {
    return std::ranges::any_of(rules.rules, [&](const Rule& rule) {
      return rule.limit && rule.for_each == subject.kind &&
             (!is_part(subject, first) || asks_of_parts(rule.when)) &&
             !between.truths(rule.when, pair).may_be(Truth::no);
    });
  };
  for (const SubjectKind kind : kLeastWorkFirst) {
    for (const Subject& subject : subjects(first, kind)) {
      const std::optional<Pair> pair = between.pair_of(subject);
      if (!pair) continue;
      const std::vector<Pair> cases = between.cases_of(kind, *pair);
      if (std::ranges::all_of(cases, [&](const Pair& one) { return shuts(subject, one); })) {
        return true;
      }
    }
  }
  return false;
}

}  // namespace

std::optional<bool> good_throughout(const JudgedWay& earlier, const JudgedWay& later,
                                    const Facts& facts, const RuleSet& rules) {
  if (earlier.good != later.good) return std::nullopt;
  if (earlier.good) {
    const bool sure = AlwaysKept(earlier, later, facts, rules).answer();
    return sure ? std::optional<bool>(true) : std::nullopt;
  }
  return never_kept(earlier, later, facts, rules) ? std::optional<bool>(false) : std::nullopt;
}

std::optional<Length> most_to_spare_between(const JudgedWay& earlier, const JudgedWay& later,
                                            const Facts& facts) {
  const Findings& first = earlier.departure->findings;
  const Findings& second = later.departure->findings;
  if (earlier.judged_on != later.judged_on || !alike_but_for_depths(first, second)) {
    return std::nullopt;
  }
  const Between between(first, second, facts, later.stay);
  const std::vector<ToSpare> to = all_to_spare(second);
  std::optional<Length> least;
  const auto take = [&](const ToSpare& from, std::size_t there) {
    const auto other = std::ranges::find_if(to, [&](const ToSpare& one) {
      return one.about.kind == from.about.kind && one.about.index == there;
    });
    if (other == to.end()) return;
    const Length most = std::max(from.left, other->left) +
                        between.rise_of(from.about.kind, {from.about.index, there});
    least = std::min(least.value_or(most), most);
  };
  const std::vector<PlaceOfBoth> places = places_of(first, second);
  for (const ToSpare& from : all_to_spare(first)) {
    const std::size_t index = from.about.index;
    if (!is_of_depth(from.about.kind)) take(from, index);
    for (const PlaceOfBoth& place : places) {
      const bool of_it = place.kind == from.about.kind && place.earlier.front() == index;
      if (of_it && between.alike_at(place)) take(from, place.later.front());
    }
  }
  return least;
}

}  // namespace passage_brief
