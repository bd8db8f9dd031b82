// Every reader of bytes from outside as a libFuzzer target: --reader=NAME picks one, --readers
// lists them with the endings of the files that feed them (tests/fuzz/run). A target passes when
// the reader returns a value or problems; a crash, a hang, a sanitizer's report or an exception is
// a finding.

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <map>
#include <string>
#include <string_view>

#include "cli/observed_option.h"
#include "facts/holidays/read_holiday_calendar.h"
#include "facts/tide/read_current_station.h"
#include "facts/tide/read_tide_station.h"
#include "facts/waterway/read_waterway.h"
#include "facts/weather/read_wind_forecast.h"
#include "fetch/asked.h"
#include "fetch/co_ops_currents_provider.h"
#include "fetch/co_ops_levels_provider.h"
#include "fetch/co_ops_predictions_provider.h"
#include "fetch/co_ops_station_provider.h"
#include "fetch/grib2_provider.h"
#include "fetch/nws_alerts_provider.h"
#include "fetch/nws_grid_provider.h"
#include "fetch/nws_hourly_provider.h"
#include "fetch/nws_points_provider.h"
#include "fetch/open_meteo_provider.h"
#include "fetch/read_sources.h"
#include "plan/read_route.h"
#include "plan/read_vessel.h"
#include "rules/read_rules.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

struct FuzzedReader {
  std::string_view files;  // names that feed its corpus, as a shell pattern
  std::function<void(std::string_view)> read;
};

Asked told_all() {
  Asked asked;
  asked.name = "Fuzz";
  asked.datum = "MLLW";
  asked.height_unit = metres(1);
  asked.gmt = true;
  return asked;
}

Asked told_place() {
  Asked asked;
  asked.place = position_at(30, -45);
  return asked;
}

/// The reader alone; what it says is of no interest here.
template <class Read>
std::function<void(std::string_view)> only(const Read& read) {
  return [read](std::string_view bytes) { static_cast<void>(read(bytes)); };
}

const std::map<std::string_view, FuzzedReader>& fuzzed_readers() {
  using Text = std::string_view;
  static const std::map<std::string_view, FuzzedReader> all{
      {"vessel", {"*vessel.json", only([](Text t) { return read_vessel("f", t); })}},
      {"route",
       {"*.gpx *route.geojson *bar.geojson", only([](Text t) { return read_route("f", t); })}},
      {"waterway", {"*waterway.json", only([](Text t) { return read_waterway("f", t); })}},
      {"tide", {"*tide.json", only([](Text t) { return read_tide_station("f", t); })}},
      {"current", {"*current.json", only([](Text t) { return read_current_station("f", t); })}},
      {"wind", {"*wind.json", only([](Text t) { return read_wind_forecast("f", t); })}},
      {"holidays", {"*holidays.json", only([](Text t) { return read_holiday_calendar("f", t); })}},
      {"sources", {"*sources.json", only([](Text t) { return read_sources("f", t); })}},
      {"rules", {"*rules.json small_craft.json renters.json learners.json", only([](Text t) {
                   return read_rules({"f", std::string(t)},
                                     [](Text) { return std::unexpected("none"); });
                 })}},
      {"observed", {"*.observed", only([](Text t) {
                      return parse_observed(t, Zone::named("America/New_York").value(),
                                            std::chrono::year(2026) / 6 / 14);
                    })}},
      {"query", {"*.query", only([](Text t) { return asked_in(t); })}},
      {"co_ops_predictions", {"co_ops_predictions*", only([](Text t) {
                                return co_ops_predictions("r", t, told_all());
                              })}},
      {"co_ops_levels", {"co_ops_levels* water_level*", only([](Text t) {
                           return co_ops_levels_as_station("r", t, told_all());
                         })}},
      {"co_ops_currents", {"co_ops_currents* currents_predictions*", only([](Text t) {
                             return co_ops_currents("r", t, told_all());
                           })}},
      {"co_ops_station",
       {"co_ops_station* mdapi*", only([](Text t) { return co_ops_station("r", t, told_all()); })}},
      {"nws_points", {"nws_points* points*", only([](Text t) {
                        return nws_point("r", t, position_at(30, -45));
                      })}},
      {"nws_grid",
       {"nws_grid* gridpoints*", only([](Text t) { return nws_grid("r", t, Asked{}); })}},
      {"nws_hourly",
       {"nws_hourly* forecast_hourly*", only([](Text t) { return nws_hourly("r", t, Asked{}); })}},
      {"nws_alerts", {"nws_alerts* alerts*", only([](Text t) { return nws_alerts("r", t, ""); })}},
      {"open_meteo", {"open_meteo*", only([](Text t) { return open_meteo("r", t, Asked{}); })}},
      {"grib2", {"*.grib2", only([](Text t) { return grib2_winds("r", t, told_place()); })}}};
  return all;
}

const FuzzedReader* picked = nullptr;

}  // namespace
}  // namespace passage_brief

extern "C" int LLVMFuzzerInitialize(int* argc, char*** argv) {
  using passage_brief::fuzzed_readers;
  for (int i = 1; i < *argc; ++i) {
    const std::string_view argument((*argv)[i]);
    if (argument == "--readers") {
      for (const auto& [name, reader] : fuzzed_readers()) {
        std::printf("%s\t%s\n", std::string(name).c_str(), std::string(reader.files).c_str());
      }
      std::exit(0);
    }
    if (!argument.starts_with("--reader=")) continue;
    const auto found = fuzzed_readers().find(argument.substr(argument.find('=') + 1));
    if (found != fuzzed_readers().end()) passage_brief::picked = &found->second;
  }
  if (passage_brief::picked != nullptr) return 0;
  std::fprintf(stderr, "name a reader with --reader=NAME; --readers lists them\n");
  std::exit(2);
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  passage_brief::picked->read({reinterpret_cast<const char*>(data), size});
  return 0;
}
