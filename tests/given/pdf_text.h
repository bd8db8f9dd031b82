// What a PDF holds, read back by poppler-utils.
#pragma once

#include <string>
#include <vector>

namespace passage_brief::given {

/// The text layer, one entry for each page, in the order it was drawn; every run of blanks and line
/// ends is one blank.
[[nodiscard]] std::vector<std::string> pages_of_pdf(const std::string& bytes);

/// The same treatment of blanks, for what is looked for.
[[nodiscard]] std::string with_single_blanks(const std::string& text);

}  // namespace passage_brief::given
