// One place, one hull, one stretch of time: the arithmetic of the water under the keel.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "passage/corridor_depths.h"
#include "passage/figure.h"
#include "passage/hull.h"
#include "passage/margins.h"
#include "passage/squat.h"
#include "plan/vessel.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

/// What the figure is worked out from.
struct KeelQuestion {
  const DepthSource& source;
  Known<Span> while_over;      // any part of the hull over the place
  Known<bool> time_is_sure;    // as in Passing
  std::optional<Speed> speed;  // through the water; empty: at rest in a berth
  ChannelSection section;
  bool open_water;
  Known<Length> half_wave;
};

/// The figure alone, without its errors: what places are compared by.
[[nodiscard]] Known<Length> under_keel_figure(const KeelQuestion& question, const Vessel& vessel,
                                              const HullForm& hull, const Facts& facts,
                                              const Margins& margins);

struct KeelAnswer {
  Known<TideHeight> height_of_tide;  // lowest in the span
  Known<Trend> tide_is;              // all through it
  Known<Length> water;
  Known<Length> squat;
  bool squat_left_out;
  Known<Length> under_keel;
  Known<Length> could_be;
  Length margin;
  std::vector<ErrorTerm> errors;
  Known<Length> one_way;
  std::vector<WorkingInput> beside;  // what of the height of tide is not prediction
};

[[nodiscard]] KeelAnswer under_keel(const KeelQuestion& question, const Vessel& vessel,
                                    const HullForm& hull, const Facts& facts,
                                    const Margins& margins);

/// The margin in force over that ground.
[[nodiscard]] Length keel_margin(const Margins& margins, Bottom bottom, bool open_water);

/// The least water that leaves `keep` under the keel of a boat who has settled at that speed,
/// slowed where squat has no figure faster; empty: at rest. To 0.01 mm, rounded up.
[[nodiscard]] Length water_needed(const std::optional<Speed>& speed, const ChannelSection& section,
                                  const HullForm& hull, Length keep);

/// One standard deviation of a charted depth. Not known for CATZOC D and where nothing is stated.
[[nodiscard]] Known<Length> survey_sigma(SurveyQuality quality, Length depth);

/// What the sounder shows above the water under the keel: 0 where it measures from the keel.
[[nodiscard]] Known<Length> sounder_offset(const Vessel& vessel);

}  // namespace passage_brief
