#include "passage/weather_here.h"

#include <algorithm>
#include <optional>
#include <string>

#include "facts/facts.h"
#include "facts/weather/wind_series.h"
#include "units/geodesy.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

constexpr Length kNearest = metres(100);  // nearer than this all weights are alike

Length distance_from(const WindSeries& series, Position where) {
  if (!series.position()) return metres(0);
  return geodesic_distance(*series.position(), where);
}

const WindSeries* nearest(const Facts& facts, Position where) {
  const auto found = std::ranges::min_element(
      facts.winds, {}, [where](const WindSeries& series) { return distance_from(series, where); });
  return found == facts.winds.end() ? nullptr : &*found;
}

template <class T>
Known<T> from_nearest(const Facts& facts, Position where, Instant at,
                      Known<T> (WindSeries::*figure)(Instant) const) {
  const WindSeries* series = nearest(facts, where);
  if (series == nullptr) return not_known(facts.why_no_wind());
  return (series->*figure)(at);
}

}  // namespace

Known<Wind> wind_here(const Facts& facts, Position where, Instant at) {
  if (facts.winds.size() < 2) return from_nearest(facts, where, at, &WindSeries::wind);
  Velocity sum{metres_per_second(0), metres_per_second(0)};
  double weights = 0;
  for (const WindSeries& series : facts.winds) {
    const Known<Wind> wind = series.wind(at);
    if (!wind.has_value()) return wind;
    const double near = std::max(distance_from(series, where), kNearest) / kNearest;
    sum = sum + velocity(wind->from, wind->speed) * (1 / (near * near));
    weights += 1 / (near * near);
  }
  const Velocity mean = sum * (1 / weights);
  return Wind{WindFrom{bearing_of(mean).reversed()}, speed_of(mean)};
}

std::optional<Known<Wind>> wind_at_station(const Facts& facts, const std::string& station,
                                           Instant at) {
  const Known<const TideStation*> found = facts.tide(station);
  if (facts.winds.empty()) return std::nullopt;
  if (found.has_value() && found.value()->position().has_value()) {
    return wind_here(facts, *found.value()->position(), at);
  }
  return facts.winds.front().wind(at);
}

Known<Speed> gust_here(const Facts& facts, Position where, Instant at) {
  return from_nearest(facts, where, at, &WindSeries::gust);
}
Known<Length> wave_here(const Facts& facts, Position where, Instant at) {
  return from_nearest(facts, where, at, &WindSeries::wave);
}
const WindSeries* nearest_with_pressure(const Facts& facts, Position where) {
  const WindSeries* best = nullptr;
  for (const WindSeries& series : facts.winds) {
    if (!series.gives_pressure()) continue;
    if (best == nullptr || distance_from(series, where) < distance_from(*best, where)) {
      best = &series;
    }
  }
  return best;
}
Known<Length> visibility_here(const Facts& facts, Position where, Instant at) {
  return from_nearest(facts, where, at, &WindSeries::visibility);
}
Known<double> thunder_here(const Facts& facts, Position where, Instant at) {
  return from_nearest(facts, where, at, &WindSeries::thunder);
}

}  // namespace passage_brief
