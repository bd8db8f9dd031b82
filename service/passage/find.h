// Plan and facts to findings: everything worked out for one departure.
#pragma once

#include <utility>

#include "facts/facts.h"
#include "passage/dangers.h"
#include "passage/findings.h"
#include "passage/margins.h"
#include "passage/route_survey.h"
#include "passage/timeline.h"
#include "plan/plan.h"
#include "units/time.h"

namespace passage_brief {

/// `survey` is that of the plan's route over the facts' waterway; the same serves many departures.
[[nodiscard]] Findings find(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                            const Margins& margins);

/// The same in two steps, for the dangers to leeward cost as much as all the rest.
class Finding {
 public:
  /// All but the dangers. All arguments must outlive it.
  Finding(const RouteSurvey& survey, const Plan& plan, const Facts& facts, const Margins& margins);

  /// Those she would come to within this time (dangers.h).
  void add_dangers(Interval within = kDangersWithin);
  [[nodiscard]] const Findings& findings() const { return findings_; }
  [[nodiscard]] Findings take() { return std::move(findings_); }

 private:
  const RouteSurvey& survey_;
  const Plan& plan_;
  const Facts& facts_;
  Timeline timeline_;
  Findings findings_;
};

}  // namespace passage_brief
