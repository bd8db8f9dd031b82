#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "brief/brief.h"
#include "page/drawing.h"
#include "page/label_room.h"
#include "page/sheet_parts.h"

namespace passage_brief {
namespace {

constexpr double kScaleWidth = 40;  // left of the panel, for the figures of the scale

double width_of(const std::string& text) { return width_of_words(text, kLabelSize); }

/// Something over the track: its name, the height of its underside and that of the mast there.
struct Overhead {
  std::string name;
  Length along;
  Known<Length> clearance;
  Part part;
  Length mast;
  bool antennas_down;
};

/// As she passes; where it opens clear of every mast she is not told to lower anything.
const OverMast& mast_at(const BridgeFinding& bridge) {
  if (bridge.opening_needed.value_or(false) && !bridge.open_span) {
    return *std::ranges::max_element(bridge.over_mast, {}, &OverMast::air_draft);
  }
  return *as_passed(bridge);
}

std::vector<Overhead> overheads(const Findings& found) {
  std::vector<Overhead> all;
  const auto add = [&all](const std::string& name, Part part, const Passing& passing,
                          const Known<Length>& clearance, const OverMast& mast) {
    all.push_back(
        {name, passing.along, clearance, part, mast.air_draft, mast.antennas == Antennas::down});
  };
  for (const BridgeFinding& b : found.bridges) {
    add(b.name, Part::bridge, b.passing, b.clearance, mast_at(b));
  }
  for (const CableFinding& c : found.cables) {
    add("cable", Part::cable, c.passing, c.clearance, *as_passed(c));
  }
  std::ranges::stable_sort(all, {}, &Overhead::along);
  return all;
}

/// What is told at one place of the track, which a piece of it does not show.
std::vector<const Depth*> bars_and_berths(const Findings& found) {
  std::vector<const Depth*> all;
  for (const Depth& depth : found.depths) {
    if (depth.place == DepthPlace::bar || depth.place == DepthPlace::berth) all.push_back(&depth);
  }
  return all;
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

/// Not known where either is not: that could be less.
Known<Length> lesser(const Known<Length>& a, const Known<Length>& b) {
  return join([](Length one, Length other) { return std::min(one, other); }, a, b);
}

Length deepest_shown(const Brief& brief) {
  const Length draft = brief.vessel.draft;
  Length least = draft * 3;
  for (const TrackPiece& piece : brief.findings.track) {
    least = std::min(least, water_on(piece).value_or(least));
  }
  for (const Depth* place : bars_and_berths(brief.findings)) {
    least = std::min(least, place->water.value_or(least));
  }
  // Twice the draft and more, so that the least water fills about half of the panel.
  return std::max(draft * 2.2, least * 1.5);
}

/// With so many rows of words over the upper panel.
SectionFrame make_frame(const Brief& brief, const std::vector<Overhead>& over, DrawingSize size,
                        int rows) {
  Length track = metres(1);
  for (const TrackPiece& piece : brief.findings.track) track = std::max(track, piece.end);
  SectionFrame frame{
      kScaleWidth, size.width_pt - 1,    0,         0,         size.height_pt - kLabelHeight,
      track,       deepest_shown(brief), metres(0), metres(1), 0};
  if (over.empty()) {
    frame.surface = 4;
    return frame;
  }
  frame.sky = rows * kLabelHeight;
  frame.surface = frame.sky + 0.45 * (frame.ground - frame.sky);
  frame.broken = frame.surface - 7;
  const auto [lowest, highest] = std::ranges::minmax(over, {}, &Overhead::mast);
  Length low = lowest.mast;
  Length high = highest.mast * 1.25;
  for (const Overhead& one : over) {
    if (!one.clearance.has_value()) continue;
    low = std::min(low, one.clearance.value());
    high = std::max(high, std::min(one.clearance.value() * 1.1, highest.mast * 1.6));
  }
  frame.low = low - (high - low) * 0.35;
  frame.high = high;
  return frame;
}

std::vector<Point> box(double left, double top, double right, double bottom) {
  return {{left, top}, {right, top}, {right, bottom}, {left, bottom}};
}

struct AlongRow {
  double begin;
  double end;
};

bool overlap(AlongRow a, AlongRow b) { return a.begin < b.end && b.begin < a.end; }

/// A bar or a berth: a bump as wide as a bridge.
struct Bump {
  AlongRow row;
  Known<Length> water;
};

std::vector<Bump> bumps(const Brief& brief, const SectionFrame& frame) {
  constexpr double kHalf = 3;
  std::vector<Bump> all;
  for (const Depth* place : bars_and_berths(brief.findings)) {
    const double x = frame.x(place->passing.along);
    all.push_back(
        {{std::max(x - kHalf, frame.left), std::min(x + kHalf, frame.right)}, place->water});
  }
  return all;
}

void draw_column(Drawing& drawing, AlongRow row, const Known<Length>& water,
                 const SectionFrame& frame) {
  if (!water.has_value()) {
    drawing.shades.push_back(
        {Part::not_known, box(row.begin, frame.surface, row.end, frame.ground)});
    return;
  }
  const double bottom = frame.below(water.value());
  drawing.shades.push_back({Part::water, box(row.begin, frame.surface, row.end, bottom)});
  if (bottom < frame.ground) {
    drawing.shades.push_back({Part::bottom, box(row.begin, bottom, row.end, frame.ground)});
  }
}

/// Each piece of the track, cut where a bump begins or ends.
void draw_water(Drawing& drawing, const Brief& brief, const SectionFrame& frame) {
  const std::vector<Bump> in_the_way = bumps(brief, frame);
  for (const TrackPiece& piece : brief.findings.track) {
    const AlongRow whole{frame.x(piece.begin), frame.x(piece.end)};
    std::vector<double> edges{whole.begin, whole.end};
    for (const Bump& bump : in_the_way) {
      for (const double edge : {bump.row.begin, bump.row.end}) {
        if (edge > whole.begin && edge < whole.end) edges.push_back(edge);
      }
    }
    std::ranges::sort(edges);
    for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
      const AlongRow row{edges[i], edges[i + 1]};
      Known<Length> water = water_on(piece);
      for (const Bump& bump : in_the_way) {
        if (overlap(row, bump.row)) water = lesser(water, bump.water);
      }
      draw_column(drawing, row, water, frame);
    }
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

/// Half the width of what is drawn of it.
double half_of_bar(const Overhead& one) { return one.part == Part::bridge ? 3 : 1; }

/// Whether the first leaves less room than the second; one not known may leave none.
bool leaves_less_room(const Overhead& a, const Overhead& b) {
  if (!b.clearance.has_value()) return false;
  return !a.clearance.has_value() || a.clearance.value() < b.clearance.value();
}

AlongRow drawn_at(const Overhead& one, const SectionFrame& frame) {
  const double x = frame.x(one.along);
  return {x - half_of_bar(one), x + half_of_bar(one)};
}

/// The figures that stand over what they are of, in one row at the top, and how many cannot.
struct OverheadFigures {
  std::vector<Label> labels;
  std::size_t without_room = 0;
};

/// Words over their own bar: over its middle, from its left on, up to its right, or as near over
/// its middle as the frame lets them, whichever is over no other bar and on no other words. Of bars
/// drawn into one the lowest is told, and of all.
OverheadFigures figures_over(const std::vector<Overhead>& over, const SectionFrame& frame,
                             Units units) {
  std::vector<Overhead> lowest_first = over;
  std::ranges::stable_sort(lowest_first, leaves_less_room);
  OverheadFigures figures;
  std::vector<AlongRow> taken;
  for (const Overhead& one : lowest_first) {
    const AlongRow bar = drawn_at(one, frame);
    const auto is_free = [&](AlongRow room, bool over_higher) {
      constexpr double kLastBits = 1e-9;
      return room.begin >= frame.left && room.end <= frame.right + kLastBits &&
             std::ranges::none_of(taken, [&](AlongRow other) { return overlap(room, other); }) &&
             std::ranges::none_of(over, [&](const Overhead& other) {
               const AlongRow there = drawn_at(other, frame);
               const bool may_cover = over_higher || overlap(bar, there);
               return overlap(room, there) && (!may_cover || leaves_less_room(other, one));
             });
    };
    const std::string figure = or_not_known(one.clearance, [&](Length clearance) {
      return depth_text(clearance, Rounding::down, units);
    });
    const auto put = [&](const std::string& words, bool over_higher) {
      const double wide = width_of(words);
      const double x = frame.x(one.along);
      const double left = std::max(bar.begin, frame.left);
      const double right = std::min(bar.end, frame.right);
      const double inside = std::max(frame.left, std::min(x - wide / 2, frame.right - wide));
      for (const auto& [at, align, begin] :
           {std::tuple(x, LabelAt::centre, x - wide / 2), std::tuple(left, LabelAt::left, left),
            std::tuple(right, LabelAt::right, right - wide),
            std::tuple(inside, LabelAt::left, inside)}) {
        constexpr double kApart = 4;
        if (!is_free({begin, begin + wide}, over_higher)) continue;
        figures.labels.push_back({{at, 0}, align, kLabelSize, words});
        taken.push_back({begin - kApart, begin + wide + kApart});
        return true;
      }
      return false;
    };
    // The lowest of all is told whatever it hides: who takes it for that of a higher one errs on
    // the safe side.
    const bool lowest_of_all = taken.empty() && figures.without_room == 0;
    if (!put(one.name + " " + figure, false) && !put(figure, false) &&
        !(lowest_of_all && put(figure, true))) {
      ++figures.without_room;
    }
  }
  return figures;
}

void draw_figures_over(Drawing& drawing, const OverheadFigures& figures,
                       const SectionFrame& frame) {
  for (Label label : figures.labels) {
    label.at.y = frame.sky - kLabelHeight;
    drawing.labels.push_back(std::move(label));
  }
  if (figures.without_room == 0) return;
  const std::string words = fmt::format("{} more {}: see the text", figures.without_room,
                                        figures.without_room == 1 ? "figure" : "figures");
  drawing.labels.push_back({{frame.right, 0}, LabelAt::right, kLabelSize, words});
}

/// Part of the track on which the mast keeps one height: half the way to the next bridge or cable
/// that is passed with another.
struct MastRun {
  AlongRow row;
  Length mast;
  bool antennas_down;
};

std::vector<MastRun> mast_runs(const std::vector<Overhead>& over, const SectionFrame& frame) {
  std::vector<MastRun> runs;
  Length before = metres(0);
  for (const Overhead& one : over) {
    if (runs.empty()) {
      runs.push_back({{frame.left, frame.right}, one.mast, one.antennas_down});
    } else if (one.mast != runs.back().mast) {
      const double here = frame.x((before + one.along) / 2);
      runs.back().row.end = here;
      runs.push_back({{here, frame.right}, one.mast, one.antennas_down});
    }
    before = one.along;
  }
  return runs;
}

/// The words and figure beside the panel are of the highest she passes anything with.
void draw_mast(Drawing& drawing, const std::vector<Overhead>& over, const SectionFrame& frame,
               Units units) {
  Stroke line{Part::mast, {}};
  for (const MastRun& run : mast_runs(over, frame)) {
    const double y = frame.above(run.mast);
    line.points.push_back({run.row.begin, y});
    line.points.push_back({run.row.end, y});
  }
  drawing.strokes.push_back(std::move(line));
  const Length highest = std::ranges::max(over, {}, &Overhead::mast).mast;
  const double right = frame.left - 3;
  const double top = top_of_mast_labels(frame, frame.above(highest));
  drawing.labels.push_back({{right, top}, LabelAt::right, kLabelSize, "mast"});
  drawing.labels.push_back(
      {{right, top + 8.5}, LabelAt::right, kLabelSize, depth_text(highest, Rounding::up, units)});
}

/// After all words that have their place: under the line, over it, or at the foot of the panel.
void label_antennas_down(Drawing& drawing, const std::vector<Overhead>& over,
                         const SectionFrame& frame, Units units) {
  for (const MastRun& run : mast_runs(over, frame)) {
    if (!run.antennas_down) continue;
    const double y = frame.above(run.mast);
    std::vector<std::vector<Label>> choices;
    const std::string down = "antennas down";
    for (const std::string& words :
         {down + " " + depth_text(run.mast, Rounding::up, units), down}) {
      const double wide = width_of(words);
      const double right = frame.right - wide / 2;
      const double middle = std::clamp((run.row.begin + run.row.end) / 2,
                                       std::min(frame.left + wide / 2, right), right);
      for (const double top : {y + 1, y - kLabelHeight, frame.surface - kLabelHeight}) {
        choices.push_back({{{middle, top}, LabelAt::centre, kLabelSize, words}});
      }
    }
    put_where_there_is_room(drawing, choices, frame.surface);
  }
}

void draw_overhead(Drawing& drawing, const std::vector<Overhead>& over, const SectionFrame& frame) {
  const double middle = (frame.broken + frame.surface) / 2;
  std::vector<Point> zigzag;
  for (int i = 0; i <= 8; ++i) {
    zigzag.push_back({frame.left - 6 + 1.5 * i, middle + (i % 2 == 0 ? -2.0 : 2.0)});
  }
  drawing.strokes.push_back({Part::scale_break, zigzag});
  for (const Overhead& one : over) {
    // One higher than the panel is seen at its top.
    constexpr double kLeastSeen = 2;
    const double under = one.clearance.has_value()
                             ? std::max(frame.above(one.clearance.value()), frame.sky + kLeastSeen)
                             : frame.broken;
    const auto [left, end] = drawn_at(one, frame);
    drawing.shades.push_back(
        {one.clearance.has_value() ? one.part : Part::not_known, box(left, frame.sky, end, under)});
    // Up to the words over it, where it has any.
    const double x = frame.x(one.along);
    drawing.strokes.push_back({Part::pointer, {{x, frame.sky - 2}, {x, frame.sky}}});
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
  SectionFrame frame = make_frame(brief, over, size, 1);
  const OverheadFigures figures = figures_over(over, frame, units);
  if (figures.without_room > 0) frame = make_frame(brief, over, size, 2);
  Drawing drawing{size, {}, {}, {}};
  draw_water(drawing, brief, frame);
  draw_keel(drawing, brief, frame, units);
  if (!over.empty()) {
    draw_mast(drawing, over, frame, units);
    draw_overhead(drawing, over, frame);
  }
  draw_figures_over(drawing, figures, frame);
  draw_legs(drawing, brief, frame);
  draw_least(drawing, brief, frame, units);
  label_antennas_down(drawing, over, frame, units);
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
    std::optional<Known<Length>> least;
    const auto count = [&least](const Known<Length>& water) {
      least = least ? lesser(*least, water) : water;
    };
    for (const TrackPiece& piece : brief.findings.track) {
      if (piece.leg == i) count(water_on(piece));
    }
    for (const Depth* place : bars_and_berths(brief.findings)) {
      if (place->passing.leg == i) count(place->water);
    }
    const Known<Length> none = not_known("no water is drawn on this leg");
    legs.push_back(
        fmt::format("leg {} {}", i + 1, or_not_known(least.value_or(none), [&](Length water) {
                      return depth_text(water, Rounding::down, units);
                    })));
  }
  std::string text = fmt::format("least water, {}; the keel is at {}", fmt::join(legs, ", "),
                                 depth_text(brief.vessel.draft, Rounding::up, units));
  std::optional<Length> mast;
  for (const Overhead& one : overheads(brief.findings)) {
    if (one.mast != mast) {
      text += "; the mast is at " + depth_text(one.mast, Rounding::up, units) +
              (one.antennas_down ? ", antennas down" : "");
      mast = one.mast;
    }
    text += fmt::format("; under {} {}", one.name, or_not_known(one.clearance, [&](Length c) {
                          return depth_text(c, Rounding::down, units);
                        }));
  }
  return text + ".";
}

}  // namespace passage_brief
