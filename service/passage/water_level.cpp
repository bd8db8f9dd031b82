#include "passage/water_level.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/facts.h"
#include "facts/tide/seen_level.h"
#include "facts/waterway/feature.h"
#include "passage/figure.h"
#include "passage/margins.h"
#include "passage/weather_here.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr Length kForEachHectopascal = centimetres(1);
constexpr Interval kJustBefore{1};

Known<TideHeight> above_plane(const Facts& facts, const FeatureStations& stations,
                              const Known<TideHeight>& height) {
  if (stations.chart_datum.empty()) return not_known("no chart datum is stated for the depths");
  const Known<TideHeight> plane =
      join([&](const TideStation* station) { return station->datum(stations.chart_datum); },
           facts.tide(stations.tide));
  return join([](TideHeight level, TideHeight zero) { return TideHeight::above(level - zero); },
              height, plane);
}

bool is_level(const SeenLevel& seen) { return seen.by != ObservedBy::sounder; }

/// Seen at that station a short time ago.
bool is_fresh(const SeenLevel& seen, const Margins& margins, const std::string& station,
              Instant at) {
  return may_favour(seen) && seen.station == station && at >= seen.at &&
         at < seen.at + margins.observed_gain;
}

/// What one reading takes off, >= 0.
Length against_her(LevelFor what, const SeenLevel& seen, const Margins& margins, Instant at) {
  if (what == LevelFor::clearances) {
    return is_level(seen) ? std::max(seen.above_predicted, metres(0)) : metres(0);
  }
  const Length lacks = std::max(-seen.above_predicted, metres(0));
  if (!seen.wind_over || at <= *seen.wind_over) return lacks;
  const double gone = in_seconds(at - *seen.wind_over) / in_seconds(margins.observed_loss);
  return lacks * std::max(0.0, 1 - gone);
}

/// What one fresh reading adds, >= 0.
Length in_her_favour(LevelFor what, const SeenLevel& seen, const Margins& margins, Instant at) {
  const Length gain = what == LevelFor::depths ? seen.above_predicted : -seen.above_predicted;
  const double left = 1 - in_seconds(at - seen.at) / in_seconds(margins.observed_gain);
  return std::max(gain, metres(0)) * std::clamp(left, 0.0, 1.0);
}

/// The forecast that gives pressure nearest to the station; the first such where it states no
/// position; null where none does.
const WindSeries* forecast_of_pressure(const Facts& facts, const std::string& station) {
  const Known<const TideStation*> found = facts.tide(station);
  if (found.has_value() && found.value()->position().has_value()) {
    return nearest_with_pressure(facts, *found.value()->position());
  }
  const auto first = std::ranges::find_if(facts.winds, &WindSeries::gives_pressure);
  return first == facts.winds.end() ? nullptr : &*first;
}

/// Of the forecast pressure, >= 0; where it is given but not for that time, of the worst given.
Length pressure_against_her(LevelFor what, const Facts& facts, const Margins& margins,
                            const std::string& station, Instant at) {
  const WindSeries* series = forecast_of_pressure(facts, station);
  if (series == nullptr) return metres(0);
  const Pressure worst =
      what == LevelFor::depths ? *series->highest_pressure() : *series->lowest_pressure();
  const Pressure pressure = series->pressure(at).value_or(worst);
  const double more = in_hectopascals(pressure - margins.mean_pressure);
  return kForEachHectopascal * std::max(0.0, what == LevelFor::depths ? more : -more);
}

/// Whether the wind is strong anywhere in the span, or there is a forecast and it is not known.
/// Between its hours a wind is no stronger than at the stronger of them.
bool wind_may_rise(const Facts& facts, const Margins& margins, const std::string& station,
                   Span over) {
  const auto strong = [&](Instant at) {
    const auto wind = wind_at_station(facts, station, at);
    return wind && (!wind->has_value() || wind->value().speed >= margins.set_down_wind);
  };
  if (strong(over.begin) || strong(over.end)) return true;
  return std::ranges::any_of(facts.winds, [&](const WindSeries& series) {
    return std::ranges::any_of(series.hours(), [&](const WindHour& hour) {
      return hour.at > over.begin && hour.at < over.end && strong(hour.at);
    });
  });
}

bool nothing_beside(const Facts& facts) {
  return facts.observed.empty() && std::ranges::none_of(facts.winds, &WindSeries::gives_pressure);
}

/// Times of a span between which what is put to the prediction runs evenly, both ends among them.
std::vector<Instant> even_between(const Facts& facts, const Margins& margins, Span span) {
  std::vector<Instant> all{span.begin, span.end};
  const auto add = [&](Instant at) {
    if (at > span.begin && at < span.end) all.push_back(at);
  };
  for (const SeenLevel& seen : facts.observed) {
    for (const Instant joint : {seen.at, seen.at + margins.observed_gain}) {
      add(joint - kJustBefore);
      add(joint);
    }
    if (!seen.wind_over) continue;
    add(*seen.wind_over);
    add(*seen.wind_over + margins.observed_loss);
  }
  for (const WindSeries& series : facts.winds) {
    if (!series.gives_pressure()) continue;
    const auto& hours = series.hours();
    auto hour = std::ranges::lower_bound(hours, span.begin, {}, &WindHour::at);
    if (hour != hours.begin()) --hour;
    for (; hour != hours.end() && hour->at < span.end; ++hour) {
      // Where the next hour gives no pressure it is not known at once.
      for (const Interval off : {-kJustBefore, Interval(0), kJustBefore}) add(hour->at + off);
    }
  }
  return all;
}

Known<TideHeight> lowest_with(LevelFor what, const Facts& facts, const Margins& margins,
                              const std::string& station, Span span) {
  return join(
      [&](const TideStation* s) {
        return join(
            [&](TideHeight lowest) {
              return lowest + beside_range(what, facts, margins, station, span).least;
            },
            s->lowest(span));
      },
      facts.tide(station));
}

Known<TideHeight> with_beside(LevelFor what, const Facts& facts, const Margins& margins,
                              const std::string& station, Instant at) {
  return join(
      [&](const TideStation* s) {
        return join(
            [&](TideHeight height) {
              return height + beside_prediction(what, facts, margins, station, at).whole();
            },
            s->height(at));
      },
      facts.tide(station));
}

}  // namespace

Known<TideHeight> level_at(const Facts& facts, const Margins& margins,
                           const FeatureStations& stations, const Known<Instant>& at) {
  return above_plane(facts, stations,
                     join(
                         [&](Instant t) {
                           return with_beside(LevelFor::depths, facts, margins, stations.tide, t);
                         },
                         at));
}

Known<TideHeight> lowest_level(const Facts& facts, const Margins& margins,
                               const FeatureStations& stations, const Known<Span>& span) {
  return above_plane(
      facts, stations,
      join([&](Span t) { return lowest_with(LevelFor::depths, facts, margins, stations.tide, t); },
           span));
}

Known<TideHeight> level_below_bridges(const Facts& facts, const Margins& margins,
                                      const std::string& station, Instant at) {
  return with_beside(LevelFor::clearances, facts, margins, station, at);
}

Known<TideHeight> highest_below_bridges(const Facts& facts, const Margins& margins,
                                        const std::string& station, Span span) {
  if (span.begin == span.end) return level_below_bridges(facts, margins, station, span.begin);
  return join(
      [&](const TideStation* s) {
        return join(
            [&](TideHeight highest) {
              return highest +
                     beside_range(LevelFor::clearances, facts, margins, station, span).greatest;
            },
            s->highest(span));
      },
      facts.tide(station));
}

Known<TideHeight> lowest_below_bridges(const Facts& facts, const Margins& margins,
                                       const std::string& station, Span span) {
  return lowest_with(LevelFor::clearances, facts, margins, station, span);
}

LevelBeside beside_prediction(LevelFor what, const Facts& facts, const Margins& margins,
                              const std::string& station, Instant at) {
  LevelBeside beside{metres(0), metres(0)};
  if (nothing_beside(facts)) return beside;
  const double up = what == LevelFor::depths ? -1 : 1;  // what is against her
  Length against = metres(0);
  std::optional<Length> favour;
  for (const SeenLevel& seen : facts.observed) {
    against = std::max(against, against_her(what, seen, margins, at));
    if (!is_fresh(seen, margins, station, at)) continue;
    const Length gain = in_her_favour(what, seen, margins, at);
    favour = favour ? std::min(*favour, gain) : gain;
  }
  const Length pressure =
      favour ? metres(0) : pressure_against_her(what, facts, margins, station, at);
  if (against > metres(0) && against >= pressure) {
    beside.observed = against * up;
  } else if (favour) {
    beside.observed = *favour * -up;
  } else {
    beside.pressure = pressure * up;
  }
  return beside;
}

BesideRange beside_range(LevelFor what, const Facts& facts, const Margins& margins,
                         const std::string& station, Span span) {
  if (nothing_beside(facts)) return {metres(0), metres(0)};
  std::optional<BesideRange> range;
  for (const Instant at : even_between(facts, margins, span)) {
    const Length whole = beside_prediction(what, facts, margins, station, at).whole();
    if (!range) range = BesideRange{whole, whole};
    range->least = std::min(range->least, whole);
    range->greatest = std::max(range->greatest, whole);
  }
  return *range;
}

std::vector<WorkingInput> beside_inputs(LevelFor what, const Facts& facts, const Margins& margins,
                                        const std::string& station, Span over) {
  std::vector<WorkingInput> inputs;
  if (nothing_beside(facts)) return inputs;
  LevelBeside beside = beside_prediction(what, facts, margins, station, over.begin);
  for (const Instant at : even_between(facts, margins, over)) {
    const LevelBeside other = beside_prediction(what, facts, margins, station, at);
    const bool worse =
        what == LevelFor::depths ? other.whole() < beside.whole() : other.whole() > beside.whole();
    if (worse) beside = other;
  }
  if (beside.observed != metres(0)) {
    inputs.push_back({"of it, observed beside the prediction", beside.observed, "observed"});
  }
  if (beside.pressure != metres(0)) {
    inputs.push_back({"of it, air pressure (1 cm for each hPa)", beside.pressure, "forecast"});
  }
  return inputs;
}

Known<std::vector<ErrorTerm>> level_errors(const Facts& facts, const Margins& margins,
                                           const std::string& station, Span over) {
  const bool windy = wind_may_rise(facts, margins, station, over);
  const auto with_wind = [&](ErrorTerm own) {
    std::vector<ErrorTerm> errors{std::move(own)};
    if (windy) {
      errors.push_back({"water held up or down by wind", margins.set_down_error, "rules"});
    }
    return errors;
  };
  for (const SeenLevel& seen : facts.observed) {
    if (!is_fresh(seen, margins, station, over.begin) ||
        !is_fresh(seen, margins, station, over.end)) {
      continue;
    }
    // A wind that blew as the level was seen has its share in it.
    if (windy && wind_may_shift(facts, margins, station, seen.at)) {
      return std::vector<ErrorTerm>{{"observed level", margins.observed_error, "rules"}};
    }
    return with_wind({"observed level", margins.observed_error, "rules"});
  }
  return join(
      [&](const TideStation* s) {
        return join([&](Length sigma) { return with_wind({"tide", sigma, s->source().from}); },
                    s->uncertainty());
      },
      facts.tide(station));
}

bool wind_may_shift(const Facts& facts, const Margins& margins, const std::string& station,
                    Instant at) {
  const auto wind = wind_at_station(facts, station, at);
  return wind && wind->has_value() && wind->value().speed >= margins.set_down_wind;
}

BesideStrays beside_strays(const Facts& facts, const Margins& margins, const std::string& station,
                           Span span) {
  constexpr double kOneSided95 = 1.645;
  BesideStrays strays{metres(0), metres(0)};
  // Where what was seen gives way to the pressure, or this to that, the level may for a while stand
  // nearer the prediction than before and after.
  const bool by_turns =
      !facts.observed.empty() && std::ranges::any_of(facts.winds, &WindSeries::gives_pressure);
  for (const LevelFor what : {LevelFor::depths, LevelFor::clearances}) {
    BesideRange range = beside_range(what, facts, margins, station, span);
    if (by_turns) {
      range = {std::min(range.least, metres(0)), std::max(range.greatest, metres(0))};
    }
    strays.level = std::max(strays.level, range.greatest - range.least);
  }
  // Where an error begins or ends, all of it may come or go.
  if (wind_may_rise(facts, margins, station, span)) {
    strays.error += margins.set_down_error * kOneSided95;
  }
  const bool freshness_changes = std::ranges::any_of(facts.observed, [&](const SeenLevel& seen) {
    return is_level(seen) && seen.at <= span.end && seen.at + margins.observed_gain >= span.begin;
  });
  if (freshness_changes) {
    const Known<const TideStation*> found = facts.tide(station);
    const Length own =
        found.has_value() ? found.value()->uncertainty().value_or(metres(0)) : metres(0);
    strays.error += (margins.observed_error + own + margins.set_down_error) * kOneSided95;
  }
  return strays;
}

}  // namespace passage_brief
