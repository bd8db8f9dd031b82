#include "passage/weather_here.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <vector>

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

/// All that are as near as the nearest.
std::vector<const WindSeries*> nearest(const Facts& facts, Position where) {
  if (facts.winds.size() == 1) return {&facts.winds.front()};
  std::vector<Length> distances;
  for (const WindSeries& series : facts.winds) distances.push_back(distance_from(series, where));
  std::vector<const WindSeries*> all;
  for (std::size_t i = 0; i < distances.size(); ++i) {
    if (distances[i] > std::ranges::min(distances) + kNearest) continue;
    all.push_back(&facts.winds[i]);
  }
  return all;
}

bool of_one_place(const WindSeries& a, const WindSeries& b) {
  return !a.position() || !b.position() ||
         geodesic_distance(*a.position(), *b.position()) <= kNearest;
}

/// Of several forecasts for one place the strongest wind counts.
bool is_outblown(const Facts& facts, const WindSeries& series, const Wind& wind, Instant at) {
  return std::ranges::any_of(facts.winds, [&](const WindSeries& other) {
    if (&other == &series || !of_one_place(other, series)) return false;
    const Speed theirs = other.wind(at)->speed;
    return theirs > wind.speed || (theirs == wind.speed && &other < &series);
  });
}

/// Begin, end, and every hour of the series between.
std::vector<Instant> asked_at(const std::vector<WindHour>& hours, Span span) {
  std::vector<Instant> times{span.begin};
  for (auto hour = std::ranges::upper_bound(hours, span.begin, {}, &WindHour::at);
       hour != hours.end() && hour->at < span.end; ++hour) {
    times.push_back(hour->at);
  }
  if (span.end > span.begin) times.push_back(span.end);
  return times;
}

/// Of a figure that between two hours goes past neither. Of several forecasts for one place the
/// worse counts, but for those that do not give it in any hour.
template <class T, class Worse>
Known<T> worst_in(const Facts& facts, Position where, Span span,
                  Known<T> (WindSeries::*figure)(Instant) const, std::optional<T> WindHour::* given,
                  const Worse& worse) {
  std::vector<const WindSeries*> near = nearest(facts, where);
  if (near.empty()) return not_known(facts.why_no_wind());
  const auto gives = [given](const WindSeries* series) {
    return std::ranges::any_of(series->hours(),
                               [given](const WindHour& hour) { return (hour.*given).has_value(); });
  };
  if (near.size() > 1 && std::ranges::any_of(near, gives)) std::erase_if(near, std::not_fn(gives));
  std::optional<Known<T>> worst;
  for (const WindSeries* series : near) {
    for (const Instant at : asked_at(series->hours(), span)) {
      const Known<T> here = (series->*figure)(at);
      worst = worst ? join([&worse](const T& a, const T& b) { return worse(b, a) ? b : a; }, *worst,
                           here)
                    : here;
    }
  }
  return *worst;
}

}  // namespace

std::vector<Instant> forecast_times(const Facts& facts, Span span) {
  std::vector<Instant> all{span.begin, span.end};
  for (const WindSeries& series : facts.winds) {
    const std::vector<Instant> times = asked_at(series.hours(), span);
    all.insert(all.end(), times.begin(), times.end());
  }
  std::ranges::sort(all);
  const auto again = std::ranges::unique(all);
  all.erase(again.begin(), again.end());
  return all;
}

bool share_a_place(const Facts& facts) {
  return std::ranges::any_of(facts.winds, [&facts](const WindSeries& series) {
    return std::ranges::any_of(facts.winds, [&series](const WindSeries& other) {
      return &other != &series && of_one_place(other, series);
    });
  });
}

Known<Wind> wind_here(const Facts& facts, Position where, Instant at) {
  if (facts.winds.empty()) return not_known(facts.why_no_wind());
  if (facts.winds.size() == 1) return facts.winds.front().wind(at);
  Velocity sum{metres_per_second(0), metres_per_second(0)};
  double weights = 0;
  for (const WindSeries& series : facts.winds) {
    const Known<Wind> wind = series.wind(at);
    if (!wind.has_value()) return wind;
  }
  for (const WindSeries& series : facts.winds) {
    const Known<Wind> wind = series.wind(at);
    if (is_outblown(facts, series, *wind, at)) continue;
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

Known<Speed> wind_speed_here(const Facts& facts, Position where, Span span) {
  if (facts.winds.empty()) return not_known(facts.why_no_wind());
  Known<Speed> greatest = knots(0);
  for (const WindSeries& series : facts.winds) {
    for (const Instant at : asked_at(series.hours(), span)) {
      greatest = join([](Speed so_far, const Wind& wind) { return std::max(so_far, wind.speed); },
                      greatest, wind_here(facts, where, at));
    }
  }
  return greatest;
}
Known<Speed> gust_here(const Facts& facts, Position where, Span span) {
  return worst_in(facts, where, span, &WindSeries::gust, &WindHour::gust, std::greater{});
}
Known<Length> wave_here(const Facts& facts, Position where, Span span) {
  return worst_in(facts, where, span, &WindSeries::wave, &WindHour::wave, std::greater{});
}
Known<Length> visibility_here(const Facts& facts, Position where, Span span) {
  return worst_in(facts, where, span, &WindSeries::visibility, &WindHour::visibility, std::less{});
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
Known<double> thunder_here(const Facts& facts, Position where, Span span) {
  return worst_in(facts, where, span, &WindSeries::thunder, &WindHour::thunder, std::greater{});
}

}  // namespace passage_brief
