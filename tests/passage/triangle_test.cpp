#include "passage/triangle.h"

#include <gtest/gtest.h>

#include <cmath>
#include <expected>
#include <string>

#include "given/csv_table.h"
#include "given/units.h"
#include "units/direction.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

using given::true_bearing;

using Steering = std::expected<CourseToSteer, NoCourse>;

double apart_deg(TrueBearing a, double b_deg) {
  return std::abs((a - true_bearing(b_deg)).in_degrees());
}

std::string steering_word(const Steering& answer) {
  if (answer.has_value()) return "steer";
  return answer.error() == NoCourse::no_headway ? "no headway" : "cannot hold the line";
}

TEST(CourseToSteer, AgreesWithTheBooks) {
  for (const given::CsvRow& row : given::csv_table("course_to_steer.csv")) {
    SCOPED_TRACE(row.place() + " " + row.text("case"));
    const Steering answer = course_to_steer(
        true_bearing(row.number("track_deg")), knots(row.number("speed_kn")),
        SetToward{true_bearing(row.number("set_deg"))}, knots(row.number("drift_kn")));
    EXPECT_EQ(steering_word(answer), row.text("answer"));
    if (!answer.has_value() || row.is_empty("course_deg")) continue;
    EXPECT_LE(apart_deg(answer->steer, row.number("course_deg")), row.number("tolerance_deg"));
    EXPECT_NEAR(in_knots(answer->over_ground), row.number("made_good_kn"),
                row.number("tolerance_kn"));
    if (row.is_empty("published_deg")) continue;
    EXPECT_LE(apart_deg(answer->steer, row.number("published_deg")), 3.0);
    EXPECT_NEAR(in_knots(answer->over_ground), row.number("published_kn"), 0.1);
  }
}

// Way through the water plus current is a velocity along the track, whatever the current.
TEST(CourseToSteer, BoatPlusCurrentGoesAlongTheTrack) {
  for (double set_deg = 0; set_deg < 360; set_deg += 7.5) {
    for (const double drift_kn : {0.5, 2.0, 3.9, 5.0, 8.0}) {
      const SetToward set{true_bearing(set_deg)};
      const Steering answer = course_to_steer(true_bearing(312), knots(4), set, knots(drift_kn));
      if (!answer.has_value()) continue;
      const Velocity sum = velocity(answer->steer, knots(4)) + velocity(set, knots(drift_kn));
      EXPECT_LE(apart_deg(bearing_of(sum), 312), 1e-6) << set_deg << " " << drift_kn;
      EXPECT_NEAR(in_knots(speed_of(sum)), in_knots(answer->over_ground), 1e-9);
    }
  }
}

TEST(CourseToSteer, SaysWhyThereIsNone) {
  EXPECT_NE(in_words(NoCourse::no_headway).find("no headway"), std::string::npos);
  EXPECT_NE(in_words(NoCourse::cannot_hold_the_line).find("off the line"), std::string::npos);
}

}  // namespace
}  // namespace passage_brief
