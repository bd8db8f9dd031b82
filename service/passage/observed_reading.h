// A reading of an instrument held against what was predicted for its place and time.
//
//   clearance gauge   water above prediction = clearance expected - reading
//   water level       water above prediction = reading - height of tide predicted
//   sounder           water above expectation = reading - (charted depth + height of tide - draft +
//                     keel to where the sounder measures from)
//
// A sounder is taken to be read lying still over the charted depth of the place that is named (a
// berth, bar, reach, depth area or sounding): a boat under way reads less by her squat, which then
// counts as a lack of water (our rule, toward caution, no source). Definitions; a gauge reads to
// low steel (33 CFR 118.160).
//
// The wind that holds the water: the wind at the station as the reading was made, where it was one
// of margins.set_down_wind or more; over in the first hour of the forecast in which less than
// margins.observed_wind of it blows from where it did. A lighter wind, or none forecast for then,
// is taken to hold nothing, so that it is not known what does.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "facts/tide/seen_level.h"
#include "passage/figure.h"
#include "passage/margins.h"
#include "plan/vessel.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

struct ObservedReading {
  std::string place;  // feature of the waterway, or for a water level a tide station
  ObservedBy by;
  Instant at;
  Length reading;
};

/// The names of what can be read so: bridges; tide stations; berths, bars, reaches, depth areas and
/// soundings.
[[nodiscard]] std::vector<std::string> places_read_by(ObservedBy by, const Facts& facts);

/// Not known where no such place is drawn, or there is nothing to hold the reading against.
[[nodiscard]] Known<SeenLevel> observed_level(const ObservedReading& reading, const Vessel& vessel,
                                              const Facts& facts, const Margins& margins);

/// When that wind is over for good, as far as is forecast: in a lull it still holds the water. Of a
/// sounder's reading never: it may be shoaling.
[[nodiscard]] std::optional<Instant> wind_over_after(const std::string& station, Instant at,
                                                     const Facts& facts, const Margins& margins);

[[nodiscard]] Working working_of(const SeenLevel& seen);

}  // namespace passage_brief
