// Blocks set one under the other into a column of the page.
#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include "page/drawing.h"
#include "page/pdf_canvas.h"
#include "page/pdf_panel.h"
#include "page/sheet.h"

namespace passage_brief {

class Column {
 public:
  /// With this part of the usual room between its blocks.
  Column(PdfCanvas& canvas, double width_pt, double spacing = 1)
      : canvas_(&canvas), width_(width_pt), spacing_(spacing) {}

  /// Any block but the title, the verdict, the key figures (pdf_head.h) and a drawing's inside.
  void add(const Block& block);
  /// A leg's head, with what lies to leeward of it where anything does.
  void add_leg(const Block& block, const Block* to_leeward);
  /// Blocks of the desk, one after the other in one paragraph.
  void add_run_in(std::span<const Block* const> blocks);
  /// "In order of passing", and what the two columns of readings are.
  void add_list_heading(const std::string& zone_letters);
  void add_drawing(const Drawing& drawing);
  void append(Column&& below);

  [[nodiscard]] double width_pt() const { return width_; }
  [[nodiscard]] double height_pt() const;
  void draw(Point at) const;

 private:
  void put(double space_before, Panel panel);
  void add_paragraph(const std::vector<TextRun>& runs, double space_before);
  void add_met(const Block& block);
  void add_caution(const Block& block);
  PdfCanvas* canvas_;
  double width_;
  double spacing_;
  std::vector<std::pair<double, Panel>> panels_;  // with the space before each
};

}  // namespace passage_brief
