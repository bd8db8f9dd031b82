// What the water does beside the prediction, in words.
#pragma once

#include <optional>

#include "page/sheet_parts.h"

namespace passage_brief {

/// What was observed and how it counts; what air pressure takes; whether the wind may hold the
/// water up or down. Nothing where there is none of it.
[[nodiscard]] std::optional<Block> level_block(const Brief& brief, const Reader& reader);

}  // namespace passage_brief
