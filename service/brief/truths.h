// What a rule's test can come to where its facts are known only within a range.
#pragma once

#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include "rules/fact_value.h"
#include "rules/kleene.h"
#include "rules/rule_set.h"

namespace passage_brief {

/// In the fact's SI unit, degrees or seconds. Either may be infinite.
struct Range {
  double least;
  double greatest;
};

/// A set of truths, never empty.
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

[[nodiscard]] Truths both(Truths a, Truths b);
[[nodiscard]] Truths either(Truths a, Truths b);
[[nodiscard]] Truths opposite(Truths a);

/// In SI units, degrees or seconds; empty for times, words, yes and no.
[[nodiscard]] std::optional<double> as_number(const FactValue& value);

/// What a comparison with `against` comes to over all values of a range; numbers count as equal as
/// in test_truth.h. Not for `known`.
[[nodiscard]] Truths over_range(Comparison::Operator op, Range range,
                                const std::vector<double>& against);

/// Whether a value is below a number, as comparisons see it.
[[nodiscard]] bool is_below(double value, double number);

/// A range that holds a number cut in two: below it, and from it on.
[[nodiscard]] std::pair<Range, Range> cut_at(Range range, double number);

/// A test with what its comparisons come to, of_comparison(Comparison) -> Truths.
template <class OfComparison>
[[nodiscard]] Truths truths_of(const Test& test, const OfComparison& of_comparison) {
  if (const auto* comparison = std::get_if<Comparison>(&test.what)) {
    return of_comparison(*comparison);
  }
  const Joined& joined = std::get<Joined>(test.what);
  Truths all = Truths::of(joined.by == Joined::By::all ? Truth::yes : Truth::no);
  for (const Test& part : joined.parts) {
    const Truths one = truths_of(part, of_comparison);
    all = joined.by == Joined::By::all ? both(all, one) : either(all, one);
  }
  return joined.by == Joined::By::none ? opposite(all) : all;
}

}  // namespace passage_brief
