// One passage as a folder of files, changed here and there by a test, and run through the program.
#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "given/run_program.h"

namespace passage_brief::given {

/// What `make` gave for a case.
struct PassageRun {
  ProgramRun program;
  nlohmann::json brief;  // brief.json; null where none was made
  std::string text;      // brief.txt
  /// The first entry of a list of the brief (depths, bridges, marks, ...) whose `name` is this;
  /// throws with the names there are when there is none.
  [[nodiscard]] const nlohmann::json& named(const std::string& list, const std::string& name) const;
  /// All cautions and what was not checked, one a line: to search for words.
  [[nodiscard]] std::string cautions() const;
};

/// A folder holds vessel.json, route.geojson or route.gpx, waterway.json, rules.json, wind.json and
/// any number of *.tide.json and *.current.json.
class PassageCase {
 public:
  /// A folder below the project's own.
  explicit PassageCase(const std::string& folder);

  nlohmann::json vessel;
  nlohmann::json route;  // null where it is GPX
  nlohmann::json waterway;
  nlohmann::json rules;
  std::vector<nlohmann::json> winds;
  std::vector<nlohmann::json> tides;
  std::vector<nlohmann::json> currents;
  std::string departs;
  std::string now;
  std::vector<std::string> more_arguments;

  /// The properties of the feature of that name; throws when there is none.
  [[nodiscard]] nlohmann::json& feature(const std::string& name);
  /// Adds one; `geometry` as GeoJSON.
  void add_feature(nlohmann::json properties, nlohmann::json geometry);
  void remove_feature(const std::string& name);

  /// Writes the files to a folder of its own, runs `make` there, and takes the folder away again.
  [[nodiscard]] PassageRun make() const;

 private:
  std::filesystem::path gpx_;
};

/// GeoJSON coordinates so many metres east and north of a position (sphere-free: WGS 84 radii at
/// the position; good to a millimetre over a mile).
struct Ground {
  double latitude;
  double longitude;
  [[nodiscard]] nlohmann::json at(double east_m, double north_m) const;
  [[nodiscard]] nlohmann::json point(double east_m, double north_m) const;
  [[nodiscard]] nlohmann::json line(const std::vector<std::pair<double, double>>& points_m) const;
  /// Closed here: give each corner once.
  [[nodiscard]] nlohmann::json polygon(
      const std::vector<std::pair<double, double>>& corners_m) const;
};

/// 40 N 40 W, in the open ocean, where tests/situations/straight lies.
inline constexpr Ground kGround{40.0, -40.0};

/// tests/situations/straight for a departure at noon of 14 June 2026, two hours before it.
[[nodiscard]] PassageCase straight_channel();

/// tests/situations/straight somewhere else on Earth: its channel, route, stations and forecast.
/// The route begins there and runs a mile north.
[[nodiscard]] PassageCase straight_channel_at(const Ground& ground);

/// RFC 3339, so many hours into 14 June 2026 (UTC).
[[nodiscard]] std::string at_hour(int hour);

inline constexpr double kFoot_m = 0.3048;
inline constexpr double kPrinted_ft = 0.0004;  // the JSON's 0.1 mm

/// A figure of the JSON that is in metres.
[[nodiscard]] double feet_of(const nlohmann::json& metres);

}  // namespace passage_brief::given
