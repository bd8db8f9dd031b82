#include "page/pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "brief/brief.h"
#include "page/drawing.h"
#include "page/pdf_canvas.h"
#include "page/pdf_column.h"
#include "page/pdf_folds.h"
#include "page/pdf_head.h"
#include "page/pdf_working.h"
#include "page/sheet.h"
#include "units/check.h"

namespace passage_brief {
namespace {

constexpr double kPageMargin = 22;
/// A quarter inch: what office printers leave white anyway (common practice, no source).
constexpr double kTightMargin = 18;
constexpr double kGutter = 16;  // between the columns
constexpr double kTightSpacing = 0.25;

PaperSize size_of(Paper paper) {
  switch (paper) {
    case Paper::letter:
      return {612, 792};
    case Paper::a4:
      return {595.276, 841.890};
  }
  return {612, 792};
}

/// Everything laid out at its width; nothing drawn yet.
class Page {
 public:
  Page(PdfCanvas& canvas, PaperSize paper, const Brief& brief, const Sheets& sheets,
       const Folds& folds, Units units, double left_share)
      : canvas_(&canvas),
        margin_(folds.tight ? kTightMargin : kPageMargin),
        width_(paper.width_pt - 2 * margin_),
        room_(paper.height_pt - 2 * margin_),
        head_gap_(folds.tight ? kTightHeadGap : kHeadGap),
        spacing_(folds.tight ? kTightSpacing : 1),
        left_(canvas, (width_ - kGutter) * left_share, spacing_),
        right_(canvas, (width_ - kGutter) * (1 - left_share), spacing_),
        foot_(canvas, width_, spacing_) {
    const std::vector<Block> blocks = folded(sheets, folds);
    lay_out_head(blocks, brief.judgement.verdict);
    lay_out_foot(blocks);
    lay_out_list(blocks, sheets.whole.zone_letters);
    lay_out_cautions(blocks);
    lay_out_rest(blocks, brief, units, kDrawingHeights.at(folds.drawings));
  }

  [[nodiscard]] double margin_pt() const { return margin_; }

  /// Negative when it does not fit.
  [[nodiscard]] double spare_pt() const {
    return columns_room() - std::max(left_.height_pt(), right_.height_pt());
  }

  void draw() const {
    double y = margin_;
    for (const Panel& panel : head_) {
      panel.draw(*canvas_, {margin_, y});
      y += panel.height_pt() + head_gap_;
    }
    const double right = margin_ + left_.width_pt() + kGutter;
    const double tall = std::max(left_.height_pt(), right_.height_pt());
    canvas_->stroke({{margin_, y - head_gap_ / 2}, {margin_ + width_, y - head_gap_ / 2}}, {1, {}});
    left_.draw({margin_, y});
    right_.draw({right, y});
    canvas_->stroke({{right - kGutter / 2, y + 2}, {right - kGutter / 2, y + tall}}, {0.5, {}});
    const double foot = margin_ + room_ - foot_.height_pt();
    canvas_->stroke({{margin_, foot - 3}, {margin_ + width_, foot - 3}}, {1, {}});
    foot_.draw({margin_, foot});
  }

 private:
  static constexpr double kHeadGap = 6;
  static constexpr double kTightHeadGap = 3;

  [[nodiscard]] double columns_room() const {
    double used = foot_.height_pt() + head_gap_;
    for (const Panel& panel : head_) used += panel.height_pt() + head_gap_;
    return room_ - used;
  }

  void lay_out_head(const std::vector<Block>& blocks, Verdict verdict) {
    std::vector<const Block*> figures;
    for (const Block& block : blocks) {
      if (block.kind == BlockKind::copy_heading) {
        head_.push_back(copy_panel(*canvas_, block, width_));
      }
      if (block.kind == BlockKind::title) head_.push_back(title_panel(*canvas_, block, width_));
      if (block.kind == BlockKind::verdict) {
        head_.push_back(verdict_panel(*canvas_, block, verdict, width_));
      }
      if (block.kind == BlockKind::key_figure) figures.push_back(&block);
    }
    head_.push_back(key_figures_panel(*canvas_, figures, width_));
  }

  void lay_out_foot(const std::vector<Block>& blocks) {
    for (const Block& block : blocks) {
      if (block.kind == BlockKind::look_out || block.kind == BlockKind::deferring ||
          block.kind == BlockKind::folded) {
        foot_.add(block);
      }
    }
  }

  void lay_out_list(const std::vector<Block>& blocks, const std::string& zone_letters) {
    left_.add_list_heading(zone_letters);
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      if (!in_the_list(blocks[i].kind)) continue;
      const bool leeward_follows =
          i + 1 < blocks.size() && blocks[i + 1].kind == BlockKind::to_leeward;
      if (blocks[i].kind == BlockKind::leg && leeward_follows) {
        left_.add_leg(blocks[i], &blocks[i + 1]);
        ++i;
      } else {
        left_.add(blocks[i]);
      }
    }
  }

  /// Those of both ways, gravest first; then what could not be checked.
  void lay_out_cautions(const std::vector<Block>& blocks) {
    std::vector<const Block*> cautions;
    for (const Block& block : blocks) {
      if (block.kind == BlockKind::caution || block.kind == BlockKind::way_back) {
        if (block.grade.has_value()) cautions.push_back(&block);
      }
    }
    std::ranges::stable_sort(cautions, {}, [](const Block* block) { return *block->grade; });
    for (const Block* block : cautions) {
      if (block->kind == BlockKind::caution) {
        right_.add(*block);
      } else {
        place(right_, left_, [&](Column& column) { column.add(*block); });
      }
    }
    for (const Block& block : blocks) {
      if (block.kind == BlockKind::not_checked || block.kind == BlockKind::reason) {
        place(right_, left_, [&](Column& column) { column.add(block); });
      }
    }
  }

  /// What has no fixed place goes to the column meant for it, else to the other, else across the
  /// foot of the page.
  template <class Fill>
  void place(Column& meant, Column& other, const Fill& fill) {
    for (Column* const column : {&meant, &other}) {
      Column trial(*canvas_, column->width_pt(), spacing_);
      fill(trial);
      if (!has_room(*column, trial)) continue;
      column->append(std::move(trial));
      return;
    }
    fill(foot_);
  }

  [[nodiscard]] bool has_room(const Column& column, const Column& below) const {
    return column.height_pt() + below.height_pt() <= columns_room();
  }

  [[nodiscard]] Column run_in(const Column& column, std::span<const Block* const> blocks) const {
    Column trial(*canvas_, column.width_pt(), spacing_);
    trial.add_run_in(blocks);
    return trial;
  }

  /// One after the other in the column meant for them, else in the other, else begun in one and
  /// ended in the other, else across the foot of the page.
  void place_run(Column& meant, Column& other, std::span<const Block* const> blocks) {
    for (Column* const column : {&meant, &other}) {
      Column whole = run_in(*column, blocks);
      if (!has_room(*column, whole)) continue;
      column->append(std::move(whole));
      return;
    }
    std::size_t most = 0;
    std::size_t too_many = blocks.size();
    while (most + 1 < too_many) {
      const std::size_t middle = (most + too_many) / 2;
      (has_room(meant, run_in(meant, blocks.first(middle))) ? most : too_many) = middle;
    }
    Column rest = run_in(other, blocks.subspan(most));
    if (most > 0 && has_room(other, rest)) {
      meant.append(run_in(meant, blocks.first(most)));
      other.append(std::move(rest));
    } else {
      foot_.add_run_in(blocks);
    }
  }

  void lay_out_rest(const std::vector<Block>& blocks, const Brief& brief, Units units,
                    DrawingHeights heights) {
    const auto of_kinds = [&](const std::vector<BlockKind>& kinds) {
      std::vector<const Block*> chosen;
      for (const Block& block : blocks) {
        if (std::ranges::find(kinds, block.kind) != kinds.end()) chosen.push_back(&block);
      }
      return chosen;
    };
    std::vector<const Block*> way_back = of_kinds({BlockKind::way_back});
    std::erase_if(way_back, [](const Block* block) { return block->grade.has_value(); });
    place_run(right_, left_, way_back);
    place(left_, right_, [&](Column& column) {
      for (const Block* block : of_kinds({BlockKind::section_drawing})) column.add(*block);
      if (heights.section_pt > 0)
        column.add_drawing(section_drawing(brief, units, {column.width_pt(), heights.section_pt}));
      for (const Block* block : of_kinds({BlockKind::arithmetic})) column.add(*block);
    });
    place(right_, left_, [&](Column& column) {
      for (const Block* block : of_kinds({BlockKind::tide_curve})) column.add(*block);
      if (!brief.tide_curve.has_value() || heights.tide_pt == 0) return;
      column.add_drawing(tide_drawing(brief, units, {column.width_pt(), heights.tide_pt}));
    });
    for (const std::vector<BlockKind>& kinds :
         {std::vector{BlockKind::weather, BlockKind::place},
          std::vector{BlockKind::base, BlockKind::blanks, BlockKind::estimate},
          std::vector{BlockKind::note, BlockKind::source}}) {
      place_run(right_, left_, of_kinds(kinds));
    }
  }

  PdfCanvas* canvas_;
  double margin_;
  double width_;
  double room_;
  double head_gap_;
  double spacing_;
  std::vector<Panel> head_;
  Column left_;
  Column right_;
  Column foot_;
};

/// The page with the least folding that fits, each level taking less room than the one before.
template <class PageAt>
std::optional<Page> least_folded(std::size_t levels, const PageAt& page_at) {
  std::optional<Page> page = page_at(0);
  if (page.has_value()) return page;
  std::size_t too_little = 0;
  std::size_t enough = levels - 1;
  page = page_at(enough);
  while (page.has_value() && enough - too_little > 1) {
    const std::size_t middle = (too_little + enough) / 2;
    if (std::optional<Page> less = page_at(middle)) {
      page = std::move(less);
      enough = middle;
    } else {
      too_little = middle;
    }
  }
  return page;
}

/// Of the left column; the first that fits is taken.
constexpr std::array kLeftShares = {0.63, 0.68, 0.60, 0.65, 0.73, 0.57};

}  // namespace

std::string brief_as_pdf(const Brief& brief, PageChoice choice) {
  const Sheets sheets{make_sheet(brief, choice), make_sheet(brief, choice, Wording::terse)};
  const Sheet& sheet = sheets.whole;
  const PaperSize paper = size_of(choice.paper);
  PdfCanvas canvas(paper, sheet.title, brief.made_at);
  const std::vector<Folds> levels = fold_levels(sheet, brief);
  double missing_pt = 0;
  const auto page_at = [&](std::size_t level) -> std::optional<Page> {
    missing_pt = std::numeric_limits<double>::infinity();
    for (const double share : kLeftShares) {
      Page page(canvas, paper, brief, sheets, levels[level], choice.units, share);
      if (page.spare_pt() >= 0) return page;
      missing_pt = std::min(missing_pt, -page.spare_pt());
    }
    return std::nullopt;
  };
  const std::optional<Page> page = least_folded(levels.size(), page_at);
  if (!page.has_value()) {
    throw PageDoesNotFit(fmt::format(
        "the brief does not fit one page of this paper: {:.0f} mm are missing though all that may "
        "fold is folded; take it as text, or split the route",
        std::ceil(missing_pt * 25.4 / 72)));
  }
  page->draw();
  // Measured again, on what was drawn: a page that runs over its foot is never handed out.
  check(canvas.lowest_pt() <= paper.height_pt - page->margin_pt() + 0.5,
        "the page drawn fits as measured");
  draw_working(canvas, paper, sheet.blocks, kPageMargin);
  return canvas.finish();
}

}  // namespace passage_brief
