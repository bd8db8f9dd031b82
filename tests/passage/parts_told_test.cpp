#include "passage/parts_told.h"

#include <gtest/gtest.h>

#include <utility>
#include <vector>

#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr auto kHard = GroundToTouch::hard;
constexpr auto kSoft = GroundToTouch::soft;
constexpr auto kSoftAndRising = GroundToTouch::soft_and_rising;

std::vector<std::pair<std::size_t, ToldAs>> told(const std::vector<PartOfWater>& parts) {
  std::vector<std::pair<std::size_t, ToldAs>> all;
  for (const ToldPart& part : parts_told(parts)) all.emplace_back(part.part, part.as);
  return all;
}
using Told = std::vector<std::pair<std::size_t, ToldAs>>;

TEST(PartsTold, SoftGroundHidesNoHardGround) {
  EXPECT_EQ(told({{kSoft, feet(2.1), feet(1)}, {kHard, feet(2.3), feet(1.2)}}),
            (Told{{0, ToldAs::least}, {1, ToldAs::hard_ground}}));
}

/// The helm sees when, by the clock and the tide; a place it is not.
TEST(PartsTold, SoftGroundThatIsNotRisingIsNamedByTheTide) {
  EXPECT_EQ(name_of_part(ToldAs::soft_ground, "Basin"), "Soft ground in Basin");
}

TEST(PartsTold, HardGroundThatIsShoalestStandsForAll) {
  EXPECT_EQ(told({{kSoft, feet(4), feet(3)}, {kHard, feet(2.3), feet(1.2)}}),
            (Told{{1, ToldAs::least}}));
}

TEST(PartsTold, TheShoalestHidesNothingThatCouldBeShoaler) {
  EXPECT_EQ(told({{kHard, feet(3), feet(2)}, {kHard, feet(5), feet(-1)}}),
            (Told{{0, ToldAs::least}, {1, ToldAs::least_sure}}));
  EXPECT_EQ(told({{kHard, feet(3), feet(2)}, {kHard, feet(5), not_known("survey quality D")}}),
            (Told{{0, ToldAs::least}, {1, ToldAs::least_sure}}));
  EXPECT_EQ(told({{kHard, feet(3), not_known("survey quality D")}, {kHard, feet(5), feet(-1)}}),
            (Told{{0, ToldAs::least}}));
}

/// What could be of soft ground says nothing of hard ground; the other way round it does.
TEST(PartsTold, EachKindOfGroundByItself) {
  EXPECT_EQ(told({{kSoft, feet(2), feet(0)}, {kHard, feet(3), feet(2)}, {kHard, feet(4), feet(1)}}),
            (Told{{0, ToldAs::least}, {1, ToldAs::hard_ground}, {2, ToldAs::least_sure}}));
  EXPECT_EQ(told({{kHard, feet(2), feet(0)}, {kSoft, feet(3), feet(1)}}),
            (Told{{0, ToldAs::least}}));
}

/// Who touches where it rises floats off; where it falls she stays.
TEST(PartsTold, WaterThatRisesHidesNoneThatFalls) {
  EXPECT_EQ(told({{kSoftAndRising, feet(1), feet(0)}, {kSoft, feet(1.3), feet(0.3)}}),
            (Told{{0, ToldAs::least}, {1, ToldAs::soft_ground}}));
  EXPECT_EQ(told({{kSoftAndRising, feet(1.5), feet(0)}, {kSoft, feet(1.3), feet(-1)}}),
            (Told{{1, ToldAs::least}}));
}

TEST(PartsTold, HardGroundIsCalledSoBesideWaterThatRises) {
  EXPECT_EQ(told({{kSoftAndRising, feet(1), feet(0)}, {kHard, feet(9), feet(8)}}),
            (Told{{0, ToldAs::least}, {1, ToldAs::hard_ground}}));
}

/// Twice the significant height over the water: 0.78 breaks (McCowan 1894).
TEST(PartsTold, WhereSeasComeNearToBreaking) {
  EXPECT_EQ(told({{kHard, feet(1), feet(0), 0.1}, {kHard, feet(4), feet(3), 0.8}}),
            (Told{{0, ToldAs::least}, {1, ToldAs::roughest}}));
  EXPECT_EQ(told({{kHard, feet(1), feet(0), 0.1}, {kHard, feet(4), feet(3), 0.2}}),
            (Told{{0, ToldAs::least}}));
}

/// Nobody reads a line for the sake of 3 cm; but they are taken off.
TEST(PartsTold, WhatIsNearlyAsSureIsToldWithIt) {
  const auto parts =
      parts_told({{kHard, metres(1), metres(0.6)}, {kHard, metres(2), metres(0.57)}});
  ASSERT_EQ(parts.size(), 1U);
  EXPECT_EQ(parts.front().part, 0U);
  EXPECT_EQ(parts.front().could_be, Known<Length>(metres(0.57)));
}

TEST(PartsTold, OfNothingNothing) { EXPECT_TRUE(told({}).empty()); }

}  // namespace
}  // namespace passage_brief
