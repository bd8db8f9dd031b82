#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "brief/brief.h"
#include "page/drawing.h"
#include "page/label_room.h"
#include "page/window_words.h"
#include "units/check.h"

namespace passage_brief {
namespace {

constexpr double kRowsAbove = 3;  // under way, windows, and a second row of these

/// x from the time of day, y from the height above chart datum.
struct TideFrame {
  double left;
  double right;
  double top;
  double bottom;
  Span day;
  TideHeight low;
  TideHeight high;

  [[nodiscard]] double x(Instant at) const {
    const double part = in_seconds(at - day.begin) / in_seconds(day.end - day.begin);
    return left + (right - left) * std::clamp(part, 0.0, 1.0);
  }
  [[nodiscard]] double y(TideHeight height) const {
    return bottom - (bottom - top) * ((height - low) / (high - low));
  }
};

TideFrame make_frame(const DayOfTide& day, DrawingSize size) {
  TideHeight low = TideHeight::above(metres(0));  // the datum is always in sight
  TideHeight high = TideHeight::above(metres(0.5));
  for (const TideSample& sample : day.samples) {
    if (!sample.height.has_value()) continue;
    low = std::min(low, sample.height.value());
    high = std::max(high, sample.height.value());
  }
  return {2,
          size.width_pt - 2,
          kRowsAbove * kLabelHeight,
          size.height_pt - 2 * kLabelHeight,
          {day.samples.front().at, day.samples.back().at},
          low,
          high};
}

/// The runs of samples that are known.
std::vector<std::vector<Point>> runs(const DayOfTide& day, const TideFrame& frame) {
  std::vector<std::vector<Point>> all;
  bool open = false;
  for (const TideSample& sample : day.samples) {
    if (!sample.height.has_value()) {
      open = false;
      continue;
    }
    if (!open) all.emplace_back();
    open = true;
    all.back().push_back({frame.x(sample.at), frame.y(sample.height.value())});
  }
  return all;
}

/// The part of a curve between two x, with the ends brought in by straight lines; closed downward.
std::vector<Point> area_under(const std::vector<Point>& curve, double from, double to,
                              double floor) {
  std::vector<Point> area;
  for (std::size_t i = 0; i + 1 < curve.size(); ++i) {
    const Point a = curve[i];
    const Point b = curve[i + 1];
    const double begin = std::max(a.x, from);
    const double end = std::min(b.x, to);
    if (end <= begin) continue;
    const auto y = [&](double x) { return a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x); };
    if (area.empty()) area.push_back({begin, y(begin)});
    area.push_back({end, y(end)});
  }
  if (area.empty()) return area;
  area.push_back({area.back().x, floor});
  area.push_back({area.front().x, floor});
  return area;
}

/// Those with a minute in the day.
std::vector<Window> windows_of(const Brief& brief, Span day) {
  std::vector<Window> all;
  for (const Window& window : brief.windows) {
    if (window.closes >= day.begin && window.opens <= day.end) all.push_back(window);
  }
  return all;
}

void draw_curve(Drawing& drawing, const Brief& brief, const TideFrame& frame) {
  const PassageFinding& passage = brief.findings.passage;
  const double departs = frame.x(passage.departs);
  const std::optional<double> arrives =
      passage.arrives.has_value() ? std::optional(frame.x(passage.arrives.value())) : std::nullopt;
  for (const std::vector<Point>& run : runs(*brief.tide_curve, frame)) {
    drawing.shades.push_back({Part::water, area_under(run, frame.left, frame.right, frame.bottom)});
    for (const Window& window : windows_of(brief, frame.day)) {
      auto open = area_under(run, frame.x(window.opens), frame.x(window.closes), frame.bottom);
      const Part part =
          window.judged_on == JudgedOn::everything ? Part::window : Part::window_past_forecast;
      if (!open.empty()) drawing.shades.push_back({part, std::move(open)});
    }
    if (arrives.has_value()) {
      auto under_way = area_under(run, departs, *arrives, frame.bottom);
      if (!under_way.empty()) {
        drawing.shades.push_back({Part::under_way, std::move(under_way)});
      }
    }
    drawing.strokes.push_back({Part::surface, run});
  }
  const double top = frame.top - kLabelHeight;
  drawing.strokes.push_back({Part::departure, {{departs, top}, {departs, frame.bottom}}});
  if (arrives.has_value()) {
    drawing.strokes.push_back({Part::arrival, {{*arrives, top}, {*arrives, frame.bottom}}});
  }
}

/// "under way 09:30-10:33" in the top row.
void label_passage(Drawing& drawing, const Brief& brief, const TideFrame& frame,
                   const Clock24& clock) {
  const PassageFinding& passage = brief.findings.passage;
  std::string words = "under way from " + clock.bare(passage.departs, Rounding::nearest);
  if (passage.arrives.has_value()) {
    words += " to " + clock.bare(passage.arrives.value(), Rounding::nearest);
  }
  const double wide = width_of_words(words, kLabelSize);
  const double x = std::max(frame.left, std::min(frame.x(passage.departs), frame.right - wide));
  drawing.labels.push_back({{x, 0}, LabelAt::left, kLabelSize, words});
}

/// What may be said of a window, the fullest first: with what shuts it, without, and in two rows.
std::vector<std::vector<std::string>> words_of_window(const Window& window, const Clock24& clock) {
  const std::string told = "leave " + window_told(window, clock);
  const std::string times = "leave " + window_times(window, clock);
  std::vector<std::vector<std::string>> choices;
  if (window.closed_by) choices.push_back({told + ", then " + window.closed_by->about.name});
  choices.push_back({told});
  if (told != times) choices.push_back({times, told.substr(times.size() + 1)});
  return choices;
}

/// "leave 08:15 to 10:40, then Town Bridge" from the second row on, as many as there is room for.
void label_windows(Drawing& drawing, const Brief& brief, const TideFrame& frame,
                   const Clock24& clock) {
  double taken = frame.left;
  for (const Window& window : windows_of(brief, frame.day)) {
    for (const std::vector<std::string>& rows : words_of_window(window, clock)) {
      double wide = 0;
      for (const std::string& row : rows) wide = std::max(wide, width_of_words(row, kLabelSize));
      const double x = std::max(taken, std::min(frame.x(window.opens), frame.right - wide));
      if (x + wide > frame.right + 1) continue;  // for none: the list of windows has it
      double y = kLabelHeight;
      for (const std::string& row : rows) {
        drawing.labels.push_back({{x, y}, LabelAt::left, kLabelSize, row});
        y += kLabelHeight;
      }
      taken = x + wide + kLabelSize;
      break;
    }
  }
}

/// Last of all: where other words leave no room, the list of the day has it.
void label_events(Drawing& drawing, const Brief& brief, const TideFrame& frame,
                  const Clock24& clock, Units units) {
  if (!brief.tide_curve->high_low.has_value()) return;
  for (const TideEvent& event : brief.tide_curve->high_low.value()) {
    const std::string height = depth_number(event.height.above_datum(), Rounding::nearest, units);
    const std::string time = clock.bare(event.at, Rounding::nearest);
    const double y = frame.y(event.height);
    const auto label = [&](double top, const std::string& words) {
      const double half = width_of_words(words, kLabelSize) / 2;
      const double x = std::clamp(frame.x(event.at), frame.left + half, frame.right - half);
      return Label{{x, top}, LabelAt::centre, kLabelSize, words};
    };
    // Inside the water under a high, above the water over a low; in one line where it is low.
    const double two = event.high ? y + 1 : y - 2 * kLabelHeight - 1;
    const double one = event.high ? y + 1 : y - kLabelHeight;
    const std::string both = time + " " + height;
    put_where_there_is_room(drawing,
                            {{label(two, time), label(two + kLabelHeight, height)},
                             {label(one, both)},
                             {label(event.high ? y - kLabelHeight : y + 1, both)}},
                            frame.bottom);
  }
}

void draw_hours(Drawing& drawing, const TideFrame& frame, const Clock24& clock) {
  drawing.strokes.push_back(
      {Part::frame, {{frame.left, frame.bottom}, {frame.right, frame.bottom}}});
  const auto hours = std::chrono::round<std::chrono::hours>(frame.day.end - frame.day.begin);
  for (int i = 0; i <= 4; ++i) {
    const Instant at = frame.day.begin + hours * i / 4;
    const double x = frame.x(at);
    drawing.strokes.push_back({Part::pointer, {{x, frame.bottom}, {x, frame.bottom + 3}}});
    const LabelAt where = i == 0 ? LabelAt::left : i == 4 ? LabelAt::right : LabelAt::centre;
    const std::string words =
        i == 4 ? std::string("24:00") : clock.bare(at, Rounding::nearest).substr(0, 5);
    drawing.labels.push_back({{x, frame.bottom + 2.5}, where, kLabelSize, words});
  }
}

}  // namespace

Drawing tide_drawing(const Brief& brief, Units units, DrawingSize size) {
  check(brief.tide_curve.has_value() && brief.tide_curve->samples.size() >= 2,
        "a tide curve to draw");
  const TideFrame frame = make_frame(*brief.tide_curve, size);
  const Clock24 clock(brief.zone, brief.findings.passage.departs);
  Drawing drawing{size, {}, {}, {}};
  draw_curve(drawing, brief, frame);
  draw_hours(drawing, frame, clock);
  label_passage(drawing, brief, frame, clock);
  label_windows(drawing, brief, frame, clock);
  label_events(drawing, brief, frame, clock, units);
  return drawing;
}

}  // namespace passage_brief
