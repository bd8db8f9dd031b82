// --observed: what an instrument showed, as a person would say it.
#pragma once

#include <chrono>
#include <expected>
#include <string>
#include <string_view>

#include "facts/facts.h"
#include "passage/observed_reading.h"
#include "units/zone.h"

namespace passage_brief {

/// "Oyster Bar 10:05 sounder 3.1 ft", "Town Bridge 10:20 gauge 54 ft" or "station Town Landing
/// 10:00 level 3.2 ft". The time: on the clock of the zone on that day, wall time with its date, or
/// RFC 3339. The message says what is wrong and how to write it.
[[nodiscard]] std::expected<ObservedReading, std::string> parse_observed(
    std::string_view text, const Zone& zone, std::chrono::year_month_day day);

/// The same with its place by the name in the drawing, whatever the capitals; else words with the
/// nearest name.
[[nodiscard]] std::expected<ObservedReading, std::string> with_place_found(ObservedReading reading,
                                                                           const Facts& facts);

}  // namespace passage_brief
