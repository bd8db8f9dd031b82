// How the water was seen to stand beside what was predicted for the same time.
//
// `above_predicted` is observed less predicted; what counts of it, where and how long is
// passage/water_level.h. A sounder may show shoaling as well as low water: it says how much less
// water there is, not where the level stands.
#pragma once

#include <optional>
#include <string>

#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

enum class ObservedBy { sounder, clearance_gauge, water_level };

[[nodiscard]] std::string in_words(ObservedBy by);  // "clearance gauge"

struct SeenLevel {
  std::string place;  // as it was read: "Oyster Bar"
  ObservedBy by;
  Known<Length> reading;   // of the instrument
  Known<Length> expected;  // what it should have shown; a learner may have to work out both
  std::string station;     // whose prediction it is held against
  Instant at;
  Length above_predicted;
  /// When the wind that holds the water there is over in the forecast; empty: not in its hours, or
  /// what holds it is not known.
  std::optional<Instant> wind_over = std::nullopt;
};

/// Whether what it shows in her favour may count: a level within 1 m of the prediction (our rule,
/// no source). More is sooner a slip of the pen than water. Against her every reading counts.
[[nodiscard]] bool may_favour(const SeenLevel& seen);

}  // namespace passage_brief
