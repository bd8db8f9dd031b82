// Where: latitude and longitude on WGS 84, in degrees, north and east positive.
#pragma once

#include <cmath>
#include <optional>

#include "units/direction.h"

namespace passage_brief {

/// [-90, 90] degrees, north positive.
class Latitude {
 public:
  Latitude() = delete;
  /// Nothing when outside [-90, 90] or not finite.
  [[nodiscard]] static std::optional<Latitude> from_degrees(double deg) {
    if (!std::isfinite(deg) || deg < -90 || deg > 90) return std::nullopt;
    return Latitude(deg);
  }
  [[nodiscard]] double in_degrees() const { return deg_; }
  friend auto operator<=>(Latitude, Latitude) = default;

 private:
  explicit Latitude(double deg) : deg_(deg) {}
  double deg_;
};

/// Held in [-180, 180) degrees, east positive, so that 180 W and 180 E are one meridian.
class Longitude {
 public:
  Longitude() = delete;
  /// Nothing when outside [-180, 180] or not finite.
  [[nodiscard]] static std::optional<Longitude> from_degrees(double deg) {
    if (!std::isfinite(deg) || deg < -180 || deg > 180) return std::nullopt;
    return Longitude(folded_180(deg));
  }
  [[nodiscard]] double in_degrees() const { return deg_; }
  friend auto operator<=>(Longitude, Longitude) = default;

 private:
  explicit Longitude(double deg) : deg_(deg) {}
  double deg_;
};

struct Position {
  Latitude latitude;
  Longitude longitude;
  bool operator==(const Position&) const = default;
};

/// A position from numbers already known to be in range; throws BrokenPromise when they are not.
[[nodiscard]] Position position_at(double latitude_deg, double longitude_deg);

}  // namespace passage_brief
