// A fact a rule can test and a sentence can print, with its dimension.
#pragma once

#include <string>
#include <variant>

#include "units/direction.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

using FactValue =
    std::variant<Length, Speed, Interval, Instant, Angle, Voltage, double, bool, std::string>;

/// Which way a printed figure is rounded so that it errs toward caution.
enum class Rounding { down, up, nearest };

/// What a sentence prints a value as, where its dimension alone does not say.
enum class PrintedAs {
  usual,             // a length in feet or metres, a speed to 0.1 kn, a number to two decimals
  distance,          // a length on the water: feet or metres, then miles
  wind,              // a speed in whole knots
  whole,             // a number without decimals: counts, years
  percent,           // a number from 0 to 1 in whole hundredths
  true_bearing,      // an angle from true north in three figures
  magnetic_bearing,  // from magnetic north
  compass_bearing    // from the north of the boat's own compass
};

}  // namespace passage_brief
