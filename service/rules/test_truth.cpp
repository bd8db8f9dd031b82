#include "rules/test_truth.h"

#include <algorithm>
#include <cmath>
#include <compare>
#include <type_traits>
#include <variant>

#include "rules/fact_value.h"
#include "units/check.h"

namespace passage_brief {
namespace {

std::weak_ordering order(double a, double b) {
  if (std::abs(a - b) <= kEqualWithin) return std::weak_ordering::equivalent;
  return a < b ? std::weak_ordering::less : std::weak_ordering::greater;
}
template <class Dimension>
std::weak_ordering order(Quantity<Dimension> a, Quantity<Dimension> b) {
  return order(a.si(), b.si());
}
std::weak_ordering order(Angle a, Angle b) { return order(a.in_degrees(), b.in_degrees()); }
template <class Exact>
std::weak_ordering order(const Exact& a, const Exact& b) {
  return a <=> b;
}

std::weak_ordering order(const FactValue& a, const FactValue& b) {
  check(a.index() == b.index(), "a fact is compared with a value of its own kind");
  return std::visit(
      [&](const auto& left) -> std::weak_ordering {
        return order(left, std::get<std::remove_cvref_t<decltype(left)>>(b));
      },
      a);
}

Truth truth_of(const Comparison& comparison, const Findings& findings, std::size_t index) {
  const Known<FactValue> value = comparison.fact->value(findings, index);
  if (comparison.op == Comparison::Operator::known) {
    return passage_brief::truth_of(value.has_value() == std::get<bool>(comparison.values.front()));
  }
  if (!value.has_value()) return Truth::unknown;
  if (comparison.against_margin) {
    return passage_brief::truth_of(
        holds(comparison.op, value.value(), {comparison.fact->margin(findings, index)}));
  }
  return passage_brief::truth_of(holds(comparison.op, value.value(), comparison.values));
}

Truth truth_of(const Joined& joined, const Findings& findings, std::size_t index) {
  Truth all = joined.by == Joined::By::all ? Truth::yes : Truth::no;
  for (const Test& part : joined.parts) {
    const Truth truth = passage_brief::truth_of(part, findings, index);
    all = joined.by == Joined::By::all ? both(all, truth) : either(all, truth);
  }
  return joined.by == Joined::By::none ? opposite(all) : all;
}

void add_reasons(NotKnown& why, const Test& test, const Findings& findings, std::size_t index) {
  if (truth_of(test, findings, index) != Truth::unknown) return;
  if (const auto* comparison = std::get_if<Comparison>(&test.what)) {
    known_detail::add_reasons(why, comparison->fact->value(findings, index));
    return;
  }
  for (const Test& part : std::get<Joined>(test.what).parts) {
    add_reasons(why, part, findings, index);
  }
}

}  // namespace

bool holds(Comparison::Operator op, const FactValue& value, const std::vector<FactValue>& against) {
  const auto is_equal = [&](const FactValue& other) { return order(value, other) == 0; };
  switch (op) {
    case Comparison::Operator::less_than:
      return order(value, against.front()) < 0;
    case Comparison::Operator::more_than:
      return order(value, against.front()) > 0;
    case Comparison::Operator::at_least:
      return order(value, against.front()) >= 0;
    case Comparison::Operator::at_most:
      return order(value, against.front()) <= 0;
    case Comparison::Operator::is:
    case Comparison::Operator::one_of:
      return std::ranges::any_of(against, is_equal);
    case Comparison::Operator::known:
      break;
  }
  check(false, "`known` asks for no value");
  return false;
}

Truth truth_of(const Test& test, const Findings& findings, std::size_t index) {
  return std::visit([&](const auto& what) { return truth_of(what, findings, index); }, test.what);
}

bool asks_of_parts(const Test& test) {
  if (const auto* comparison = std::get_if<Comparison>(&test.what)) {
    return comparison->fact->of_part;
  }
  return std::ranges::any_of(std::get<Joined>(test.what).parts, asks_of_parts);
}

NotKnown why_unknown(const Test& test, const Findings& findings, std::size_t index) {
  NotKnown why;
  add_reasons(why, test, findings, index);
  check(!why.reasons.empty(), "a test is unknown for a reason");
  return why;
}

}  // namespace passage_brief
