// What a gauge reads beside what was predicted for the same time.
#pragma once

#include <optional>

#include "facts/tide/seen_level.h"
#include "facts/tide/tide_station.h"
#include "facts/weather/alert.h"
#include "fetch/co_ops_levels_provider.h"
#include "units/quantity.h"

namespace passage_brief {

/// A difference less than this is the weather of every day: half a foot, our rule, no source.
inline constexpr Length kLevelDiffers = feet(0.5);

/// The last observed level beside the prediction; nothing where the station predicts nothing then.
[[nodiscard]] std::optional<SeenLevel> seen_level(const TideStation& station,
                                                  const ObservedLevels& observed);

/// Where the last observed level differs from the prediction by kLevelDiffers or more, an alert
/// that says so: the figures of the brief count it as passage/water_level.h says. It stands until
/// 12 hours after the reading. Nothing where the station predicts nothing for that time.
[[nodiscard]] std::optional<Alert> alert_of_level(const TideStation& station,
                                                  const ObservedLevels& observed, const Zone& zone);

}  // namespace passage_brief
