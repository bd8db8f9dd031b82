#include "fetch/gather_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "facts/facts.h"
#include "facts/tide/harmonic.h"
#include "facts/tide/read_tide_station.h"
#include "facts/tide/tide_station.h"
#include "fetch/asked.h"
#include "fetch/cached_replies.h"
#include "fetch/co_ops_currents_provider.h"
#include "fetch/co_ops_levels_provider.h"
#include "fetch/co_ops_station_provider.h"
#include "fetch/compare_forecasts.h"
#include "fetch/nws_alerts_provider.h"
#include "fetch/nws_points_provider.h"
#include "fetch/observed_difference.h"
#include "fetch/open_meteo_provider.h"
#include "fetch/sources.h"
#include "fetch/wanted_facts.h"
#include "plan/near_route.h"
#include "plan/plan.h"
#include "reading/problem.h"
#include "units/known.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using What = NotFetched::What;
using std::chrono::hours;

// Forecasts of seas that differ by more are not the same weather (our rule, no source).
constexpr Length kWavesDiffer = metres(0.5);

class Gatherer {
 public:
  Gatherer(const Plan& plan, const Sources& sources, Speed forecasts_differ, const Zone& zone)
      : plan_(plan),
        zone_(zone),
        sources_(sources),
        forecasts_differ_(forecasts_differ),
        wanted_(sources, plan.departure.at) {}

  [[nodiscard]] std::vector<WantedReply> wanted() const { return wanted_.all(); }

  [[nodiscard]] GatheredFacts facts(const ReplyCopies& copies) const {
    GatheredFacts gathered;
    for (const TideSource& tide : sources_.tides) put_tide(tide, copies, gathered);
    for (const CurrentSource& current : sources_.currents) put_current(current, copies, gathered);
    for (const WindSource& wind : sources_.winds) put_winds(wind, copies, gathered);
    for (const std::string& zone : sources_.alerts) put_alerts(zone, copies, gathered);
    return gathered;
  }

 private:
  /// The copy of an address, or why there is none.
  static std::expected<ReplyCopy, std::string> copy_of(const ReplyCopies& copies,
                                                       const std::string& address) {
    const auto found = copies.find(address);
    if (found == copies.end()) return std::unexpected("it was not asked for");
    return found->second;
  }

  void put_tide(const TideSource& tide, const ReplyCopies& copies, GatheredFacts& out) const {
    std::string failed;
    for (const TideFigures figures : tide.from) {
      auto station = figures == TideFigures::constants ? from_constants(tide, copies, out)
                                                       : from_table(tide, figures, copies);
      if (station && station->parts.position) {
        const auto far = why_not_of_route(plan_.route, *station->parts.position, kStationReach);
        if (!far.empty()) station = std::unexpected("the station " + far);
      }
      if (!station) {
        const std::string_view what = tide.from.size() > 1 ? in_words(figures) : "";
        failed =
            joined(failed, fmt::format("{}{}{}", what, what.empty() ? "" : ": ", station.error()));
        continue;
      }
      station->parts.source.note = joined(station->parts.source.note, failed);
      if (tide.observed && !station->subordinate_to) put_level(tide, *station, copies, out);
      out.tides.push_back(*std::move(station));
      return;
    }
    out.not_fetched.push_back({What::tide, tide.name, failed});
  }

  [[nodiscard]] std::expected<TideStationFile, std::string> from_constants(
      const TideSource& tide, const ReplyCopies& copies, GatheredFacts& out) const {
    const auto copy = copy_of(copies, wanted_.station(tide.station));
    if (!copy) return std::unexpected(copy.error());
    auto station = co_ops_station("live: station " + tide.station, copy->body, asked_of(tide));
    if (!station) return std::unexpected("the station cannot be read");
    station->parts.source.note = copy->note;
    if (station->subordinate_to) {
      const auto name = reference_named(station->subordinate_to->reference, copies, out);
      if (!name) return std::unexpected(name.error());
      station->subordinate_to->reference = *name;
    } else if (!station->parts.curve) {
      return std::unexpected(in_words(station->parts.curve.error()));
    }
    return *std::move(station);
  }

  /// The table gives heights only: where the station lies, and its planes, are in the metadata.
  [[nodiscard]] std::expected<TideStationFile, std::string> from_table(
      const TideSource& tide, TideFigures figures, const ReplyCopies& copies) const {
    const auto copy = copy_of(copies, wanted_.predictions(tide, figures));
    if (!copy) return std::unexpected(copy.error());
    auto station = predictions_of(figures, asked_above_plane(tide), copy->body);
    if (!station) return std::unexpected("the predictions cannot be read");
    TideStationParts& parts = station->parts;
    parts.source.note = copy->note;
    const auto about = copy_of(copies, wanted_.station(tide.station));
    const auto metadata =
        about ? co_ops_station("live: station " + tide.station, about->body, asked_of(tide))
              : std::expected<TideStationFile, Problems>(std::unexpected(Problems{}));
    if (!metadata) {
      parts.why_no_datum = ", its metadata could not be had";
      return *std::move(station);
    }
    parts.position = metadata->parts.position;
    parts.zone = metadata->parts.zone;
    if (metadata->parts.chart_datum == Known<std::string>(kPlaneAsked)) {
      parts.datums = metadata->parts.datums;
      parts.why_no_datum = metadata->parts.why_no_datum;
    }
    return *std::move(station);
  }

  /// What the gauge reads beside the prediction; that it could not be read is said beside the tide.
  void put_level(const TideSource& tide, TideStationFile& station, const ReplyCopies& copies,
                 GatheredFacts& out) const {
    std::string& note = station.parts.source.note;
    const auto copy = copy_of(copies, wanted_.levels(tide));
    const auto observed =
        copy ? co_ops_levels("live: levels", copy->body, asked_above_plane(tide))
             : std::expected<ObservedLevels, Problems>(std::unexpected(Problems{}));
    if (!observed) {
      note = joined(note, "its gauge could not be read: " +
                              (copy ? std::string("the reply is none") : copy.error()));
      return;
    }
    if (station.parts.chart_datum != Known<std::string>(kPlaneAsked)) {
      note = joined(note, std::string("its gauge is not read: it is asked above ") + kPlaneAsked +
                              ", and the heights are above another plane");
      return;
    }
    const TideStation predicted(station.parts);
    if (const auto seen = seen_level(predicted, *observed)) out.levels.push_back(*seen);
    auto alert = alert_of_level(predicted, *observed, zone_);
    note = joined(note, alert ? alert->headline
                              : "its gauge agrees with the prediction at " +
                                    date_and_time(observed->levels.back().at, zone_));
    if (!alert) return;
    alert->note = copy->note;
    out.alerts.push_back(*std::move(alert));
  }

  /// The name of the reference station, which is put where it is not yet; or why it is not to be
  /// had.
  [[nodiscard]] std::expected<std::string, std::string> reference_named(const std::string& number,
                                                                        const ReplyCopies& copies,
                                                                        GatheredFacts& out) const {
    const auto found = std::ranges::find_if(out.tides, [&](const TideStationFile& file) {
      const Known<TideCurve>& curve = file.parts.curve;
      return file.number == number && curve && std::holds_alternative<HarmonicCurve>(*curve);
    });
    if (found != out.tides.end()) return found->parts.name;
    const auto copy = copy_of(copies, wanted_.station(number));
    if (!copy) return std::unexpected("its reference station " + number + ": " + copy.error());
    auto station =
        co_ops_station("live: station " + number, copy->body, asked_for_reference(number));
    if (!station || !station->parts.curve) {
      return std::unexpected("its reference station " + number + " has no constants");
    }
    station->parts.source.note = copy->note;
    out.tides.push_back(*std::move(station));
    return out.tides.back().parts.name;
  }

  void put_current(const CurrentSource& source, const ReplyCopies& copies,
                   GatheredFacts& out) const {
    const auto copy = copy_of(copies, wanted_.current(source));
    if (!copy) return out.not_fetched.push_back({What::current, source.name, copy.error()});
    Asked asked = asked_of(source);
    asked.note = copy->note;
    auto station = co_ops_currents("live: currents at " + source.station, copy->body, asked);
    if (!station) return;
    if (station->position()) {
      const auto far = why_not_of_route(plan_.route, *station->position(), kStationReach);
      if (!far.empty()) {
        return out.not_fetched.push_back({What::current, source.name, "the station " + far});
      }
    }
    out.currents.push_back(*std::move(station));
  }

  [[nodiscard]] std::expected<WindSeries, std::string> nws_series(const WindSource& wind,
                                                                  WindService service,
                                                                  const ReplyCopies& copies) const {
    const auto points = copy_of(copies, wanted_.points(wind));
    if (!points) return std::unexpected(points.error());
    const auto point = nws_point("points", points->body, wind.position);
    if (!point) return std::unexpected("no cell is known for the place");
    const auto copy = copy_of(copies, wanted_.cell(*point, service));
    if (!copy) return std::unexpected(copy.error());
    const auto series = cell_series(service, copy->body, wind.position);
    if (!series) return std::unexpected("the forecast cannot be read");
    return with_note(*series, copy->note);
  }

  [[nodiscard]] std::expected<WindSeries, std::string> open_meteo_series(
      const WindSource& wind, const ReplyCopies& copies) const {
    const Asked asked = asked_at(wind.position);
    const auto forecast = copy_of(copies, wanted_.open_meteo(wind));
    const auto marine = copy_of(copies, wanted_.open_meteo_marine(wind));
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
    const std::string far = why_not_of_route(plan_.route, wind.position, kForecastReach);
    if (!far.empty()) return out.not_fetched.push_back({What::wind, wind.name, "its place " + far});
    std::vector<WindSeries> good;
    std::string failed;
    for (const WindService service : wind.from) {
      auto series = service == WindService::open_meteo ? open_meteo_series(wind, copies)
                                                       : nws_series(wind, service, copies);
      if (series) {
        good.push_back(*std::move(series));
      } else {
        failed = joined(failed, fmt::format("{}: {}", in_words(service), series.error()));
      }
    }
    if (good.empty()) return out.not_fetched.push_back({What::wind, wind.name, failed});
    WindSeries used = good.front();
    used = with_note(used, joined(used.source().note, failed));
    for (std::size_t i = 1; i < good.size(); ++i) used = compared(used, good[i]);
    out.winds.push_back(std::move(used));
  }

  static std::string joined(const std::string& a, const std::string& b) {
    return a.empty() || b.empty() ? a + b : a + "; " + b;
  }

  [[nodiscard]] WindSeries compared(const WindSeries& used, const WindSeries& other) const {
    const Span span{plan_.departure.at - hours(1), used.covers().end};
    const Speed wind = greatest_difference(used, other, span).value_or(knots(0));
    const Length waves = greatest_wave_difference(used, other, span).value_or(metres(0));
    std::string by;
    if (wind > forecasts_differ_) by = fmt::format("{:.0f} kn", in_knots(wind));
    if (waves > kWavesDiffer) {
      by += fmt::format("{}{:.1f} m of waves", by.empty() ? "" : " and ", in_metres(waves));
    }
    if (by.empty()) return used;
    const std::string words = fmt::format("{} and {} differ by {}: the worse is used",
                                          used.source().from, other.source().from, by);
    return with_note(worse_of(used, other),
                     joined(joined(used.source().note, other.source().note), words));
  }

  void put_alerts(const std::string& zone, const ReplyCopies& copies, GatheredFacts& out) const {
    const auto copy = copy_of(copies, wanted_.alerts(zone));
    if (!copy) return out.not_fetched.push_back({What::alerts, "zone " + zone, copy.error()});
    auto alerts = nws_alerts("live: alerts", copy->body, zone);
    if (!alerts) {
      return out.not_fetched.push_back({What::alerts, "zone " + zone, "the reply is none"});
    }
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
  const Zone& zone_;
  const Sources& sources_;
  Speed forecasts_differ_;
  WantedFacts wanted_;
};

}  // namespace

GatheredFacts gather_facts(const Plan& plan, const Sources& sources, Speed forecasts_differ,
                           const LocalTime& now, Transport& transport, Store& store) {
  const Gatherer gatherer(plan, sources, forecasts_differ, now.zone);
  return gatherer.facts(replies_for(gatherer.wanted(), now, sources.within, transport, store));
}

void add_gathered(GatheredFacts gathered, Facts& facts) {
  for (CurrentStation& station : gathered.currents) {
    if (!facts.current(station.name())) facts.currents.push_back(std::move(station));
  }
  for (WindSeries& series : gathered.winds) facts.winds.push_back(std::move(series));
  for (Alert& alert : gathered.alerts) facts.alerts.push_back(std::move(alert));
  for (const SeenLevel& seen : gathered.levels) facts.observed.push_back(seen);
  for (NotFetched& missing : gathered.not_fetched) facts.not_fetched.push_back(std::move(missing));
}

}  // namespace passage_brief
