#include "page/svg.h"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

#include "page/figures.h"

namespace passage_brief {
namespace {

/// Hundredths of a point.
std::string in_hundredths(double value) {
  std::string text = rounded(value, 2, Rounding::nearest);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

std::string points_text(const std::vector<Point>& points) {
  std::string text;
  for (const Point& point : points) {
    if (!text.empty()) text += ' ';
    text += in_hundredths(point.x) + "," + in_hundredths(point.y);
  }
  return text;
}

/// A tone, or the name of a pattern of hatched().
std::string fill_of(Part part, const std::string& id) {
  switch (part) {
    case Part::water:
      return "#dbe9f7";
    case Part::under_way:
      return "url(#" + id + "-hours)";
    case Part::window:
      return "url(#" + id + "-window)";
    case Part::window_past_forecast:
      return "url(#" + id + "-past)";
    case Part::bottom:
      return "url(#" + id + "-bottom)";
    case Part::not_known:
      return "url(#" + id + "-unknown)";
    case Part::bridge:
    case Part::cable:
    case Part::surface:
    case Part::keel:
    case Part::mast:
    case Part::frame:
    case Part::scale_break:
    case Part::pointer:
    case Part::departure:
    case Part::arrival:
    case Part::route:
    case Part::corridor:
    case Part::symbol:
    case Part::bridge_from_above:
    case Part::wire_from_above:
      return "#1a1a1a";
  }
  return "#1a1a1a";
}

struct StrokeStyle {
  double width;
  std::string_view dashes;
};

StrokeStyle stroke_style_of(Part part) {
  switch (part) {
    case Part::surface:
    case Part::departure:
      return {1, ""};
    case Part::keel:
    case Part::mast:
      return {1.2, "5 2"};
    case Part::arrival:
    case Part::wire_from_above:
      return {1, "3 2"};
    case Part::bridge_from_above:
      return {2.5, ""};
    case Part::route:
      return {1.6, "8 3"};
    case Part::corridor:
      return {0.7, "2 2"};
    case Part::symbol:
      return {1.2, ""};
    case Part::water:
    case Part::under_way:
    case Part::window:
    case Part::window_past_forecast:
    case Part::bottom:
    case Part::not_known:
    case Part::bridge:
    case Part::cable:
    case Part::frame:
    case Part::scale_break:
    case Part::pointer:
      return {0.5, ""};
  }
  return {0.5, ""};
}

std::string patterns(const std::string& id) {
  const auto pattern = [&](std::string_view name, std::string_view size, std::string_view paper,
                           std::string_view lines, std::string_view ink) {
    return fmt::format(
        R"(<pattern id="{}-{}" width="{}" height="{}" patternUnits="userSpaceOnUse">{}<path d="{}" fill="none" stroke="{}" stroke-width="0.6"/></pattern>)",
        id, name, size, size, paper, lines, ink);
  };
  return "<defs>" +
         pattern("bottom", "4", R"(<rect width="4" height="4" fill="#ccbfa8"/>)",
                 "M-1,1 L1,-1 M0,4 L4,0 M3,5 L5,3", "#4d4230") +
         pattern("unknown", "6", R"(<rect width="6" height="6" fill="#fff"/>)",
                 "M0,6 L6,0 M0,0 L6,6", "#333") +
         pattern("hours", "5", "", "M0,5 L5,0", "#1f4060") +
         pattern("window", "4", R"(<rect width="4" height="4" fill="#a9c8e6"/>)", "M2,0 L2,4",
                 "#1f4060") +
         pattern("past", "8", "", "M4,0 L4,8", "#1f4060") + "</defs>";
}

std::string_view anchor_of(LabelAt align) {
  switch (align) {
    case LabelAt::left:
      return "start";
    case LabelAt::centre:
      return "middle";
    case LabelAt::right:
      return "end";
  }
  return "start";
}

/// From the top of the words to the line they stand on, as a part of their size (about: letters of
/// most sans serif fonts rise 0.93 of it).
constexpr double kAscent = 0.93;

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20 || c == '\t' || c == '\n') out += c;
    }
  }
  return out;
}

std::string drawing_as_svg(const Drawing& drawing, const DrawingInWords& in_words) {
  const std::string& id = in_words.id;
  std::string svg = fmt::format(
      R"(<svg viewBox="0 0 {} {}" role="img" aria-labelledby="{}-title {}-words" xmlns="http://www.w3.org/2000/svg"><title id="{}-title">{}</title><desc id="{}-words">{}</desc>)",
      in_hundredths(drawing.size.width_pt), in_hundredths(drawing.size.height_pt), id, id, id,
      escaped(in_words.title), id, escaped(in_words.words));
  svg += patterns(id);
  for (const Shade& shade : drawing.shades) {
    svg += fmt::format(R"(<polygon points="{}" fill="{}"/>)", points_text(shade.outline),
                       fill_of(shade.part, id));
  }
  svg += R"(<g fill="none" stroke="#000" stroke-linejoin="round">)";
  for (const Stroke& stroke : drawing.strokes) {
    const StrokeStyle line = stroke_style_of(stroke.part);
    svg += fmt::format(R"(<polyline points="{}" stroke-width="{}"{}/>)", points_text(stroke.points),
                       in_hundredths(line.width),
                       line.dashes.empty() ? std::string()
                                           : fmt::format(R"( stroke-dasharray="{}")", line.dashes));
  }
  // A rim of paper keeps letters apart from lines and hatching under them.
  svg +=
      R"(</g><g fill="#000" stroke="#fff" stroke-width="2" paint-order="stroke" stroke-linejoin="round">)";
  for (const Label& label : drawing.labels) {
    svg +=
        fmt::format(R"(<text x="{}" y="{}" font-size="{}" text-anchor="{}">{}</text>)",
                    in_hundredths(label.at.x), in_hundredths(label.at.y + kAscent * label.size_pt),
                    in_hundredths(label.size_pt), anchor_of(label.align), escaped(label.text));
  }
  return svg + "</g></svg>";
}

}  // namespace passage_brief
