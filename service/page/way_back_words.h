// The stay and the way back: one block of its times and figures, and one for each thing the rules
// say of it.
#pragma once

#include <vector>

#include "page/sheet_parts.h"

namespace passage_brief {

/// None where none was asked for. What the head or the list has is not said again, nor a sentence
/// of a caution that stands among those of the way out.
[[nodiscard]] std::vector<Block> way_back_blocks(const Brief& brief, const Reader& reader);

}  // namespace passage_brief
