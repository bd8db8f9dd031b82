#include "units/clock.h"

#include <gtest/gtest.h>

#include <chrono>
#include <type_traits>

namespace passage_brief {
namespace {

static_assert(!std::is_copy_constructible_v<FixedClock>);

TEST(FixedClock, StandsStill) {
  const Instant at = std::chrono::sys_days(std::chrono::year(2026) / 6 / 14);
  const FixedClock clock(at);
  EXPECT_EQ(clock.now(), at);
  EXPECT_EQ(clock.now(), at);
}

}  // namespace
}  // namespace passage_brief
