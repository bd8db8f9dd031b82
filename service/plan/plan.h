// What the skipper intends: this vessel, along this route, leaving at this time.
#pragma once

#include "plan/route.h"
#include "plan/vessel.h"
#include "units/time.h"

namespace passage_brief {

/// Leaving the first point of the route.
struct Departure {
  Instant at;
};

struct Plan {
  Vessel vessel;
  Route route;
  Departure departure;
};

}  // namespace passage_brief
