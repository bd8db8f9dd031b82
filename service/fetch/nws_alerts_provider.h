// US National Weather Service: warnings, watches and advisories in force for marine zones.
//
//   https://api.weather.gov/alerts/active?zone=PZZ545
//
// A GeoJSON list; zone alerts carry no geometry and are matched by geocode.UGC. `expires` is the
// message's life and `ends` the event's, which may be null: until further notice. Updates name the
// messages they replace. Only messages of status Actual count, and a cancelled one takes away what
// it names. An empty list is no alert, and no leave to go.
#pragma once

#include <expected>
#include <string>
#include <string_view>
#include <vector>

#include "facts/weather/alert.h"
#include "reading/problem.h"

namespace passage_brief {

[[nodiscard]] std::string nws_alerts_path(std::string_view zone);

/// By rising time of issue. Of a zone; every zone where it is empty.
[[nodiscard]] std::expected<std::vector<Alert>, Problems> nws_alerts(std::string_view name,
                                                                     std::string_view text,
                                                                     std::string_view zone);

}  // namespace passage_brief
