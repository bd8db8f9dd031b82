#include "cli/windows_command.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <expected>
#include <iostream>
#include <memory>
#include <string>

#include "brief/departure_windows.h"
#include "brief/window_search.h"
#include "cli/arguments.h"
#include "cli/input_files.h"
#include "page/calendar.h"
#include "page/page_choice.h"
#include "page/window_json.h"
#include "page/window_words.h"
#include "passage/route_survey.h"
#include "units/clock.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

struct WindowsArguments {
  InputFiles files;
  std::string to;
  std::string units = "us";
  std::string as = "text";
};

std::string printed(const WindowList& list, const Inputs& inputs, const std::string& as,
                    Units units) {
  const Zone& zone = inputs.facts.waterway.zone;
  if (as == "json") return windows_as_json(list, zone, units);
  if (as == "text") return windows_as_text(list, zone, units);
  return windows_as_calendar(list, inputs.plan.vessel.name + ": " + inputs.plan.route.name, zone,
                             units, inputs.now);
}

int windows(const WindowsArguments& arguments, const Clock& clock) {
  auto inputs = read_inputs(arguments.files, clock);
  if (!inputs.has_value()) {
    for (const Problem& problem : inputs.error()) std::cerr << in_words(problem) << '\n';
    return 2;
  }
  const Zone& zone = inputs->facts.waterway.zone;
  ArgumentReader reader;
  const auto end = reader.take("--to", parse_time_in(zone, arguments.to));
  const Instant begin = inputs->plan.departure.at;
  if (end && *end < begin) reader.refuse("--to", "is before --from");
  if (end && *end - begin > kLongestSpan) {
    reader.refuse("--to", "is more than 7 days after --from; ask for 7 days or less");
  }
  if (end && *end >= begin && *end - begin <= kLongestSpan &&
      minutes_of({begin, *end}).count == 0) {
    reader.refuse("--to", "there is no full minute between --from and this");
  }
  if (end && !Zone::covers(*end)) {
    reader.refuse("--to", "local time is known for the years 1900 to 2037 only");
  }
  if (!reader.clean()) return reader.refuse_all();
  inputs->plan.departure.notice_from = inputs->now;
  const RouteSurvey survey(inputs->plan, inputs->facts.waterway, inputs->rules.margins);
  const WindowList list =
      windows_in(survey, inputs->plan, inputs->facts, inputs->rules, {begin, *end});
  const Units units = arguments.units == "us" ? Units::us : Units::metric;
  std::cout << printed(list, *inputs, arguments.as, units);
  return 0;
}

}  // namespace

void add_windows_command(CLI::App& program, const Clock& clock, int& status) {
  CLI::App& command =
      *program.add_subcommand("windows", "List when one can leave, in a span of 7 days at most");
  const auto arguments = std::make_shared<WindowsArguments>();
  arguments->files.depart_option = "--from";
  add_input_options(command, arguments->files);
  command
      .add_option("--from", arguments->files.depart,
                  "begin of the span: wall time in the waterway's zone, or with offset")
      ->required();
  command.add_option("--to", arguments->to, "end of the span")->required();
  command.add_option("--units", arguments->units, "us or metric")
      ->check(CLI::IsMember({"us", "metric"}));
  command.add_option("--as", arguments->as, "text, json or calendar")
      ->check(CLI::IsMember({"text", "json", "calendar"}));
  command.add_option("--now", arguments->files.now, "time it is asked, instead of the clock's");
  command.callback([arguments, &clock, &status] { status = windows(*arguments, clock); });
}

}  // namespace passage_brief
