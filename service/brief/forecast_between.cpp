#include "brief/forecast_between.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "facts/facts.h"
#include "facts/weather/wind_series.h"
#include "passage/weather_here.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

// Weaker winds push nothing; shares of them say nothing.
constexpr Speed kLightAir = knots(1);

struct WindAt {
  Instant at;
  Known<Wind> wind;
};

std::vector<WindAt> winds_of(const WindSeries& series, Instant from, Instant to) {
  std::vector<WindAt> all{{from, series.wind(from)}};
  const auto& hours = series.hours();
  for (auto hour = std::ranges::upper_bound(hours, from, {}, &WindHour::at);
       hour != hours.end() && hour->at < to; ++hour) {
    all.push_back({hour->at, series.wind(hour->at)});
  }
  all.push_back({to, series.wind(to)});
  return all;
}

Velocity blowing(const Wind& wind) { return velocity(wind.from, wind.speed); }

WindStray stray_of(const std::vector<WindAt>& winds) {
  WindStray stray;
  const WindAt& first = winds.front();
  const WindAt& last = winds.back();
  const Speed stronger = std::max({first.wind->speed, last.wind->speed, kLightAir});
  for (std::size_t i = 0; i < winds.size(); ++i) {
    const WindAt& here = winds[i];
    const double part =
        last.at == first.at ? 0 : in_seconds(here.at - first.at) / in_seconds(last.at - first.at);
    const Velocity even = blowing(*first.wind) * (1 - part) + blowing(*last.wind) * part;
    const Speed off = speed_of(blowing(*here.wind) - even);
    stray.most = std::max(stray.most, off);
    stray.share = std::max(stray.share, off / stronger);
    if (i == 0) continue;
    const double turned_deg =
        std::abs((here.wind->from.bearing - winds[i - 1].wind->from.bearing).in_degrees());
    stray.veers = stray.veers + degrees(turned_deg);
  }
  return stray;
}

}  // namespace

std::optional<WindStray> wind_stray(const Facts& facts, Instant from, Instant to) {
  if (share_a_place(facts)) return std::nullopt;
  WindStray most;
  for (const WindSeries& series : facts.winds) {
    const std::vector<WindAt> winds = winds_of(series, std::min(from, to), std::max(from, to));
    const auto known =
        std::ranges::count_if(winds, [](const WindAt& here) { return here.wind.has_value(); });
    if (known == 0) continue;
    if (static_cast<std::size_t>(known) < winds.size()) return std::nullopt;
    const WindStray one = stray_of(winds);
    most = {std::max(most.most, one.most), std::max(most.share, one.share),
            std::max(most.veers, one.veers)};
  }
  return most;
}

Length wave_range(const Facts& facts, Span span) {
  Length range = metres(0);
  for (const WindSeries& series : facts.winds) {
    const auto& hours = series.hours();
    std::optional<Length> least;
    std::optional<Length> greatest;
    bool all_known = true;
    for (std::size_t i = 0; i < hours.size(); ++i) {
      const bool before = i + 1 < hours.size() && hours[i + 1].at <= span.begin;
      const bool after = i > 0 && hours[i - 1].at >= span.end;
      if (before || after) continue;
      all_known = all_known && hours[i].wave.has_value();
      if (!hours[i].wave) continue;
      least = std::min(least.value_or(*hours[i].wave), *hours[i].wave);
      greatest = std::max(greatest.value_or(*hours[i].wave), *hours[i].wave);
    }
    if (least && !all_known) return kInfiniteLength;
    if (least) range = std::max(range, *greatest - *least);
  }
  return range;
}

}  // namespace passage_brief
