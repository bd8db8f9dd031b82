#include "page/label_room.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

namespace passage_brief {
namespace {

struct LabelBox {
  double left;
  double top;
  double right;
  double bottom;
};

LabelBox box_of(const Label& label) {
  // From the top of the line to the foot of its letters; the white below is free.
  constexpr double kLine = 1.05;
  const double width = width_of_words(label.text, label.size_pt);
  const double left = label.align == LabelAt::left     ? label.at.x
                      : label.align == LabelAt::centre ? label.at.x - width / 2
                                                       : label.at.x - width;
  return {left, label.at.y, left + width, label.at.y + kLine * label.size_pt};
}

bool meet(const LabelBox& a, const LabelBox& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

LabelBox outer_box(const std::vector<Point>& outline) {
  const auto [left, right] = std::ranges::minmax(outline, {}, &Point::x);
  const auto [top, bottom] = std::ranges::minmax(outline, {}, &Point::y);
  return {left.x, top.y, right.x, bottom.y};
}

/// Whether a straight line from a to b runs through the box.
bool runs_through(Point a, Point b, const LabelBox& box) {
  double begin = 0;  // the part of the line that is inside, of all of it
  double end = 1;
  const auto cut = [&](double from, double by, double least, double most) {
    if (by == 0) {
      if (from <= least || from >= most) end = -1;
      return;
    }
    const auto [in, out] = std::minmax({(least - from) / by, (most - from) / by});
    begin = std::max(begin, in);
    end = std::min(end, out);
  };
  cut(a.x, b.x - a.x, box.left, box.right);
  cut(a.y, b.y - a.y, box.top, box.bottom);
  return begin < end;
}

/// Whether no line and no pattern of the drawing goes through the labels.
bool clear_of_ink(const Drawing& drawing, const std::vector<Label>& labels) {
  return std::ranges::none_of(labels, [&](const Label& label) {
    const LabelBox box = box_of(label);
    for (const Shade& shade : drawing.shades) {
      if (shade.part != Part::water && meet(box, outer_box(shade.outline))) return true;
    }
    for (const Stroke& stroke : drawing.strokes) {
      for (std::size_t i = 0; i + 1 < stroke.points.size(); ++i) {
        if (runs_through(stroke.points[i], stroke.points[i + 1], box)) return true;
      }
    }
    return false;
  });
}

}  // namespace

double width_of_words(const std::string& words, double size_pt) {
  return 0.6 * size_pt * static_cast<double>(words.size());
}

bool has_room_for(const Drawing& drawing, const std::vector<Label>& labels, double lowest) {
  return std::ranges::all_of(labels, [&](const Label& label) {
    const LabelBox box = box_of(label);
    return box.left >= 0 && box.top >= 0 && box.right <= drawing.size.width_pt &&
           box.bottom <= lowest && std::ranges::none_of(drawing.labels, [&](const Label& other) {
             return meet(box, box_of(other));
           });
  });
}

void put_where_there_is_room(Drawing& drawing, const std::vector<std::vector<Label>>& choices,
                             double lowest) {
  for (const bool clear : {true, false}) {
    for (const std::vector<Label>& labels : choices) {
      if (!has_room_for(drawing, labels, lowest)) continue;
      if (clear && !clear_of_ink(drawing, labels)) continue;
      drawing.labels.insert(drawing.labels.end(), labels.begin(), labels.end());
      return;
    }
  }
}

}  // namespace passage_brief
