// Until when what was passed can be passed back, and what lies ahead be reached, in words.
#pragma once

#include <optional>
#include <string>

#include "page/sheet_parts.h"

namespace passage_brief {

/// "be back past Oyster Bar by 13:20; Town Bridge by 15:05, with antennas down by 17:10. The rest:
/// all day." What is not known first. Times down to 5 minutes. Nothing where there is nothing to
/// pass.
[[nodiscard]] std::optional<Block> back_block(const Brief& brief, const Reader& reader);

/// ", enough water until 14:20" of a refuge or a turning place; empty where nothing is said of it.
[[nodiscard]] std::string enough_water_words(const Brief& brief, BackPlace what,
                                             const std::string& name, const Reader& reader);

}  // namespace passage_brief
