// Physical quantities: made with their unit, read with their unit, one private double in SI.
//
//   Length keel = feet(4);   in_metres(keel) == 1.2192
//
// Length m, Speed m/s, Area m^2, Pressure Pa, Mass kg, Voltage V. Durations are std::chrono's (see
// time.h). Adding unlike quantities does not compile; a ratio of like quantities is a plain number.
// No default value exists: a quantity nobody stated is a Known without a value, not zero.
// Unit sizes are exact by definition: international foot 0.3048 m (1959), fathom 6 ft, nautical
// mile 1852 m (IHO 1929), knot 1852/3600 m/s, statute mile 1609.344 m.
#pragma once

#include <compare>

namespace passage_brief {

template <class Dimension>
class Quantity {
 public:
  constexpr Quantity() = delete;
  [[nodiscard]] static constexpr Quantity from_si(double si) { return Quantity(si); }
  [[nodiscard]] constexpr double si() const { return si_; }

  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.si_ + b.si_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.si_ - b.si_); }
  friend constexpr Quantity operator-(Quantity a) { return Quantity(-a.si_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.si_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.si_ * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.si_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.si_ / b.si_; }
  constexpr Quantity& operator+=(Quantity b) { return si_ += b.si_, *this; }
  constexpr Quantity& operator-=(Quantity b) { return si_ -= b.si_, *this; }
  friend constexpr auto operator<=>(Quantity, Quantity) = default;

 private:
  explicit constexpr Quantity(double si) : si_(si) {}
  double si_;
};

using Length = Quantity<struct LengthDimension>;
using Speed = Quantity<struct SpeedDimension>;
using Area = Quantity<struct AreaDimension>;
using Pressure = Quantity<struct PressureDimension>;
using Mass = Quantity<struct MassDimension>;
using Voltage = Quantity<struct VoltageDimension>;

inline constexpr double kMetresInFoot = 0.3048;
inline constexpr double kMetresInInch = 0.0254;
inline constexpr double kMetresInFathom = 1.8288;
inline constexpr double kMetresInNauticalMile = 1852.0;
inline constexpr double kMetresInStatuteMile = 1609.344;

constexpr Length metres(double v) { return Length::from_si(v); }
constexpr Length centimetres(double v) { return Length::from_si(v / 100); }
constexpr Length feet(double v) { return Length::from_si(v * kMetresInFoot); }
constexpr Length inches(double v) { return Length::from_si(v * kMetresInInch); }
constexpr Length fathoms(double v) { return Length::from_si(v * kMetresInFathom); }
constexpr Length kilometres(double v) { return Length::from_si(v * 1000); }
constexpr Length nautical_miles(double v) { return Length::from_si(v * kMetresInNauticalMile); }
constexpr double in_metres(Length v) { return v.si(); }
constexpr double in_feet(Length v) { return v.si() / kMetresInFoot; }
constexpr double in_nautical_miles(Length v) { return v.si() / kMetresInNauticalMile; }

constexpr Speed metres_per_second(double v) { return Speed::from_si(v); }
constexpr Speed knots(double v) { return Speed::from_si(v * kMetresInNauticalMile / 3600); }
constexpr Speed kilometres_per_hour(double v) { return Speed::from_si(v / 3.6); }
constexpr Speed miles_per_hour(double v) { return Speed::from_si(v * kMetresInStatuteMile / 3600); }
constexpr double in_metres_per_second(Speed v) { return v.si(); }
constexpr double in_knots(Speed v) { return v.si() * 3600 / kMetresInNauticalMile; }

constexpr Area square_metres(double v) { return Area::from_si(v); }
constexpr Area square_feet(double v) { return Area::from_si(v * kMetresInFoot * kMetresInFoot); }
constexpr double in_square_metres(Area v) { return v.si(); }

constexpr Pressure hectopascals(double v) { return Pressure::from_si(v * 100); }
constexpr double in_hectopascals(Pressure v) { return v.si() / 100; }

constexpr Mass tonnes(double v) { return Mass::from_si(v * 1000); }
constexpr double in_tonnes(Mass v) { return v.si() / 1000; }

constexpr Voltage kilovolts(double v) { return Voltage::from_si(v * 1000); }
constexpr double in_kilovolts(Voltage v) { return v.si() / 1000; }

constexpr Area operator*(Length a, Length b) { return Area::from_si(a.si() * b.si()); }

}  // namespace passage_brief
