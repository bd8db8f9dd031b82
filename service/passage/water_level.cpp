#include "passage/water_level.h"

#include "facts/facts.h"
#include "facts/waterway/feature.h"
#include "units/height.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {
namespace {

Known<TideHeight> above_plane(const Facts& facts, const FeatureStations& stations,
                              const Known<TideHeight>& height) {
  if (stations.chart_datum.empty()) return not_known("no chart datum is stated for the depths");
  const Known<TideHeight> plane =
      join([&](const TideStation* station) { return station->datum(stations.chart_datum); },
           facts.tide(stations.tide));
  return join([](TideHeight level, TideHeight zero) { return TideHeight::above(level - zero); },
              height, plane);
}

}  // namespace

Known<TideHeight> level_at(const Facts& facts, const FeatureStations& stations,
                           const Known<Instant>& at) {
  return above_plane(facts, stations,
                     join([](const TideStation* s, Instant t) { return s->height(t); },
                          facts.tide(stations.tide), at));
}

Known<TideHeight> lowest_level(const Facts& facts, const FeatureStations& stations,
                               const Known<Span>& span) {
  return above_plane(facts, stations,
                     join([](const TideStation* s, Span t) { return s->lowest(t); },
                          facts.tide(stations.tide), span));
}

}  // namespace passage_brief
