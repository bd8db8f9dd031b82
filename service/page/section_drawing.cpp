#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "brief/brief.h"
#include "page/drawing.h"
#include "page/label_room.h"
#include "page/sheet_parts.h"

namespace passage_brief {
namespace {

constexpr double kScaleWidth = 40;  // left of the panel, for the figures of the scale

double width_of(const std::string& text) { return width_of_words(text, kLabelSize); }

/// Something over the track: its name and the height of its underside.
struct Overhead {
  std::string name;
  Length along;
  Known<Length> clearance;
  Part part;
};

std::vector<Overhead> overheads(const Findings& found) {
  std::vector<Overhead> all;
  for (const BridgeFinding& b : found.bridges) {
    all.push_back({b.name, b.passing.along, b.clearance, Part::bridge});
  }
  for (const CableFinding& c : found.cables) {
    all.push_back({"cable", c.passing.along, c.clearance, Part::cable});
  }
  std::ranges::stable_sort(all, {}, &Overhead::along);
  return all;
}

/// The air draft the bridges are passed with: the lowest the vessel lists.
std::optional<AirDraft> lowest_air_draft(const Vessel& vessel) {
  const auto lowest = std::ranges::min_element(vessel.air_draft, {}, &AirDraft::height);
  if (lowest == vessel.air_draft.end()) return std::nullopt;
  return *lowest;
}

/// Where things go: x along the track, y from two scales.
struct SectionFrame {
  double left;
  double right;
  double sky;      // top of the upper panel
  double surface;  // the water's level
  double ground;   // bottom of the lower panel
  Length track;
  Length deepest;  // at `ground`
  Length low;      // height at the broken end of the upper panel
  Length high;     // at `sky`
  double broken;   // y of the upper panel's lower end

  [[nodiscard]] double x(Length along) const {
    return left + (right - left) * std::clamp(along / track, 0.0, 1.0);
  }
  [[nodiscard]] double below(Length depth) const {
    return surface + (ground - surface) * std::clamp(depth / deepest, 0.0, 1.0);
  }
  [[nodiscard]] double above(Length height) const {
    return broken - (broken - sky) * std::clamp((height - low) / (high - low), 0.0, 1.0);
  }
};

Known<Length> water_on(const TrackPiece& piece) {
  return join([](Length charted, TideHeight tide) { return charted + tide.above_datum(); },
              piece.charted, piece.height_of_tide);
}

Length deepest_shown(const Brief& brief) {
  const Length draft = brief.vessel.draft;
  Length least = draft * 3;
  for (const TrackPiece& piece : brief.findings.track) {
    if (const Known<Length> water = water_on(piece); water.has_value()) {
      least = std::min(least, water.value());
    }
  }
  // Twice the draft and more, so that the least water fills about half of the panel.
  return std::max(draft * 2.2, least * 1.5);
}

SectionFrame make_frame(const Brief& brief, const std::vector<Overhead>& over, DrawingSize size) {
  Length track = metres(1);
  for (const TrackPiece& piece : brief.findings.track) track = std::max(track, piece.end);
  SectionFrame frame{
      kScaleWidth, size.width_pt - 1,    0,         0,         size.height_pt - kLabelHeight,
      track,       deepest_shown(brief), metres(0), metres(1), 0};
  const std::optional<AirDraft> mast = lowest_air_draft(brief.vessel);
  if (over.empty() || !mast.has_value()) {
    frame.surface = 4;
    return frame;
  }
  frame.sky = kLabelHeight;
  frame.surface = frame.sky + 0.45 * (frame.ground - frame.sky);
  frame.broken = frame.surface - 7;
  Length low = mast->height;
  Length high = mast->height * 1.25;
  for (const Overhead& one : over) {
    if (!one.clearance.has_value()) continue;
    low = std::min(low, one.clearance.value());
    high = std::max(high, std::min(one.clearance.value() * 1.1, mast->height * 1.6));
  }
  frame.low = low - (high - low) * 0.35;
  frame.high = high;
  return frame;
}

std::vector<Point> box(double left, double top, double right, double bottom) {
  return {{left, top}, {right, top}, {right, bottom}, {left, bottom}};
}

void draw_water(Drawing& drawing, const Brief& brief, const SectionFrame& frame) {
  for (const TrackPiece& piece : brief.findings.track) {
    const double left = frame.x(piece.begin);
    const double right = frame.x(piece.end);
    if (const Known<Length> water = water_on(piece); water.has_value()) {
      const double bottom = frame.below(water.value());
      drawing.shades.push_back({Part::water, box(left, frame.surface, right, bottom)});
      if (bottom < frame.ground) {
        drawing.shades.push_back({Part::bottom, box(left, bottom, right, frame.ground)});
      }
      continue;
    }
    drawing.shades.push_back({Part::not_known, box(left, frame.surface, right, frame.ground)});
  }
}

/// Last of all, lower where other words stand: the pattern says it too.
void label_not_known(Drawing& drawing, const Brief& brief, const SectionFrame& frame) {
  const std::string words = "not known";
  for (const TrackPiece& piece : brief.findings.track) {
    const double left = frame.x(piece.begin);
    const double right = frame.x(piece.end);
    if (water_on(piece).has_value() || right - left <= width_of(words)) continue;
    const auto label = [&](double top) {
      return std::vector{Label{{(left + right) / 2, top}, LabelAt::centre, kLabelSize, words}};
    };
    put_where_there_is_room(
        drawing,
        {label((frame.surface + frame.ground) / 2 - 5), label(frame.ground - kLabelHeight)},
        frame.ground);
  }
}

/// Words and figure of the keel, and those of the mast, each over its line unless "water" stands
/// there.
double top_of_water_label(const SectionFrame& frame) { return frame.surface - 3; }
double top_of_keel_labels(const SectionFrame& frame, double keel) {
  return std::max(keel - 9, top_of_water_label(frame) + kLabelHeight);
}
double top_of_mast_labels(const SectionFrame& frame, double mast) {
  return std::min(mast - 9, top_of_water_label(frame) - 2 * kLabelHeight);
}

void draw_keel(Drawing& drawing, const Brief& brief, const SectionFrame& frame, Units units) {
  const double keel = frame.below(brief.vessel.draft);
  drawing.strokes.push_back({Part::keel, {{frame.left, keel}, {frame.right, keel}}});
  drawing.strokes.push_back(
      {Part::surface, {{frame.left, frame.surface}, {frame.right, frame.surface}}});
  const double right = frame.left - 3;
  const double top = top_of_keel_labels(frame, keel);
  drawing.labels.push_back(
      {{right, top_of_water_label(frame)}, LabelAt::right, kLabelSize, "water"});
  drawing.labels.push_back({{right, top}, LabelAt::right, kLabelSize, "keel"});
  drawing.labels.push_back({{right, top + 8.5},
                            LabelAt::right,
                            kLabelSize,
                            depth_text(brief.vessel.draft, Rounding::up, units)});
}

/// Leg numbers under the panel, and a line at each leg's end.
void draw_legs(Drawing& drawing, const Brief& brief, const SectionFrame& frame) {
  Length begin = metres(0);
  for (std::size_t i = 0; i < brief.findings.legs.size(); ++i) {
    const Length end = begin + brief.findings.legs[i].distance;
    const double left = frame.x(begin);
    const double right = frame.x(end);
    if (i > 0) {
      drawing.strokes.push_back({Part::pointer, {{left, frame.ground}, {left, frame.ground + 4}}});
    }
    const std::string words = fmt::format("leg {}", i + 1);
    const std::string number = std::to_string(i + 1);
    const double room = right - left;
    const std::string& text = room > width_of(words) + 4 ? words : number;
    if (room > width_of(number)) {
      drawing.labels.push_back(
          {{(left + right) / 2, frame.ground + 0.5}, LabelAt::centre, kLabelSize, text});
    }
    begin = end;
  }
}

void draw_overhead(Drawing& drawing, const Brief& brief, const std::vector<Overhead>& over,
                   const SectionFrame& frame, Units units) {
  const std::optional<AirDraft> mast = lowest_air_draft(brief.vessel);
  if (over.empty() || !mast.has_value()) return;
  const double top_of_mast = frame.above(mast->height);
  drawing.strokes.push_back({Part::mast, {{frame.left, top_of_mast}, {frame.right, top_of_mast}}});
  const double right = frame.left - 3;
  const double top = top_of_mast_labels(frame, top_of_mast);
  drawing.labels.push_back({{right, top}, LabelAt::right, kLabelSize, "mast"});
  drawing.labels.push_back({{right, top + 8.5},
                            LabelAt::right,
                            kLabelSize,
                            depth_text(mast->height, Rounding::up, units)});
  const double middle = (frame.broken + frame.surface) / 2;
  std::vector<Point> zigzag;
  for (int i = 0; i <= 8; ++i) {
    zigzag.push_back({frame.left - 6 + 1.5 * i, middle + (i % 2 == 0 ? -2.0 : 2.0)});
  }
  drawing.strokes.push_back({Part::scale_break, zigzag});
  double taken_to = frame.left;
  for (const Overhead& one : over) {
    const double x = frame.x(one.along);
    const double under =
        one.clearance.has_value() ? frame.above(one.clearance.value()) : frame.broken;
    const bool bridge = one.part == Part::bridge;
    const double half = bridge ? 3 : 1;
    drawing.shades.push_back({one.clearance.has_value() ? one.part : Part::not_known,
                              box(x - half, frame.sky, x + half, under)});
    const std::string figure = or_not_known(one.clearance, [&](Length clearance) {
      return depth_text(clearance, Rounding::down, units);
    });
    std::string words = one.name + " " + figure;
    const auto begin_of = [&](double wide) {
      return std::min(std::max(x - wide / 2, taken_to), frame.right - wide);
    };
    // Where its name has no room its figure still stands over it.
    if (begin_of(width_of(words)) < taken_to) words = figure;
    const double wide = width_of(words);
    const double begin = begin_of(wide);
    if (begin < taken_to) continue;  // no room beside its neighbour; the list has it
    drawing.labels.push_back(
        {{begin + wide / 2, frame.sky - kLabelHeight}, LabelAt::centre, kLabelSize, words});
    taken_to = begin + wide + 4;
  }
}

/// A pointer to the place of least water.
void draw_least(Drawing& drawing, const Brief& brief, const SectionFrame& frame, Units units) {
  if (!brief.least_depth) return;
  const Depth& depth = brief.findings.depths.at(*brief.least_depth);
  const bool least_of_some = depth.under_keel.has_value() && depths_not_known(brief.findings) > 0;
  const std::string words = (least_of_some ? "least known: " : "least: ") +
                            or_not_known(depth.under_keel, [&](Length keel) {
                              return keel < metres(0)
                                         ? "aground by " + depth_text(-keel, Rounding::up, units)
                                         : depth_text(keel, Rounding::down, units);
                            });
  const double x = frame.x(depth.passing.along);
  const double wide = width_of(words);
  const double keel = frame.below(brief.vessel.draft);
  const double right = frame.right - wide / 2 - 2;
  const double middle = std::clamp(x, std::min(frame.left + wide / 2 + 2, right), right);
  const double top = frame.surface + 1;
  drawing.labels.push_back({{middle, top}, LabelAt::centre, kLabelSize, words});
  drawing.strokes.push_back({Part::pointer, {{x, top + kLabelHeight}, {x, keel + 2}}});
}

}  // namespace

Drawing section_drawing(const Brief& brief, Units units, DrawingSize size) {
  const std::vector<Overhead> over = overheads(brief.findings);
  const SectionFrame frame = make_frame(brief, over, size);
  Drawing drawing{size, {}, {}, {}};
  draw_water(drawing, brief, frame);
  draw_keel(drawing, brief, frame, units);
  draw_overhead(drawing, brief, over, frame, units);
  draw_legs(drawing, brief, frame);
  draw_least(drawing, brief, frame, units);
  label_not_known(drawing, brief, frame);
  drawing.strokes.push_back({Part::frame,
                             {{frame.left, frame.surface},
                              {frame.left, frame.ground},
                              {frame.right, frame.ground},
                              {frame.right, frame.surface}}});
  return drawing;
}

std::string section_in_words(const Brief& brief, Units units) {
  std::vector<std::string> legs;
  for (std::size_t i = 0; i < brief.findings.legs.size(); ++i) {
    Known<Length> least = not_known("no water is drawn on this leg");
    bool first = true;
    for (const TrackPiece& piece : brief.findings.track) {
      if (piece.leg != i) continue;
      const Known<Length> water = water_on(piece);
      if (first || (least.has_value() && (!water.has_value() || water.value() < least.value()))) {
        least = water;
      }
      first = false;
    }
    legs.push_back(fmt::format("leg {} {}", i + 1, or_not_known(least, [&](Length water) {
                                 return depth_text(water, Rounding::down, units);
                               })));
  }
  std::string text = fmt::format("least water, {}; the keel is at {}", fmt::join(legs, ", "),
                                 depth_text(brief.vessel.draft, Rounding::up, units));
  for (const Overhead& one : overheads(brief.findings)) {
    text += fmt::format("; under {} {}", one.name, or_not_known(one.clearance, [&](Length c) {
                          return depth_text(c, Rounding::down, units);
                        }));
  }
  return text + ".";
}

}  // namespace passage_brief
