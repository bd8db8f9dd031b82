// The plan a waterway is checked by: what was drawn is on it, at its place and to scale.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include "brief/ground_plan.h"
#include "given/csv_table.h"
#include "given/open_water.h"
#include "given/run_program.h"
#include "page/drawing.h"
#include "passage/route_survey.h"
#include "units/geodesy.h"

namespace passage_brief {
namespace {

using given::at;

Waterway drawn_ground() {
  Waterway water = given::empty_waterway();
  water.reaches.push_back(
      given::plain_reach("Cut", LineShape{at(0, 0), at(0, 1000)}, metres(40), metres(3)));
  water.hazards.push_back({{"The Teeth", water.stations},
                           Shape(at(300, 500)),
                           "rocks",
                           metres(-1),
                           false,
                           std::nullopt,
                           Bottom::rock});
  water.depth_areas.push_back(
      given::plain_area("Blank", given::oblong(-400, 0, -200, 300), not_known("not sounded")));
  return water;
}

const Label* label(const Drawing& drawing, const std::string& text) {
  const auto found = std::ranges::find(drawing.labels, text, &Label::text);
  return found == drawing.labels.end() ? nullptr : &*found;
}

const Shade* shade(const Drawing& drawing, Part part) {
  const auto found = std::ranges::find(drawing.shades, part, &Shade::part);
  return found == drawing.shades.end() ? nullptr : &*found;
}

struct Extent {
  double left, right, top, bottom;
};
Extent extent(const std::vector<Point>& points) {
  const auto [left, right] = std::ranges::minmax(points, {}, &Point::x);
  const auto [top, bottom] = std::ranges::minmax(points, {}, &Point::y);
  return {left.x, right.x, top.y, bottom.y};
}

TEST(PlanDrawing, IsToScaleWithNorthUp) {
  const Waterway water = drawn_ground();
  const Drawing drawing =
      plan_drawing(ground_plan(water, nullptr, nullptr), Units::metric, {700, 1000});
  // From the blank area in the west (-400 m) to the Teeth in the east (300 m) 700 m; the reach from
  // 20 m south of its line's begin to 20 m north of its end 1040 m.
  const Shade* reach = shade(drawing, Part::water);
  const Shade* blank = shade(drawing, Part::not_known);
  ASSERT_NE(reach, nullptr);
  ASSERT_NE(blank, nullptr);
  const Extent cut = extent(reach->outline);
  const Extent unknown = extent(blank->outline);
  const double pt_per_m = (cut.right - cut.left) / 40;
  EXPECT_NEAR(cut.bottom - cut.top, 1040 * pt_per_m, 1040 * pt_per_m * 0.005);
  EXPECT_NEAR(unknown.right - unknown.left, 200 * pt_per_m, 1);
  EXPECT_NEAR(cut.left - unknown.right, 180 * pt_per_m, 1);
  // South is down: the blank area begins with the reach's line, 20 m north of the round end.
  EXPECT_NEAR(cut.bottom - unknown.bottom, 20 * pt_per_m, 1);
  EXPECT_LT(drawing.size.height_pt, 1001);
}

TEST(PlanDrawing, NamesEverythingWithItsDepth) {
  const Drawing drawing =
      plan_drawing(ground_plan(drawn_ground(), nullptr, nullptr), Units::metric, {700, 1000});
  EXPECT_NE(label(drawing, "Cut, 3.0 m"), nullptr);
  EXPECT_NE(label(drawing, "The Teeth, -1.0 m"), nullptr);
  EXPECT_NE(label(drawing, "Blank, not known"), nullptr);
}

TEST(PlanDrawing, CorridorIsAsWideAsTheHullMayBe) {
  Waterway water = drawn_ground();
  water.reaches.front().width = metres(200);
  const Plan plan = given::plan_along({at(0, 100), at(0, 900)});
  const RouteSurvey survey(plan, water, given::plain_margins());
  const GroundPlan ground = ground_plan(water, &plan.route, &survey);
  const auto corridor = std::ranges::find(ground.shapes, GroundPart::corridor, &GroundShape::part);
  ASSERT_NE(corridor, ground.shapes.end());
  double west_m = 0;
  double east_m = 0;
  for (const ChartPlane::Point& p : corridor->runs.front()) {
    west_m = std::min(west_m, in_metres(p.east));
    east_m = std::max(east_m, in_metres(p.east));
  }
  // Half the beam 2 m, track margin 5 m, position 3 m on each side.
  EXPECT_NEAR(west_m, -10, 0.2);
  EXPECT_NEAR(east_m, 10, 0.2);
}

TEST(PlanDrawing, CheckWritesIt) {
  const std::string file = testing::TempDir() + "/plan.svg";
  const given::ProgramRun made = given::run_program(
      {"check", "--plan", file, "examples/tansel.waterway.json", "examples/upriver.gpx",
       "examples/sedge_wren.vessel.json", "rules/renters.json"});
  EXPECT_EQ(made.status, 0) << made.err;
  const std::string svg = given::contents_of(file);
  for (const char* part : {"<svg ", "as drawn</title>", ">N</text>", "stroke-dasharray=\"8 3\"",
                           "stroke-dasharray=\"2 2\""}) {
    EXPECT_NE(svg.find(part), std::string::npos) << part;
  }
  std::filesystem::remove(file);
  const given::ProgramRun without =
      given::run_program({"check", "--plan", file, "examples/upriver.gpx"});
  EXPECT_EQ(without.status, 2);
  EXPECT_NE(without.err.find("needs a waterway"), std::string::npos) << without.err;
  EXPECT_FALSE(std::filesystem::exists(file));
}

}  // namespace
}  // namespace passage_brief
