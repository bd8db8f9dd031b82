#include "cli/variation_command.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <chrono>
#include <cmath>
#include <memory>
#include <optional>
#include <string>

#include "cli/arguments.h"
#include "facts/magnetic/variation.h"
#include "reading/json_text.h"
#include "units/known.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {
namespace {

struct VariationOptions {
  std::string at, on;
  std::string form = "text";
};

std::string date_of(Instant at) { return to_rfc3339(at).substr(0, 10); }

void print_json(const Known<MagneticVariation>& known) {
  const std::string model = fmt::format(
      "\"model\": {}, \"valid_from\": {}, \"valid_to\": {}", json_quoted(kMagneticModel),
      json_quoted(date_of(kMagneticValidFrom)), json_quoted(date_of(kMagneticValidTo)));
  if (known) {
    fmt::print("{{\"variation_deg\": {}, \"one_sigma_deg\": {}, \"caution_zone\": {}, {}}}\n",
               fixed(known->variation.east.in_degrees(), 3),
               fixed(known->one_sigma.in_degrees(), 2), known->caution_zone, model);
    return;
  }
  fmt::print("{{\"variation_deg\": null, \"not_known\": {{\"variation_deg\": {}}}, {}}}\n",
             json_quoted(in_words(known.error())), model);
}

void print_text(const Known<MagneticVariation>& known) {
  if (!known) {
    fmt::print("Variation not known. {}\n", in_words(known.error()));
    return;
  }
  const double east = known->variation.east.in_degrees();
  fmt::print("Variation {} {}, one standard deviation {} deg. {}, valid {} to {}\n",
             fixed(std::abs(east), 1), east < 0 ? "W" : "E",
             fixed(known->one_sigma.in_degrees(), 1), kMagneticModel, date_of(kMagneticValidFrom),
             date_of(kMagneticValidTo));
  if (known->caution_zone)
    fmt::print("Caution: the horizontal field is weak; do not trust a compass here.\n");
}

int run(const VariationOptions& options) {
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
  if (!position || !day || !reader.clean()) return reader.refuse_all();
  const auto known = variation_at(*position, std::chrono::sys_days(*day));
  if (options.form == "json") {
    print_json(known);
  } else {
    print_text(known);
  }
  return 0;
}

}  // namespace

void add_variation_command(CLI::App& program, int& status) {
  const auto options = std::make_shared<VariationOptions>();
  CLI::App* command =
      program.add_subcommand("variation", "Magnetic variation at a place, by WMM2025.");
  command->add_option("--at", options->at, "Latitude and longitude in degrees, like 42.36,-71.05")
      ->type_name("LAT,LON");
  command->add_option("--on", options->on, "The day (at 00:00 UTC)")->type_name("DATE");
  command->add_option("--as", options->form, "text or json")->capture_default_str();
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace passage_brief
