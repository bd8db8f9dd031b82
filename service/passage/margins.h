// The margins in force, as the named edition of the rules states them. A request never changes one.
#pragma once

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
};

}  // namespace passage_brief
