#include "fetch/wanted_facts.h"

#include <algorithm>
#include <chrono>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "facts/tide/high_low_curve.h"
#include "facts/tide/read_tide_station.h"
#include "fetch/asked.h"
#include "fetch/cached_replies.h"
#include "fetch/co_ops_currents_provider.h"
#include "fetch/co_ops_levels_provider.h"
#include "fetch/co_ops_predictions_provider.h"
#include "fetch/co_ops_station_provider.h"
#include "fetch/nws_alerts_provider.h"
#include "fetch/nws_grid_provider.h"
#include "fetch/nws_hourly_provider.h"
#include "fetch/nws_points_provider.h"
#include "fetch/open_meteo_provider.h"
#include "fetch/sources.h"
#include "reading/problem.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using std::chrono::hours;

/// Where a cell lies may change any day; without the answer an old cell serves for a while.
constexpr KeepFor kKeepPoints{hours(24), hours(24 * 30)};
constexpr std::chrono::days kBefore{1};
constexpr std::chrono::days kAfter{10};

Span weeks_around(Instant departs) {
  const auto week = std::chrono::floor<std::chrono::weeks>(departs);
  return {week - kBefore, week + std::chrono::weeks(1) + kAfter};
}

bool uses(const TideSource& tide, TideFigures figures) {
  return std::ranges::find(tide.from, figures) != tide.from.end();
}

/// A look that only wants to know whether the provider believes the reply.
template <class Read>
Look look_with(const Read& read) {
  return [read](const std::string& body) -> std::expected<Looked, Problems> {
    const auto value = read(body);
    if (!value) return std::unexpected(value.error());
    return Looked{std::nullopt};
  };
}

/// Forecasts say when they were issued.
template <class Read>
Look look_at_forecast(const Read& read) {
  return [read](const std::string& body) -> std::expected<Looked, Problems> {
    const auto series = read(body);
    if (!series) return std::unexpected(series.error());
    return Looked{series->source().issued};
  };
}

}  // namespace

Asked asked_of(const TideSource& source) {
  Asked asked;
  asked.name = source.name;
  asked.station = source.station;
  asked.zone = source.zone;
  asked.height_uncertainty = source.uncertainty;
  return asked;
}

Asked asked_above_plane(const TideSource& source) {
  Asked asked = asked_of(source);
  asked.datum = kPlaneAsked;
  asked.height_unit = metres(1);
  asked.gmt = true;
  return asked;
}

Asked asked_of(const CurrentSource& source) {
  Asked asked;
  asked.name = source.name;
  asked.station = source.station;
  asked.zone = source.zone;
  asked.speed_uncertainty = source.uncertainty;
  asked.gmt = true;
  return asked;
}

Asked asked_at(Position place) {
  Asked asked;
  asked.place = place;
  return asked;
}

Asked asked_for_reference(const std::string& station) {
  Asked asked;
  asked.name = "CO-OPS station " + station;
  asked.station = station;
  return asked;
}

std::expected<TideStationFile, Problems> predictions_of(TideFigures figures, const Asked& asked,
                                                        const std::string& body) {
  const std::string name = "predictions at " + asked.station;
  auto station = co_ops_predictions(name, body, asked);
  if (!station) return station;
  const bool events =
      station->parts.curve && std::holds_alternative<HighLowCurve>(*station->parts.curve);
  if (events == (figures == TideFigures::highs_and_lows)) return station;
  return std::unexpected(
      Problems{{name, "/predictions", "are not the " + std::string(in_words(figures))}});
}

std::expected<WindSeries, Problems> cell_series(WindService service, const std::string& body,
                                                Position place) {
  return service == WindService::nws ? nws_grid("grid", body, asked_at(place))
                                     : nws_hourly("hourly forecast", body, asked_at(place));
}

std::string_view in_words(TideFigures figures) {
  switch (figures) {
    case TideFigures::constants:
      return "constants";
    case TideFigures::predictions:
      return "predictions each 6 minutes";
    case TideFigures::highs_and_lows:
      return "highs and lows";
  }
  return {};
}

std::string_view in_words(WindService service) {
  switch (service) {
    case WindService::nws:
      return "US National Weather Service";
    case WindService::nws_hourly:
      return "US National Weather Service, hourly forecast";
    case WindService::open_meteo:
      return "Open-Meteo";
  }
  return {};
}

WantedFacts::WantedFacts(const Sources& sources, Instant departs)
    : sources_(sources), span_(weeks_around(departs)) {}

std::vector<WantedReply> WantedFacts::all() const {
  std::vector<WantedReply> all;
  for (const TideSource& tide : sources_.tides) {
    all.push_back(wanted_tide(tide));
    for (const TideFigures figures : tide.from) {
      if (figures != TideFigures::constants) all.push_back(wanted_predictions(tide, figures));
    }
    if (tide.observed) all.push_back(wanted_levels(tide));
  }
  for (const CurrentSource& current : sources_.currents) all.push_back(wanted_current(current));
  for (const WindSource& wind : sources_.winds) put_wind(wind, all);
  for (const std::string& zone : sources_.alerts) {
    all.push_back({alerts(zone), sources_.keep.alerts, look_with([zone](const std::string& body) {
                     return nws_alerts("alerts", body, zone);
                   })});
  }
  return all;
}

WantedReply WantedFacts::wanted_predictions(const TideSource& tide, TideFigures figures) const {
  return {predictions(tide, figures), sources_.keep.predictions,
          look_with([figures, asked = asked_above_plane(tide)](const std::string& body) {
            return predictions_of(figures, asked, body);
          })};
}

WantedReply WantedFacts::wanted_levels(const TideSource& tide) const {
  return {levels(tide), sources_.keep.levels,
          [asked = asked_above_plane(tide)](
              const std::string& body) -> std::expected<Looked, Problems> {
            const auto observed = co_ops_levels("levels at " + asked.station, body, asked);
            if (!observed) return std::unexpected(observed.error());
            return Looked{observed->levels.back().at};
          }};
}

WantedReply WantedFacts::wanted_tide(const TideSource& tide) const {
  const Asked asked = asked_of(tide);
  const auto read = [asked](const std::string& body) {
    return co_ops_station("station " + asked.station, body, asked);
  };
  const bool works_out = uses(tide, TideFigures::constants);
  return {station(tide.station), sources_.keep.stations, look_with(read),
          [this, read, works_out](const std::string& body) -> std::vector<WantedReply> {
            const auto station = read(body);
            if (!works_out || !station || !station->subordinate_to) return {};
            return {wanted_reference(station->subordinate_to->reference)};
          }};
}

WantedReply WantedFacts::wanted_reference(const std::string& number) const {
  return {station(number), sources_.keep.stations, look_with([number](const std::string& body) {
            return co_ops_station("station " + number, body, asked_for_reference(number));
          })};
}

WantedReply WantedFacts::wanted_current(const CurrentSource& current) const {
  return {this->current(current), sources_.keep.predictions,
          look_with([asked = asked_of(current)](const std::string& body) {
            return co_ops_currents("currents at " + asked.station, body, asked);
          })};
}

void WantedFacts::put_wind(const WindSource& wind, std::vector<WantedReply>& all) const {
  const Position place = wind.position;
  const auto of_nws = [](WindService service) { return service != WindService::open_meteo; };
  if (std::ranges::any_of(wind.from, of_nws)) {
    const auto read = [place](const std::string& body) { return nws_point("points", body, place); };
    all.push_back({points(wind), kKeepPoints, look_with(read),
                   [this, read, &wind](const std::string& body) -> std::vector<WantedReply> {
                     const auto point = read(body);
                     if (!point) return {};
                     return wanted_of_cell(*point, wind);
                   }});
  }
  if (std::ranges::all_of(wind.from, of_nws)) return;
  const auto look = look_at_forecast([place](const std::string& body) {
    return passage_brief::open_meteo("Open-Meteo", body, asked_at(place));
  });
  all.push_back({this->open_meteo(wind), sources_.keep.winds, look});
  all.push_back({this->open_meteo_marine(wind), sources_.keep.winds, look});
}

std::vector<WantedReply> WantedFacts::wanted_of_cell(const NwsPoint& point,
                                                     const WindSource& wind) const {
  std::vector<WantedReply> all;
  for (const WindService service : wind.from) {
    if (service == WindService::open_meteo) continue;
    all.push_back({cell(point, service), sources_.keep.winds,
                   look_at_forecast([service, place = wind.position](const std::string& body) {
                     return cell_series(service, body, place);
                   })});
  }
  return all;
}

std::string WantedFacts::station(const std::string& number) const {
  return sources_.services.co_ops + co_ops_station_path(number);
}

std::string WantedFacts::predictions(const TideSource& tide, TideFigures figures) const {
  const auto interval = figures == TideFigures::predictions ? PredictionInterval::six_minutes
                                                            : PredictionInterval::high_low;
  return sources_.services.co_ops +
         co_ops_predictions_path(tide.station, kPlaneAsked, interval, span_);
}

std::string WantedFacts::levels(const TideSource& tide) const {
  return sources_.services.co_ops + co_ops_levels_path(tide.station, kPlaneAsked);
}

std::string WantedFacts::current(const CurrentSource& source) const {
  return sources_.services.co_ops + co_ops_currents_path(source.station, source.bin, span_);
}

std::string WantedFacts::points(const WindSource& wind) const {
  return sources_.services.nws + nws_points_path(wind.position);
}

std::string WantedFacts::cell(const NwsPoint& point, WindService service) const {
  return sources_.services.nws +
         (service == WindService::nws ? nws_grid_path(point) : nws_hourly_path(point));
}

std::string WantedFacts::open_meteo(const WindSource& wind) const {
  return sources_.services.open_meteo + open_meteo_forecast_path(wind.position);
}

std::string WantedFacts::open_meteo_marine(const WindSource& wind) const {
  return sources_.services.open_meteo_marine + open_meteo_marine_path(wind.position);
}

std::string WantedFacts::alerts(const std::string& zone) const {
  return sources_.services.nws + nws_alerts_path(zone);
}

}  // namespace passage_brief
