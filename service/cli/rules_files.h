// A rules file with all that it builds on.
#pragma once

#include <expected>
#include <string>

#include "reading/problem.h"
#include "rules/rule_set.h"

namespace passage_brief {

/// What a file builds on is looked for among the *.json files beside it, then in the folder of the
/// rules that ship; two of one name that differ in a folder are refused. Rules that could never
/// close a departure for want of water are refused: with no limit at all, or none on a depth, every
/// passage would be within limits.
[[nodiscard]] std::expected<RuleSet, Problems> read_edition(const std::string& file,
                                                            const std::string& text);

}  // namespace passage_brief
