// Current station files: JSON of kind "current station". Flood is positive along the axis. What is
// left out or null is not known; no mean flow is ever assumed.
#pragma once

#include <expected>
#include <string_view>

#include "facts/tide/current_station.h"
#include "reading/form.h"
#include "reading/problem.h"

namespace passage_brief {

/// The field table.
[[nodiscard]] Form<CurrentStation> current_station();

[[nodiscard]] std::expected<CurrentStation, Problems> read_current_station(std::string_view file,
                                                                           std::string_view text);

}  // namespace passage_brief
