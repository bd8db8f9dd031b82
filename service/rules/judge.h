// Findings and rules -> what they come to. Pure: the same findings and rules give the same
// judgement.
#pragma once

#include "passage/findings.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"

namespace passage_brief {

/// Every rule is put to every subject of its kind. A limit is broken where its test holds, cannot
/// tell where the test is unknown, else kept. Verdict: any limit broken, `outside_limits`; else any
/// that cannot tell, `cannot_tell`; else any caution of grade caution or above, `cautions`; else
/// `within_limits`. Where the rules are asked to be sure, limits are put to the findings
/// at_their_least(), everything else to those as expected.
[[nodiscard]] Judgement judge(const RuleSet& rules, const Findings& findings);

}  // namespace passage_brief
