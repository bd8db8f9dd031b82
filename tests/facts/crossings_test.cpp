#include "facts/crossings.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace passage_brief {
namespace {

TEST(Crossings, FindsEveryZeroOfASineWithItsDirection) {
  const auto sine = [](double t) { return ValueAndSlope{std::sin(t), std::cos(t)}; };
  const std::vector<Crossing> found = crossings(sine, 1, 1, 0.5, 100);
  // sin t = 0 at k pi: k = 1 to 31, since 31 pi = 97.4 and 32 pi = 100.5.
  ASSERT_EQ(found.size(), 31u);
  for (std::size_t i = 0; i < found.size(); ++i) {
    EXPECT_NEAR(found[i].at, std::numbers::pi * static_cast<double>(i + 1), kCrossingWidth);
    EXPECT_EQ(found[i].downward, i % 2 == 0);
  }
}

TEST(Crossings, FindsTwoZerosCloseTogetherAndNoneWhereTheCurveOnlyComesNear) {
  // (t - 50)^2 - gap: two zeros sqrt(gap) either side of 50, far closer than any fixed step.
  const auto parabola = [](double gap) {
    return [gap](double t) { return ValueAndSlope{(t - 50) * (t - 50) - gap, 2 * (t - 50)}; };
  };
  const std::vector<Crossing> two = crossings(parabola(1e-4), 200, 2, 0, 120);
  ASSERT_EQ(two.size(), 2u);
  EXPECT_NEAR(two[0].at, 49.99, kCrossingWidth);
  EXPECT_TRUE(two[0].downward);
  EXPECT_NEAR(two[1].at, 50.01, kCrossingWidth);
  EXPECT_FALSE(two[1].downward);
  EXPECT_TRUE(crossings(parabola(-1e-4), 200, 2, 0, 120).empty());
}

TEST(Crossings, ZeroItselfCountsAsPositive) {
  const auto line = [](double t) { return ValueAndSlope{t, 1}; };
  EXPECT_TRUE(crossings(line, 1, 0, 0, 1).empty());    // 0, then positive
  EXPECT_EQ(crossings(line, 1, 0, -1, 0).size(), 1u);  // negative, then 0
}

TEST(Crossings, AFunctionThatIsZeroThroughoutHasNone) {
  const auto nothing = [](double) { return ValueAndSlope{0, 0}; };
  EXPECT_TRUE(crossings(nothing, 0, 0, 0, 1e9).empty());
}

}  // namespace
}  // namespace passage_brief
