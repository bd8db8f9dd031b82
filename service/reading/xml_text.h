// XML text -> a tree of elements, with every limit kept before the tree is built.
//
// UTF-8 only, a byte-order mark in front is passed over. A document type declaration is refused, so
// no entity can be declared; the five of XML itself and character references are read. Comments,
// processing instructions and CDATA marks are passed over. Limits: kMostFileBytes, kMostXmlDepth
// levels, kMostXmlElements elements. Namespace prefixes are taken off names.
#pragma once

#include <cstddef>
#include <expected>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "reading/problem.h"

namespace passage_brief {

inline constexpr std::size_t kMostXmlDepth = 32;
inline constexpr std::size_t kMostXmlElements = 100'000;

struct XmlElement {
  std::string name;  // without prefix
  std::string line;  // "line 3"
  std::map<std::string, std::string> attributes;
  std::string text;  // its own, without that of its children, spaces taken off both ends
  std::vector<XmlElement> children;

  [[nodiscard]] std::vector<const XmlElement*> children_named(std::string_view wanted) const;
  /// The text of the first child of that name, or an empty string.
  [[nodiscard]] std::string text_of(std::string_view child) const;
};

/// The root element.
[[nodiscard]] std::expected<XmlElement, Problems> parse_xml(std::string_view file,
                                                            std::string_view text);

}  // namespace passage_brief
