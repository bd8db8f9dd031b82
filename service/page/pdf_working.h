// The instructor's further sheets: the working of one figure after the other, in two columns.
#pragma once

#include <vector>

#include "page/pdf_canvas.h"
#include "page/sheet.h"

namespace passage_brief {

/// On a new page, and on as many more as it takes. Blocks of other kinds are passed over.
void draw_working(PdfCanvas& canvas, PaperSize paper, const std::vector<Block>& blocks,
                  double margin_pt);

}  // namespace passage_brief
