// What the skipper intends: this vessel, along this route, leaving at this time.
#pragma once

#include <optional>

#include "plan/route.h"
#include "plan/vessel.h"
#include "units/time.h"

namespace passage_brief {

/// Leaving the first point of the route.
struct Departure {
  Instant at;
  /// Bridges that want notice can be rung from then on; empty: they have been in good time.
  std::optional<Instant> notice_from = std::nullopt;
};

/// The way back, left so long after arrival.
struct WayBackPlan {
  Interval stay;
  Route route;
};

struct Plan {
  Vessel vessel;
  Route route;
  Departure departure;
  std::optional<WayBackPlan> back = std::nullopt;
};

}  // namespace passage_brief
