#include "brief/truths.h"

#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "rules/fact_value.h"
#include "rules/kleene.h"
#include "rules/rule_set.h"
#include "rules/test_truth.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

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

bool holds(Comparison::Operator op, double value, const std::vector<double>& against) {
  return passage_brief::holds(op, FactValue(value), {against.begin(), against.end()});
}

}  // namespace

Truths both(Truths a, Truths b) {
  return each_with_each(a, b, [](Truth x, Truth y) { return both(x, y); });
}

Truths either(Truths a, Truths b) {
  return each_with_each(a, b, [](Truth x, Truth y) { return either(x, y); });
}

Truths opposite(Truths a) {
  return each_with_each(a, a, [](Truth x, Truth) { return opposite(x); });
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

Truths over_range(Comparison::Operator op, Range range, const std::vector<double>& against) {
  const bool at_least = holds(op, range.least, against);
  const bool at_greatest = holds(op, range.greatest, against);
  const bool equality = op == Comparison::Operator::is || op == Comparison::Operator::one_of;
  if (at_least != at_greatest || (equality && range.least != range.greatest)) {
    return Truths::of(Truth::no) | Truths::of(Truth::yes);
  }
  return Truths::of(truth_of(at_least));
}

bool is_below(double value, double number) {
  return holds(Comparison::Operator::less_than, value, {number});
}

std::pair<Range, Range> cut_at(Range range, double number) {
  double first = number - kEqualWithin;
  while (is_below(first, number)) first = std::nextafter(first, range.greatest);
  double last = std::nextafter(first, range.least);
  while (!is_below(last, number)) {
    first = last;
    last = std::nextafter(first, range.least);
  }
  return {{range.least, last}, {first, range.greatest}};
}

}  // namespace passage_brief
