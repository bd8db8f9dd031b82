// What a service was asked: replies do not repeat all of it, and are checked against the rest.
#pragma once

#include <expected>
#include <optional>
#include <string>
#include <string_view>

#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/zone.h"

namespace passage_brief {

struct Asked {
  std::string name;                   // what waterways call the station; empty: as the reply does
  std::string station;                // its number; a reply of another is refused; empty: any
  std::optional<std::string> datum;   // plane that heights were asked above
  std::optional<Length> height_unit;  // one unit of the heights asked for
  bool gmt = false;                   // the times of a CO-OPS reply, which never says; else unknown
  std::optional<Zone> zone;           // wall time the station is printed in; nothing: UTC
  std::optional<Length> height_uncertainty;  // one standard deviation, as the operator states it
  std::optional<Speed> speed_uncertainty;
  std::string note;               // said beside the source
  std::optional<Position> place;  // that a forecast was asked for; a reply for another is refused
};

/// The query of a CO-OPS request ("station=9990001&datum=MLLW&units=metric&time_zone=gmt"), with
/// `name`, `zone`, `uncertainty` and `at` (a position) of our own beside it. What a request holds
/// and a reply does not need is passed over. The message says what cannot be used: a key that comes
/// twice, and times in local time, since the hour that comes twice cannot be told apart.
[[nodiscard]] std::expected<Asked, std::string> asked_in(std::string_view query);

/// Why the heights of a CO-OPS reply are not known where `asked` lacks what it does not say itself
/// (datum, unit, zone of its times); else empty.
[[nodiscard]] std::string heights_not_told(const Asked& asked);

}  // namespace passage_brief
