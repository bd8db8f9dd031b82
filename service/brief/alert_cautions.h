// Warnings of the weather service -> cautions with the issuer's own words.
#pragma once

#include "facts/facts.h"
#include "passage/findings.h"
#include "rules/verdict.h"

namespace passage_brief {

/// Adds a caution for each alert that is not over by departure, and one where alerts were asked for
/// and not to be had. An alert in force at any time of the way has the grade of its severity:
/// extreme danger, severe and moderate warning, minor and unknown caution (our rule, no source);
/// one that begins after arrival is a notice. A verdict of "within limits" becomes "cautions" with
/// them; no alert ever makes a verdict better, and none is worked out from the wind.
void add_alert_cautions(const Facts& facts, const Findings& findings, Judgement& judgement);

}  // namespace passage_brief
