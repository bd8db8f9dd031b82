// (plan, sources, now) -> what live services say, for one plan.
//
// A fetch that failed is no failure: what it was for is not known, with its reason. Of the services
// of one place the first good one in the configured order is used, and named; where a second good
// one differs from it by more than the rules' `forecasts_differ` in wind or gust at any hour from
// the departure on, the worse of the two is used hour by hour, and both are shown.
#pragma once

#include <vector>

#include "facts/facts.h"
#include "facts/tide/read_tide_station.h"
#include "fetch/sources.h"
#include "fetch/transport.h"
#include "plan/plan.h"
#include "store/store.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {

struct GatheredFacts {
  std::vector<TideStationFile> tides;  // to be linked with those of files
  std::vector<CurrentStation> currents;
  std::vector<WindSeries> winds;
  std::vector<Alert> alerts;
  std::vector<NotFetched> not_fetched;
  std::vector<SeenLevel> levels = {};  // of gauges
};

/// Words about what was fetched tell times in the zone of `now`.
[[nodiscard]] GatheredFacts gather_facts(const Plan& plan, const Sources& sources,
                                         Speed forecasts_differ, const LocalTime& now,
                                         Transport& transport, Store& store);

/// Adds them to facts from files. A station of a file keeps its name: the live one of the same name
/// is left out.
void add_gathered(GatheredFacts gathered, Facts& facts);

}  // namespace passage_brief
