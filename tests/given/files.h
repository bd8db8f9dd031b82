// Small right files of every kind (tests/given/files; all places invented), and changed ones.
#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "reading/problem.h"

namespace passage_brief::given {

/// tests/given/files/NAME.
[[nodiscard]] std::string file_text(const std::string& name);

/// The JSON text with a JSON Patch (RFC 6902) applied; throws when the patch does not fit.
[[nodiscard]] std::string patched(const std::string& text, std::string_view patch);

/// The text with the one place where `old_part` stands replaced; throws when it does not stand
/// there exactly once.
[[nodiscard]] std::string replaced(std::string text, std::string_view old_part,
                                   std::string_view new_part);

/// The problems, one a line and without the file's name; empty when there are none.
[[nodiscard]] std::string listed(const Problems& problems);
template <class T>
[[nodiscard]] std::string problems_of_reading(const std::expected<T, Problems>& read) {
  return read ? "" : listed(read.error());
}

/// The problems as the program says them, one a line.
[[nodiscard]] inline std::string in_lines(const Problems& problems) {
  std::string lines;
  for (const Problem& problem : problems) lines += in_words(problem) + "\n";
  return lines;
}

}  // namespace passage_brief::given
