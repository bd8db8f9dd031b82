#include "page/pdf_working.h"

#include <vector>

#include "page/pdf_column.h"
#include "page/pdf_panel.h"

namespace passage_brief {

void draw_working(PdfCanvas& canvas, PaperSize paper, const std::vector<Block>& blocks,
                  double margin_pt) {
  constexpr double kGap = 16;
  constexpr double kBetween = 5;
  const double width = (paper.width_pt - 2 * margin_pt - kGap) / 2;
  const double bottom = paper.height_pt - margin_pt;
  double top = margin_pt;
  double y = bottom;  // so that the first begins a page
  int column = 1;
  for (const Block& block : blocks) {
    if (block.kind != BlockKind::working) continue;
    Column one(canvas, width);
    one.add(block);
    if (y + one.height_pt() > bottom) {
      column = 1 - column;
      if (column == 0) {
        canvas.next_page();
        Panel heading("H1");
        heading.put(canvas, {0, 0}, paper.width_pt - 2 * margin_pt, Align::left,
                    {{"Working", 13, Weight::bold}});
        heading.draw(canvas, {margin_pt, margin_pt});
        top = margin_pt + heading.height_pt();
      }
      y = top;
    }
    one.draw({margin_pt + column * (width + kGap), y});
    y += one.height_pt() + kBetween;
  }
}

}  // namespace passage_brief
