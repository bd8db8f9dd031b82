#include "page/label_room.h"

#include <algorithm>
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
  for (const std::vector<Label>& labels : choices) {
    if (!has_room_for(drawing, labels, lowest)) continue;
    drawing.labels.insert(drawing.labels.end(), labels.begin(), labels.end());
    return;
  }
}

}  // namespace passage_brief
