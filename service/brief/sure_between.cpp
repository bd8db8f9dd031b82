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

/// Whether the comparison holds for a number, within what test_truth.h counts as equal.
bool holds(Comparison::Operator op, double value, const std::vector<double>& against) {
  constexpr double kEqualWithin = 1e-6;
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

class Between {
 public:
  Between(const Findings& earlier, const Findings& later, const Facts& facts, Interval stay)
      : earlier_(earlier), later_(later), swings_(earlier, later, facts, stay) {}

  [[nodiscard]] bool drift_stays() const { return swings_.drift_stays(); }
  [[nodiscard]] bool corridor_stays() const { return swings_.corridor_stays(); }

  [[nodiscard]] Truths truths(const Test& test, std::size_t a, std::size_t b) const {
    if (const auto* comparison = std::get_if<Comparison>(&test.what)) {
      return of_comparison(*comparison, a, b);
    }
    const Joined& joined = std::get<Joined>(test.what);
    Truths all = Truths::of(joined.by == Joined::By::all ? Truth::yes : Truth::no);
    for (const Test& part : joined.parts) {
      const Truths one = truths(part, a, b);
      all = joined.by == Joined::By::all ? each_with_each(all, one, both)
                                         : each_with_each(all, one, either);
    }
    if (joined.by != Joined::By::none) return all;
    return each_with_each(all, all, [](Truth x, Truth) { return opposite(x); });
  }

 private:
  [[nodiscard]] Truths of_comparison(const Comparison& comparison, std::size_t a,
                                     std::size_t b) const {
    const Fact& fact = *comparison.fact;
    if (const auto three = swings_.touching(fact, a, b)) return of_touching(comparison, *three);
    const Known<FactValue> first = fact.value(earlier_, a);
    const Known<FactValue> second = fact.value(later_, b);
    if (first.has_value() != second.has_value()) return Truths::any();
    if (comparison.op == Comparison::Operator::known) {
      return Truths::of(truth_of(first.has_value() == std::get<bool>(comparison.values.front())));
    }
    if (!first.has_value()) {
      return swings_.stays_unknown(fact) ? Truths::of(Truth::unknown) : Truths::any();
    }
    const std::optional<double> from = as_number(*first);
    const std::optional<double> to = as_number(*second);
    if (!from || !to) {
      // The comparison itself, where the fact is the same at both ends and cannot leave it between.
      if (*first != *second || !swings_.stays(fact, a, b)) return Truths::any();
      return Truths::of(truth_of(Test{comparison}, earlier_, a));
    }
    const std::optional<Range> range = swings_.range(fact, a, b, *from, *to);
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

}  // namespace

std::optional<bool> good_throughout(const JudgedWay& earlier, const JudgedWay& later,
                                    const Facts& facts, const RuleSet& rules) {
  const Findings& first = earlier.departure->findings;
  const Findings& second = later.departure->findings;
  if (earlier.good != later.good || !alike(first, second)) return std::nullopt;
  const Between between(first, second, facts, later.stay);
  const Between only_first(first, first, facts, later.stay);
  const Between only_second(second, second, facts, later.stay);
  const Truths kept = Truths::of(Truth::no);
  bool all_kept = true;
  const auto sure = [&between](bool good) {
    return between.corridor_stays() ? std::optional<bool>(good) : std::nullopt;
  };
  for (const Rule& rule : rules.rules) {
    if (!rule.limit) continue;
    const bool of_parts = asks_of_parts(rule.when);
    for (const Subject& subject : subjects(first, rule.for_each)) {
      if (!of_parts && is_part(subject, first)) continue;
      const std::optional<std::size_t> there = same_subject(subject, first, second);
      const Truths truths = there ? between.truths(rule.when, subject.index, *there)
                                  : only_first.truths(rule.when, subject.index, subject.index);
      const bool drifts = rule.for_each == SubjectKind::danger;
      if (there && !drifts && !truths.may_be(Truth::no)) return sure(false);
      all_kept = all_kept && truths == kept;
    }
    if (rule.for_each != SubjectKind::danger) continue;
    all_kept = all_kept && between.drift_stays();
    for (const Subject& subject : subjects(second, rule.for_each)) {
      if (same_subject(subject, second, first)) continue;
      const Truths truths = only_second.truths(rule.when, subject.index, subject.index);
      all_kept = all_kept && truths == kept;
    }
  }
  return all_kept ? sure(true) : std::nullopt;
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
