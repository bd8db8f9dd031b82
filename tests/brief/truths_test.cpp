#include "brief/truths.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace passage_brief {
namespace {

using Operator = Comparison::Operator;

const Truths kNo = Truths::of(Truth::no);
const Truths kYes = Truths::of(Truth::yes);
const Truths kUnknown = Truths::of(Truth::unknown);

TEST(Truths, AComparisonOverARange) {
  EXPECT_EQ(over_range(Operator::less_than, {1, 2}, {3}), kYes);
  EXPECT_EQ(over_range(Operator::less_than, {4, 5}, {3}), kNo);
  EXPECT_EQ(over_range(Operator::less_than, {2, 4}, {3}), kNo | kYes);
  EXPECT_EQ(over_range(Operator::less_than, {3, 4}, {3}), kNo);
  EXPECT_EQ(over_range(Operator::at_most, {2, 3}, {3}), kYes);
  EXPECT_EQ(over_range(Operator::at_least, {3, std::numeric_limits<double>::infinity()}, {3}),
            kYes);
  EXPECT_EQ(over_range(Operator::is, {1, 5}, {3}), kNo | kYes);
  EXPECT_EQ(over_range(Operator::one_of, {3, 3}, {1, 3}), kYes);
}

/// Kleene's tables (kleene.h) on every member.
TEST(Truths, JoinedMemberByMember) {
  EXPECT_EQ(both(kNo | kYes, kYes), kNo | kYes);
  EXPECT_EQ(both(kNo | kYes, kNo), kNo);
  EXPECT_EQ(either(kUnknown, kNo | kYes), kUnknown | kYes);
  EXPECT_EQ(opposite(kUnknown | kYes), kUnknown | kNo);
  EXPECT_EQ(both(Truths::any(), kNo), kNo);
}

/// No value is left out, and each part is on its side as comparisons see it.
TEST(Truths, ARangeCutInTwo) {
  std::mt19937 lots(20260614);
  std::uniform_real_distribution<double> of(-3, 3);
  for (int i = 0; i < 1000; ++i) {
    const double number = of(lots);
    const auto [below, above] = cut_at({number - 1, number + 1}, number);
    EXPECT_EQ(over_range(Operator::less_than, below, {number}), kYes) << number;
    EXPECT_EQ(over_range(Operator::at_least, above, {number}), kYes) << number;
    EXPECT_EQ(std::nextafter(below.greatest, 9.0), above.least) << number;
    EXPECT_EQ(below.least, number - 1);
    EXPECT_EQ(above.greatest, number + 1);
  }
}

}  // namespace
}  // namespace passage_brief
