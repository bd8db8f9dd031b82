#include "plan/near_route.h"

#include <gtest/gtest.h>

#include <string>

#include "plan/route.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

// On a meridian a degree is 60 nm to within 0.5 % (WGS 84).
const Route kOneLongLeg{"north", {{"A", position_at(0, 0)}, {"B", position_at(10, 0)}}};

TEST(NearRoute, IsMeasuredFromTheLegsNotTheirEnds) {
  EXPECT_EQ(why_not_of_route(kOneLongLeg, position_at(5, 1.6), nautical_miles(100)), "");
  EXPECT_EQ(why_not_of_route(kOneLongLeg, position_at(11.6, 0), nautical_miles(100)), "");
  EXPECT_EQ(why_not_of_route(kOneLongLeg, position_at(12, 0), nautical_miles(100)),
            "lies 119 nm from the route; further than 100 nm off it says nothing of these waters");
  EXPECT_EQ(why_not_of_route(kOneLongLeg, position_at(12, 0), nautical_miles(300)), "");
}

TEST(NearRoute, GoesTheShortWayAcrossThe180thMeridian) {
  const Route route{"west", {{"A", position_at(0, -179.9)}, {"B", position_at(0.1, -179.9)}}};
  EXPECT_EQ(why_not_of_route(route, position_at(0, 179.9), nautical_miles(100)), "");
}

}  // namespace
}  // namespace passage_brief
