// Leg by leg: which way wind and current push, and what to steer to hold the line.
//
// Wind, current and leeway are those of the middle of the leg; gust, wave and visibility the worst
// on it. Heading to steer = course to steer by the triangle (passage/triangle.h), pointed up by the
// leeway angle; magnetic by the variation of the day; compass by the boat's own deviation table,
// linear between its rows.
#pragma once

#include <vector>

#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "passage/timeline.h"
#include "plan/plan.h"

namespace passage_brief {

[[nodiscard]] std::vector<Leg> legs_on(const RouteSurvey& survey, const Timeline& timeline,
                                       const Plan& plan, const Facts& facts);

/// Deviation for a magnetic heading, taken from a table by compass heading. Not known without a
/// table, nor between two rows more than 90 degrees apart (our rule, no source), but for the rows'
/// own headings.
[[nodiscard]] Known<CompassBearing> compass_heading(const std::vector<DeviationRow>& table,
                                                    MagneticBearing heading);

}  // namespace passage_brief
