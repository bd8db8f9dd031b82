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

/// How large a Length is printed: feet or metres (depths, clearances), or miles (distances).
enum class Scale { depth, distance };

}  // namespace passage_brief
