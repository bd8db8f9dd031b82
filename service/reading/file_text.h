// The bytes of a file, with a limit, or the problem in words.
#pragma once

#include <cstddef>
#include <expected>
#include <string>
#include <string_view>

#include "reading/problem.h"

namespace passage_brief {

/// Nothing read here is larger: a waterway of 20,000 features is about 6 MB.
inline constexpr std::size_t kMostFileBytes = std::size_t{8} * 1024 * 1024;

/// At most kMostFileBytes; a folder, a missing or unreadable file and a larger one are problems.
[[nodiscard]] std::expected<std::string, Problems> read_file_text(const std::string& path);

/// Where a text stops being UTF-8 (RFC 3629: no surrogates, no overlong forms, at most U+10FFFF),
/// as a number of bytes from its begin; npos when all of it is.
[[nodiscard]] std::size_t first_byte_not_utf8(std::string_view text);

/// How many bytes the character takes that the text begins with, where it is not printed itself but
/// changes the line around it: a control character, or a mark of writing direction (Bidi_Control of
/// UAX #9: figures after it are printed turned round). 0 for every other one. The text is UTF-8.
[[nodiscard]] std::size_t unseen_bytes(std::string_view text);
/// What the first such character in a text is, in words; empty when there is none.
[[nodiscard]] std::string unseen_character(std::string_view text);

/// The text without a UTF-8 byte-order mark in front.
[[nodiscard]] std::string_view without_byte_order_mark(std::string_view text);

/// "line 3": lines counted from 1.
[[nodiscard]] std::string line_of(std::string_view text, std::size_t byte);

/// What every text file must be before it is parsed: not empty, not too large, UTF-8.
[[nodiscard]] Problems problems_of_text(std::string_view file, std::string_view text);

}  // namespace passage_brief
