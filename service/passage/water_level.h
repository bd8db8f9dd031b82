// The level of the water at a feature: what is predicted, and what is known beside the prediction.
//
// Heights of a station are above its chart datum. Where a feature is charted from another plane of
// that station, the difference between the two is taken off. A plane the station does not give, or
// none stated: not known.
//
// To the prediction is put, each way toward caution (all our rules, no source, but for the last):
//   - water seen below the prediction is taken off every depth, whatever the station: in full until
//     the wind that holds it is over in the forecast, then fading (margins.observed_loss); where no
//     such wind is known, in full for good. A sounder that showed too little counts alike;
//   - water seen above the prediction is taken off every clearance, in full, for good;
//   - what was seen in her favour counts only at the station it was seen at, from then on for a
//     short time (margins.observed_gain), less by the minute, only where nothing is against her,
//     and only within 1 m of the prediction; what a sounder showed too much counts nowhere;
//   - of several readings the worst counts, in each direction;
//   - air pressure as forecast at the station presses the water down 1 cm for each hPa above
//     margins.mean_pressure and lets it up likewise (inverse barometer; any handbook of
//     oceanography, from memory). Only against her; and never on top of an observed level, which
//     has it in it: the worse of the two, and nothing where the level is freshly observed. Where a
//     forecast gives pressure, but not for that time, the worst it gives counts.
//
// Errors: the station's own; where the level is freshly observed the observation's instead. A wind
// of margins.set_down_wind or more, or one that is not known though there is a forecast, may hold
// the water up or down: that is in no figure, but an error of its own, unless it blew already as
// the level was observed.
#pragma once

#include <string>
#include <vector>

#include "facts/facts.h"
#include "facts/waterway/feature.h"
#include "passage/figure.h"
#include "passage/margins.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

// ---- for depths, above the plane they are charted from ----

[[nodiscard]] Known<TideHeight> level_at(const Facts& facts, const Margins& margins,
                                         const FeatureStations& stations, const Known<Instant>& at);
/// No higher than the lowest anywhere in the span.
[[nodiscard]] Known<TideHeight> lowest_level(const Facts& facts, const Margins& margins,
                                             const FeatureStations& stations,
                                             const Known<Span>& span);

// ---- under bridges and cables, above the station's chart datum ----

[[nodiscard]] Known<TideHeight> level_below_bridges(const Facts& facts, const Margins& margins,
                                                    const std::string& station, Instant at);
/// No lower than the highest anywhere in the span; of one instant as it is.
[[nodiscard]] Known<TideHeight> highest_below_bridges(const Facts& facts, const Margins& margins,
                                                      const std::string& station, Span span);
/// No higher than the lowest anywhere in the span.
[[nodiscard]] Known<TideHeight> lowest_below_bridges(const Facts& facts, const Margins& margins,
                                                     const std::string& station, Span span);

// ---- what is put to the prediction ----

enum class LevelFor { depths, clearances };

/// What is put to a prediction: upward positive. Together they are `whole`.
struct LevelBeside {
  Length observed;
  Length pressure;
  [[nodiscard]] Length whole() const { return observed + pressure; }
};
[[nodiscard]] LevelBeside beside_prediction(LevelFor what, const Facts& facts,
                                            const Margins& margins, const std::string& station,
                                            Instant at);
/// The least and the greatest whole() of a span.
struct BesideRange {
  Length least;
  Length greatest;
};
[[nodiscard]] BesideRange beside_range(LevelFor what, const Facts& facts, const Margins& margins,
                                       const std::string& station, Span span);

/// As inputs of a working, the worst of a span; nothing where nothing is put to it.
[[nodiscard]] std::vector<WorkingInput> beside_inputs(LevelFor what, const Facts& facts,
                                                      const Margins& margins,
                                                      const std::string& station, Span over);

/// The widest of a span. Not known where the station does not state its own.
[[nodiscard]] Known<std::vector<ErrorTerm>> level_errors(const Facts& facts, const Margins& margins,
                                                         const std::string& station, Span over);

/// How far the level can stray through a span by what is put to the prediction, and its error
/// (95 %) with it.
struct BesideStrays {
  Length level;
  Length error;
};
[[nodiscard]] BesideStrays beside_strays(const Facts& facts, const Margins& margins,
                                         const std::string& station, Span span);

/// Whether the wind at the station is one that may hold the water up or down.
[[nodiscard]] bool wind_may_shift(const Facts& facts, const Margins& margins,
                                  const std::string& station, Instant at);

}  // namespace passage_brief
