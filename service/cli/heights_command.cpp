#include "cli/heights_command.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cli/arguments.h"
#include "cli/table_output.h"
#include "facts/tide/tide_station.h"
#include "reading/json_text.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

struct HeightsOptions {
  std::vector<std::string> tide;
  std::string at, from, to, every, above;
  bool high_low = false;
  std::string units = "m";
  std::string form = "text";
};

/// Height of tide above a plane other than chart datum, in metres or feet.
double figure(TideHeight height, TideHeight plane, const std::string& units) {
  const Length above = height - plane;
  return units == "ft" ? in_feet(above) : in_metres(above);
}

/// Quick where all of the table is known; row by row where some of it is not.
std::vector<TableRow> rows_of(const TideStation& station, const TimeTable& table, TideHeight plane,
                              const std::string& units) {
  std::vector<TableRow> rows;
  const auto all = station.heights(table.span.begin, table.step, table.count);
  for (std::size_t i = 0; i < table.count; ++i) {
    const Instant at = table.span.begin + table.step * static_cast<Interval::rep>(i);
    const Known<TideHeight> height = all ? Known<TideHeight>((*all)[i]) : station.height(at);
    rows.push_back({at, join([&](TideHeight h) { return figure(h, plane, units); }, height), ""});
  }
  return rows;
}

std::vector<TableRow> rows_of(const std::vector<TideEvent>& events, TideHeight plane,
                              const std::string& units) {
  std::vector<TableRow> rows;
  for (const TideEvent& event : events) {
    rows.push_back({event.at, figure(event.height, plane, units), event.high ? "high" : "low"});
  }
  return rows;
}

int run(const HeightsOptions& options) {
  ArgumentReader reader;
  reader.word("--units", options.units, {"m", "ft"});
  reader.word("--as", options.form, {"text", "csv", "json"});
  reader.required("--at", options.at, "\"Town Landing\"");
  const auto stations = read_tide_stations(options.tide, reader);
  std::vector<std::string> names;
  if (stations) {
    for (const TideStation& station : *stations) names.push_back(station.name());
  }
  std::optional<TideStation> station;
  if (stations && !options.at.empty()) {
    if (const auto i = reader.word("--at", options.at, names)) station = (*stations)[*i];
  }
  const auto table = read_time_table(options.from, options.to, options.every, options.high_low,
                                     station ? station->zone() : Zone::utc(), reader);
  if (!station || !table || !reader.clean()) return reader.refuse_all();

  // Without a name for its chart datum a station's heights mean nothing.
  const auto chart_datum = reader.take_known("--at", station->chart_datum());
  const std::string above =
      options.above.empty() ? chart_datum.value_or(std::string()) : options.above;
  const auto plane = reader.take_known("--above", station->datum(above));
  std::optional<std::vector<TideEvent>> events;
  if (options.high_low) events = reader.take_known("--at", station->high_low(table->span));
  if (!chart_datum || !plane || !reader.clean()) return reader.refuse_all();

  print_table({.title = fmt::format("{}: predicted height of tide above {}. Source: {}",
                                    station->name(), above, station->source().from),
               .key = "height_" + options.units,
               .unit = options.units,
               .list = "heights",
               .about_json = fmt::format("\"station\": {}, \"above\": {}, \"source\": {}, ",
                                         json_quoted(station->name()), json_quoted(above),
                                         json_quoted(station->source().from)),
               .events = options.high_low,
               .rows = events ? rows_of(*events, *plane, options.units)
                              : rows_of(*station, *table, *plane, options.units)},
              options.form, station->zone());
  return 0;
}

}  // namespace

void add_heights_command(CLI::App& program, int& status) {
  const auto options = std::make_shared<HeightsOptions>();
  CLI::App* command = program.add_subcommand(
      "heights", "Height of tide at a station: a table of times, or high and low waters.");
  command->add_option("--tide", options->tide, "Tide station files")->type_name("FILE");
  command->add_option("--at", options->at, "Name of the station")->type_name("NAME");
  command
      ->add_option("--from", options->from, "First time; without offset: the station's wall time")
      ->type_name("TIME");
  command->add_option("--to", options->to, "Last time")->type_name("TIME");
  command->add_option("--every", options->every, "Step of the table, like 6min")->type_name("STEP");
  command->add_flag("--high-low", options->high_low, "High and low waters instead of a table");
  command
      ->add_option("--above", options->above,
                   "Plane the heights are above; left out: the station's chart datum")
      ->type_name("DATUM");
  command->add_option("--units", options->units, "m or ft")->capture_default_str();
  command->add_option("--as", options->form, "text, csv or json")->capture_default_str();
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace passage_brief
