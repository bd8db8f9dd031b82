// A level of the water or of a thing above a named plane: a point, not a length.
//
// Height<ChartDatum> and Height<StationZero> are unlike types. Two heights subtract to a Length
// only above the same plane; adding two does not compile. Going from one plane to another needs the
// offset in hand (see facts/tide/tide_station.h). Two stations' zeros are different planes that
// this type cannot tell apart, so a Height<StationZero> never leaves the station that made it.
#pragma once

#include <compare>

#include "units/quantity.h"

namespace passage_brief {

struct ChartDatum;   // the plane charted depths are measured down from, at one tide station
struct StationZero;  // the zero a station's own datum table is measured up from

template <class Datum>
class Height {
 public:
  constexpr Height() = delete;
  [[nodiscard]] static constexpr Height above(Length rise) { return Height(rise); }
  /// Height above the plane; negative below it.
  [[nodiscard]] constexpr Length above_datum() const { return rise_; }

  friend constexpr Length operator-(Height a, Height b) { return a.rise_ - b.rise_; }
  friend constexpr Height operator+(Height a, Length b) { return Height(a.rise_ + b); }
  friend constexpr Height operator-(Height a, Length b) { return Height(a.rise_ - b); }
  friend constexpr auto operator<=>(Height, Height) = default;

 private:
  explicit constexpr Height(Length rise) : rise_(rise) {}
  Length rise_;
};

/// Height of tide: the water's level above chart datum at one station.
using TideHeight = Height<ChartDatum>;

}  // namespace passage_brief
