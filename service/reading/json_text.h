// JSON text -> a tree, with every limit kept before the tree is built.
//
// RFC 8259, UTF-8, a byte-order mark in front is passed over. Limits: kMostFileBytes, kMostDepth
// levels of lists and objects, kMostValues values. A key that stands twice in one object is a
// problem (RFC 8259 section 4 leaves its meaning open). A syntax error gives its line and column.
#pragma once

#include <cstddef>
#include <expected>
#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

#include "reading/problem.h"

namespace passage_brief {

inline constexpr std::size_t kMostDepth = 32;
/// A year of readings every 6 minutes as [time, height] rows is about 263,000 values.
inline constexpr std::size_t kMostValues = 400'000;

/// A whole file's tree; never null.
using JsonTree = std::shared_ptr<const nlohmann::json>;

[[nodiscard]] std::expected<JsonTree, Problems> parse_json(std::string_view file,
                                                           std::string_view text);

/// "the number 4", "the text \"abc\"", "null", "a list": what was found, for a problem's words.
[[nodiscard]] std::string found(const nlohmann::json& value);

/// A text as JSON, in quotation marks and escaped.
[[nodiscard]] std::string json_quoted(std::string_view text);

}  // namespace passage_brief
