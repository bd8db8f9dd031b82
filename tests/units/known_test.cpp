#include "units/known.h"

#include <gtest/gtest.h>

#include <string>
#include <type_traits>
#include <vector>

#include "units/quantity.h"

namespace passage_brief {
namespace {

using Reasons = std::vector<std::string>;

Known<Length> unknown(const std::string& reason) { return not_known(reason); }
Length sum(Length a, Length b, Length c) { return a + b + c; }

static_assert(!std::is_default_constructible_v<Length>);
static_assert(!std::is_convertible_v<Known<Length>, Length>);

TEST(Known, JoinGivesTheFormulasValueWhereAllIsKnown) {
  const Known<Length> joined =
      join(sum, Known<Length>(metres(1)), Known<Length>(metres(2)), Known<Length>(metres(3)));
  EXPECT_EQ(joined, Known<Length>(metres(6)));
}

TEST(Known, JoinKeepsEveryReasonInTheOrderOfTheInputs) {
  const Known<Length> joined =
      join(sum, unknown("no chart datum"), Known<Length>(metres(2)), unknown("no survey"));
  ASSERT_FALSE(joined.has_value());
  EXPECT_EQ(joined.error().reasons, (Reasons{"no chart datum", "no survey"}));
}

TEST(Known, JoinSaysOneReasonOnce) {
  const Known<Length> two = std::unexpected(NotKnown{{"no survey", "no forecast"}});
  const Known<Length> joined = join(sum, unknown("no forecast"), two, unknown("no survey"));
  EXPECT_EQ(joined.error().reasons, (Reasons{"no forecast", "no survey"}));
}

TEST(Known, JoinNeverCallsTheFormulaOnWhatIsNotKnown) {
  bool called = false;
  const auto formula = [&called](Length, Length) {
    called = true;
    return metres(0);
  };
  EXPECT_FALSE(join(formula, Known<Length>(metres(1)), unknown("no tide")).has_value());
  EXPECT_FALSE(called);
}

TEST(Known, AFormulaMayItselfNotKnow) {
  const auto positive = [](Length a) -> Known<Length> {
    if (a <= metres(0)) return not_known("it dries");
    return a;
  };
  static_assert(std::is_same_v<decltype(join(positive, Known<Length>(metres(1)))), Known<Length>>);
  EXPECT_EQ(join(positive, Known<Length>(metres(1))), Known<Length>(metres(1)));
  EXPECT_EQ(join(positive, Known<Length>(metres(-1))).error().reasons, Reasons{"it dries"});
  EXPECT_EQ(join(positive, unknown("no tide")).error().reasons, Reasons{"no tide"});
}

TEST(Known, ZeroAndFalseAreKnown) {
  const auto is_zero = [](Length a) { return a == metres(0); };
  EXPECT_EQ(join(is_zero, Known<Length>(metres(0))), Known<bool>(true));
  EXPECT_TRUE(join(is_zero, Known<Length>(metres(1))).has_value());
}

TEST(Known, ReasonsAreHandedOnToAnotherType) {
  const Known<Speed> speed = not_known_as(unknown("no forecast"));
  EXPECT_EQ(speed.error().reasons, Reasons{"no forecast"});
}

TEST(Known, ReasonsReadAsAPhrase) {
  EXPECT_EQ(in_words(NotKnown{{"no survey"}}), "no survey");
  EXPECT_EQ(in_words(NotKnown{{"no survey", "no forecast"}}), "no survey; no forecast");
}

}  // namespace
}  // namespace passage_brief
