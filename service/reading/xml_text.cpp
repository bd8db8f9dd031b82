#include "reading/xml_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <expected>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "reading/file_text.h"
#include "reading/problem.h"

namespace passage_brief {
namespace {

/// Walks the tags without building anything. What is not well formed is left for the parser to say.
class XmlLimitsWalk {
 public:
  explicit XmlLimitsWalk(std::string_view text) : text_(text) {}

  /// The first limit that is broken, as place and words; empty words when none is.
  Problem look() {
    while (problem_.words.empty() && (at_ = text_.find('<', at_)) != std::string_view::npos) {
      if (next_is("<!--")) {
        skip_past("-->");
      } else if (next_is("<![CDATA[")) {
        skip_past("]]>");
      } else if (next_is("<?")) {
        skip_past("?>");
      } else if (next_is("<!")) {
        refuse("has a document type declaration; it is not read, so take it out");
      } else if (next_is("</")) {
        if (depth_ > 0) --depth_;
        skip_past(">");
      } else {
        open_tag();
      }
    }
    return problem_;
  }

 private:
  bool next_is(std::string_view mark) const { return text_.substr(at_).starts_with(mark); }
  void skip_past(std::string_view mark) {
    const std::size_t end = text_.find(mark, at_);
    at_ = end == std::string_view::npos ? text_.size() : end + mark.size();
  }
  /// An attribute's value may hold '>'.
  void open_tag() {
    if (++elements_ > kMostXmlElements) {
      return refuse(
          fmt::format("holds more than {} elements, the most that are read", kMostXmlElements));
    }
    if (++depth_ > kMostXmlDepth) {
      return refuse(fmt::format("is nested deeper than {} levels", kMostXmlDepth));
    }
    char quote = 0;
    std::size_t i = at_ + 1;
    for (; i < text_.size(); ++i) {
      const char c = text_[i];
      if (quote != 0) {
        if (c == quote) quote = 0;
      } else if (c == '"' || c == '\'') {
        quote = c;
      } else if (c == '>') {
        break;
      }
    }
    if (i < text_.size() && text_[i - 1] == '/') --depth_;
    at_ = i;
  }
  void refuse(std::string words) { problem_ = {"", line_of(text_, at_), std::move(words)}; }

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t depth_ = 0;
  std::size_t elements_ = 0;
  Problem problem_;
};

std::string without_prefix(std::string_view name) {
  const std::size_t colon = name.find(':');
  return std::string(colon == std::string_view::npos ? name : name.substr(colon + 1));
}

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1));
}

/// Lines are counted once, on the way through the document.
class Lines {
 public:
  explicit Lines(std::string_view text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] == '\n') ends_.push_back(i);
    }
  }
  std::string line_of(std::ptrdiff_t byte) const {
    const auto before =
        std::lower_bound(ends_.begin(), ends_.end(), static_cast<std::size_t>(byte));
    return fmt::format("line {}", before - ends_.begin() + 1);
  }

 private:
  std::vector<std::size_t> ends_;
};

/// Not deeper than kMostXmlDepth: the walk has looked.
XmlElement element_of(const pugi::xml_node& node, const Lines& lines) {
  XmlElement element{without_prefix(node.name()), lines.line_of(node.offset_debug()), {}, {}, {}};
  for (const pugi::xml_attribute& attribute : node.attributes()) {
    element.attributes.emplace(without_prefix(attribute.name()), attribute.value());
  }
  std::string text;
  for (const pugi::xml_node& child : node.children()) {
    if (child.type() == pugi::node_element) {
      element.children.push_back(element_of(child, lines));
    } else {
      text += child.value();
    }
  }
  element.text = trimmed(text);
  return element;
}

}  // namespace

std::vector<const XmlElement*> XmlElement::children_named(std::string_view wanted) const {
  std::vector<const XmlElement*> named;
  for (const XmlElement& child : children) {
    if (child.name == wanted) named.push_back(&child);
  }
  return named;
}

std::string XmlElement::text_of(std::string_view child) const {
  const std::vector<const XmlElement*> named = children_named(child);
  return named.empty() ? "" : named.front()->text;
}

std::expected<XmlElement, Problems> parse_xml(std::string_view file, std::string_view text) {
  if (Problems problems = problems_of_text(file, text); !problems.empty()) {
    return std::unexpected(std::move(problems));
  }
  text = without_byte_order_mark(text);
  Problem limit = XmlLimitsWalk(text).look();
  if (!limit.words.empty()) {
    limit.file = file;
    return std::unexpected(Problems{std::move(limit)});
  }
  pugi::xml_document document;
  const pugi::xml_parse_result result =
      document.load_buffer(text.data(), text.size(), pugi::parse_default, pugi::encoding_utf8);
  if (!result) {
    return std::unexpected(
        Problems{{std::string(file), line_of(text, static_cast<std::size_t>(result.offset)),
                  fmt::format("is not well-formed XML: {}", result.description())}});
  }
  const Lines lines(text);
  return element_of(document.document_element(), lines);
}

}  // namespace passage_brief
