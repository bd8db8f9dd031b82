// US National Weather Service: which grid cell and zone a place lies in.
//
//   https://api.weather.gov/points/38.5,-76.4        (at most 4 decimals)
//
// Cells move now and then, so the answer is asked for again each day.
#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "reading/problem.h"
#include "units/position.h"

namespace passage_brief {

[[nodiscard]] std::string nws_points_path(Position place);

struct NwsPoint {
  std::string office;  // "BMX"
  int x;
  int y;
};

/// The cell by office and numbers, so that no address of the reply is followed. Refuses a reply for
/// a place more than 1 km from the one asked for.
[[nodiscard]] std::expected<NwsPoint, Problems> nws_point(std::string_view name,
                                                          std::string_view text, Position place);

[[nodiscard]] std::string nws_grid_path(const NwsPoint& point);
[[nodiscard]] std::string nws_hourly_path(const NwsPoint& point);

}  // namespace passage_brief
