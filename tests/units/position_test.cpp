#include "units/position.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <type_traits>

#include "units/check.h"

namespace passage_brief {
namespace {

static_assert(!std::is_convertible_v<Latitude, Longitude>);
static_assert(!std::is_constructible_v<Position, double, double>);
static_assert(!std::is_default_constructible_v<Latitude>);

constexpr double kInfinite = std::numeric_limits<double>::infinity();

TEST(Latitude, FromPoleToPoleAndNoFarther) {
  for (const double deg : {-90.0, -33.83, 0.0, 60.15, 90.0}) {
    EXPECT_EQ(Latitude::from_degrees(deg).value().in_degrees(), deg);
  }
  for (const double deg :
       {-90.0000001, std::nextafter(90.0, 91.0), 180.0, kInfinite, -kInfinite, std::nan("")}) {
    EXPECT_FALSE(Latitude::from_degrees(deg)) << deg;
  }
}

// Found 2026-11: -71.05 was held as -71.05000000000001, having been round the circle.
TEST(Longitude, OnceRoundAndNoFarther) {
  for (const double deg : {-180.0, -71.05, 0.0, 151.29, 179.9999999}) {
    EXPECT_EQ(Longitude::from_degrees(deg).value().in_degrees(), deg);
  }
  for (const double deg :
       {-180.0000001, std::nextafter(180.0, 181.0), 360.0, kInfinite, std::nan("")}) {
    EXPECT_FALSE(Longitude::from_degrees(deg)) << deg;
  }
}

TEST(Longitude, EastAndWestMeetAtOneMeridian) {
  EXPECT_EQ(Longitude::from_degrees(180), Longitude::from_degrees(-180));
  EXPECT_EQ(position_at(10, 180), position_at(10, -180));
}

TEST(Position, OutOfRangeBreaksAPromise) {
  EXPECT_THROW((void)position_at(90.5, 0), BrokenPromise);
  EXPECT_THROW((void)position_at(0, 180.5), BrokenPromise);
  EXPECT_THROW((void)position_at(std::nan(""), 0), BrokenPromise);
  // Latitude and longitude the wrong way round: only some of such slips can be seen here.
  EXPECT_THROW((void)position_at(151.29, -33.83), BrokenPromise);
}

}  // namespace
}  // namespace passage_brief
