#include "fetch/gather_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "facts/facts.h"
#include "facts/tide/read_tide_station.h"
#include "fetch/asked.h"
#include "fetch/cached_replies.h"
#include "fetch/co_ops_currents_provider.h"
#include "fetch/co_ops_levels_provider.h"
#include "fetch/co_ops_station_provider.h"
#include "fetch/compare_forecasts.h"
#include "fetch/nws_alerts_provider.h"
#include "fetch/nws_grid_provider.h"
#include "fetch/nws_points_provider.h"
#include "fetch/observed_difference.h"
#include "fetch/open_meteo_provider.h"
#include "fetch/sources.h"
#include "plan/plan.h"
#include "reading/problem.h"
#include "units/known.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using What = NotFetched::What;
using std::chrono::hours;

/// Where a cell lies may change any day; without the answer an old cell serves for a while.
constexpr KeepFor kKeepPoints{hours(24), hours(24 * 30)};
/// Predictions around a departure: enough for the way and for waiting a tide.
constexpr hours kBefore{24};
constexpr hours kAfter{72};
/// Hours of the passage in which two forecasts are compared.
constexpr hours kPassage{24};

Asked asked_of(const TideSource& source) {
  Asked asked;
  asked.name = source.name;
  asked.station = source.station;
  asked.zone = source.zone;
  asked.height_uncertainty = source.uncertainty;
  return asked;
}

/// The plane that observed levels are asked above; a station with another is not compared.
constexpr const char* kPlane = "MLLW";

Asked asked_for_levels(const TideSource& source) {
  Asked asked = asked_of(source);
  asked.datum = kPlane;
  asked.height_unit = metres(1);
  return asked;
}

Asked asked_of(const CurrentSource& source) {
  Asked asked;
  asked.name = source.name;
  asked.station = source.station;
  asked.zone = source.zone;
  asked.speed_uncertainty = source.uncertainty;
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

/// A look that only wants to know whether the provider believes the reply.
template <class Read>
Look look_with(const Read& read) {
  return [read](const std::string& body) -> std::expected<Looked, Problems> {
    const auto value = read(body);
    if (!value) return std::unexpected(value.error());
    return Looked{std::nullopt};
  };
}

/// Forecasts say when they were issued, and must tell the weather of the departure.
template <class Read>
Look look_at_forecast(const Read& read) {
  return [read](const std::string& body) -> std::expected<Looked, Problems> {
    const auto series = read(body);
    if (!series) return std::unexpected(series.error());
    return Looked{series->source().issued};
  };
}

class Gatherer {
 public:
  Gatherer(const Plan& plan, const Sources& sources, Speed forecasts_differ)
      : plan_(plan),
        sources_(sources),
        forecasts_differ_(forecasts_differ),
        span_{plan.departure.at - kBefore, plan.departure.at + kAfter} {}

  [[nodiscard]] std::vector<WantedReply> wanted() const {
    std::vector<WantedReply> all;
    for (const TideSource& tide : sources_.tides) {
      all.push_back(wanted_tide(tide));
      if (tide.observed) all.push_back(wanted_levels(tide));
    }
    for (const CurrentSource& current : sources_.currents) all.push_back(wanted_current(current));
    for (const WindSource& wind : sources_.winds) {
      for (const WindService service : wind.from) put_wind(wind, service, all);
    }
    for (const std::string& zone : sources_.alerts) {
      all.push_back(
          {alerts_address(zone), sources_.keep.alerts, look_with([zone](const std::string& body) {
             return nws_alerts("alerts", body, zone);
           })});
    }
    return all;
  }

  [[nodiscard]] GatheredFacts facts(const ReplyCopies& copies) const {
    GatheredFacts gathered;
    for (const TideSource& tide : sources_.tides) put_tide(tide, copies, gathered);
    for (const CurrentSource& current : sources_.currents) put_current(current, copies, gathered);
    for (const WindSource& wind : sources_.winds) put_winds(wind, copies, gathered);
    for (const std::string& zone : sources_.alerts) put_alerts(zone, copies, gathered);
    return gathered;
  }

 private:
  // Addresses.

  [[nodiscard]] std::string station_address(const std::string& station) const {
    return sources_.services.co_ops + co_ops_station_path(station);
  }
  [[nodiscard]] std::string current_address(const CurrentSource& source) const {
    return sources_.services.co_ops + co_ops_currents_path(source.station, source.bin, span_);
  }
  [[nodiscard]] std::string points_address(const WindSource& wind) const {
    return sources_.services.nws + nws_points_path(wind.position);
  }
  [[nodiscard]] std::string alerts_address(const std::string& zone) const {
    return sources_.services.nws + nws_alerts_path(zone);
  }

  [[nodiscard]] std::string levels_address(const TideSource& tide) const {
    return sources_.services.co_ops + co_ops_levels_path(tide.station, kPlane);
  }

  // What is wanted.

  [[nodiscard]] WantedReply wanted_levels(const TideSource& tide) const {
    return {levels_address(tide), sources_.keep.levels,
            [asked = asked_for_levels(tide)](
                const std::string& body) -> std::expected<Looked, Problems> {
              const auto observed = co_ops_levels("levels at " + asked.station, body, asked);
              if (!observed) return std::unexpected(observed.error());
              return Looked{observed->levels.back().at};
            }};
  }

  [[nodiscard]] WantedReply wanted_tide(const TideSource& tide) const {
    const Asked asked = asked_of(tide);
    const auto read = [asked](const std::string& body) {
      return co_ops_station("station " + asked.station, body, asked);
    };
    return {station_address(tide.station), sources_.keep.stations, look_with(read),
            [this, read](const std::string& body) -> std::vector<WantedReply> {
              const auto station = read(body);
              if (!station || !station->subordinate_to) return {};
              return {wanted_reference(station->subordinate_to->reference)};
            }};
  }

  [[nodiscard]] WantedReply wanted_reference(const std::string& station) const {
    return {station_address(station), sources_.keep.stations,
            look_with([station](const std::string& body) {
              return co_ops_station("station " + station, body, asked_for_reference(station));
            })};
  }

  [[nodiscard]] WantedReply wanted_current(const CurrentSource& current) const {
    return {current_address(current), sources_.keep.predictions,
            look_with([asked = asked_of(current)](const std::string& body) {
              return co_ops_currents("currents at " + asked.station, body, asked);
            })};
  }

  void put_wind(const WindSource& wind, WindService service, std::vector<WantedReply>& all) const {
    const Position place = wind.position;
    if (service == WindService::nws) {
      all.push_back({points_address(wind), kKeepPoints, look_with([place](const std::string& body) {
                       return nws_point("points", body, place);
                     }),
                     [this, place](const std::string& body) -> std::vector<WantedReply> {
                       const auto point = nws_point("points", body, place);
                       if (!point) return {};
                       return {wanted_grid(*point, place)};
                     }});
      return;
    }
    const auto look = look_at_forecast([place](const std::string& body) {
      return open_meteo("Open-Meteo", body, asked_at(place));
    });
    all.push_back({sources_.services.open_meteo + open_meteo_forecast_path(place),
                   sources_.keep.winds, look});
    all.push_back({sources_.services.open_meteo_marine + open_meteo_marine_path(place),
                   sources_.keep.winds, look});
  }

  [[nodiscard]] WantedReply wanted_grid(const NwsPoint& point, Position place) const {
    return {sources_.services.nws + nws_grid_path(point), sources_.keep.winds,
            look_at_forecast([place](const std::string& body) {
              return nws_grid("grid", body, asked_at(place));
            })};
  }

  // What came of it.

  /// The copy of an address, or why there is none.
  static std::expected<ReplyCopy, std::string> copy_of(const ReplyCopies& copies,
                                                       const std::string& address) {
    const auto found = copies.find(address);
    if (found == copies.end()) return std::unexpected("it was not asked for");
    return found->second;
  }

  void put_tide(const TideSource& tide, const ReplyCopies& copies, GatheredFacts& out) const {
    const auto copy = copy_of(copies, station_address(tide.station));
    if (!copy) return out.not_fetched.push_back({What::tide, tide.name, copy.error()});
    auto station = co_ops_station("live: station " + tide.station, copy->body, asked_of(tide));
    if (!station) return;
    station->parts.source.note = copy->note;
    if (station->subordinate_to &&
        !put_reference(station->subordinate_to->reference, tide.name, copies, out)) {
      return;
    }
    if (tide.observed && !station->subordinate_to) put_level(tide, *station, copies, out);
    out.tides.push_back(*std::move(station));
  }

  /// What the gauge reads beside the prediction; that it could not be read is said beside the tide.
  void put_level(const TideSource& tide, TideStationFile& station, const ReplyCopies& copies,
                 GatheredFacts& out) const {
    std::string& note = station.parts.source.note;
    const auto copy = copy_of(copies, levels_address(tide));
    const auto observed =
        copy ? co_ops_levels("live: levels", copy->body, asked_for_levels(tide))
             : std::expected<ObservedLevels, Problems>(std::unexpected(Problems{}));
    if (!observed) {
      note = joined(note, "its gauge could not be read: " +
                              (copy ? std::string("the reply is none") : copy.error()));
      return;
    }
    if (station.parts.chart_datum != Known<std::string>(kPlane)) return;
    auto alert = alert_of_level(TideStation(station.parts), *observed);
    note = joined(note, alert ? alert->headline
                              : "its gauge agrees with the prediction at " +
                                    to_rfc3339(observed->levels.back().at));
    if (!alert) return;
    alert->note = copy->note;
    out.alerts.push_back(*std::move(alert));
  }

  /// Whether the reference station is there; else the subordinate one is not known either.
  bool put_reference(const std::string& number, const std::string& whose, const ReplyCopies& copies,
                     GatheredFacts& out) const {
    const auto same = [&](const TideStationFile& file) { return file.number == number; };
    if (std::ranges::any_of(out.tides, same)) return true;
    const auto copy = copy_of(copies, station_address(number));
    if (!copy) {
      out.not_fetched.push_back(
          {What::tide, whose, "its reference station " + number + ": " + copy.error()});
      return false;
    }
    auto station =
        co_ops_station("live: station " + number, copy->body, asked_for_reference(number));
    if (!station) return false;
    station->parts.source.note = copy->note;
    out.tides.push_back(*std::move(station));
    return true;
  }

  void put_current(const CurrentSource& source, const ReplyCopies& copies,
                   GatheredFacts& out) const {
    const auto copy = copy_of(copies, current_address(source));
    if (!copy) return out.not_fetched.push_back({What::current, source.name, copy.error()});
    Asked asked = asked_of(source);
    asked.note = copy->note;
    auto station = co_ops_currents("live: currents at " + source.station, copy->body, asked);
    if (station) out.currents.push_back(*std::move(station));
  }

  [[nodiscard]] std::expected<WindSeries, std::string> nws_series(const WindSource& wind,
                                                                  const ReplyCopies& copies) const {
    const auto points = copy_of(copies, points_address(wind));
    if (!points) return std::unexpected(points.error());
    const auto point = nws_point("points", points->body, wind.position);
    if (!point) return std::unexpected("no cell is known for the place");
    const auto grid = copy_of(copies, sources_.services.nws + nws_grid_path(*point));
    if (!grid) return std::unexpected(grid.error());
    const auto series = nws_grid("live: grid", grid->body, asked_at(wind.position));
    if (!series) return std::unexpected("the grid cannot be read");
    return with_note(*series, grid->note);
  }

  [[nodiscard]] std::expected<WindSeries, std::string> open_meteo_series(
      const WindSource& wind, const ReplyCopies& copies) const {
    const Asked asked = asked_at(wind.position);
    const auto forecast =
        copy_of(copies, sources_.services.open_meteo + open_meteo_forecast_path(wind.position));
    const auto marine = copy_of(
        copies, sources_.services.open_meteo_marine + open_meteo_marine_path(wind.position));
    if (!forecast) return std::unexpected(forecast.error());
    const auto series = open_meteo("live: Open-Meteo", forecast->body, asked);
    if (!series) return std::unexpected("the forecast cannot be read");
    std::string note = series->source().note;
    if (!forecast->note.empty()) note += "; " + forecast->note;
    if (!marine) return with_note(*series, note + "; no waves: " + marine.error());
    const auto waves = open_meteo("live: Open-Meteo", marine->body, asked);
    if (!marine->note.empty()) note += "; waves: " + marine->note;
    return with_note(waves ? with_waves(*series, *waves) : *series, note);
  }

  void put_winds(const WindSource& wind, const ReplyCopies& copies, GatheredFacts& out) const {
    std::vector<WindSeries> good;
    std::string failed;
    for (const WindService service : wind.from) {
      auto series =
          service == WindService::nws ? nws_series(wind, copies) : open_meteo_series(wind, copies);
      if (series) {
        good.push_back(*std::move(series));
      } else {
        failed +=
            fmt::format("{}{}: {}", failed.empty() ? "" : "; ",
                        service == WindService::nws ? "US National Weather Service" : "Open-Meteo",
                        series.error());
      }
    }
    if (good.empty()) return out.not_fetched.push_back({What::wind, wind.name, failed});
    WindSeries used = good.front();
    if (!failed.empty()) used = with_note(used, joined(used.source().note, failed));
    if (good.size() > 1) used = compared(used, good[1]);
    out.winds.push_back(std::move(used));
  }

  static std::string joined(const std::string& a, const std::string& b) {
    return a.empty() ? b : a + "; " + b;
  }

  [[nodiscard]] WindSeries compared(const WindSeries& used, const WindSeries& other) const {
    const Instant departs = plan_.departure.at;
    const auto difference =
        greatest_difference(used, other, {departs - hours(1), departs + kPassage});
    if (!difference || *difference <= forecasts_differ_) return used;
    const std::string words =
        fmt::format("{} and {} differ by {:.0f} kn: the worse is used", used.source().from,
                    other.source().from, in_knots(*difference));
    return with_note(worse_of(used, other),
                     joined(joined(used.source().note, other.source().note), words));
  }

  void put_alerts(const std::string& zone, const ReplyCopies& copies, GatheredFacts& out) const {
    const auto copy = copy_of(copies, alerts_address(zone));
    if (!copy) return out.not_fetched.push_back({What::alerts, "zone " + zone, copy.error()});
    auto alerts = nws_alerts("live: alerts", copy->body, zone);
    if (!alerts) return;
    if (!copy->note.empty()) {
      out.not_fetched.push_back({What::alerts, "zone " + zone, copy->note});
    }
    for (Alert& alert : *alerts) {
      const auto same = [&](const Alert& other) { return other.link == alert.link; };
      if (!alert.link.empty() && std::ranges::any_of(out.alerts, same)) continue;
      alert.note = copy->note;
      out.alerts.push_back(std::move(alert));
    }
  }

  const Plan& plan_;
  const Sources& sources_;
  Speed forecasts_differ_;
  Span span_;
};

}  // namespace

GatheredFacts gather_facts(const Plan& plan, const Sources& sources, Speed forecasts_differ,
                           Instant now, Transport& transport, Store& store) {
  const Gatherer gatherer(plan, sources, forecasts_differ);
  return gatherer.facts(replies_for(gatherer.wanted(), now, sources.within, transport, store));
}

void add_gathered(GatheredFacts gathered, Facts& facts) {
  for (CurrentStation& station : gathered.currents) {
    if (!facts.current(station.name())) facts.currents.push_back(std::move(station));
  }
  for (WindSeries& series : gathered.winds) facts.winds.push_back(std::move(series));
  for (Alert& alert : gathered.alerts) facts.alerts.push_back(std::move(alert));
  for (NotFetched& missing : gathered.not_fetched) facts.not_fetched.push_back(std::move(missing));
}

}  // namespace passage_brief
