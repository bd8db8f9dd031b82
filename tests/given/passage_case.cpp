#include "given/passage_case.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <numbers>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "given/csv_table.h"
#include "given/run_program.h"

namespace passage_brief::given {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

/// A new folder, taken away again with all in it.
class Folder {
 public:
  Folder() {
    std::string name = fs::temp_directory_path() / "passage-brief-case-XXXXXX";
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = name;
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  [[nodiscard]] fs::path write(const std::string& name, const json& content) const {
    std::ofstream(path_ / name) << content.dump(1) << '\n';
    return path_ / name;
  }
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

std::vector<fs::path> files_ending(const fs::path& folder, const std::string& ending) {
  std::vector<fs::path> found;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().filename().string().ends_with(ending)) found.push_back(entry.path());
  }
  std::ranges::sort(found);
  return found;
}

json read_json(const fs::path& file) { return json::parse(contents_of(file)); }

std::vector<json> read_all(const fs::path& folder, const std::string& ending) {
  std::vector<json> all;
  for (const fs::path& file : files_ending(folder, ending)) all.push_back(read_json(file));
  return all;
}

}  // namespace

const json& PassageRun::named(const std::string& list, const std::string& name) const {
  std::string names;
  for (const json& entry : brief.at(list)) {
    if (entry.at("name") == name) return entry;
    names += "\n  " + entry.at("name").dump();
  }
  throw std::runtime_error("no '" + name + "' in " + list + ":" + names);
}

std::string PassageRun::cautions() const {
  std::string all;
  for (const char* list : {"cautions", "not_checked"}) {
    for (const json& entry : brief.at(list)) all += entry.dump() + "\n";
  }
  return all;
}

PassageCase::PassageCase(const std::string& folder) {
  const fs::path from = fs::path(PROJECT_DIR) / folder;
  vessel = read_json(from / "vessel.json");
  if (fs::exists(from / "route.gpx")) {
    gpx_ = from / "route.gpx";
  } else {
    route = read_json(from / "route.geojson");
  }
  waterway = read_json(from / "waterway.json");
  rules = read_json(from / "rules.json");
  winds = read_all(from, "wind.json");
  tides = read_all(from, ".tide.json");
  currents = read_all(from, ".current.json");
}

json& PassageCase::feature(const std::string& name) {
  for (json& feature : waterway.at("features")) {
    json& properties = feature.at("properties");
    if (properties.value("name", "") == name) return properties;
  }
  throw std::runtime_error("no feature '" + name + "'");
}

void PassageCase::add_feature(json properties, json geometry) {
  waterway.at("features")
      .push_back({{"type", "Feature"},
                  {"properties", std::move(properties)},
                  {"geometry", std::move(geometry)}});
}

void PassageCase::remove_feature(const std::string& name) {
  json& features = waterway.at("features");
  for (std::size_t i = 0; i < features.size(); ++i) {
    if (features[i].at("properties").value("name", "") != name) continue;
    features.erase(i);
    return;
  }
  throw std::runtime_error("no feature '" + name + "'");
}

PassageRun PassageCase::make() const {
  const Folder folder;
  // A rules file finds the one it builds on among those beside it.
  for (const fs::path& shipped : files_ending(fs::path(PROJECT_DIR) / "rules", ".json")) {
    fs::copy_file(shipped, folder.path() / shipped.filename());
  }
  std::vector<std::string> arguments{"make",
                                     "--vessel",
                                     folder.write("vessel.json", vessel),
                                     "--waterway",
                                     folder.write("waterway.json", waterway),
                                     "--rules",
                                     folder.write("rules.json", rules)};
  const auto add = [&](const std::string& option, const std::string& value) {
    arguments.push_back(option);
    arguments.push_back(value);
  };
  add("--route", gpx_.empty() ? folder.write("route.geojson", route) : gpx_);
  const auto add_all = [&](const std::string& option, const std::vector<json>& all) {
    for (std::size_t i = 0; i < all.size(); ++i) {
      add("--" + option, folder.write(option + std::to_string(i) + ".json", all[i]));
    }
  };
  add_all("tide", tides);
  add_all("current", currents);
  add_all("wind", winds);
  add("--depart", departs);
  add("--windows", "0");
  if (!now.empty()) add("--now", now);
  add("--as", "json,text");
  add("--into", folder.path());
  arguments.insert(arguments.end(), more_arguments.begin(), more_arguments.end());

  PassageRun run{run_program(arguments), nullptr, {}};
  if (fs::exists(folder.path() / "brief.json")) run.brief = read_json(folder.path() / "brief.json");
  if (fs::exists(folder.path() / "brief.txt")) run.text = contents_of(folder.path() / "brief.txt");
  return run;
}

json Ground::at(double east_m, double north_m) const {
  constexpr double kEquator_m = 6378137.0;  // WGS 84
  constexpr double kFlattening = 1 / 298.257223563;
  constexpr double kE2 = kFlattening * (2 - kFlattening);
  const double phi = latitude * std::numbers::pi / 180;
  const double w = std::sqrt(1 - kE2 * std::sin(phi) * std::sin(phi));
  const double north_per_deg = std::numbers::pi / 180 * kEquator_m * (1 - kE2) / (w * w * w);
  const double east_per_deg = std::numbers::pi / 180 * kEquator_m / w * std::cos(phi);
  return {longitude + east_m / east_per_deg, latitude + north_m / north_per_deg};
}

json Ground::point(double east_m, double north_m) const {
  return {{"type", "Point"}, {"coordinates", at(east_m, north_m)}};
}

json Ground::line(const std::vector<std::pair<double, double>>& points_m) const {
  json coordinates = json::array();
  for (const auto& [east_m, north_m] : points_m) coordinates.push_back(at(east_m, north_m));
  return {{"type", "LineString"}, {"coordinates", coordinates}};
}

json Ground::polygon(const std::vector<std::pair<double, double>>& corners_m) const {
  json ring = line(corners_m).at("coordinates");
  ring.push_back(ring.front());
  return {{"type", "Polygon"}, {"coordinates", json::array({ring})}};
}

PassageCase straight_channel() {
  PassageCase passage("tests/situations/straight");
  passage.departs = "2026-06-14T12:00";
  passage.now = "2026-06-14T10:00:00Z";
  return passage;
}

PassageCase straight_channel_at(const Ground& ground) {
  PassageCase passage("tests/situations/straight");
  passage.route["geometry"] = ground.line({{0, 0}, {0, 1852}});
  passage.waterway["features"][0]["geometry"] = ground.line({{0, -400}, {0, 2252}});
  for (std::vector<json>* facts : {&passage.tides, &passage.currents, &passage.winds}) {
    for (json& fact : *facts) {
      fact["position"] = {{"latitude", ground.latitude}, {"longitude", ground.longitude}};
    }
  }
  return passage;
}

std::string at_hour(int hour) {
  return fmt::format("2026-06-{:02}T{:02}:00:00Z", 14 + hour / 24, hour % 24);
}

double feet_of(const json& metres) { return metres.get<double>() / kFoot_m; }

}  // namespace passage_brief::given
