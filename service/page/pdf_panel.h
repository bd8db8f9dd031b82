// A piece of the page laid out once, measured, and drawn as it was measured.
#pragma once

#include <utility>
#include <vector>

#include "page/drawing.h"
#include "page/pdf_canvas.h"

namespace passage_brief {

/// Letter sizes in points: what is read at the wheel, what stands beside it, and the rest.
inline constexpr double kWheel = 10;
inline constexpr double kDetail = 8;
inline constexpr double kDesk = 8;

/// Coordinates from the panel's own upper left corner. It is as high as its lowest part.
class Panel {
 public:
  /// What a screen reader is told it is: "P", "H1", "Figure".
  explicit Panel(const char* tag = "P") : tag_(tag) {}

  /// Returns the y below the text.
  double put(PdfCanvas& canvas, Point at, double width_pt, Align align,
             const std::vector<TextRun>& runs);
  void stroke(std::vector<Point> points, Pen pen);
  void fill(std::vector<Point> outline, Fill fill);
  /// Ink for every part of a drawing, its corner at `at`.
  void put_drawing(PdfCanvas& canvas, Point at, const Drawing& drawing);
  void make_at_least(double height_pt);

  [[nodiscard]] double height_pt() const { return height_; }
  void draw(PdfCanvas& canvas, Point at) const;

 private:
  const char* tag_;
  double height_ = 0;
  std::vector<std::pair<std::vector<Point>, Fill>> fills_;
  std::vector<std::pair<std::vector<Point>, Pen>> strokes_;
  std::vector<std::pair<Point, TextBox>> texts_;
  std::vector<std::pair<Point, TextBox>> labels_;  // of a drawing
};

}  // namespace passage_brief
