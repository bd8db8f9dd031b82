// Where the labels of a drawing stand, so that none is printed over another.
#pragma once

#include <string>
#include <vector>

#include "page/drawing.h"

namespace passage_brief {

/// Of the labels beside a curve, points; the height with the white between two lines.
inline constexpr double kLabelSize = 8;
inline constexpr double kLabelHeight = 9.5;

/// About the width in points of words in the page's letters, rather more than less.
[[nodiscard]] double width_of_words(const std::string& words, double size_pt);

/// Whether labels would stand inside the drawing, from its top to `lowest`, and on no other label.
[[nodiscard]] bool has_room_for(const Drawing& drawing, const std::vector<Label>& labels,
                                double lowest);

/// Adds the first of the choices that there is room for, one clear of lines and patterns before
/// others; none where there is room for none.
void put_where_there_is_room(Drawing& drawing, const std::vector<std::vector<Label>>& choices,
                             double lowest);

}  // namespace passage_brief
