#include "rules/kleene.h"

#include <gtest/gtest.h>

#include <array>

namespace passage_brief {
namespace {

constexpr Truth no = Truth::no;
constexpr Truth un = Truth::unknown;
constexpr Truth yes = Truth::yes;
constexpr std::array kTruths = {yes, un, no};

// The strong tables of Kleene, Introduction to Metamathematics (1952), section 64 (from memory);
// rows and columns in the order yes, unknown, no.
constexpr std::array<std::array<Truth, 3>, 3> kBoth = {{{yes, un, no}, {un, un, no}, {no, no, no}}};
constexpr std::array<std::array<Truth, 3>, 3> kEither = {
    {{yes, yes, yes}, {yes, un, un}, {yes, un, no}}};

TEST(Kleene, TablesOfTheStrongLogic) {
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      EXPECT_EQ(both(kTruths[i], kTruths[j]), kBoth[i][j]) << i << j;
      EXPECT_EQ(either(kTruths[i], kTruths[j]), kEither[i][j]) << i << j;
    }
  }
  EXPECT_EQ(opposite(yes), no);
  EXPECT_EQ(opposite(un), un);
  EXPECT_EQ(opposite(no), yes);
}

TEST(Kleene, UnknownSettledEitherWayNeverContradictsAnAnswerGiven) {
  // Whatever "both" and "either" answer while a part is unknown holds for both ways it may turn
  // out.
  for (const Truth other : kTruths) {
    for (const Truth turned_out : {yes, no}) {
      if (both(un, other) != un) {
        EXPECT_EQ(both(turned_out, other), both(un, other));
      }
      if (either(un, other) != un) {
        EXPECT_EQ(either(turned_out, other), either(un, other));
      }
    }
  }
}

}  // namespace
}  // namespace passage_brief
