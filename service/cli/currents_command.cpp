#include "cli/currents_command.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cli/arguments.h"
#include "cli/table_output.h"
#include "facts/tide/current_station.h"
#include "reading/json_text.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

struct CurrentsOptions {
  std::vector<std::string> current;
  std::string at, from, to, every;
  bool slack_max = false;
  std::string form = "text";
};

std::vector<TableRow> rows_of(const CurrentStation& station, const TimeTable& table) {
  std::vector<TableRow> rows;
  for (std::size_t i = 0; i < table.count; ++i) {
    const Instant at = table.span.begin + table.step * static_cast<Interval::rep>(i);
    rows.push_back({at, join(in_knots, station.along_flood(at)), ""});
  }
  return rows;
}

std::vector<TableRow> rows_of(const std::vector<CurrentEvent>& events) {
  std::vector<TableRow> rows;
  for (const CurrentEvent& event : events) {
    rows.push_back({event.at, in_knots(event.along_flood), in_words(event.kind)});
  }
  return rows;
}

std::string degrees_or(const Known<SetToward>& toward, const char* otherwise) {
  return toward ? fixed(toward->bearing.in_degrees(), 1) : otherwise;
}

int run(const CurrentsOptions& options) {
  ArgumentReader reader;
  reader.word("--as", options.form, {"text", "csv", "json"});
  reader.required("--at", options.at, "\"The Narrows\"");
  const auto stations = read_current_stations(options.current, reader);
  std::vector<std::string> names;
  if (stations) {
    for (const CurrentStation& station : *stations) names.push_back(station.name());
  }
  std::optional<CurrentStation> station;
  if (stations && !options.at.empty()) {
    if (const auto i = reader.word("--at", options.at, names)) station = (*stations)[*i];
  }
  const auto table = read_time_table(options.from, options.to, options.every, options.slack_max,
                                     station ? station->zone() : Zone::utc(), reader);
  if (!station || !table || !reader.clean()) return reader.refuse_all();
  std::optional<std::vector<CurrentEvent>> events;
  if (options.slack_max) events = reader.take_known("--at", station->slack_max(table->span));
  if (!reader.clean()) return reader.refuse_all();

  const Known<SetToward>& flood = station->flood_toward();
  const Known<SetToward>& ebb = station->ebb_toward();
  print_table({.title = fmt::format(
                   "{}: predicted tidal current, flood (toward {} T) positive, ebb (toward "
                   "{} T) negative. Source: {}",
                   station->name(), degrees_or(flood, "not known"), degrees_or(ebb, "not known"),
                   station->source().from),
               .key = "speed_kn",
               .unit = "kn",
               .list = "speeds",
               .about_json =
                   fmt::format("\"station\": {}, \"flood_toward_deg\": {}, \"ebb_toward_deg\": {}, "
                               "\"source\": {}, ",
                               json_quoted(station->name()), degrees_or(flood, "null"),
                               degrees_or(ebb, "null"), json_quoted(station->source().from)),
               .events = options.slack_max,
               .rows = events ? rows_of(*events) : rows_of(*station, *table)},
              options.form, station->zone());
  return 0;
}

}  // namespace

void add_currents_command(CLI::App& program, int& status) {
  const auto options = std::make_shared<CurrentsOptions>();
  CLI::App* command = program.add_subcommand(
      "currents", "Tidal current at a station: a table of times, or slacks and greatest flows.");
  command->add_option("--current", options->current, "Current station files")->type_name("FILE");
  command->add_option("--at", options->at, "Name of the station")->type_name("NAME");
  command
      ->add_option("--from", options->from, "First time; without offset: the station's wall time")
      ->type_name("TIME");
  command->add_option("--to", options->to, "Last time")->type_name("TIME");
  command->add_option("--every", options->every, "Step of the table, like 6min")->type_name("STEP");
  command->add_flag("--slack-max", options->slack_max,
                    "Slacks and greatest floods and ebbs instead of a table");
  command->add_option("--as", options->form, "text, csv or json")->capture_default_str();
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace passage_brief
