// How a bridge is come through: at once where the mast fits, else at the first full minute at or
// after arrival when the bridge is open or the mast fits (the tide falls under it). Who comes in
// the minute in which the mast begins to fit passes at its end, so that nobody is overtaken.
//
// What is open to a vessel is 33 CFR 117's business (facts/waterway/opening_times.h); none is due
// to one that fits with lowerable antennas down (117.11), so the lowest mast decides. A swing,
// bascule or pontoon bridge with no open clearance on file is taken to open clear (common practice,
// no source); a lift bridge is not.
#pragma once

#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/margins.h"
#include "passage/meetings.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {

/// One of RouteSurvey::bridges.
struct BridgePassage {
  Length along;
  Known<Instant> reached;
  Known<Instant> passes_at;               // not known, saying why, where she cannot or may not
  std::optional<OpeningFinding> opening;  // of a bridge that opens
};

[[nodiscard]] BridgePassage bridge_passage(const RouteSurvey& survey, const Meeting& meeting,
                                           const Known<Instant>& reached, const Plan& plan,
                                           const Facts& facts, const Margins& margins);

}  // namespace passage_brief
