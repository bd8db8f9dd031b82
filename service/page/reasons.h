// Why things are not known, said once.
//
// One missing forecast or one drawbridge can leave forty figures unknown for one and the same
// reason. A reason that stands more than once on the sheet is given a letter there, and its words
// once, or in the head and once for what stands below it.
#pragma once

#include <string>
#include <vector>

#include "page/sheet.h"

namespace passage_brief {

struct Brief;

/// Every reason in the brief for a figure that is not known, each once.
[[nodiscard]] std::vector<std::string> reasons_in(const Brief& brief);

/// Puts "reason A" for each reason that the sheet says more than once. Its words stand where the
/// key figures say it first, and for what else names the letter in a block before that of kind
/// `weather`.
void say_reasons_once(Sheet& sheet, const std::vector<std::string>& reasons);

}  // namespace passage_brief
