#include "given/replies.h"

#include <chrono>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "given/csv_table.h"
#include "given/open_water.h"

namespace passage_brief::given {

std::string reply_text(const std::string& name) {
  return contents_of(std::filesystem::path(TESTS_DIR) / "given" / "replies" / name);
}

Asked asked(const std::string& query) { return asked_in(query).value(); }

void ScriptedTransport::answer_well() {
  const auto good = [&](const char* path, const char* file) {
    answers.insert_or_assign(path, Answer{200, reply_text(file), "", ""});
  };
  good("/mdapi/prod/webapi/stations/9999001", "co_ops_station.json");
  good("/mdapi/prod/webapi/stations/9999002", "co_ops_station_subordinate.json");
  good("/api/prod/datagetter?product=currents_predictions", "co_ops_currents.json");
  good("/api/prod/datagetter?product=predictions", "co_ops_predictions_6min.json");
  good("/api/prod/datagetter?product=water_level", "co_ops_levels.json");
  good("/points/", "nws_points.json");
  good("/gridpoints/INV/12,34", "nws_grid.json");
  good("/gridpoints/INV/12,34/forecast/hourly", "nws_hourly.json");
  good("/alerts/active?zone=ANZ999", "nws_alerts.json");
  good("/v1/forecast", "open_meteo_forecast.json");
  good("/v1/marine", "open_meteo_marine.json");
}

void ScriptedTransport::fetch(std::vector<Request> requests, Interval, const OnAnswer& on_answer) {
  while (!requests.empty()) {
    const Request request = requests.front();
    requests.erase(requests.begin());
    asked.push_back(request);
    const std::string path = request.address.substr(request.address.find('/', 8));
    Fetched answer = std::unexpected("no connection to the service came about");
    for (const auto& [begin, scripted] : answers) {
      if (path.starts_with(begin)) answer = scripted;
    }
    for (Request& next : on_answer(request, answer)) requests.push_back(std::move(next));
  }
}

Sources all_sources(const std::string& base) {
  Sources sources{.store = ":memory:",
                  .within = std::chrono::seconds(10),
                  .services = {base, base, base, base},
                  .keep = {},
                  .network = {},
                  .tides = {{"Invented Landing", "9999001", std::nullopt, metres(0.15), false},
                            {"Invented Creek", "9999002", std::nullopt, std::nullopt, false}},
                  .currents = {{"Invented Narrows", "INV0101", "3", std::nullopt, knots(0.3)}},
                  .winds = {{"open water", at(0, 0), {WindService::nws, WindService::open_meteo}}},
                  .alerts = {"ANZ999"}};
  sources.network.contact = "tests@example.org";
  return sources;
}

}  // namespace passage_brief::given
