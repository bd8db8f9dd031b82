#include "given/stations.h"

#include <expected>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

#include "facts/tide/current_station.h"
#include "facts/tide/read_current_station.h"
#include "facts/tide/read_tide_station.h"
#include "facts/tide/tide_station.h"
#include "given/csv_table.h"
#include "given/files.h"
#include "reading/problem.h"
#include "units/time.h"

namespace passage_brief::given {
namespace {

std::expected<std::vector<TideStation>, Problems> linked(const std::vector<std::string>& texts) {
  std::vector<TideStationFile> files;
  Problems problems;
  for (const std::string& text : texts) {
    const std::string name = "station " + std::to_string(files.size() + 1) + ".json";
    auto file = read_tide_station(name, text);
    if (file) {
      files.push_back(*std::move(file));
    } else {
      problems.insert(problems.end(), file.error().begin(), file.error().end());
    }
  }
  if (!problems.empty()) return std::unexpected(problems);
  return link_tide_stations(files);
}

}  // namespace

std::string tide_file(const std::string& name) {
  return "tests/given/stations/" + name + ".tide.json";
}

std::string current_file(const std::string& name) {
  return "tests/given/stations/" + name + ".current.json";
}

TideStation published_tide(const std::string& name) {
  const std::filesystem::path project(PROJECT_DIR);
  std::vector<std::string> texts{contents_of(project / tide_file(name))};
  if (name == "swain_channel") texts.push_back(contents_of(project / tide_file("atlantic_city")));
  return tides_of(texts).front();
}

CurrentStation published_current(const std::string& name) {
  const std::string file = current_file(name);
  auto station = read_current_station(file, contents_of(std::filesystem::path(PROJECT_DIR) / file));
  if (!station) throw std::runtime_error(in_lines(station.error()));
  return *station;
}

std::vector<TideStation> tides_of(const std::vector<std::string>& texts) {
  auto stations = linked(texts);
  if (!stations) throw std::runtime_error(in_lines(stations.error()));
  return *stations;
}

std::string problems_of_tides(const std::vector<std::string>& texts) {
  const auto stations = linked(texts);
  return stations ? "" : in_lines(stations.error());
}

Instant at(const std::string& rfc3339) {
  const auto instant = parse_instant(rfc3339);
  if (!instant) throw std::runtime_error(instant.error());
  return *instant;
}

}  // namespace passage_brief::given
