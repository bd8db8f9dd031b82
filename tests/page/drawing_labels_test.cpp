// Drawings made smaller: no label is printed over another.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "given/brief.h"
#include "page/drawing.h"
#include "page/figures.h"

namespace passage_brief {
namespace {

/// Where the letters certainly are: half an em for each (the narrow digits of DejaVu Sans Condensed
/// are 0.57 em wide), from the top of the capitals to their foot (0.73 em).
struct Ink {
  double left;
  double top;
  double right;
  double bottom;
};

Ink ink_of(const Label& label) {
  const double wide = 0.5 * label.size_pt * static_cast<double>(label.text.size());
  const double left = label.align == LabelAt::left     ? label.at.x
                      : label.align == LabelAt::centre ? label.at.x - wide / 2
                                                       : label.at.x - wide;
  const double top = label.at.y + 0.2 * label.size_pt;
  return {left, top, left + wide, top + 0.73 * label.size_pt};
}

void expect_labels_clear(const Drawing& drawing) {
  for (std::size_t i = 0; i < drawing.labels.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      const Ink a = ink_of(drawing.labels[i]);
      const Ink b = ink_of(drawing.labels[k]);
      EXPECT_FALSE(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
          << drawing.labels[i].text << " is over " << drawing.labels[k].text << " in "
          << drawing.size.width_pt << " by " << drawing.size.height_pt;
    }
  }
}

bool says(const Drawing& drawing, const std::string& words) {
  for (const Label& label : drawing.labels) {
    if (label.text.find(words) != std::string::npos) return true;
  }
  return false;
}

/// The sizes of the PDF, in its narrowest column and its widest.
TEST(DrawingLabels, NoneIsOverAnotherHoweverSmallTheDrawing) {
  Brief unknown = given::brief();
  for (TrackPiece& piece : unknown.findings.track) piece.charted = not_known("not charted");
  for (const Brief& brief : {given::brief(), given::crowded_brief(), unknown,
                             given::brief_with_window(feet(1.2), feet(0.8))}) {
    for (const double width : {200.0, 340.0, 540.0}) {
      for (const double height : {110.0, 84.0, 64.0}) {
        const Drawing section = section_drawing(brief, Units::us, {width, height});
        expect_labels_clear(section);
        for (const char* words : {"mast", "water", "keel", "antennas down"})
          EXPECT_TRUE(says(section, words));
      }
      for (const double height : {84.0, 70.0, 58.0}) {
        expect_labels_clear(tide_drawing(brief, Units::us, {width, height}));
      }
    }
  }
}

/// Eight bridges over a narrow drawing. Of two drawn into one (a bar is 6 pt wide) the lower has
/// its figure; the lowest of all has it even over a higher one. The drawing is 5.05 nm of track
/// from 40 pt on.
TEST(DrawingLabels, AFigureStandsOverItsOwnBridgeAndOverNoOther) {
  struct Placed {
    double along_nm;
    double clearance_ft;
  };
  const std::vector<Placed> placed = {{0.1, 24.5}, {1.0, 45.4}, {1.01, 39.4}, {2.0, 60.3},
                                      {2.1, 23.8}, {2.3, 29.9}, {4.0, 27.2},  {4.9, 26.1}};
  Brief brief = given::brief();
  brief.findings.cables.clear();
  const BridgeFinding first = brief.findings.bridges.front();
  brief.findings.bridges.clear();
  for (const Placed& one : placed) {
    BridgeFinding bridge = first;
    bridge.name = "Bridge " + std::to_string(brief.findings.bridges.size() + 1);
    bridge.passing.along = nautical_miles(one.along_nm);
    bridge.clearance = feet(one.clearance_ft);
    brief.findings.bridges.push_back(bridge);
  }
  for (const double width : {200.0, 340.0, 540.0}) {
    const Drawing drawing = section_drawing(brief, Units::us, {width, 84});
    expect_labels_clear(drawing);
    EXPECT_TRUE(says(drawing, "23.8 ft")) << "the lowest of all";
    const auto x = [&](const Placed& one) { return 40 + (width - 41) * one.along_nm / 5.05; };
    std::size_t told = 0;
    for (const Placed& one : placed) {
      const std::string figure = rounded(one.clearance_ft, 1, Rounding::nearest) + " ft";
      for (const Label& label : drawing.labels) {
        if (!label.text.ends_with(figure)) continue;
        ++told;
        const Ink ink = ink_of(label);
        EXPECT_LE(ink.left, x(one)) << label.text;
        EXPECT_GE(ink.right, x(one)) << label.text;
        for (const Placed& other : placed) {
          if (x(other) == x(one) || x(other) < ink.left || x(other) > ink.right) continue;
          if (one.clearance_ft != 23.8) {
            EXPECT_LT(std::abs(x(other) - x(one)), 6) << label.text << " over another bar";
          }
          EXPECT_LT(one.clearance_ft, other.clearance_ft) << label.text << " over a lower bridge";
        }
      }
    }
    const std::size_t left_out = placed.size() - told;
    EXPECT_GE(left_out, 1U);
    EXPECT_TRUE(says(drawing, std::to_string(left_out) + " more figure"));
  }
}

/// The frame ends 1 pt from the right of the drawing, at 339 pt; a letter is taken as 4.8 pt wide,
/// so both figures are 52.8 pt. From 286.2 pt on that of the last bridge (328 to 334 pt) is clear
/// of the other, which ends at 280; up to its right, from 281.2 pt on, it would be too near.
TEST(DrawingLabels, AFigureAtTheEdgeStandsAsNearOverItsBridgeAsTheFrameLetsIt) {
  Brief brief = given::brief();
  brief.findings.cables.clear();
  BridgeFinding bridge = brief.findings.bridges.front();
  brief.findings.bridges.clear();
  const auto put = [&](const std::string& name, double x, double clearance_ft) {
    bridge.name = name;
    bridge.passing.along = nautical_miles((x - 40) * 5.05 / 299);
    bridge.clearance = feet(clearance_ft);
    brief.findings.bridges.push_back(bridge);
  };
  put("Low", 253.6, 20);
  put("End", 331, 26.1);
  const Drawing drawing = section_drawing(brief, Units::us, {340, 84});
  expect_labels_clear(drawing);
  EXPECT_TRUE(says(drawing, "Low 20.0 ft"));
  EXPECT_TRUE(says(drawing, "End 26.1 ft"));
}

/// What there is room for stays: each high and low water of the day with its height.
TEST(DrawingLabels, TheTidesOfTheDayAreLabelledInTheSmallDrawingToo) {
  const Brief brief = given::brief();
  const Drawing drawing = tide_drawing(brief, Units::us, {340, 58});
  const Clock24 clock(brief.zone, brief.findings.passage.departs);
  for (const TideEvent& event : brief.tide_curve->high_low.value()) {
    EXPECT_TRUE(says(drawing, clock.bare(event.at, Rounding::nearest)));
  }
}

}  // namespace
}  // namespace passage_brief
