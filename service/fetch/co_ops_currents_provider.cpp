#include "fetch/co_ops_currents_provider.h"

#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "facts/tide/current_station.h"
#include "facts/tide/series_curve.h"
#include "facts/tide/slack_max_curve.h"
#include "fetch/asked.h"
#include "fetch/reply.h"
#include "reading/problem.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

using nlohmann::json;

/// Speeds at a listed slack are what the minute's rounding leaves: 0.4 cm/s in the recorded reply.
constexpr Speed kSlack = knots(0.1);

struct FlowRow {
  Instant at;
  std::optional<Speed> along_flood;
  std::string type;  // "flood", "ebb", "slack"; empty in a series
};

std::optional<Speed> speed_unit_of(const json* block) {
  const std::string units = text_in(member(block, "units"));
  if (units.ends_with("cm/s")) return metres_per_second(0.01);
  if (units.ends_with("knots")) return knots(1);
  return std::nullopt;
}

void check_row(const FlowRow& row, const std::string& place, Ledger& ledger) {
  if (!row.along_flood) return;
  const Speed speed = *row.along_flood;
  const Speed zero = knots(0);
  const bool wrong = (row.type == "flood" && speed <= zero) || (row.type == "ebb" && speed >= zero);
  if (wrong) ledger.add(place, "is a greatest " + row.type + " with the sign of the other");
  if (row.type == "slack" && (speed > kSlack || speed < -kSlack)) {
    ledger.add(place, "is a slack with a speed");
  }
  if (speed > kMostCurrent || speed < -kMostCurrent) {
    ledger.add(place, "no tidal current on Earth is as fast as that");
  }
}

std::vector<FlowRow> rows_of(const json& list, Speed unit, Ledger& ledger) {
  std::vector<FlowRow> rows;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const json* row = element(&list, i);
    const std::string place = fmt::format("/current_predictions/cp/{}", i);
    const auto at = gmt_time_in(member(row, "Time"));
    const auto speed = number_in(member(row, "Velocity_Major"));
    if (!at) ledger.add(place + "/Time", at.error());
    if (!speed) ledger.add(place + "/Velocity_Major", speed.error());
    if (!at || !speed) continue;
    if (!rows.empty() && *at <= rows.back().at) {
      ledger.add(place + "/Time", "its time is not after the one before");
    }
    FlowRow flow{*at, std::nullopt, text_in(member(row, "Type"))};
    if (*speed) flow.along_flood = **speed * unit;
    if (!flow.type.empty() && flow.type != "flood" && flow.type != "ebb" && flow.type != "slack") {
      ledger.add(place + "/Type", "\"" + flow.type.substr(0, 20) + "\" is not flood, ebb or slack");
    }
    check_row(flow, place, ledger);
    rows.push_back(std::move(flow));
  }
  return rows;
}

std::optional<CurrentCurve> curve_of(const std::vector<FlowRow>& rows, Ledger& ledger) {
  const bool events = !rows.empty() && !rows.front().type.empty();
  std::vector<FlowEvent> turns;
  std::vector<SeriesRow> series;
  for (const FlowRow& row : rows) {
    if (row.type.empty() == events)
      ledger.add("/current_predictions/cp", "mixes events and series");
    const bool slack = row.type == "slack";
    if (events && (slack || row.along_flood)) {
      turns.push_back({row.at, slack ? 0 : row.along_flood->si(), slack});
    } else if (row.along_flood) {
      series.push_back({row.at, row.along_flood->si()});
    }
  }
  if ((events ? turns.size() : series.size()) < 2) {
    ledger.add("/current_predictions/cp", "holds fewer than two predictions");
  }
  if (!ledger.clean()) return std::nullopt;
  if (!events) return SeriesCurve(series, kSpeedsRounding_m_s);
  auto curve = SlackMaxCurve::through(std::move(turns));
  if (curve) return *std::move(curve);
  ledger.add("/current_predictions/cp", curve.error());
  return std::nullopt;
}

/// The one direction that all rows give; not known where none does or they differ.
Known<SetToward> direction_of(const json& list, const char* key, const std::string& words,
                              Ledger& ledger) {
  std::optional<double> direction_deg;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const std::string place = fmt::format("/current_predictions/cp/{}/{}", i, key);
    const auto found = number_in(member(element(&list, i), key));
    if (!found) ledger.add(place, found.error());
    if (!found || !*found) continue;
    if (**found < 0 || **found > 360) ledger.add(place, "is no direction in degrees");
    if (direction_deg && *direction_deg != **found) {
      return not_known("the reply gives more than one direction of the " + words);
    }
    direction_deg = **found;
  }
  if (!direction_deg) return not_known("the reply gives no direction of the " + words);
  return SetToward{TrueBearing::from_degrees(*direction_deg)};
}

std::string day_of(Instant at) {
  const std::string text = to_rfc3339(at);
  return text.substr(0, 4) + text.substr(5, 2) + text.substr(8, 2);
}

}  // namespace

std::string co_ops_currents_path(std::string_view station, std::string_view bin, Span span) {
  return fmt::format(
      "/api/prod/datagetter?product=currents_predictions&station={}{}&"
      "interval=MAX_SLACK&units=metric&time_zone=gmt&format=json&"
      "application=passage-brief&begin_date={}&end_date={}",
      station, bin.empty() ? "" : "&bin=" + std::string(bin), day_of(span.begin), day_of(span.end));
}

std::expected<CurrentStation, Problems> co_ops_currents(std::string_view name,
                                                        std::string_view text, const Asked& asked) {
  const auto tree = reply_tree(name, text);
  if (!tree) return std::unexpected(tree.error());
  const json* block = member(tree->get(), "current_predictions");
  const json* list = member(block, "cp");
  if (list == nullptr || !list->is_array() || list->empty()) {
    return refused(name, "/current_predictions/cp", "holds no predictions");
  }
  const auto unit = speed_unit_of(block);
  if (!unit) {
    return refused(name, "/current_predictions/units", "gives neither cm/s nor knots for speeds");
  }
  Ledger ledger(name, "the reply");
  const auto rows = rows_of(*list, *unit, ledger);
  const auto flood = direction_of(*list, "meanFloodDir", "flood", ledger);
  const auto ebb = direction_of(*list, "meanEbbDir", "ebb", ledger);
  auto curve = curve_of(rows, ledger);
  if (!ledger.clean() || !curve) return std::unexpected(ledger.problems());
  const std::string called = asked.name.empty() ? asked.station : asked.name;
  CurrentStationParts parts{
      .name = called,
      .position = not_known("the reply of predictions for " + called + " gives no position"),
      .zone = asked.zone.value_or(Zone::utc()),
      .source = {.what = "current at " + called,
                 .from = "NOAA CO-OPS predictions of currents at station " +
                         (asked.station.empty() ? std::string("not named") : asked.station),
                 .issued = std::nullopt,
                 .note = asked.note},
      .uncertainty = not_known("predictions of CO-OPS come without an uncertainty"),
      .flood_toward = flood,
      .ebb_toward = ebb,
      .curve = not_known("the reply of predictions for " + called +
                         " does not say the zone of its times; add what was asked after the "
                         "file's name, like FILE?time_zone=gmt")};
  if (asked.gmt) parts.curve = *std::move(curve);
  if (asked.speed_uncertainty) parts.uncertainty = *asked.speed_uncertainty;
  return CurrentStation(std::move(parts));
}

}  // namespace passage_brief
