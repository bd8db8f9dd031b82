// The stay and the way back, in one block.
#pragma once

#include <optional>

#include "page/sheet_parts.h"

namespace passage_brief {

/// Nothing where none was asked for.
[[nodiscard]] std::optional<Block> way_back_block(const Brief& brief, const Reader& reader);

}  // namespace passage_brief
