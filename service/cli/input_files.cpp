#include "cli/input_files.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <expected>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cli/facts_files.h"
#include "cli/observed_option.h"
#include "cli/other_waters.h"
#include "cli/rules_files.h"
#include "facts/facts.h"
#include "facts/holidays/read_holiday_calendar.h"
#include "facts/source.h"
#include "facts/tide/read_tide_station.h"
#include "facts/waterway/read_waterway.h"
#include "facts/weather/wind_series.h"
#include "fetch/curl_transport.h"
#include "fetch/gather_facts.h"
#include "fetch/read_sources.h"
#include "fetch/sources.h"
#include "fetch/transport.h"
#include "passage/observed_reading.h"
#include "plan/plan.h"
#include "plan/read_route.h"
#include "plan/read_vessel.h"
#include "plan/vessel.h"
#include "reading/file_text.h"
#include "reading/problem.h"
#include "reading/quantity_text.h"
#include "rules/rule_set.h"
#include "store/sqlite_store.h"
#include "store/store.h"
#include "units/clock.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

constexpr std::chrono::days kLongestStay{7};

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
    return take(reader(path, *text));
  }

  /// Files that are opened by their reader.
  template <class Read>
  auto read_all(const std::vector<std::string>& paths, const Read& reader) {
    std::vector<typename std::invoke_result_t<Read, std::string>::value_type> all;
    for (const std::string& path : paths) {
      if (auto value = take(reader(path))) all.push_back(std::move(*value));
    }
    return all;
  }

  void add(const Problems& more) { problems_.insert(problems_.end(), more.begin(), more.end()); }
  [[nodiscard]] bool clean() const { return problems_.empty(); }
  [[nodiscard]] Problems take() { return std::move(problems_); }

 private:
  template <class T>
  std::optional<T> take(std::expected<T, Problems> value) {
    if (value.has_value()) return std::move(*value);
    add(value.error());
    return std::nullopt;
  }
  Problems problems_;
};

/// Where a forecast that holds many places is read.
Position middle_of(const Route& route) { return route.points[route.points.size() / 2].position; }

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

void refuse_issued_after(Instant made, const std::vector<WindSeries>& winds, Desk& desk) {
  for (const WindSeries& series : winds) {
    const Source& source = series.source();
    if (!source.issued || *source.issued <= made) continue;
    desk.add({{"--wind", "",
               fmt::format("the {} is issued {}, after the time this is made, {}", source.what,
                           to_rfc3339(*source.issued), to_rfc3339(made))}});
  }
}

void refuse_measured_after(std::chrono::year_month_day today, const Vessel& vessel, Desk& desk) {
  const auto look_at = [&](const char* figure, const BasisOfFigure& basis) {
    if (!basis.measured_on || *basis.measured_on <= today) return;
    desk.add(
        {{"--vessel", "",
          fmt::format("the {} was measured on {:%F}, after the day this is made, {:%F}", figure,
                      std::chrono::sys_days(*basis.measured_on), std::chrono::sys_days(today))}});
  };
  look_at("draft", vessel.draft_is);
  look_at("air draft", vessel.air_draft_is);
}

/// RFC 3339, or wall time in the zone; within the years that zones are known for.
std::optional<Instant> time_of(const std::string& option, const std::string& written,
                               const Zone& zone, Desk& desk) {
  const auto at = parse_time_in(zone, written);
  if (!at.has_value()) {
    desk.add({{option, "", at.error()}});
    return std::nullopt;
  }
  if (Zone::covers(*at)) return *at;
  desk.add({{option, "", "local time is known for the years 1900 to 2037 only"}});
  return std::nullopt;
}

std::optional<Sources> read_live(const std::string& file, Desk& desk) {
  if (file.empty()) return std::nullopt;
  return desk.read(file, [](std::string_view name, std::string_view text) {
    return read_sources(std::string(name), text);
  });
}

/// A store that cannot be opened costs the copies it would have given, and no more.
std::unique_ptr<Store> store_of(const std::string& file) {
  try {
    return open_sqlite_store(file);
  } catch (const StoreFailure& failure) {
    fmt::print(stderr, "nothing is kept: {}\n", failure.what());
    return open_sqlite_store(":memory:");
  }
}

GatheredFacts fetched(const Plan& plan, const Sources& sources, const RuleSet& rules,
                      const LocalTime& now) {
  const std::unique_ptr<Store> store = store_of(sources.store);
  const std::unique_ptr<Transport> network = make_curl_transport(sources.network);
  return gather_facts(plan, sources, rules.margins.forecasts_differ, now, *network, *store);
}

std::expected<HolidayCalendar, Problems> read_holiday_file(const std::string& file) {
  const auto text = read_file_text(file);
  if (!text) return std::unexpected(text.error());
  return read_holiday_calendar(file, *text);
}

/// Those of files first: a live station of a name that a file has is left out.
std::vector<TideStationFile> together(std::vector<TideStationFile> files,
                                      std::vector<TideStationFile> live) {
  for (TideStationFile& station : live) {
    const auto same = [&](const TideStationFile& file) {
      return file.parts.name == station.parts.name;
    };
    if (std::ranges::none_of(files, same)) files.push_back(std::move(station));
  }
  return files;
}

// A reading says nothing of another day's water (our rule, no source).
constexpr std::chrono::hours kOldReading{24};
// As far as a berth is looked for from the end of a route (route_survey.h).
constexpr Length kSameBerth = metres(100);

/// The readings of instruments, each held against its prediction.
void add_observed(const std::vector<std::string>& texts, Inputs& inputs, Desk& desk) {
  Facts& facts = inputs.facts;
  const Zone& zone = facts.waterway.zone;
  for (const std::string& text : texts) {
    const auto refuse = [&](const std::string& words) {
      desk.add({{"--observed", "", "\"" + text + "\" " + words}});
    };
    const auto said = parse_observed(text, zone, zone.day_of(inputs.plan.departure.at));
    const auto reading = said ? with_place_found(*said, facts) : said;
    if (!reading) {
      refuse(reading.error());
      continue;
    }
    if (reading->at > inputs.now) {
      refuse("was read after the time this is made, " + to_rfc3339(inputs.now, zone) +
             "; give the date with the time where it is not that of departure");
      continue;
    }
    if (inputs.now - reading->at > kOldReading) {
      refuse("was read more than a day before this is made; read it again");
      continue;
    }
    const auto level = observed_level(*reading, inputs.plan.vessel, facts, inputs.rules.margins);
    if (level) {
      facts.observed.push_back(*level);
    } else {
      refuse("cannot be held against a prediction: " + in_words(level.error()));
    }
  }
}

Route reversed(Route route) {
  std::ranges::reverse(route.points);
  route.name += ", back";
  return route;
}

/// A stay and a way back belong together.
void add_way_back(const InputFiles& files, Inputs& inputs, Desk& desk) {
  if (files.stay.empty() && files.back.empty()) return;
  if (files.stay.empty() || files.back.empty()) {
    desk.add({{files.stay.empty() ? "--stay" : "--back", "",
               "is missing: a way back takes both, for example --stay \"2 h\" --back reversed"}});
    return;
  }
  const auto stay = parse_interval(files.stay);
  if (!stay) {
    desk.add({{"--stay", "", stay.error()}});
  } else if (*stay < Interval(0) || *stay > kLongestStay) {
    desk.add({{"--stay", "", "must be from 0 min to 168 h"}});
  }
  const std::optional<Route> route = files.back == "reversed"
                                         ? std::optional(reversed(inputs.plan.route))
                                         : desk.read(files.back, read_route);
  if (!desk.clean()) return;
  const Length apart =
      geodesic_distance(inputs.plan.route.points.back().position, route->points.front().position);
  if (apart > kSameBerth) {
    desk.add({{"--back", "",
               fmt::format("begins {:.0f} m from where the way out ends; nothing would be known of "
                           "the water between",
                           in_metres(apart))}});
    return;
  }
  inputs.plan.back = WayBackPlan{*stay, *route};
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
  command.add_option("--live", files.live,
                     "sources file: what of these is fetched, or taken from kept copies");
  command.add_option("--rules", files.rules, "rules file (JSON)")->required();
  command.add_option("--stay", files.stay, "how long she stays before the way back: \"2 h\"");
  command.add_option("--back", files.back, "the way back: reversed, or a route file");
  command
      .add_option("--observed", files.observed,
                  "what an instrument showed: \"Oyster Bar 10:05 sounder 3.1 ft\", \"Town Bridge "
                  "10:20 gauge 54 ft\" or \"station NAME 10:00 level 3.2 ft\"; one or more")
      ->allow_extra_args(false);
  command
      .add_option("--sure", files.sure,
                  "95: limits must hold at what depths and clearances could be as little as")
      ->check(CLI::IsMember({"95"}));
}

std::expected<Inputs, Problems> read_inputs(const InputFiles& files, const Clock& clock) {
  Desk desk;
  auto vessel = desk.read(files.vessel, read_vessel);
  auto route = desk.read(files.route, read_route);
  auto waterway = desk.read(files.waterway, read_waterway);
  auto tide_files = desk.read_all(files.tides, read_tide_file);
  auto currents = desk.read_all(files.currents, read_current_file);
  auto winds = desk.read_all(files.winds, [&](const std::string& file) {
    return read_wind_file(file, route ? std::optional(middle_of(*route)) : std::nullopt);
  });
  auto holidays = desk.read_all(files.holidays, read_holiday_file);
  auto rules = desk.read(files.rules, [](std::string_view file, std::string_view text) {
    return read_edition(std::string(file), std::string(text));
  });
  const auto sources = read_live(files.live, desk);
  refuse_doubles(currents, "current", desk);
  if (route && waterway) {
    desk.add(problems_of_other_waters(*route, *waterway, tide_files, currents, winds));
  }
  std::optional<Instant> departs;
  std::optional<Instant> made;
  if (files.now.empty()) made = clock.now();
  if (waterway) {
    departs = time_of(files.depart_option, files.depart, waterway->zone, desk);
    if (!files.now.empty()) made = time_of("--now", files.now, waterway->zone, desk);
  }
  if (made) refuse_issued_after(*made, winds, desk);
  if (made && waterway && vessel) {
    refuse_measured_after(waterway->zone.day_of(*made), *vessel, desk);
  }
  GatheredFacts live;
  if (desk.clean() && sources) {
    live = fetched({*vessel, *route, {*departs}}, *sources, *rules, {*made, waterway->zone});
  }
  auto tides = link_tide_stations(together(std::move(tide_files), std::move(live.tides)));
  if (!tides) desk.add(tides.error());
  if (!desk.clean()) return std::unexpected(desk.take());
  rules->sure_95 = !files.sure.empty();
  Inputs inputs{{std::move(*vessel), std::move(*route), {*departs}},
                {std::move(*waterway), std::move(*tides), std::move(currents), std::move(winds),
                 std::move(holidays)},
                std::move(*rules),
                *made};
  add_gathered(std::move(live), inputs.facts);
  for (SeenLevel& seen : inputs.facts.observed) {
    seen.wind_over = wind_over_after(seen.station, seen.at, inputs.facts, inputs.rules.margins);
  }
  add_observed(files.observed, inputs, desk);
  add_way_back(files, inputs, desk);
  if (!desk.clean()) return std::unexpected(desk.take());
  return inputs;
}

}  // namespace passage_brief
