// The top of the page: whose passage, the verdict with its order, and the three figures.
#pragma once

#include <vector>

#include "page/pdf_canvas.h"
#include "page/pdf_panel.h"
#include "page/sheet.h"
#include "rules/verdict.h"

namespace passage_brief {

/// Whose copy it is.
[[nodiscard]] Panel copy_panel(PdfCanvas& canvas, const Block& heading, double width_pt);
[[nodiscard]] Panel title_panel(PdfCanvas& canvas, const Block& title, double width_pt);
[[nodiscard]] Panel verdict_panel(PdfCanvas& canvas, const Block& block, Verdict verdict,
                                  double width_pt);
/// Side by side, of one height.
[[nodiscard]] Panel key_figures_panel(PdfCanvas& canvas, const std::vector<const Block*>& figures,
                                      double width_pt);

}  // namespace passage_brief
