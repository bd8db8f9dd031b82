#include "page/pdf_head.h"

#include <algorithm>
#include <array>
#include <span>
#include <sstream>
#include <string>
#include <vector>

namespace passage_brief {
namespace {

constexpr double kSignWidth = 18;

std::vector<Point> closed_box(double left, double top, double right, double bottom) {
  return {{left, top}, {right, top}, {right, bottom}, {left, bottom}, {left, top}};
}

}  // namespace

Panel copy_panel(PdfCanvas& canvas, const Block& heading, double width_pt) {
  Panel panel("H1");
  const double below = panel.put(canvas, {5, 2}, width_pt - 10, Align::left,
                                 {{heading.lead + "  ", 13, Weight::bold}, {heading.main, kWheel}});
  panel.stroke(closed_box(0, 0, width_pt, below + 2), {1, {6, 3}});
  panel.make_at_least(below + 2);
  return panel;
}

Panel title_panel(PdfCanvas& canvas, const Block& title, double width_pt) {
  Panel panel("H1");
  const double date_width = 170;
  panel.put(canvas, {0, 0}, width_pt - date_width, Align::left, {{title.lead, 13, Weight::bold}});
  panel.put(canvas, {width_pt - date_width, 2}, date_width, Align::right,
            {{title.main, 11, Weight::bold}});
  return panel;
}

Panel verdict_panel(PdfCanvas& canvas, const Block& block, Verdict verdict, double width_pt) {
  Panel panel("H1");
  constexpr double kPad = 5;
  const double left = kSignWidth + 8;
  double y = panel.put(canvas, {left, kPad}, width_pt - left - kPad, Align::left,
                       {{block.lead, 18, Weight::bold}});
  for (const std::string& sentence : block.more) {
    y = panel.put(canvas, {left, y + 1}, width_pt - left - kPad, Align::left, {{sentence, kWheel}});
  }
  panel.make_at_least(y + kPad);
  const auto sign = closed_box(0, 0, kSignWidth, panel.height_pt());
  const auto frame = closed_box(0, 0, width_pt, panel.height_pt());
  // The graver, the darker the sign and the heavier the frame; the words say it first.
  switch (verdict) {
    case Verdict::within_limits:
      panel.stroke(frame, {0.8, {}});
      break;
    case Verdict::cautions:
      panel.fill(sign, Fill::hatched);
      panel.stroke(frame, {1.2, {}});
      break;
    case Verdict::cannot_tell:
      panel.fill(sign, Fill::unknown);
      panel.stroke(frame, {2, {}});
      break;
    case Verdict::outside_limits:
      panel.fill(sign, Fill::dark);
      panel.stroke(frame, {2.8, {}});
      break;
  }
  panel.stroke({{kSignWidth, 0}, {kSignWidth, panel.height_pt()}}, {0.8, {}});
  return panel;
}

namespace {

double width_on_one_line(PdfCanvas& canvas, const TextRun& run) {
  constexpr double kNoLimit = 10'000;
  return canvas.lay_out({run}, Align::left, kNoLimit).used_width_pt();
}

/// The largest size in which a figure keeps its unit on its line; where words need more lines
/// anyway, the largest in which the longest of them is not broken.
double figure_size_pt(PdfCanvas& canvas, const std::string& figure, double width) {
  constexpr std::array<double, 5> kSizes{18, 16, 14, 12, kWheel};
  const auto fits = [&](const std::string& words, double size) {
    return width_on_one_line(canvas, {words, size, Weight::bold}) <= width;
  };
  for (const double size : std::span(kSizes).first<3>()) {
    if (fits(figure, size)) return size;
  }
  std::istringstream words(figure);
  std::vector<std::string> each;
  for (std::string word; words >> word;) each.push_back(word);
  for (const double size : kSizes) {
    if (std::ranges::all_of(each, [&](const std::string& word) { return fits(word, size); })) {
      return size;
    }
  }
  return kSizes.back();
}

/// Label over figure; beside the figure what the instrument shows, one under the other.
void put_key_figure(PdfCanvas& canvas, Panel& panel, const Block& block, double x, double width) {
  constexpr double kReadings = 106;
  constexpr double kApart = 4;  // a minus must not be taken for a dash after the label
  double y = panel.put(canvas, {x, 0}, width, Align::left, {{block.lead, kWheel}});
  const double main_width = block.readings.empty() ? width : width - kReadings;
  const double size = figure_size_pt(canvas, block.main, main_width);
  double below =
      panel.put(canvas, {x, y}, main_width, Align::left, {{block.main, size, Weight::bold}});
  for (const Reading& reading : block.readings) {
    const double left = x + width - kReadings;
    const TextRun label{capitalised(reading.what), kWheel};
    const double below_label = panel.put(canvas, {left, y + 1.5}, kReadings, Align::left, {label});
    const double room = kReadings - kApart - width_on_one_line(canvas, label);
    TextRun value{reading.value, 12, Weight::bold};
    while (value.size_pt > kWheel && width_on_one_line(canvas, value) > room) --value.size_pt;
    if (width_on_one_line(canvas, value) > room) y = below_label;
    y = panel.put(canvas, {left, y}, kReadings, Align::right, {value});
  }
  below = std::max(below, y);
  for (const std::string& sentence : block.more) {
    below = panel.put(canvas, {x, below}, width, Align::left, {{capitalised(sentence), kWheel}});
  }
}

}  // namespace

Panel key_figures_panel(PdfCanvas& canvas, const std::vector<const Block*>& figures,
                        double width_pt) {
  Panel panel;
  constexpr double kGap = 16;
  const double count = static_cast<double>(figures.size());
  const double width = (width_pt - kGap * (count - 1)) / count;
  for (std::size_t i = 0; i < figures.size(); ++i) {
    put_key_figure(canvas, panel, *figures[i], static_cast<double>(i) * (width + kGap), width);
  }
  for (std::size_t i = 1; i < figures.size(); ++i) {
    const double x = static_cast<double>(i) * (width + kGap) - kGap / 2;
    panel.stroke({{x, 1}, {x, panel.height_pt() - 1}}, {0.5, {}});
  }
  return panel;
}

}  // namespace passage_brief
