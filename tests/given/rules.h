// Rules read from text in a test, and the files that ship.
#pragma once

#include <string>
#include <string_view>

#include "reading/problem.h"
#include "rules/read_rules.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"

namespace passage_brief::given {

/// A whole file with every margin and these cautions (JSON text of the list's inside).
[[nodiscard]] std::string rules_text(std::string_view cautions);

/// Read, with nothing to build on; throws with the problems.
[[nodiscard]] RuleSet rules(std::string_view cautions);

/// The problems of such a file, one a line; empty when it was read.
[[nodiscard]] std::string problems_of(const std::string& text);

/// One caution for each reach, grade caution, with this test.
[[nodiscard]] std::string caution_when(std::string_view when, bool limit);

/// How much a verdict allows. "Cannot tell" and "outside limits" both mean: do not leave.
[[nodiscard]] int permission(Verdict verdict);

/// rules/NAME.json of the project, with what it builds on; throws with the problems.
[[nodiscard]] RuleSet shipped_rules(const std::string& name);

}  // namespace passage_brief::given
