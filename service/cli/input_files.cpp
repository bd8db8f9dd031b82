#include "cli/input_files.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <chrono>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cli/rules_files.h"
#include "facts/facts.h"
#include "facts/holidays/read_holiday_calendar.h"
#include "facts/tide/read_current_station.h"
#include "facts/tide/read_tide_station.h"
#include "facts/waterway/read_waterway.h"
#include "facts/weather/read_wind_forecast.h"
#include "plan/plan.h"
#include "plan/read_route.h"
#include "plan/read_vessel.h"
#include "plan/vessel.h"
#include "reading/file_text.h"
#include "reading/problem.h"
#include "rules/read_rules.h"
#include "rules/rule_set.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

/// Reads one file after another and keeps the problems of all.
class Desk {
 public:
  template <class Read>
  auto read(const std::string& path, const Read& reader) -> std::optional<
      typename std::invoke_result_t<Read, std::string_view, std::string_view>::value_type> {
    const auto text = read_file_text(path);
    if (!text.has_value()) {
      add(text.error());
      return std::nullopt;
    }
    auto value = reader(path, *text);
    if (value.has_value()) return std::move(*value);
    add(value.error());
    return std::nullopt;
  }

  template <class Read>
  auto read_all(const std::vector<std::string>& paths, const Read& reader) {
    using T = std::invoke_result_t<Read, std::string_view, std::string_view>::value_type;
    std::vector<T> all;
    for (const std::string& path : paths) {
      if (auto value = read(path, reader)) all.push_back(std::move(*value));
    }
    return all;
  }

  void add(const Problems& more) { problems_.insert(problems_.end(), more.begin(), more.end()); }
  [[nodiscard]] bool clean() const { return problems_.empty(); }
  [[nodiscard]] Problems take() { return std::move(problems_); }

 private:
  Problems problems_;
};

/// Two stations of one name cannot be told apart by the features that name them.
template <class Station>
void refuse_doubles(const std::vector<Station>& stations, const char* kind, Desk& desk) {
  for (std::size_t i = 0; i < stations.size(); ++i) {
    for (std::size_t j = i + 1; j < stations.size(); ++j) {
      if (stations[i].name() != stations[j].name()) continue;
      desk.add({{"", "",
                 std::string("two ") + kind + " stations are called \"" + stations[i].name() +
                     "\": give each a name of its own"}});
    }
  }
}

}  // namespace

void add_input_options(CLI::App& command, InputFiles& files) {
  command.add_option("--vessel", files.vessel, "vessel file (JSON)")->required();
  command.add_option("--route", files.route, "route file (GPX or GeoJSON)")->required();
  command.add_option("--waterway", files.waterway, "waterway file (GeoJSON)")->required();
  command.add_option("--tide", files.tides, "tide station file, one or more");
  command.add_option("--current", files.currents, "current station file, one or more");
  command.add_option("--wind", files.winds, "wind forecast file, one or more");
  command.add_option("--holidays", files.holidays, "holiday calendar file, one or more");
  command.add_option("--rules", files.rules, "rules file (JSON)")->required();
}

std::expected<Inputs, Problems> read_inputs(const InputFiles& files) {
  Desk desk;
  auto vessel = desk.read(files.vessel, read_vessel);
  auto route = desk.read(files.route, read_route);
  auto waterway = desk.read(files.waterway, read_waterway);
  auto tide_files = desk.read_all(files.tides, read_tide_station);
  auto currents = desk.read_all(files.currents, read_current_station);
  auto winds = desk.read_all(files.winds, read_wind_forecast);
  auto holidays = desk.read_all(files.holidays, read_holiday_calendar);
  auto rules = desk.read(files.rules, [](std::string_view file, std::string_view text) {
    return read_rules({std::string(file), std::string(text)}, rules_beside(std::string(file)));
  });
  std::vector<TideStation> tides;
  if (auto linked = link_tide_stations(std::move(tide_files)); linked.has_value()) {
    tides = std::move(*linked);
  } else {
    desk.add(linked.error());
  }
  refuse_doubles(tides, "tide", desk);
  refuse_doubles(currents, "current", desk);
  std::optional<Instant> departs;
  if (waterway) {
    if (const auto at = parse_time_in(waterway->zone, files.depart); at.has_value()) {
      departs = *at;
    } else {
      desk.add({{files.depart_option, "", at.error()}});
    }
    if (departs && !Zone::covers(*departs)) {
      desk.add({{files.depart_option, "", "local time is known for the years 1900 to 2037 only"}});
    }
  }
  if (!desk.clean()) return std::unexpected(desk.take());
  return Inputs{{std::move(*vessel), std::move(*route), {*departs}},
                {std::move(*waterway), std::move(tides), std::move(currents), std::move(winds),
                 std::move(holidays)},
                std::move(*rules)};
}

Problems dated_after(const Inputs& inputs, Instant now) {
  Problems problems;
  const Facts& facts = inputs.facts;
  const auto today = facts.waterway.zone.day_of(now);
  const auto add_figure = [&](const char* figure, const BasisOfFigure& basis) {
    if (!basis.measured_on || *basis.measured_on <= today) return;
    problems.push_back({"--vessel", "",
                        fmt::format("the {} was measured on {:%F}, after the day this is made, "
                                    "{:%F}",
                                    figure, std::chrono::sys_days(*basis.measured_on),
                                    std::chrono::sys_days(today))});
  };
  add_figure("draft", inputs.plan.vessel.draft_is);
  add_figure("air draft", inputs.plan.vessel.air_draft_is);
  for (const WindSeries& series : facts.winds) {
    const Source& source = series.source();
    if (!source.issued || *source.issued <= now) continue;
    problems.push_back({"--wind", "",
                        fmt::format("the {} is issued {}, after the time this is made, {}",
                                    source.what, to_rfc3339(*source.issued), to_rfc3339(now))});
  }
  return problems;
}

}  // namespace passage_brief
