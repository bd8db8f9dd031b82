// Headings by the boat's own compass, from her deviation table; by hand: deviation linear between
// rows, compass = magnetic - deviation, east positive (Bowditch, NGA Pub. 9, "Compasses").
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "passage/legs.h"
#include "plan/vessel.h"
#include "units/direction.h"
#include "units/known.h"

namespace passage_brief {
namespace {

DeviationRow row(double heading_deg, double east_deg) {
  return {CompassBearing::from_degrees(heading_deg), Deviation{degrees(east_deg)}};
}

std::string by_compass(const std::vector<DeviationRow>& table, double magnetic_deg) {
  const auto heading = compass_heading(table, MagneticBearing::from_degrees(magnetic_deg));
  return heading ? std::to_string(heading->in_degrees()) : in_words(heading.error());
}

TEST(CompassHeading, IsReadBetweenRowsUpTo90DegreesApart) {
  const std::vector<DeviationRow> table{row(0, 2), row(90, 4), row(180, 0), row(270, -2)};
  EXPECT_EQ(by_compass(table, 0), std::to_string(358.0));
  EXPECT_EQ(by_compass(table, 45), std::to_string(42.0));    // 3 E
  EXPECT_EQ(by_compass(table, 315), std::to_string(315.0));  // half way from 2 W to 2 E
}

TEST(CompassHeading, IsNotKnownAcrossAWideGap) {
  const std::vector<DeviationRow> two{row(0, 2), row(10, 4)};
  EXPECT_EQ(by_compass(two, 5), std::to_string(2.0));
  EXPECT_EQ(by_compass(two, 10), std::to_string(6.0));
  EXPECT_EQ(
      by_compass(two, 198),
      "the deviation table has no rows between 10 and 0 degrees, which is more than 90 degrees "
      "apart");
  EXPECT_EQ(
      by_compass({row(0, 2), row(91, 4)}, 45),
      "the deviation table has no rows between 0 and 91 degrees, which is more than 90 degrees "
      "apart");
}

TEST(CompassHeading, OneRowSaysNothingOfAnotherHeading) {
  EXPECT_EQ(by_compass({row(40, 5)}, 40), std::to_string(35.0));
  EXPECT_EQ(by_compass({row(40, 45)}, 198), "the deviation table has one row only, for 40 degrees");
  EXPECT_EQ(by_compass({}, 198), "the vessel file has no deviation table");
}

}  // namespace
}  // namespace passage_brief
