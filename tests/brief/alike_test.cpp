#include "brief/alike.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "given/findings.h"

namespace passage_brief {
namespace {

TrackPiece piece(double begin_m, double end_m, const std::string& reach) {
  return {.begin = metres(begin_m),
          .end = metres(end_m),
          .begins = not_known("not asked for"),
          .ends = not_known("not asked for"),
          .leg = 0,
          .wind_aboard = {knots(0), degrees(0)},
          .blown_aside = metres(0),
          .blown_by_light_air = metres(0),
          .block = 0,
          .leeward_step = 0,
          .through_water = knots(4),
          .over_ground = knots(4),
          .over_ground_most = knots(4),
          .across = 0,
          .charted = metres(3),
          .height_of_tide = not_known("not asked for"),
          .reach = reach};
}

TEST(Alike, PiecesSideBySide) {
  const std::vector<TrackPiece> earlier{piece(0, 100, ""), piece(100, 300, ""),
                                        piece(300, 400, "")};
  const std::vector<TrackPiece> later{piece(0, 250, ""), piece(250, 400, "")};
  const auto pairs = side_by_side(earlier, later);
  ASSERT_EQ(pairs.size(), 4U);
  EXPECT_EQ(pairs[0], std::pair(&earlier[0], &later[0]));
  EXPECT_EQ(pairs[1], std::pair(&earlier[1], &later[0]));
  EXPECT_EQ(pairs[2], std::pair(&earlier[1], &later[1]));
  EXPECT_EQ(pairs[3], std::pair(&earlier[2], &later[1]));
}

/// Ends that are one but for rounding do not overlap.
TEST(Alike, PiecesThatJoinAreNotSideBySide) {
  const std::vector<TrackPiece> earlier{piece(0, 100 + 1e-9, ""), piece(100 + 1e-9, 200, "")};
  const std::vector<TrackPiece> later{piece(0, 100, ""), piece(100, 200, "")};
  EXPECT_EQ(side_by_side(earlier, later).size(), 2U);
}

TEST(Alike, ThePiecesOfAReach) {
  Findings found = given::findings();
  found.track = {piece(0, 100, "Cut"), piece(100, 300, "Cut"), piece(300, 400, ""),
                 piece(400, 500, "Cut")};
  EXPECT_EQ(track_round(found, metres(150)).size(), 2U);
  EXPECT_EQ(&track_round(found, metres(300)).front(), &found.track[2]);
  EXPECT_EQ(track_round(found, metres(500)).size(), 1U);
}

/// A reach told in two parts is one place; a part that only one departure tells leaves it unlike.
TEST(Alike, ThePlacesOfDepths) {
  Findings earlier = given::findings();
  earlier.track = {piece(0, 100, "Cut")};
  earlier.depths = {given::depth(DepthPlace::reach, "Hard ground in Cut"),
                    given::depth(DepthPlace::reach, "Cut"),
                    given::depth(DepthPlace::berth, "Slip")};
  earlier.depths[0].part = true;
  Findings later = earlier;
  const std::vector<PlaceOfBoth> places = places_of(earlier, later);
  ASSERT_EQ(places.size(), 2U);
  EXPECT_EQ(places[0].earlier, (std::vector<std::size_t>{1, 0}));  // the whole first
  EXPECT_TRUE(alike_at(places[0], earlier, later));
  later.depths.erase(later.depths.begin());
  const std::vector<PlaceOfBoth> now = places_of(earlier, later);
  EXPECT_EQ(now[0].later, (std::vector<std::size_t>{0}));
  EXPECT_FALSE(alike_at(now[0], earlier, later));
  EXPECT_TRUE(alike_at(now[1], earlier, later));
}

}  // namespace
}  // namespace passage_brief
