// A drawing as SVG to stand inside an HTML page, with its words for a page that is heard.
//
// Scales with the page: the drawing's own size is its viewBox. Black lines and letters on light
// tones with patterns, so that it is read without colour. Same drawing, same bytes.
#pragma once

#include <string>
#include <string_view>

#include "page/drawing.h"

namespace passage_brief {

/// Text for HTML and XML: & < > " ' as entities; control characters but tab and newline left out.
[[nodiscard]] std::string escaped(std::string_view text);

struct DrawingInWords {
  std::string id;     // letters, once on a page: names the patterns and the words
  std::string title;  // what it is
  std::string words;  // what it shows
};

[[nodiscard]] std::string drawing_as_svg(const Drawing& drawing, const DrawingInWords& in_words);

}  // namespace passage_brief
