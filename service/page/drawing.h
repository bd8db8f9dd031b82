// Drawings as strokes, areas and labels, without ink: a printer decides how each part looks.
//
// Coordinates in points from the drawing's upper left corner, y downward; a drawing is made for the
// size it will have, so that labels keep their size and clear each other. Each carries the same
// facts in words, for a page that is heard.
#pragma once

#include <string>
#include <vector>

#include "page/figures.h"

namespace passage_brief {

struct Brief;
struct GroundPlan;

struct Point {
  double x;
  double y;
};

struct DrawingSize {
  double width_pt;
  double height_pt;
};

/// What a part of a drawing stands for.
enum class Part {
  water,                 // area between surface and bottom, or under the tide curve
  under_way,             // the part of the day between departure and arrival
  window,                // the departures of the day at which every limit is kept
  window_past_forecast,  // those judged on tide and light only
  bottom,                // ground
  not_known,             // no depth on file
  surface,               // the water's level as the boat arrives; the tide curve
  keel,                  // track of the deepest part
  mast,                  // track of the highest part
  bridge,                // from its underside up
  cable,
  frame,
  scale_break,  // between keel and mast the scale is broken
  pointer,      // from a label to its place
  departure,
  arrival,
  route,
  corridor,
  symbol,  // a mark, a berth, a danger of no size
  bridge_from_above,
  wire_from_above
};

struct Shade {
  Part part;
  std::vector<Point> outline;
};

struct Stroke {
  Part part;
  std::vector<Point> points;
};

enum class LabelAt { left, centre, right };

struct Label {
  Point at;  // top of the words; left end, middle or right end of them
  LabelAt align;
  double size_pt;
  std::string text;
};

struct Drawing {
  DrawingSize size;
  std::vector<Shade> shades;  // drawn first, in this order
  std::vector<Stroke> strokes;
  std::vector<Label> labels;
};

/// Along the track: bottom, water as the boat arrives at each place (not at one moment; of a stay
/// in a berth the lowest), keel; above, bridges and cables where there are any, and the mast as
/// each is passed. A bar and a berth are bumps, wide enough to be seen. The scale is broken between
/// surface and mast. Water deeper than the panel runs out of it. Not known: an area of its own,
/// never water. A figure stands over its own bridge or cable; those without room, the highest, are
/// counted.
[[nodiscard]] Drawing section_drawing(const Brief& brief, Units units, DrawingSize size);
[[nodiscard]] std::string section_in_words(const Brief& brief, Units units);

/// The tide of the local day with departure and arrival, and its departure windows with what shuts
/// them. Needs brief.tide_curve. Hours not known are a gap.
[[nodiscard]] Drawing tide_drawing(const Brief& brief, Units units, DrawingSize size);

/// The waterway from above, north up, one scale both ways, as large as goes into `size` with a
/// scale and a legend below it.
[[nodiscard]] Drawing plan_drawing(const GroundPlan& plan, Units units, DrawingSize size);

}  // namespace passage_brief
