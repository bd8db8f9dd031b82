// The margins in force, as the named edition of the rules states them. A request never changes one.
#pragma once

#include <chrono>

#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

struct Margins {
  Length under_keel;       // soft bottom, sheltered
  Length under_keel_hard;  // hard bottom, bottom not stated, or open water
  Length under_bridge;     // over the highest thing aboard; under a cable too
  Length track;            // each side of the hull, how far off the line she may be
  Length position;         // how far off the position itself may be
  Length wash;             // half-height of wakes where waves are not counted
  Length shoaling;         // a year, since the survey, on bottoms that move
  Interval forecast_age;   // a forecast older than this at departure is old
  Speed forecasts_differ;  // by more, in wind or gust, two forecasts of one place are not the same

  // Water that stands otherwise than predicted (water_level.h). All our rules, no source.
  Interval observed_gain = std::chrono::hours(2);   // so long it adds depth or clearance
  Interval observed_loss = std::chrono::hours(24);  // so long it fades, once its wind is over
  double observed_wind = 0.5;                       // less than this share of the wind: it is over
  Length observed_error = feet(0.3);                // one standard deviation of an observed level
  Pressure mean_pressure = hectopascals(1013.25);   // the air presses the water down from there
  Speed set_down_wind = knots(20);    // that wind or more may hold the water up or down
  Length set_down_error = feet(0.5);  // one standard deviation of what it does
};

}  // namespace passage_brief
