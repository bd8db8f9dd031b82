#include "brief/sure_between.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "brief/alike.h"
#include "brief/departure_judge.h"
#include "brief/swings.h"
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

/// A set of truths.
class Truths {
 public:
  static Truths of(Truth truth) { return Truths(1U << static_cast<unsigned>(truth)); }
  static Truths any() { return Truths(7U); }
  [[nodiscard]] bool may_be(Truth truth) const {
    return (bits_ & (1U << static_cast<unsigned>(truth))) != 0;
  }
  friend Truths operator|(Truths a, Truths b) { return Truths(a.bits_ | b.bits_); }
  friend bool operator==(Truths, Truths) = default;

 private:
  explicit Truths(unsigned bits) : bits_(bits) {}
  unsigned bits_;
};

constexpr Truth kTruths[] = {Truth::no, Truth::unknown, Truth::yes};

template <class Join>
Truths each_with_each(Truths a, Truths b, const Join& join_two) {
  std::optional<Truths> all;
  for (const Truth x : kTruths) {
    for (const Truth y : kTruths) {
      if (!a.may_be(x) || !b.may_be(y)) continue;
      const Truths one = Truths::of(join_two(x, y));
      all = all ? *all | one : one;
    }
  }
  return *all;
}

std::optional<double> as_number(const FactValue& value) {
  struct Visitor {
    std::optional<double> operator()(Length v) const { return v.si(); }
    std::optional<double> operator()(Speed v) const { return v.si(); }
    std::optional<double> operator()(Voltage v) const { return v.si(); }
    std::optional<double> operator()(Interval v) const { return in_seconds(v); }
    std::optional<double> operator()(Angle v) const { return v.in_degrees(); }
    std::optional<double> operator()(double v) const { return v; }
    std::optional<double> operator()(Instant) const { return std::nullopt; }
    std::optional<double> operator()(bool) const { return std::nullopt; }
    std::optional<double> operator()(const std::string&) const { return std::nullopt; }
  };
  return std::visit(Visitor{}, value);
}

constexpr double kEqualWithin = 1e-6;

/// Whether the comparison holds for a number, within what test_truth.h counts as equal.
bool holds(Comparison::Operator op, double value, const std::vector<double>& against) {
  const double other = against.front();
  const bool equal = std::ranges::any_of(
      against, [value](double x) { return std::abs(value - x) <= kEqualWithin; });
  switch (op) {
    case Comparison::Operator::less_than:
      return value < other && !equal;
    case Comparison::Operator::more_than:
      return value > other && !equal;
    case Comparison::Operator::at_least:
      return value >= other || equal;
    case Comparison::Operator::at_most:
      return value <= other || equal;
    case Comparison::Operator::is:
    case Comparison::Operator::one_of:
      return equal;
    case Comparison::Operator::known:
      break;
  }
  return false;
}

/// What a comparison comes to over all values from least to greatest.
Truths over_range(Comparison::Operator op, Range range, const std::vector<double>& against) {
  const bool at_least = holds(op, range.least, against);
  const bool at_greatest = holds(op, range.greatest, against);
  const bool equality = op == Comparison::Operator::is || op == Comparison::Operator::one_of;
  if (at_least != at_greatest || (equality && range.least != range.greatest)) {
    return Truths::of(Truth::no) | Truths::of(Truth::yes);
  }
  return Truths::of(truth_of(at_least));
}

/// One thing in both departures.
struct Pair {
  std::size_t a;
  std::size_t b;
  std::optional<Range> figure = std::nullopt;  // taken to be in there: what is measured here
};

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

/// The two parts of a range below a number and from it on, as comparisons see it.
std::pair<Range, Range> cut_at(Range range, double number) {
  const auto below = [number](double value) {
    return !holds(Comparison::Operator::at_least, value, {number});
  };
  double first = number - kEqualWithin;
  while (below(first)) first = std::nextafter(first, range.greatest);
  double last = std::nextafter(first, range.least);
  while (!below(last)) {
    first = last;
    last = std::nextafter(first, range.least);
  }
  return {{range.least, last}, {first, range.greatest}};
}

class Between {
 public:
  Between(const Findings& earlier, const Findings& later, const Facts& facts, Interval stay)
      : earlier_(earlier), later_(later), swings_(earlier, later, facts, stay) {}

  [[nodiscard]] bool drift_stays() const { return swings_.drift_stays(); }
  /// All that either meets, the other meets too, and every departure between.
  [[nodiscard]] bool all_alike() const {
    if (!all_alike_) all_alike_ = alike(earlier_, later_) && swings_.corridor_stays();
    return *all_alike_;
  }

  /// A thing of the earlier that is met alike by every departure between.
  [[nodiscard]] std::optional<Pair> pair_of(const Subject& subject) const {
    if (subject.kind == SubjectKind::light) return Pair{0, 0};
    if (all_alike()) return Pair{subject.index, subject.index};
    const std::optional<std::size_t> there = alike_up_to(subject, earlier_, later_);
    if (!there || !swings_.corridor_stays(track_up_to(subject, earlier_),
                                          track_up_to({subject.kind, *there, {}, {}}, later_))) {
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
      if (at - kEqualWithin <= rest.least || at >= rest.greatest) continue;
      const auto [below, above] = cut_at(rest, at);
      cases.push_back({pair.a, pair.b, below});
      rest = above;
    }
    cases.push_back({pair.a, pair.b, rest});
    return cases;
  }

  [[nodiscard]] Truths truths(const Test& test, const Pair& pair) const {
    if (const auto* comparison = std::get_if<Comparison>(&test.what)) {
      return of_comparison(*comparison, pair);
    }
    const Joined& joined = std::get<Joined>(test.what);
    Truths all = Truths::of(joined.by == Joined::By::all ? Truth::yes : Truth::no);
    for (const Test& part : joined.parts) {
      const Truths one = truths(part, pair);
      all = joined.by == Joined::By::all ? each_with_each(all, one, both)
                                         : each_with_each(all, one, either);
    }
    if (joined.by != Joined::By::none) return all;
    return each_with_each(all, all, [](Truth x, Truth) { return opposite(x); });
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
    if (fact.of == SubjectKind::light && !all_alike()) return swings_.whenever_in(fact, *from);
    return swings_.range(fact, pair.a, pair.b, *from, *to);
  }

  [[nodiscard]] Truths of_comparison(const Comparison& comparison, const Pair& pair) const {
    const auto [a, b, figure] = pair;
    const Fact& fact = *comparison.fact;
    if (const auto three = swings_.touching(fact, a, b, figure)) {
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

/// Whether every limit is kept in every departure between.
bool always_kept(const JudgedWay& earlier, const JudgedWay& later, const Facts& facts,
                 const RuleSet& rules) {
  const Findings& first = earlier.departure->findings;
  const Findings& second = later.departure->findings;
  const Between between(first, second, facts, later.stay);
  if (!between.all_alike()) return false;
  const Between only_first(first, first, facts, later.stay);
  const Between only_second(second, second, facts, later.stay);
  const Truths kept = Truths::of(Truth::no);
  for (const Rule& rule : rules.rules) {
    if (!rule.limit) continue;
    const bool of_parts = asks_of_parts(rule.when);
    for (const Subject& subject : subjects(first, rule.for_each)) {
      if (!of_parts && is_part(subject, first)) continue;
      const std::optional<std::size_t> there = same_subject(subject, first, second);
      const std::size_t a = subject.index;
      const Truths truths =
          there ? between.truths(rule.when, {a, *there}) : only_first.truths(rule.when, {a, a});
      if (truths != kept) return false;
    }
    if (rule.for_each != SubjectKind::danger) continue;
    if (!between.drift_stays()) return false;
    for (const Subject& subject : subjects(second, rule.for_each)) {
      if (same_subject(subject, second, first)) continue;
      const std::size_t b = subject.index;
      if (only_second.truths(rule.when, {b, b}) != kept) return false;
    }
  }
  return true;
}

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
    return always_kept(earlier, later, facts, rules) ? std::optional<bool>(true) : std::nullopt;
  }
  return never_kept(earlier, later, facts, rules) ? std::optional<bool>(false) : std::nullopt;
}

std::optional<Length> most_to_spare_between(const JudgedWay& earlier, const JudgedWay& later,
                                            const Facts& facts) {
  const Findings& first = earlier.departure->findings;
  const Findings& second = later.departure->findings;
  if (earlier.judged_on != later.judged_on || !alike(first, second)) return std::nullopt;
  const std::vector<ToSpare> from = all_to_spare(first);
  const std::vector<ToSpare> to = all_to_spare(second);
  if (from.empty() || from.size() != to.size()) return std::nullopt;
  const Swings swings(first, second, facts, later.stay);
  if (!swings.corridor_stays()) return std::nullopt;
  std::optional<Length> least;
  for (std::size_t i = 0; i < from.size(); ++i) {
    if (from[i].about.kind != to[i].about.kind || from[i].about.index != to[i].about.index) {
      return std::nullopt;
    }
    const Length most = std::max(from[i].left, to[i].left) +
                        swings.rise_of(from[i].about.kind, from[i].about.index);
    if (!least || most < *least) least = most;
  }
  return least;
}

}  // namespace passage_brief
