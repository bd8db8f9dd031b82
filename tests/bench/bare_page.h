// The floor of a printed page: Pango and Cairo setting the same words once, and nothing else.
#pragma once

#include <string>
#include <vector>

namespace passage_brief::bench {

/// A Letter page as PDF bytes: one paragraph for each text, one under the other, 8 pt.
[[nodiscard]] std::string bare_page(const std::vector<std::string>& paragraphs);

}  // namespace passage_brief::bench
