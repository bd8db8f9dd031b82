// Plan and facts to findings: everything worked out for one departure.
#pragma once

#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/margins.h"
#include "passage/route_survey.h"
#include "plan/plan.h"

namespace passage_brief {

/// `survey` is that of the plan's route over the facts' waterway; the same serves many departures.
[[nodiscard]] Findings find(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                            const Margins& margins);

}  // namespace passage_brief
