// Where a rules file that builds on another finds it.
#pragma once

#include <string>

#include "rules/read_rules.h"

namespace passage_brief {

/// Looks among the *.json files beside this one, then in the folder of the rules that ship.
[[nodiscard]] FindRules rules_beside(const std::string& file);

}  // namespace passage_brief
