#include "page/pdf_panel.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace passage_brief {
namespace {

Fill fill_of(Part part) {
  switch (part) {
    case Part::water:
      return Fill::water;
    case Part::under_way:
      return Fill::hatched;
    case Part::window:
      return Fill::barred;
    case Part::window_past_forecast:
      return Fill::thinly_barred;
    case Part::bottom:
      return Fill::bottom;
    case Part::not_known:
      return Fill::unknown;
    case Part::bridge:
    case Part::cable:
    case Part::surface:
    case Part::keel:
    case Part::mast:
    case Part::frame:
    case Part::scale_break:
    case Part::pointer:
    case Part::departure:
    case Part::arrival:
    case Part::route:
    case Part::corridor:
    case Part::symbol:
    case Part::bridge_from_above:
    case Part::wire_from_above:
      return Fill::dark;
  }
  return Fill::dark;
}

Pen pen_of(Part part) {
  switch (part) {
    case Part::surface:
    case Part::departure:
      return {1, {}};
    case Part::keel:
    case Part::mast:
      return {1.2, {5, 2}};
    case Part::arrival:
      return {1, {3, 2}};
    case Part::water:
    case Part::under_way:
    case Part::window:
    case Part::window_past_forecast:
    case Part::bottom:
    case Part::not_known:
    case Part::bridge:
    case Part::cable:
    case Part::frame:
    case Part::scale_break:
    case Part::pointer:
    case Part::route:
    case Part::corridor:
    case Part::symbol:
    case Part::bridge_from_above:
    case Part::wire_from_above:
      return {0.5, {}};
  }
  return {0.5, {}};
}

std::vector<Point> moved(std::vector<Point> points, Point by) {
  for (Point& point : points) point = {point.x + by.x, point.y + by.y};
  return points;
}

}  // namespace

double Panel::put(PdfCanvas& canvas, Point at, double width_pt, Align align,
                  const std::vector<TextRun>& runs) {
  TextBox text = canvas.lay_out(runs, align, width_pt);
  const double below = at.y + text.height_pt();
  make_at_least(below);
  texts_.emplace_back(at, std::move(text));
  return below;
}

void Panel::stroke(std::vector<Point> points, Pen pen) {
  strokes_.emplace_back(std::move(points), std::move(pen));
}

void Panel::fill(std::vector<Point> outline, Fill fill) {
  fills_.emplace_back(std::move(outline), fill);
}

void Panel::make_at_least(double height_pt) { height_ = std::max(height_, height_pt); }

void Panel::put_drawing(PdfCanvas& canvas, Point at, const Drawing& drawing) {
  for (const Shade& shade : drawing.shades) fill(moved(shade.outline, at), fill_of(shade.part));
  for (const Stroke& one : drawing.strokes) stroke(moved(one.points, at), pen_of(one.part));
  for (const Label& label : drawing.labels) {
    TextBox text =
        canvas.lay_out({{label.text, label.size_pt}}, Align::left, drawing.size.width_pt);
    const double wide = text.used_width_pt();
    const double back = label.align == LabelAt::left     ? 0
                        : label.align == LabelAt::centre ? wide / 2
                                                         : wide;
    labels_.emplace_back(Point{at.x + label.at.x - back, at.y + label.at.y}, std::move(text));
  }
  make_at_least(at.y + drawing.size.height_pt);
}

void Panel::draw(PdfCanvas& canvas, Point at) const {
  canvas.begin_tag(tag_);
  for (const auto& [outline, fill] : fills_) canvas.fill(moved(outline, at), fill);
  for (const auto& [points, pen] : strokes_) canvas.stroke(moved(points, at), pen);
  for (const auto& [place, text] : texts_) canvas.draw(text, {at.x + place.x, at.y + place.y});
  for (const auto& [place, label] : labels_) {
    canvas.draw_rimmed(label, {at.x + place.x, at.y + place.y});
  }
  canvas.end_tag(tag_);
}

}  // namespace passage_brief
