#include "fetch/read_sources.h"

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <expected>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "fetch/sources.h"
#include "reading/form.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

using Words = std::vector<std::string>;

/// Letters, digits and underscores only: it becomes part of an address.
Form<std::string> station_number() {
  return turned<std::string, std::string>(
      text(20), [](const std::string& number) -> std::expected<std::string, std::string> {
        const bool plain = std::ranges::all_of(
            number, [](unsigned char c) { return c < 0x80 && (std::isalnum(c) != 0 || c == '_'); });
        if (plain) return number;
        return std::unexpected("expected letters, digits and underscores, like 9990001");
      });
}

/// "PZZ545": two letters of the state or sea, Z, three digits; marine and land zones alike.
Form<std::string> zone_code() {
  return turned<std::string, std::string>(
      text(6), [](const std::string& code) -> std::expected<std::string, std::string> {
        bool right = code.size() == 6;
        for (std::size_t i = 0; right && i < 6; ++i) {
          right = i < 3 ? code[i] >= 'A' && code[i] <= 'Z' : code[i] >= '0' && code[i] <= '9';
        }
        if (right) return code;
        return std::unexpected("expected the code of a forecast zone, like PZZ545");
      });
}

/// "https://api.weather.gov", perhaps with a port; no path, no user.
Form<std::string> base_address() {
  return turned<std::string, std::string>(
      text(200), [](const std::string& address) -> std::expected<std::string, std::string> {
        const auto begin = address.starts_with("https://") ? 8U : 7U;
        const std::string_view rest =
            std::string_view(address).substr(std::min<std::size_t>(begin, address.size()));
        const bool web = address.starts_with("https://") || address.starts_with("http://");
        const bool plain = std::ranges::all_of(rest, [](unsigned char c) {
          return c < 0x80 && (std::isalnum(c) != 0 || c == '.' || c == '-' || c == ':');
        });
        if (web && plain && !rest.empty()) return address;
        return std::unexpected("expected an address without a path, like https://api.weather.gov");
      });
}

std::string host_of(const std::string& base) {
  const auto begin = base.find("://") + 3;
  return base.substr(begin, base.find(':', begin) - begin);
}

Form<Services> services() {
  return object<Services>(
      "services",
      {may_be_left_out("co_ops", base_address(), "NOAA CO-OPS.",
                       "\"https://api.tidesandcurrents.noaa.gov\""),
       may_be_left_out("nws", base_address(), "US National Weather Service.",
                       "\"https://api.weather.gov\""),
       may_be_left_out("open_meteo", base_address(), "Open-Meteo, weather.",
                       "\"https://api.open-meteo.com\""),
       may_be_left_out("open_meteo_marine", base_address(), "Open-Meteo, waves.",
                       "\"https://marine-api.open-meteo.com\"")},
      [](const Row& row) {
        Services made;
        made.co_ops = row.get_or<std::string>("co_ops", made.co_ops);
        made.nws = row.get_or<std::string>("nws", made.nws);
        made.open_meteo = row.get_or<std::string>("open_meteo", made.open_meteo);
        made.open_meteo_marine =
            row.get_or<std::string>("open_meteo_marine", made.open_meteo_marine);
        return made;
      });
}

Form<KeepFor> keep_for() {
  return object<KeepFor>(
      "keep for",
      {must_be_given("fresh_for", interval("0 s", "9600 h"),
                     "Used without asking, since it was fetched.", "\"1 h\""),
       must_be_given("usable_for", interval("1 min", "20000 h"),
                     "Used, labelled, where no newer one can be had, since it was issued.",
                     "\"12 h\"")},
      [](const Row& row) {
        return KeepFor{row.get<Interval>("fresh_for"), row.get<Interval>("usable_for")};
      },
      {[](const Row& row) {
        const auto fresh = row.maybe<Interval>("fresh_for");
        const auto usable = row.maybe<Interval>("usable_for");
        if (fresh && usable && *usable < *fresh) row.refuse("usable_for", "is less than fresh_for");
      }});
}

Form<KeepRules> keep_rules() {
  const auto field = [](const char* name, const char* words) {
    return may_be_left_out(name, keep_for(), words,
                           R"({"fresh_for": "1 h", "usable_for": "12 h"})");
  };
  return object<KeepRules>(
      "keep",
      {field("stations", "Constants, datums and offsets of stations."),
       field("predictions", "Predictions of tides and currents."),
       field("winds", "Wind forecasts."), field("alerts", "Warnings and advisories."),
       field("levels", "Observed water levels.")},
      [](const Row& row) {
        KeepRules keep;
        keep.stations = row.get_or<KeepFor>("stations", keep.stations);
        keep.predictions = row.get_or<KeepFor>("predictions", keep.predictions);
        keep.winds = row.get_or<KeepFor>("winds", keep.winds);
        keep.alerts = row.get_or<KeepFor>("alerts", keep.alerts);
        keep.levels = row.get_or<KeepFor>("levels", keep.levels);
        return keep;
      });
}

Form<NetworkLimits> network() {
  return object<NetworkLimits>(
      "network",
      {may_be_left_out("hosts", list_of(text(100), 1, 20),
                       "Hosts that a service may send on to, beside the services' own.",
                       "[\"cache.example.org\"]"),
       may_be_left_out("private_addresses", yes_or_no(),
                       "Whether addresses of one's own network may be asked; false where left out.",
                       "false"),
       may_be_left_out("plain_http", yes_or_no(),
                       "Whether addresses without encryption may be asked; false where left out.",
                       "false"),
       may_be_left_out("certificates", text(300),
                       "PEM file of one's own authorities; left out: those of the system.",
                       "\"authorities.pem\"")},
      [](const Row& row) {
        NetworkLimits made;
        made.hosts = row.get_or<Words>("hosts", {});
        made.private_addresses = row.get_or<bool>("private_addresses", false);
        made.plain_http = row.get_or<bool>("plain_http", false);
        made.certificates = row.get_or<std::string>("certificates", "");
        return made;
      });
}

Field name_field() {
  return must_be_given("name", text(80), "What the waterway calls it.", "\"Town Landing\"");
}
Field station_field() {
  return must_be_given("station", station_number(), "Its number at NOAA CO-OPS.", "\"9990001\"");
}
Field zone_field() {
  return may_be_left_out("zone", time_zone(), "Its wall time.", "\"America/New_York\"");
}

Form<TideSource> tide_source() {
  return object<TideSource>(
      "tide source",
      {name_field(), station_field(), zone_field(),
       may_be_unknown("uncertainty", length("0 m", "3 m"),
                      "One standard deviation of observed less predicted height.", "\"0.15 m\""),
       may_be_left_out("observed", yes_or_no(),
                       "Whether its gauge is read too: its level then counts as an observed "
                       "one; false where left out.",
                       "true"),
       may_be_left_out(
           "from",
           list_of(choice<TideFigures>({{"constants", TideFigures::constants},
                                        {"predictions", TideFigures::predictions},
                                        {"highs and lows", TideFigures::highs_and_lows}}),
                   1, 3),
           "What its heights come from, in the order of trust: the first that can be "
           "had is used. The published constants, predictions each 6 minutes, or the "
           "predicted highs and lows. The constants where left out.",
           R"(["constants", "highs and lows"])")},
      [](const Row& row) {
        return TideSource{row.get<std::string>("name"),
                          row.get<std::string>("station"),
                          row.maybe<Zone>("zone"),
                          row.maybe<Length>("uncertainty"),
                          row.get_or<bool>("observed", false),
                          row.get_or<std::vector<TideFigures>>("from", {TideFigures::constants})};
      });
}

Form<CurrentSource> current_source() {
  return object<CurrentSource>(
      "current source",
      {name_field(), station_field(),
       may_be_left_out("bin", station_number(), "Depth, by its number at the station.", "\"14\""),
       zone_field(),
       may_be_unknown("uncertainty", speed("0 kn", "5 kn"),
                      "One standard deviation of observed less predicted speed.", "\"0.3 kn\"")},
      [](const Row& row) {
        return CurrentSource{row.get<std::string>("name"), row.get<std::string>("station"),
                             row.get_or<std::string>("bin", ""), row.maybe<Zone>("zone"),
                             row.maybe<Speed>("uncertainty")};
      });
}

Form<WindSource> wind_source() {
  return object<WindSource>(
      "wind source",
      {must_be_given("name", text(80), "For the page.", "\"river mouth\""),
       must_be_given("position", position(), "Where the forecast is for.",
                     R"({"latitude": 38.5, "longitude": -76.4})"),
       must_be_given("from",
                     list_of(choice<WindService>({{"nws", WindService::nws},
                                                  {"nws hourly", WindService::nws_hourly},
                                                  {"open meteo", WindService::open_meteo}}),
                             1, 3),
                     "Services in the order of trust: the first good forecast is used. \"nws\" is "
                     "the raw grid; \"nws hourly\", made for reading, has no gust and no waves.",
                     R"(["nws", "open meteo"])")},
      [](const Row& row) {
        return WindSource{row.get<std::string>("name"), row.get<Position>("position"),
                          row.get<std::vector<WindService>>("from")};
      });
}

std::vector<Field> sources_fields() {
  return {always("kind", "sources"),
          must_be_given("contact", text(100),
                        "Mail address or page of whoever runs this: the services ask for it.",
                        "\"harbor@example.org\""),
          must_be_given("store", text(300), "SQLite file for copies, beside this file.",
                        "\"copies.sqlite\""),
          may_be_left_out("within", interval("0.1 s", "60 s"),
                          "Time for everything together; 10 s where left out.", "\"10 s\""),
          may_be_left_out("services", services(), "Base addresses, where they are others.",
                          R"({"nws": "https://api.weather.gov"})"),
          may_be_left_out("keep", keep_rules(), "How long copies serve.",
                          R"({"winds": {"fresh_for": "1 h", "usable_for": "12 h"}})"),
          may_be_left_out("network", network(), "What the network is allowed.",
                          R"({"private_addresses": false})"),
          may_be_left_out("tides", list_of(tide_source(), 1, 50), "Tide stations.",
                          R"([{"name": "Town Landing", "station": "9990001"}])"),
          may_be_left_out("currents", list_of(current_source(), 1, 50), "Current stations.",
                          R"([{"name": "The Narrows", "station": "ACT4176"}])"),
          may_be_left_out("winds", list_of(wind_source(), 1, 20), "Places of forecasts.",
                          R"([{"name": "river mouth", "position": {"latitude": 38.5,
                                                              "longitude": -76.4},
                          "from": ["nws", "open meteo"]}])"),
          may_be_left_out("alerts", list_of(zone_code(), 1, 20),
                          "Forecast zones whose warnings count.", R"(["ANZ533"])")};
}

std::optional<Sources> build_sources(const Row& row) {
  Sources made{.store = row.get<std::string>("store"),
               .within = row.get_or<Interval>("within", std::chrono::seconds(10)),
               .services = row.get_or<Services>("services", {}),
               .keep = row.get_or<KeepRules>("keep", {}),
               .network = row.get_or<NetworkLimits>("network", {}),
               .tides = row.get_or<std::vector<TideSource>>("tides", {}),
               .currents = row.get_or<std::vector<CurrentSource>>("currents", {}),
               .winds = row.get_or<std::vector<WindSource>>("winds", {}),
               .alerts = row.get_or<Words>("alerts", {})};
  made.network.contact = row.get<std::string>("contact");
  for (const std::string& base : {made.services.co_ops, made.services.nws, made.services.open_meteo,
                                  made.services.open_meteo_marine}) {
    made.network.hosts.push_back(host_of(base));
  }
  return made;
}

void check_something_asked(const Row& row) {
  for (const char* key : {"tides", "currents", "winds", "alerts"}) {
    if (row.given(key)) return;
  }
  row.refuse("asks for nothing; give tides, currents, winds or alerts");
}

std::string beside(const std::string& file, const std::string& path) {
  if (path.empty()) return path;
  return (std::filesystem::path(file).parent_path() / path).string();
}

}  // namespace

Form<Sources> sources_form() {
  return object<Sources>("sources", sources_fields(), build_sources, {check_something_asked});
}

std::expected<Sources, Problems> read_sources(const std::string& file, std::string_view text) {
  static const auto form = sources_form();  // made once
  auto sources = read_json(file, text, "the sources file", form);
  if (sources) {
    sources->store = beside(file, sources->store);
    sources->network.certificates = beside(file, sources->network.certificates);
  }
  return sources;
}

}  // namespace passage_brief
