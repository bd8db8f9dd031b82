#include "cli/sun_command.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <array>
#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "cli/arguments.h"
#include "facts/daylight/moon.h"
#include "facts/daylight/sun.h"
#include "reading/json_text.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

struct SunOptions {
  std::string at, on, zone;
  std::string form = "text";
};

/// The zone of the local day: UTC when none is given.
std::optional<Zone> zone_of(const SunOptions& options, ArgumentReader& reader) {
  if (options.zone.empty()) return Zone::utc();
  auto zone = Zone::named(options.zone);
  if (!zone) {
    reader.refuse("--zone", fmt::format("\"{}\" is not a time zone of the IANA data base, like "
                                        "America/New_York",
                                        options.zone.substr(0, 60)));
  }
  return zone;
}

int run(const SunOptions& options) {
  ArgumentReader reader;
  reader.word("--as", options.form, {"text", "json"});
  std::optional<Position> position;
  std::optional<std::chrono::year_month_day> day;
  if (reader.required("--at", options.at, "42.36,-71.05")) {
    position = reader.take("--at", parse_position(options.at));
  }
  if (reader.required("--on", options.on, "2026-06-14")) {
    day = reader.take("--on", parse_date(options.on));
  }
  const auto zone = zone_of(options, reader);
  // A day's width inside the years of the zone tables, for the local day's two ends.
  if (day && (day->year() < std::chrono::year(1901) || day->year() > std::chrono::year(2036))) {
    reader.refuse("--on", "is not within the years 1901 to 2036");
  }
  if (!position || !day || !zone || !reader.clean()) return reader.refuse_all();

  Span local_day = zone->local_day(*day);
  local_day.end -= Interval(1);  // the next day's first instant is not of this day
  const SunTimes sun = sun_times(*position, local_day);
  const Instant midday = local_day.begin + std::chrono::hours(12);
  using Entry = std::pair<const char*, std::optional<Instant>>;
  const std::array<Entry, 6> entries{{{"nautical_dawn", sun.nautical_dawn},
                                      {"civil_dawn", sun.civil_dawn},
                                      {"sunrise", sun.sunrise},
                                      {"sunset", sun.sunset},
                                      {"civil_dusk", sun.civil_dusk},
                                      {"nautical_dusk", sun.nautical_dusk}}};
  const bool utc = options.zone.empty();
  const auto written = [&](Instant at) {
    return utc ? nearest_second(at) : nearest_second(at, *zone);
  };
  const std::string illuminated = fixed(moon_illuminated(midday), 3);
  if (options.form == "json") {
    fmt::print("{{");
    for (const auto& [name, at] : entries) {
      fmt::print("\"{}\": {},\n ", name, at ? json_quoted(written(*at)) : "null");
    }
    fmt::print("\"moon_illuminated\": {},\n \"moon_phase\": {}}}\n", illuminated,
               json_quoted(moon_phase(midday)));
    return 0;
  }
  for (const auto& [name, at] : entries) {
    std::string words = name;
    if (const auto bar = words.find('_'); bar != std::string::npos) words[bar] = ' ';
    fmt::print("{:<14} {}\n", words, at ? written(*at) : "does not occur");
  }
  fmt::print("{:<14} {}, {} of the disc lit at midday\n", "moon", moon_phase(midday), illuminated);
  return 0;
}

}  // namespace

void add_sun_command(CLI::App& program, int& status) {
  const auto options = std::make_shared<SunOptions>();
  CLI::App* command =
      program.add_subcommand("sun", "Sunrise, sunset, twilight and the Moon on one day.");
  command->add_option("--at", options->at, "Latitude and longitude in degrees, like 42.36,-71.05")
      ->type_name("LAT,LON");
  command->add_option("--on", options->on, "The day")->type_name("DATE");
  command->add_option("--zone", options->zone, "Whose day; left out: UTC")->type_name("ZONE");
  command->add_option("--as", options->form, "text or json")->capture_default_str();
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace passage_brief
