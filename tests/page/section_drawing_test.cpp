// The section along the track: what its water, its ground and its mast stand for.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "given/brief.h"
#include "page/drawing.h"
#include "page/figures.h"

namespace passage_brief {
namespace {

constexpr DrawingSize kSectionSize{340, 84};
constexpr double kOneLast = 1e-6;

/// From the left end of the frame at 40 pt to its right end at 339.
double x_of(double along_nm) { return 40 + 299 * along_nm / 5.05; }

/// At 0.9 nm, on leg 2, where the track is charted 7.0 ft: 7.0 + 2.8 = 9.8 ft of water.
Brief with_bar(const Known<Length>& water) {
  Brief brief = given::brief();
  Depth bar = brief.findings.depths.at(2);
  bar.place = DepthPlace::bar;
  bar.name = "Tern Bar";
  bar.water = water;
  brief.findings.depths.push_back(bar);
  return brief;
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

struct ShadeThere {
  Part part;
  double top;
  double bottom;
};

std::vector<ShadeThere> under_surface(const Drawing& drawing, double x) {
  std::vector<ShadeThere> all;
  for (const Shade& shade : drawing.shades) {
    const auto [left, right] = std::ranges::minmax(shade.outline, {}, &Point::x);
    const auto [top, bottom] = std::ranges::minmax(shade.outline, {}, &Point::y);
    if (x > left.x && x < right.x) all.push_back({shade.part, top.y, bottom.y});
  }
  return all;
}

bool says(const Drawing& drawing, const std::string& words) {
  return std::ranges::find(drawing.labels, words, &Label::text) != drawing.labels.end();
}

/// The mast's line is drawn from left to right.
double mast_at(const Drawing& drawing, double x) {
  const Stroke& line = *std::ranges::find(drawing.strokes, Part::mast, &Stroke::part);
  double y = line.points.front().y;
  for (const Point& point : line.points) {
    if (point.x <= x) y = point.y;
  }
  return y;
}

// Found 2026-11-26: "least water, leg 1 4.5 m, leg 2 5.4 m" stood on a page whose bar on leg 2 had
// 2.2 m of water and whose berth on leg 1 2.8 m. The charts of the track know neither.
TEST(SectionDrawing, BarsAndBerthsCountInTheLeastWaterOfTheirLeg) {
  // By the track: leg 1 4.0 + 2.9 = 6.9 ft, leg 2 9.8 ft. The quay, on leg 6, is charted 6.0 ft:
  // 6.0 + 1.75 = 7.75 ft, a little less than the track before it, 6.0 + 1.8 = 7.8 ft.
  EXPECT_TRUE(has(section_in_words(given::brief(), Units::us), "leg 1 6.9 ft, leg 2 9.8 ft,"));
  EXPECT_TRUE(has(section_in_words(given::brief(), Units::us), "leg 6 7.7 ft;"));
  Brief brief = with_bar(feet(4.75));
  brief.findings.depths.front().water = feet(6.25);  // the slip
  EXPECT_TRUE(has(section_in_words(brief, Units::us), "leg 1 6.2 ft, leg 2 4.7 ft,"));
}

TEST(SectionDrawing, ABarOfNoKnownDepthLeavesTheLeastOfItsLegNotKnown) {
  const Brief brief = with_bar(not_known("the chart gives no depth"));
  EXPECT_TRUE(has(section_in_words(brief, Units::us), "leg 1 6.9 ft, leg 2 not known,"));
}

/// Without bridges the surface is at 4 pt, the foot of the panel at 84 - 9.5 = 74.5 pt; that is
/// 2.2 times the draft of 4 ft, 8.8 ft, so that the track's 9.8 ft run out of it.
Brief without_bridges(Brief brief) {
  brief.findings.bridges.clear();
  brief.findings.cables.clear();
  return brief;
}

TEST(SectionDrawing, ABarIsABumpOfGround) {
  const Drawing drawing =
      section_drawing(without_bridges(with_bar(feet(4.4))), Units::us, kSectionSize);
  // Half of 8.8 ft: 4 + 70.5 / 2 = 39.25 pt.
  const std::vector<ShadeThere> over = under_surface(drawing, x_of(0.9));
  ASSERT_EQ(over.size(), 2U);
  EXPECT_EQ(over[0].part, Part::water);
  EXPECT_NEAR(over[0].bottom, 39.25, kOneLast);
  EXPECT_EQ(over[1].part, Part::bottom);
  EXPECT_NEAR(over[1].top, 39.25, kOneLast);
  EXPECT_NEAR(over[1].bottom, 74.5, kOneLast);
  for (const double beside : {x_of(0.9) - 3.1, x_of(0.9) + 3.1}) {
    const std::vector<ShadeThere> there = under_surface(drawing, beside);
    ASSERT_EQ(there.size(), 1U);
    EXPECT_EQ(there[0].part, Part::water);
    EXPECT_NEAR(there[0].bottom, 74.5, kOneLast);
  }
}

/// No water is drawn under the pattern: it would be seen through it.
TEST(SectionDrawing, ABarOfNoKnownDepthIsDrawnAsNotKnown) {
  const Brief brief = without_bridges(with_bar(not_known("the chart gives no depth")));
  const std::vector<ShadeThere> over =
      under_surface(section_drawing(brief, Units::us, kSectionSize), x_of(0.9));
  ASSERT_EQ(over.size(), 1U);
  EXPECT_EQ(over[0].part, Part::not_known);
  EXPECT_NEAR(over[0].top, 4, kOneLast);
  EXPECT_NEAR(over[0].bottom, 74.5, kOneLast);
}

/// One bridge passed with antennas up (27 ft) at 1 nm, one with them down (19.5 ft) at 4.1 nm: the
/// mast is lowered at 2.55 nm.
Brief brief_of_two_bridges() {
  Brief brief = given::brief();
  brief.findings.cables.clear();
  BridgeFinding high = brief.findings.bridges.front();
  high.name = "High Bridge";
  high.passing.along = nautical_miles(1);
  high.clearance = feet(40);
  high.fits_with = Antennas::up;
  brief.findings.bridges.insert(brief.findings.bridges.begin(), high);
  return brief;
}

// Found 2026-11-26: the drawing showed the lowest mast the vessel file lists, though she passed
// with antennas up.
TEST(SectionDrawing, TheMastIsAsHighAsEachBridgeIsPassedWith) {
  const Brief brief = brief_of_two_bridges();
  const Drawing drawing = section_drawing(brief, Units::us, kSectionSize);
  EXPECT_TRUE(says(drawing, "27.0 ft"));
  EXPECT_TRUE(says(drawing, "antennas down 19.5 ft"));
  EXPECT_LT(mast_at(drawing, x_of(2.5)), mast_at(drawing, x_of(2.6))) << "lower is further down";
  EXPECT_EQ(mast_at(drawing, x_of(0)), mast_at(drawing, x_of(1)));
  EXPECT_EQ(mast_at(drawing, x_of(4.1)), mast_at(drawing, x_of(5.05)));
  EXPECT_TRUE(has(section_in_words(brief, Units::us),
                  "; the mast is at 27.0 ft; under High Bridge 40.0 ft; the mast is at 19.5 ft, "
                  "antennas down; under Mill Bridge 25.2 ft."));
}

/// A cable in the brief is passed with antennas down (19.5 ft) too; here up.
TEST(SectionDrawing, NoAntennasAreDownWhereSheIsToldToLowerNone) {
  Brief brief = given::brief();
  brief.findings.bridges.front().fits_with = Antennas::up;
  CableFinding& cable = brief.findings.cables.front();
  cable.over_mast.insert(cable.over_mast.begin(), {Antennas::up, feet(27), feet(24.9), feet(24.4)});
  cable.antennas = Antennas::up;
  const Drawing drawing = section_drawing(brief, Units::us, kSectionSize);
  EXPECT_TRUE(says(drawing, "27.0 ft"));
  EXPECT_FALSE(has(section_in_words(brief, Units::us), "antennas down"));
}

TEST(SectionDrawing, ABridgeThatOpensAllTheWayIsPassedWithAntennasUp) {
  Brief brief = given::brief();
  brief.findings.cables.clear();
  given::open_if_asked(brief.findings.bridges.front());
  brief.findings.bridges.front().fits_with = not_known("the mast does not fit closed");
  EXPECT_TRUE(has(section_in_words(brief, Units::us), "the mast is at 27.0 ft; under Mill"));
}

}  // namespace
}  // namespace passage_brief
