#include "facts/daylight/moon.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "given/stations.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::at;

TEST(Moon, MeeusExamples47aAnd48a) {
  // J. Meeus, Astronomical Algorithms, 2nd ed.: 1992 Apr 12, 0h TD. Example 47.a (from memory):
  // mean equinox of date 133.162655 deg, apparent (with nutation) 133.167265, latitude -3.229126,
  // parallax 0.991990. Example 48.a (seen): lit part 0.6786. TD is 69 s ahead of UTC here.
  const Instant zero_hours = at("1992-04-11T23:58:51Z");
  const MoonPlace moon = moon_place(zero_hours);
  EXPECT_NEAR(moon.longitude.in_degrees(), 133.167265, 0.02);
  EXPECT_NEAR(moon.latitude.in_degrees(), -3.229126, 0.02);
  EXPECT_NEAR(moon.parallax.in_degrees(), 0.991990, 0.001);
  EXPECT_NEAR(moon_illuminated(zero_hours), 0.6786, 0.0005);
}

struct Phase {
  const char* utc;
  double phase_deg;
  double illuminated;
};

TEST(Moon, PhaseAndLitPartAgreeWithAFullEphemeris) {
  // Computed with the npm library astronomy-engine 2.1.19; tolerance 0.1 deg and 0.002.
  const std::vector<Phase> table{{"2025-01-13T22:27:00Z", 179.995, 0.9984},
                                 {"2025-09-07T18:09:00Z", 179.996, 1},
                                 {"2025-11-28T06:59:00Z", 89.997, 0.5013},
                                 {"2026-08-12T17:36:00Z", 359.989, 0.0001},
                                 {"2024-04-08T18:21:00Z", 359.996, 0}};
  for (const Phase& row : table) {
    EXPECT_NEAR(folded_180(moon_phase_angle(at(row.utc)).in_degrees() - row.phase_deg), 0, 0.1)
        << row.utc;
    EXPECT_NEAR(moon_illuminated(at(row.utc)), row.illuminated, 0.002) << row.utc;
  }
}

TEST(Moon, QuartersFallWithinThreeMinutes) {
  // The same library; the Moon gains 0.508 deg an hour on the Sun, give or take a sixth.
  const std::vector<std::pair<const char*, double>> quarters{{"2025-11-05T13:19:00Z", 180},
                                                             {"2025-11-12T05:28:00Z", 270},
                                                             {"2025-11-28T06:59:00Z", 90},
                                                             {"2025-12-11T20:52:00Z", 270}};
  for (const auto& [utc, phase_deg] : quarters) {
    const double before =
        folded_180(moon_phase_angle(at(utc) - std::chrono::minutes(3)).in_degrees() - phase_deg);
    const double after =
        folded_180(moon_phase_angle(at(utc) + std::chrono::minutes(3)).in_degrees() - phase_deg);
    EXPECT_LT(before, 0) << utc;
    EXPECT_GT(after, 0) << utc;
  }
}

TEST(Moon, PhaseHasItsName) {
  // 6.1 deg of phase either side of a moment keeps its name: near perigee, as here, the Moon gains
  // 0.59 deg an hour, so 9 h do and 12 h do not. Two days never do.
  EXPECT_EQ(moon_phase(at("2025-11-05T13:19:00Z")), "full moon");
  EXPECT_EQ(moon_phase(at("2025-11-05T04:00:00Z")), "full moon");
  EXPECT_EQ(moon_phase(at("2025-11-05T01:00:00Z")), "waxing gibbous");
  EXPECT_EQ(moon_phase(at("2025-11-03T13:00:00Z")), "waxing gibbous");
  EXPECT_EQ(moon_phase(at("2025-11-07T13:00:00Z")), "waning gibbous");
  EXPECT_EQ(moon_phase(at("2025-11-12T05:28:00Z")), "last quarter");
  EXPECT_EQ(moon_phase(at("2025-11-15T05:28:00Z")), "waning crescent");
  EXPECT_EQ(moon_phase(at("2026-08-12T17:36:00Z")), "new moon");
  EXPECT_EQ(moon_phase(at("2026-08-12T10:00:00Z")), "new moon");  // phase near 356 deg
  EXPECT_EQ(moon_phase(at("2026-08-15T17:36:00Z")), "waxing crescent");
  EXPECT_EQ(moon_phase(at("2025-11-28T06:59:00Z")), "first quarter");
}

TEST(Moon, AFullMoonIsUpAtMidnightAndANewOneAtNoon) {
  // At full moon it stands opposite the Sun, at new moon beside it: on the equator up half the day.
  const Position equator = position_at(0, 0);
  EXPECT_TRUE(moon_is_up(equator, at("2025-09-08T00:00:00Z")));
  EXPECT_FALSE(moon_is_up(equator, at("2025-09-07T12:00:00Z")));
  EXPECT_TRUE(moon_is_up(equator, at("2026-08-12T12:00:00Z")));
  EXPECT_FALSE(moon_is_up(equator, at("2026-08-13T00:00:00Z")));
  // First quarter 2025-11-28 06:59: it culminates about 18 h local, sets about midnight.
  EXPECT_TRUE(moon_is_up(equator, at("2025-11-28T18:00:00Z")));
  EXPECT_FALSE(moon_is_up(equator, at("2025-11-28T06:00:00Z")));
}

}  // namespace
}  // namespace passage_brief
