// Stations for tests: published ones from tests/given/stations, and ones made of a text.
#pragma once

#include <string>
#include <vector>

#include "facts/tide/current_station.h"
#include "facts/tide/tide_station.h"
#include "reading/problem.h"
#include "units/time.h"

namespace passage_brief::given {

/// tests/given/stations/NAME.tide.json as a path from the project's folder.
[[nodiscard]] std::string tide_file(const std::string& name);
[[nodiscard]] std::string current_file(const std::string& name);

/// The station of that file; a subordinate one with its reference. Throws with the problems.
[[nodiscard]] TideStation published_tide(const std::string& name);
[[nodiscard]] CurrentStation published_current(const std::string& name);

/// Stations of tide station texts, joined; throws with the problems.
[[nodiscard]] std::vector<TideStation> tides_of(const std::vector<std::string>& texts);
/// The problems of such texts, one a line; empty when there are none.
[[nodiscard]] std::string problems_of_tides(const std::vector<std::string>& texts);

/// RFC 3339; throws when it is not.
[[nodiscard]] Instant at(const std::string& rfc3339);

}  // namespace passage_brief::given
