#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "brief/ground_plan.h"
#include "page/drawing.h"
#include "page/figures.h"
#include "page/label_room.h"

namespace passage_brief {
namespace {

constexpr double kMargin = 24;
constexpr double kFooter = 46;  // below the plan: scale and legend
constexpr double kPlanLabelSize = 7;
constexpr double kPlanLabelHeight = 8;
constexpr double kSymbol = 3;  // half the size of a symbol

struct Box {
  double left;
  double top;
  double right;
  double bottom;
  [[nodiscard]] bool meets(const Box& other) const {
    return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
  }
};

/// From metres east and north to points on the paper.
struct Fitted {
  double west_m;
  double north_m;
  double pt_per_m;
  DrawingSize plan;
  [[nodiscard]] Point at(const ChartPlane::Point& p) const {
    return {kMargin + (in_metres(p.east) - west_m) * pt_per_m,
            kMargin + (north_m - in_metres(p.north)) * pt_per_m};
  }
};

Fitted fitted(const GroundPlan& ground, DrawingSize size) {
  constexpr double kInfinite_m = std::numeric_limits<double>::infinity();
  Box box{kInfinite_m, kInfinite_m, -kInfinite_m, -kInfinite_m};  // top: south, bottom: north
  for (const GroundShape& shape : ground.shapes) {
    for (const auto& run : shape.runs) {
      for (const ChartPlane::Point& p : run) {
        box = {std::min(box.left, in_metres(p.east)), std::min(box.top, in_metres(p.north)),
               std::max(box.right, in_metres(p.east)), std::max(box.bottom, in_metres(p.north))};
      }
    }
  }
  if (box.left > box.right) box = {-100, -100, 100, 100};
  constexpr double kLeastWidth_m = 20;  // of a ground with one thing in it
  const double east_m = std::max(box.right - box.left, kLeastWidth_m);
  const double north_m = std::max(box.bottom - box.top, kLeastWidth_m);
  const double scale = std::min((size.width_pt - 2 * kMargin) / east_m,
                                (size.height_pt - 2 * kMargin - kFooter) / north_m);
  return {box.left, box.bottom, scale, {east_m * scale, north_m * scale}};
}

/// 1, 2 or 5 times a power of ten, at most `most`.
double round_below(double most) {
  const double power = std::pow(10, std::floor(std::log10(most)));
  for (const double step : {5.0, 2.0}) {
    if (step * power <= most) return step * power;
  }
  return power;
}

double signed_area(const std::vector<Point>& ring) {
  double twice = 0;
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
    twice += ring[i].x * ring[i + 1].y - ring[i + 1].x * ring[i].y;
  }
  return twice / 2;
}

class PlanSketch {
 public:
  PlanSketch(const GroundPlan& ground, Units units, DrawingSize size)
      : ground_(ground), units_(units), fitted_(fitted(ground, size)) {
    drawing_.size = {size.width_pt, fitted_.plan.height_pt + 2 * kMargin + kFooter};
  }

  Drawing made() {
    for (const GroundShape& shape : ground_.shapes) draw(shape);
    for (const GroundShape& shape : ground_.shapes) name(shape);
    north();
    footer();
    return std::move(drawing_);
  }

 private:
  std::vector<Point> points(const std::vector<ChartPlane::Point>& run) const {
    std::vector<Point> all;
    for (const ChartPlane::Point& p : run) all.push_back(fitted_.at(p));
    return all;
  }

  /// The rings as one outline: the holes run the other way round, joined by a cut without width.
  std::vector<Point> outline(const GroundShape& shape) const {
    std::vector<Point> all = points(shape.runs.front());
    const double outside = signed_area(all);
    const Point joint = all.front();
    for (std::size_t i = 1; i < shape.runs.size(); ++i) {
      std::vector<Point> hole = points(shape.runs[i]);
      if ((signed_area(hole) > 0) == (outside > 0)) std::ranges::reverse(hole);
      all.insert(all.end(), hole.begin(), hole.end());
      all.push_back(joint);
    }
    return all;
  }

  static bool dries(const GroundShape& shape) {
    return shape.depth && shape.depth->has_value() && **shape.depth < metres(0);
  }

  void draw(const GroundShape& shape) {
    if (shape.area && shape.part != GroundPart::note) {
      if (const auto part = shade_of(shape)) {
        drawing_.shades.push_back({*part, outline(shape)});
      }
      const Part edge = shape.part == GroundPart::corridor ? Part::corridor : Part::frame;
      for (const auto& ring : shape.runs) stroke(edge, points(ring));
      return;
    }
    for (const auto& run : shape.runs) {
      if (run.size() > 1) {
        stroke(line_of(shape.part), points(run));
      } else {
        symbol(shape.part, fitted_.at(run.front()));
      }
    }
  }

  static std::optional<Part> shade_of(const GroundShape& shape) {
    if (shape.part == GroundPart::corridor || shape.part == GroundPart::turning_place) {
      return std::nullopt;
    }
    if (shape.part == GroundPart::hazard || dries(shape)) return Part::bottom;
    if (shape.depth && !shape.depth->has_value()) return Part::not_known;
    return Part::water;
  }

  static Part line_of(GroundPart part) {
    switch (part) {
      case GroundPart::bridge:
        return Part::bridge_from_above;
      case GroundPart::cable:
        return Part::wire_from_above;
      case GroundPart::route:
        return Part::route;
      case GroundPart::corridor:
        return Part::corridor;
      case GroundPart::hazard:
      case GroundPart::bar:
      case GroundPart::berth:
      case GroundPart::mark:
        return Part::symbol;
      case GroundPart::depth_area:
      case GroundPart::reach:
      case GroundPart::sounding:
      case GroundPart::refuge:
      case GroundPart::turning_place:
      case GroundPart::note:
        return Part::frame;
    }
    return Part::frame;
  }

  void symbol(GroundPart part, Point at) {
    const double s = kSymbol;
    switch (part) {
      case GroundPart::hazard:
        stroke(Part::symbol, {{at.x - s, at.y - s}, {at.x + s, at.y + s}});
        stroke(Part::symbol, {{at.x - s, at.y + s}, {at.x + s, at.y - s}});
        return;
      case GroundPart::mark:
        drawing_.shades.push_back({Part::symbol, round(at, s * 0.7)});
        return;
      case GroundPart::berth:
        stroke(Part::symbol, {{at.x - s, at.y - s},
                              {at.x + s, at.y - s},
                              {at.x + s, at.y + s},
                              {at.x - s, at.y + s},
                              {at.x - s, at.y - s}});
        return;
      case GroundPart::bridge:
        stroke(Part::bridge_from_above, {{at.x - 2 * s, at.y}, {at.x + 2 * s, at.y}});
        return;
      case GroundPart::refuge:
      case GroundPart::turning_place:
        stroke(Part::symbol, round(at, s * 1.3));
        return;
      case GroundPart::cable:
        stroke(Part::wire_from_above, {{at.x - 2 * s, at.y}, {at.x + 2 * s, at.y}});
        return;
      case GroundPart::bar:
      case GroundPart::route:
      case GroundPart::depth_area:
      case GroundPart::reach:
      case GroundPart::sounding:
      case GroundPart::note:
      case GroundPart::corridor:
        return;
    }
  }

  static std::vector<Point> round(Point at, double radius) {
    std::vector<Point> ring;
    constexpr int kSides = 16;
    for (int i = 0; i <= kSides; ++i) {
      const double turn_rad = 2 * M_PI * i / kSides;
      ring.push_back({at.x + radius * std::cos(turn_rad), at.y + radius * std::sin(turn_rad)});
    }
    return ring;
  }

  void stroke(Part part, std::vector<Point> line) {
    drawing_.strokes.push_back({part, std::move(line)});
  }

  /// A name with the charted depth, rounded down.
  std::string words_of(const GroundShape& shape) const {
    std::string words = shape.name;
    if (!shape.depth) return words;
    if (!words.empty()) words += ", ";
    return words + or_not_known(*shape.depth, [this](Length depth) {
             return depth_text(depth, Rounding::down, units_);
           });
  }

  /// Beside the middle of the thing, where no other words stand.
  void name(const GroundShape& shape) {
    const std::string words = words_of(shape);
    if (words.empty() || shape.runs.empty() || shape.runs.front().empty()) return;
    const std::vector<Point> run = points(shape.runs.front());
    Point middle = run[run.size() / 2];
    if (shape.area) {
      middle = {0, 0};
      for (const Point& p : run) middle = {middle.x + p.x, middle.y + p.y};
      const auto count = static_cast<double>(run.size());
      middle = {middle.x / count, middle.y / count};
    }
    const double width = width_of_words(words, kPlanLabelSize);
    const Point best = free_place(middle, width);
    taken_.push_back(box_at(best, width));
    if (std::hypot(best.x - middle.x, best.y - middle.y) > width + 4 * kPlanLabelHeight) {
      stroke(Part::pointer, {middle, {best.x, best.y + kPlanLabelHeight / 2}});
    }
    drawing_.labels.push_back({best, LabelAt::left, kPlanLabelSize, words});
  }

  /// Beside the place, nearer before farther; where everything is taken, right of it all the same.
  [[nodiscard]] Point free_place(Point middle, double width) const {
    constexpr int kRounds = 6;
    for (int round = 0; round < kRounds; ++round) {
      const double gap = kSymbol + 3 + round * (kPlanLabelHeight + 1);
      const double y = middle.y - kPlanLabelHeight / 2;
      const std::array<Point, 8> tries{{{middle.x + gap, y},
                                        {middle.x - gap - width, y},
                                        {middle.x + kSymbol, y - gap},
                                        {middle.x + kSymbol, y + gap},
                                        {middle.x - kSymbol - width, y - gap},
                                        {middle.x - kSymbol - width, y + gap},
                                        {middle.x - width / 2, y - gap},
                                        {middle.x - width / 2, y + gap}}};
      for (const Point& at : tries) {
        if (is_free(box_at(at, width))) return at;
      }
    }
    return {middle.x + kSymbol + 3, middle.y - kPlanLabelHeight / 2};
  }

  static Box box_at(Point at, double width) {
    return {at.x, at.y, at.x + width, at.y + kPlanLabelHeight};
  }
  [[nodiscard]] bool is_free(const Box& box) const {
    if (box.left < 0 || box.top < 0 || box.right > drawing_.size.width_pt) return false;
    return std::ranges::none_of(taken_, [&box](const Box& other) { return other.meets(box); });
  }

  void north() {
    const double x = drawing_.size.width_pt - 12;
    stroke(Part::symbol, {{x, 34}, {x, 12}});
    stroke(Part::symbol, {{x - 4, 20}, {x, 12}, {x + 4, 20}});
    drawing_.labels.push_back({{x, 36}, LabelAt::centre, 9, "N"});
  }

  void footer() {
    const double y = drawing_.size.height_pt - kFooter + 6;
    const bool us = units_ == Units::us;
    const double m_per_unit = us ? in_metres(feet(1)) : 1.0;
    const double longest_m = (drawing_.size.width_pt - 2 * kMargin) / 4 / fitted_.pt_per_m;
    const bool miles = in_nautical_miles(metres(longest_m)) >= 0.1;
    const double unit_m = miles ? in_metres(nautical_miles(1)) : m_per_unit;
    const double units_long = round_below(longest_m / unit_m);
    const double length_pt = units_long * unit_m * fitted_.pt_per_m;
    stroke(
        Part::symbol,
        {{kMargin, y - 3}, {kMargin, y}, {kMargin + length_pt, y}, {kMargin + length_pt, y - 3}});
    drawing_.labels.push_back({{kMargin, y + 2},
                               LabelAt::left,
                               8,
                               fmt::format("{:g} {}", units_long,
                                           miles ? "nm"
                                           : us  ? "ft"
                                                 : "m")});
    const char* const legend[] = {
        "Light: water with a depth on file.  Crossed: depth not known.  Hatched: hazard, or ground "
        "that dries.  Depths below chart datum.",
        "x hazard   \u25cf mark   \u25a1 berth   \u25cb refuge or turning place   thick line "
        "bridge   "
        "dotted line cable   long dashes route   short dashes corridor of the hull"};
    double below = y + 14;
    for (const char* line : legend) {
      drawing_.labels.push_back({{kMargin, below}, LabelAt::left, kPlanLabelSize, line});
      below += 10;
    }
  }

  const GroundPlan& ground_;
  Units units_;
  Fitted fitted_;
  Drawing drawing_{};
  std::vector<Box> taken_;
};

}  // namespace

Drawing plan_drawing(const GroundPlan& plan, Units units, DrawingSize size) {
  return PlanSketch(plan, units, size).made();
}

}  // namespace passage_brief
