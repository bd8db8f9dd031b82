#include "page/pdf_column.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <numeric>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "units/check.h"

namespace passage_brief {
namespace {

constexpr double kTimeWidth = 34;  // "09:45" in the wheel's letters, and a gap
/// "25.2 ft": two in regular letters, two in bold; and "should read" over the third.
constexpr std::array<double, 4> kReadingWidths = {38, 44, 57, 42};
constexpr double kAllReadings = 181;

/// From the left of the first; in the order of ReadingColumn.
double left_of_column(std::size_t column) {
  return std::accumulate(kReadingWidths.begin(),
                         kReadingWidths.begin() + static_cast<std::ptrdiff_t>(column), 0.0);
}

std::string joined(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& sentence : sentences) text += " " + sentence;
  return text;
}

std::vector<TextRun> lead_and_rest(const Block& block, double size, const char* after_lead) {
  std::vector<TextRun> runs;
  if (!block.lead.empty()) runs.push_back({block.lead + after_lead + " ", size, Weight::bold});
  runs.push_back({block.main + joined(block.more), size});
  return runs;
}

/// A bar beside a caution: heavier as the grade is graver; the word says it too.
Pen bar_of(Grade grade) {
  switch (grade) {
    case Grade::danger:
      return {4, {}};
    case Grade::warning:
      return {2.4, {}};
    case Grade::caution:
      return {1, {}};
    case Grade::notice:
      return {0.8, {2, 2}};
  }
  return {1, {}};
}

}  // namespace

void Column::put(double space_before, Panel panel) {
  panels_.emplace_back(space_before * spacing_, std::move(panel));
}

void Column::add_paragraph(const std::vector<TextRun>& runs, double space_before) {
  Panel panel;
  panel.put(*canvas_, {0, 0}, width_, Align::left, runs);
  put(space_before, std::move(panel));
}

void Column::add_run_in(std::span<const Block* const> blocks) {
  std::vector<TextRun> runs;
  for (const Block* block : blocks) {
    for (TextRun& run : lead_and_rest(*block, kDesk, ":")) runs.push_back(std::move(run));
    runs.back().text += "  ";
  }
  if (!runs.empty()) add_paragraph(runs, 2);
}

void Column::add_list_heading(const std::string& zone_letters) {
  Panel panel("H2");
  const double readings = width_ - kAllReadings;
  panel.put(*canvas_, {0, 0}, readings, Align::left,
            {{"In order of passing, " + zone_letters, kWheel, Weight::bold}});
  for (std::size_t i = 0; i < kReadingWidths.size(); ++i) {
    constexpr std::array words = {"to spare", "could be", "should read", "stop at"};
    panel.put(*canvas_, {readings + left_of_column(i), 1}, kReadingWidths.at(i), Align::right,
              {{words.at(i), kDesk, Weight::bold}});
  }
  put(0, std::move(panel));
}

void Column::add_leg(const Block& block, const Block* to_leeward) {
  Panel panel;
  panel.stroke({{0, 0}, {width_, 0}}, {0.5, {}});
  const double below = panel.put(*canvas_, {0, 1.5}, width_, Align::left,
                                 {{block.lead + " " + block.main, kWheel, Weight::bold}});
  std::vector<TextRun> detail;
  if (!block.more.empty()) detail.push_back({joined(block.more).substr(1) + " ", kDetail});
  if (to_leeward != nullptr) {
    detail.push_back({to_leeward->lead + ": ", kDetail, Weight::bold});
    detail.push_back({to_leeward->main, kDetail});
  }
  if (!detail.empty()) panel.put(*canvas_, {0, below}, width_, Align::left, detail);
  put(3, std::move(panel));
}

void Column::add_met(const Block& block) {
  Panel panel;
  if (!block.lead.empty()) {
    panel.put(*canvas_, {0, 0}, kTimeWidth, Align::left, {{block.lead, kWheel}});
  }
  const double until = block.readings.empty() ? width_ : width_ - kAllReadings;
  const double below =
      panel.put(*canvas_, {kTimeWidth, 0}, until - kTimeWidth, Align::left, {{block.main, kWheel}});
  double below_readings = 0;
  for (const Reading& reading : block.readings) {
    check(reading.column.has_value(), "a reading in the list has its column");
    const auto column = static_cast<std::size_t>(*reading.column);
    // What an instrument shows is what the eye looks for.
    const Weight weight =
        *reading.column >= ReadingColumn::should_read ? Weight::bold : Weight::regular;
    const double x = width_ - kAllReadings + left_of_column(column);
    below_readings =
        std::max(below_readings, panel.put(*canvas_, {x + 2, 0}, kReadingWidths.at(column) - 2,
                                           Align::right, {{reading.value, kWheel, weight}}));
  }
  if (!block.more.empty()) {
    // Across, under all; or beside readings of several lines where that takes less.
    const std::vector<TextRun> note = {{joined(block.more).substr(1), kDetail}};
    const auto ends = [&](double top, double width) {
      return top + canvas_->lay_out(note, Align::left, width).height_pt();
    };
    const double across = std::max(below, below_readings);
    const bool beside = ends(below, until - kTimeWidth) < ends(across, width_ - kTimeWidth);
    panel.put(*canvas_, {kTimeWidth, beside ? below : across},
              (beside ? until : width_) - kTimeWidth, Align::left, note);
  }
  put(1, std::move(panel));
}

void Column::add_caution(const Block& block) {
  constexpr double kIndent = 8;
  Panel panel;
  panel.put(*canvas_, {kIndent, 0}, width_ - kIndent, Align::left,
            lead_and_rest(block, kWheel, "."));
  panel.stroke({{2, 1}, {2, panel.height_pt() - 1}}, bar_of(block.grade.value_or(Grade::caution)));
  put(4, std::move(panel));
}

void Column::add(const Block& block) {
  switch (block.kind) {
    case BlockKind::leg:
      add_leg(block, nullptr);
      return;
    case BlockKind::marks:
    case BlockKind::depth:
    case BlockKind::bridge:
    case BlockKind::cable:
      add_met(block);
      return;
    case BlockKind::to_leeward:
      add_paragraph(lead_and_rest(block, kDetail, ":"), 1);
      return;
    case BlockKind::caution:
      add_caution(block);
      return;
    case BlockKind::working: {
      std::string steps;
      for (const std::string& step : block.more) steps += "\n" + step;
      add_paragraph({{block.lead, kDesk, Weight::bold}, {steps, kDesk}}, 0);
      return;
    }
    case BlockKind::look_out:
      add_paragraph({{block.main, kWheel, Weight::bold}}, 0);
      return;
    case BlockKind::way_back:
      if (block.grade.has_value()) {
        add_caution(block);
        return;
      }
      [[fallthrough]];
    case BlockKind::not_checked:
    case BlockKind::reason:
      add_paragraph(lead_and_rest(block, kDetail, "."), 4);
      return;
    case BlockKind::section_drawing:
    case BlockKind::tide_curve:
    case BlockKind::arithmetic:
      add_paragraph(lead_and_rest(block, kDesk, "."), 5);
      return;
    case BlockKind::copy_heading:
    case BlockKind::title:
    case BlockKind::verdict:
    case BlockKind::key_figure:
    case BlockKind::weather:
    case BlockKind::place:
    case BlockKind::base:
    case BlockKind::blanks:
    case BlockKind::note:
    case BlockKind::source:
    case BlockKind::estimate:
    case BlockKind::deferring:
    case BlockKind::folded:
      add_paragraph(lead_and_rest(block, kDesk, "."), 2);
      return;
  }
}

void Column::add_drawing(const Drawing& drawing) {
  Panel panel("Figure");
  panel.put_drawing(*canvas_, {0, 0}, drawing);
  put(3, std::move(panel));
}

void Column::append(Column&& below) {
  for (auto& panel : below.panels_) panels_.push_back(std::move(panel));
  below.panels_.clear();
}

double Column::height_pt() const {
  double height = 0;
  for (const auto& [space, panel] : panels_) height += space + panel.height_pt();
  return height;
}

void Column::draw(Point at) const {
  double y = at.y;
  for (const auto& [space, panel] : panels_) {
    y += space;
    panel.draw(*canvas_, {at.x, y});
    y += panel.height_pt();
  }
}

}  // namespace passage_brief
