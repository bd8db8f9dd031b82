#include "passage/leeway.h"

#include <gtest/gtest.h>

#include "given/csv_table.h"
#include "passage/hull.h"
#include "passage/relative_wind.h"
#include "units/direction.h"
#include "units/quantity.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

HullForm hull_of(Area windage, Area lateral_plane, Length draft) {
  return {metres(10), metres(3), draft, draft, 0.5, windage, lateral_plane, {}};
}
HullForm motor_boat_9m() { return hull_of(square_metres(14), square_metres(4.6), metres(0.6)); }

TEST(Leeway, AgreesWithTheTable) {
  const TrueBearing heading = TrueBearing::from_degrees(0);
  for (const given::CsvRow& row : given::csv_table("leeway_under_way.csv")) {
    SCOPED_TRACE(row.place() + " " + row.text("case"));
    const Speed u = knots(row.number("speed_kn"));
    const WindFrom from{TrueBearing::from_degrees(row.number("true_wind_angle_deg"))};
    const RelativeWind felt = relative_wind(velocity(from, knots(row.number("true_wind_kn"))),
                                            velocity(heading, u), heading);
    const Leeway leeway = leeway_under_way(
        hull_of(square_metres(row.number("windage_m2")),
                square_metres(row.number("lateral_plane_m2")), metres(row.number("draft_m"))),
        u, felt);
    EXPECT_NEAR(in_knots(leeway.sideways), row.number("leeway_kn"), 0.002);
    EXPECT_NEAR(leeway.angle.in_degrees(), row.number("leeway_deg"), 0.02);
    EXPECT_EQ(leeway.falls_off_to, Side::port);  // every wind of the table is from starboard
    EXPECT_NEAR(in_knots(leeway.sideways_could_be), 1.5 * row.number("leeway_kn"), 0.003);
    EXPECT_GE(leeway.could_be, leeway.angle);
  }
}

// Cc A_L v^2 = (rho_a/rho_w) Cy A_w W^2 at rest: v/W = 0.0346 sqrt(A_w/A_L) with Cy = Cc, here
// 0.0346 x sqrt(14/4.6) = 6.0 %. Measured for boats of that kind: 6.0 to 6.9 % (Allen & Plourde
// 1999).
TEST(Leeway, AtRestIsAsMeasuredInDriftTrials) {
  const Leeway leeway = leeway_under_way(motor_boat_9m(), knots(0), {knots(20), degrees(-90)});
  EXPECT_NEAR(leeway.sideways / knots(20), 0.060, 0.001);
  EXPECT_NEAR(leeway.angle.in_degrees(), 90, 1e-9);
  EXPECT_EQ(leeway.falls_off_to, Side::starboard);
}

TEST(Leeway, FallsOffAwayFromTheWindAndPointsUpIntoIt) {
  const auto on = [](double from_deg) {
    return leeway_under_way(motor_boat_9m(), knots(6), {knots(15), degrees(from_deg)});
  };
  EXPECT_EQ(on(50).falls_off_to, Side::port);
  EXPECT_EQ(on(-50).falls_off_to, Side::starboard);
  EXPECT_GT(point_up(on(50)).in_degrees(), 0);
  EXPECT_EQ(point_up(on(-50)), -point_up(on(50)));
}

TEST(Leeway, NoneInACalmNorWithTheWindAheadOrAstern) {
  for (const RelativeWind wind :
       {RelativeWind{knots(0), degrees(90)}, RelativeWind{knots(20), degrees(0)},
        RelativeWind{knots(20), degrees(-180)}}) {
    const Leeway leeway = leeway_under_way(motor_boat_9m(), knots(6), wind);
    EXPECT_EQ(leeway.angle, degrees(0));
    EXPECT_EQ(leeway.sideways, knots(0));
    EXPECT_FALSE(leeway.falls_off_to.has_value());
    EXPECT_EQ(point_up(leeway).in_degrees(), 0);
  }
}

}  // namespace
}  // namespace passage_brief
