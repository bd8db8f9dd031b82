// GRIB2 files of wind at 10 m and gust -> wind forecast at a place, through ecCodes.
//
// WMO-No. 306, volume I.2, FM 92 GRIB edition 2. Read: 10 m wind u and v (discipline 0, category 2,
// numbers 2 and 3), gust (number 22), in m/s, on regular latitude and longitude grids scanned
// by rows from the west; u and v that are relative to the grid are turned only where the grid is
// such that they need no turning (regular latitude and longitude). u and v are linear between the
// four nodes around the place, gust is the greatest of the four. A node that is missing makes the
// figure of that hour not known. Issued: the reference time of the messages.
//
// A global file holds winds every 10 to 150 nm: no land breeze, no funnel.
#pragma once

#include <expected>
#include <string_view>

#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "reading/problem.h"

namespace passage_brief {

[[nodiscard]] bool is_grib(std::string_view bytes);

/// The wind at asked.place, which must be given. Refused, with words, where the program was built
/// without ecCodes.
[[nodiscard]] std::expected<WindSeries, Problems> grib2_winds(std::string_view name,
                                                              std::string_view bytes,
                                                              const Asked& asked);

}  // namespace passage_brief
