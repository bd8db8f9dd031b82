#include "fetch/co_ops_predictions_provider.h"

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <cstddef>
#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "facts/tide/curve.h"
#include "facts/tide/high_low_curve.h"
#include "facts/tide/series_curve.h"
#include "facts/tide/tide_station.h"
#include "fetch/asked.h"
#include "fetch/reply.h"
#include "reading/problem.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

using nlohmann::json;

struct PredictionRow {
  Instant at;
  std::optional<double> height_m;
  std::string type;  // "H", "L"; empty in a series
};

std::vector<PredictionRow> rows_of(const json& list, double unit_m, Ledger& ledger) {
  std::vector<PredictionRow> rows;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const json* row = element(&list, i);
    const std::string place = fmt::format("/predictions/{}", i);
    const auto at = gmt_time_in(member(row, "t"));
    const auto height = number_in(member(row, "v"));
    if (!at) ledger.add(place + "/t", at.error());
    if (!height) ledger.add(place + "/v", height.error());
    if (!at || !height) continue;
    if (!rows.empty() && *at <= rows.back().at) {
      ledger.add(place + "/t", "its time is not after the one before");
    }
    std::optional<double> height_m;
    if (*height) height_m = **height * unit_m;
    if (height_m && std::abs(*height_m) > kMostHeight_m) {
      ledger.add(place + "/v", "no tide on Earth is as high or low as that");
    }
    rows.push_back({*at, height_m, text_in(member(row, "type"))});
  }
  return rows;
}

Known<TideCurve> high_low_curve(const std::vector<PredictionRow>& rows, Ledger& ledger) {
  std::vector<Turn> turns;
  for (const PredictionRow& row : rows) {
    const bool high = row.type.starts_with('H');
    if (!high && !row.type.starts_with('L')) {
      ledger.add("/predictions", "\"" + row.type.substr(0, 20) + "\" is neither H nor L");
    } else if (!row.height_m) {
      ledger.add("/predictions", "a high or low water has no height");
    } else {
      turns.push_back({row.at, *row.height_m, high});
    }
  }
  if (!ledger.clean()) return not_known("");
  auto curve = HighLowCurve::through(std::move(turns), HighLowCurve::Complete::perhaps);
  if (curve) return TideCurve(*std::move(curve));
  ledger.add("/predictions", curve.error());
  return not_known(curve.error());
}

Known<TideCurve> series_curve(const std::vector<PredictionRow>& rows, Ledger& ledger) {
  std::vector<SeriesRow> series;
  std::vector<std::size_t> row_in_reply;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (!rows[i].height_m) continue;
    series.push_back({rows[i].at, *rows[i].height_m});
    row_in_reply.push_back(i);
  }
  for (const SeriesSpike& spike : spikes(series, kMostOffLine_m)) {
    ledger.add(fmt::format("/predictions/{}/v", row_in_reply[spike.row]),
               height_spike_in_words(series, spike));
  }
  if (series.empty()) ledger.add("/predictions", "holds no height that is not null");
  if (!ledger.clean()) return not_known("");
  return TideCurve(SeriesCurve(series, kHeightsRounding_m));
}

std::string minute_of(Instant at) {
  std::string text = to_rfc3339(at);  // 2026-06-14T13:30:00Z
  return text.substr(0, 4) + text.substr(5, 2) + text.substr(8, 2) + "%20" + text.substr(11, 5);
}

}  // namespace

std::string co_ops_predictions_path(std::string_view station, std::string_view datum,
                                    PredictionInterval interval, Span span) {
  return fmt::format(
      "/api/prod/datagetter?product=predictions&station={}&datum={}&interval={}&"
      "units=metric&time_zone=gmt&format=json&application=passage-brief&"
      "begin_date={}&end_date={}",
      station, datum, interval == PredictionInterval::high_low ? "hilo" : "6",
      minute_of(span.begin), minute_of(span.end));
}

std::expected<TideStationFile, Problems> co_ops_predictions(std::string_view name,
                                                            std::string_view text,
                                                            const Asked& asked) {
  const auto tree = reply_tree(name, text);
  if (!tree) return std::unexpected(tree.error());
  const json* list = member(tree->get(), "predictions");
  if (list == nullptr || !list->is_array() || list->empty()) {
    return refused(name, "/predictions", "holds no predictions");
  }
  Ledger ledger(name, "the reply");
  const auto rows = rows_of(*list, in_metres(asked.height_unit.value_or(metres(1))), ledger);
  if (rows.size() < 2) ledger.add("/predictions", "holds fewer than two predictions");
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  const bool high_low = !rows.front().type.empty();
  Known<TideCurve> curve = high_low ? high_low_curve(rows, ledger) : series_curve(rows, ledger);
  if (!ledger.clean()) return std::unexpected(ledger.problems());

  const std::string called = asked.name.empty() ? asked.station : asked.name;
  const std::string not_told = heights_not_told(asked);
  Known<std::string> datum = not_known("the reply of predictions for " + called + " " + not_told);
  if (not_told.empty()) datum = *asked.datum;
  if (!datum) curve = not_known_as(datum);
  TideStationParts parts{
      .name = called,
      .position = not_known("the reply of predictions for " + called + " gives no position"),
      .zone = asked.zone.value_or(Zone::utc()),
      .source = {.what = "tide at " + called,
                 .from = fmt::format("NOAA CO-OPS {} of station {}",
                                     high_low ? "highs and lows" : "predictions",
                                     asked.station.empty() ? "not named" : asked.station),
                 .issued = std::nullopt,
                 .note = asked.note},
      .uncertainty = not_known("predictions of CO-OPS come without an uncertainty"),
      .chart_datum = datum,
      .datums = {},
      .why_no_datum = "",
      .curve = std::move(curve)};
  if (asked.height_uncertainty) parts.uncertainty = *asked.height_uncertainty;
  return TideStationFile{std::string(name), std::move(parts), std::nullopt, asked.station};
}

}  // namespace passage_brief
