#include "units/position.h"

#include <optional>

#include "units/check.h"

namespace passage_brief {

Position position_at(double latitude_deg, double longitude_deg) {
  const std::optional<Latitude> latitude = Latitude::from_degrees(latitude_deg);
  const std::optional<Longitude> longitude = Longitude::from_degrees(longitude_deg);
  if (!latitude || !longitude) {
    broken_promise("latitude in [-90, 90] and longitude in [-180, 180]");
  }
  return {*latitude, *longitude};
}

}  // namespace passage_brief
