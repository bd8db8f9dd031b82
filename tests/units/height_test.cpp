#include "units/height.h"

#include <gtest/gtest.h>

#include <type_traits>

#include "given/units.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using given::Addable;
using given::Subtractable;

static_assert(!Addable<Length, Speed>);
static_assert(!Addable<TideHeight, TideHeight>);
static_assert(!Subtractable<TideHeight, Height<StationZero>>);
static_assert(!std::is_default_constructible_v<Length>);
static_assert(!std::is_convertible_v<double, Length>);

TEST(Height, DifferenceIsALength) {
  const auto mhw = TideHeight::above(feet(5));
  const auto tide = TideHeight::above(feet(-0.5));
  EXPECT_DOUBLE_EQ(in_feet(mhw - tide), 5.5);
}

}  // namespace
}  // namespace passage_brief
