// Directions. True and magnetic, "from" and "toward" are unlike types.
//
// A bearing is in degrees clockwise from its north, held in [0, 360). An Angle is a signed turn in
// degrees, clockwise (to starboard, or east) positive, any size.
#pragma once

#include <compare>
#include <numbers>
#include <string>

namespace passage_brief {

class Angle {
 public:
  constexpr Angle() = delete;
  [[nodiscard]] static constexpr Angle from_degrees(double deg) { return Angle(deg); }
  [[nodiscard]] constexpr double in_degrees() const { return deg_; }
  friend constexpr Angle operator+(Angle a, Angle b) { return Angle(a.deg_ + b.deg_); }
  friend constexpr Angle operator-(Angle a, Angle b) { return Angle(a.deg_ - b.deg_); }
  friend constexpr Angle operator-(Angle a) { return Angle(-a.deg_); }
  friend constexpr Angle operator*(Angle a, double k) { return Angle(a.deg_ * k); }
  friend constexpr auto operator<=>(Angle, Angle) = default;

 private:
  explicit constexpr Angle(double deg) : deg_(deg) {}
  double deg_;
};

constexpr Angle degrees(double deg) { return Angle::from_degrees(deg); }
inline constexpr double kRadiansInDegree = std::numbers::pi / 180;
[[nodiscard]] double in_radians(Angle angle);
[[nodiscard]] Angle radians(double rad);

/// Degrees folded into [0, 360).
[[nodiscard]] double folded_360(double deg);
/// Degrees folded into [-180, 180).
[[nodiscard]] double folded_180(double deg);

template <class North>
class Bearing {
 public:
  Bearing() = delete;
  /// Any finite number of degrees; folded into [0, 360).
  [[nodiscard]] static Bearing from_degrees(double deg) { return Bearing(folded_360(deg)); }
  [[nodiscard]] double in_degrees() const { return deg_; }
  [[nodiscard]] Bearing reversed() const { return from_degrees(deg_ + 180); }

  friend Bearing operator+(Bearing a, Angle turn) {
    return from_degrees(a.deg_ + turn.in_degrees());
  }
  friend Bearing operator-(Bearing a, Angle turn) {
    return from_degrees(a.deg_ - turn.in_degrees());
  }
  /// The turn from b to a by the shorter way, in [-180, 180) degrees.
  friend Angle operator-(Bearing a, Bearing b) {
    return Angle::from_degrees(folded_180(a.deg_ - b.deg_));
  }
  friend auto operator<=>(Bearing, Bearing) = default;

 private:
  explicit Bearing(double deg) : deg_(deg) {}
  double deg_;
};

using TrueBearing = Bearing<struct TrueNorth>;
using MagneticBearing = Bearing<struct MagneticNorth>;
using CompassBearing = Bearing<struct CompassNorth>;

/// Magnetic variation, east positive.
struct Variation {
  Angle east;
};
/// Deviation of the boat's own compass on one heading, east positive.
struct Deviation {
  Angle east;
};

/// Magnetic = true - variation; compass = magnetic - deviation (Bowditch, east positive; from
/// memory).
[[nodiscard]] inline MagneticBearing magnetic(TrueBearing t, Variation v) {
  return MagneticBearing::from_degrees(t.in_degrees() - v.east.in_degrees());
}
[[nodiscard]] inline CompassBearing compass(MagneticBearing m, Deviation d) {
  return CompassBearing::from_degrees(m.in_degrees() - d.east.in_degrees());
}

/// The true direction the wind comes from.
struct WindFrom {
  TrueBearing bearing;
  bool operator==(const WindFrom&) const = default;
};
/// The true direction the water goes toward.
struct SetToward {
  TrueBearing bearing;
  bool operator==(const SetToward&) const = default;
};

/// The boat's own two sides, looking forward.
enum class Side { port, starboard };

[[nodiscard]] std::string in_words(Side side);  // "port"
[[nodiscard]] constexpr Side other(Side side) {
  return side == Side::port ? Side::starboard : Side::port;
}

}  // namespace passage_brief
