#include "cli/station_command.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <expected>
#include <memory>
#include <optional>
#include <string>

#include "cli/arguments.h"
#include "fetch/asked.h"
#include "fetch/cached_replies.h"
#include "fetch/co_ops_station_provider.h"
#include "fetch/curl_transport.h"
#include "fetch/read_sources.h"
#include "fetch/sources.h"
#include "reading/file_text.h"
#include "reading/quantity_text.h"
#include "store/sqlite_store.h"
#include "units/clock.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

struct StationOptions {
  std::string number, live, reply, name, zone, uncertainty;
};

std::optional<Asked> asked_of(const StationOptions& options, ArgumentReader& reader) {
  Asked asked;
  asked.station = options.number;
  asked.name = options.name;
  if (!options.zone.empty()) {
    asked.zone = Zone::named(options.zone);
    if (!asked.zone) reader.refuse("--zone", "is not a time zone like America/New_York");
  }
  if (!options.uncertainty.empty()) {
    asked.height_uncertainty = reader.take("--uncertainty", parse_length(options.uncertainty));
  }
  if (!reader.clean()) return std::nullopt;
  return asked;
}

/// The metadata reply from the network or its kept copy, or the words why there is none.
std::expected<ReplyCopy, std::string> fetched(const Sources& sources, const Asked& asked,
                                              Instant now) {
  const std::string address = sources.services.co_ops + co_ops_station_path(asked.station);
  const auto store = open_sqlite_store(sources.store);
  const auto network = make_curl_transport(sources.network);
  const Look look = [&](const std::string& body) -> std::expected<Looked, Problems> {
    const auto station = co_ops_station("station " + asked.station, body, asked);
    if (!station) return std::unexpected(station.error());
    return Looked{std::nullopt};
  };
  return replies_for({{address, sources.keep.stations, look}},
                     {now, asked.zone.value_or(Zone::utc())}, sources.within, *network, *store)
      .at(address);
}

std::optional<std::string> reply_of(const StationOptions& options, const Asked& asked,
                                    const Clock& clock, ArgumentReader& reader) {
  if (!options.reply.empty()) return reader.take(read_file_text(options.reply));
  const auto text = reader.take(read_file_text(options.live));
  if (!text) return std::nullopt;
  const auto sources = reader.take(read_sources(options.live, *text));
  if (!sources) return std::nullopt;
  const auto copy = fetched(*sources, asked, clock.now());
  if (!copy) {
    reader.refuse("--co-ops", options.number + " could not be fetched: " + copy.error());
    return std::nullopt;
  }
  if (!copy->note.empty()) fmt::print(stderr, "{}\n", copy->note);
  return copy->body;
}

int run(const StationOptions& options, const Clock& clock) {
  ArgumentReader reader;
  const bool letters =
      options.number.find_first_not_of(
          "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_") == std::string::npos;
  if (reader.required("--co-ops", options.number, "9990001") && !letters) {
    reader.refuse("--co-ops", "is no station number like 9990001");
  }
  if (options.live.empty() == options.reply.empty()) {
    reader.refuse("--live", "give either --live SOURCES or --reply FILE");
  }
  const auto asked = asked_of(options, reader);
  if (!asked) return reader.refuse_all();
  const auto reply = reply_of(options, *asked, clock, reader);
  if (!reply) return reader.refuse_all();
  const std::string from = options.reply.empty() ? "station " + options.number : options.reply;
  const auto file = reader.take(co_ops_station_file(from, *reply, *asked));
  // Also read, so that what is written can be used.
  if (file) reader.take(co_ops_station(from, *reply, *asked));
  if (!file || !reader.clean()) return reader.refuse_all();
  fmt::print("{}", *file);
  return 0;
}

}  // namespace

void add_station_command(CLI::App& program, const Clock& clock, int& status) {
  const auto options = std::make_shared<StationOptions>();
  CLI::App* command = program.add_subcommand(
      "station", "Writes a tide station file from what NOAA CO-OPS publishes about a station.");
  command->add_option("--co-ops", options->number, "Number of the station")->type_name("NUMBER");
  command->add_option("--live", options->live, "Sources file: where to ask and keep copies")
      ->type_name("FILE");
  command->add_option("--reply", options->reply, "A metadata reply that is already at hand")
      ->type_name("FILE");
  command->add_option("--name", options->name, "What waterways call it")->type_name("NAME");
  command->add_option("--zone", options->zone, "Its wall time")->type_name("ZONE");
  command
      ->add_option("--uncertainty", options->uncertainty,
                   "One standard deviation of observed less predicted height, like \"0.15 m\"")
      ->type_name("LENGTH");
  command->callback([options, &clock, &status] { status = run(*options, clock); });
}

}  // namespace passage_brief
