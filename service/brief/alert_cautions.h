// Warnings of the weather service -> cautions with the issuer's own words.
#pragma once

#include <chrono>
#include <vector>

#include "facts/facts.h"
#include "passage/findings.h"
#include "rules/verdict.h"
#include "units/time.h"

namespace passage_brief {

/// Where the arrival is not known, what begins within a day counts as on the way (our rule).
inline constexpr std::chrono::hours kPassageOfUnknownLength{24};

/// One for each alert that is not over when the span begins, and one where alerts were asked for
/// and not to be had. An alert in force at any time of the span has the grade of its severity:
/// extreme danger, severe and moderate warning, minor and unknown caution (our rule, no source);
/// one that begins after it is a notice. None is worked out from the wind.
[[nodiscard]] std::vector<Caution> alert_cautions(const Facts& facts, Span span);

/// Adds those of the way. A verdict of "within limits" becomes "cautions" with them; no alert ever
/// makes a verdict better.
void add_alert_cautions(const Facts& facts, const Findings& findings, Judgement& judgement);

}  // namespace passage_brief
