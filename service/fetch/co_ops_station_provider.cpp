#include "fetch/co_ops_station_provider.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "facts/tide/constituent.h"
#include "facts/tide/read_tide_station.h"
#include "fetch/asked.h"
#include "fetch/reply.h"
#include "reading/problem.h"
#include "reading/quantity_text.h"
#include "units/quantity.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

constexpr std::array<std::string_view, 12> kPlanes{"STND", "HAT", "MHHW", "MHW",    "DTL", "MTL",
                                                   "MSL",  "MLW", "MLLW", "NAVD88", "LAT", "LWD"};
/// Speeds are listed to 1e-7 or 1e-6 degree an hour.
constexpr double kSpeedAgrees_deg_per_h = 2e-6;

/// "m" or "ft"; empty where the block says neither.
std::string unit_of(const json* block) {
  const std::string units = text_in(member(block, "units"));
  if (units == "feet") return "ft";
  if (units == "meters" || units == "metric") return "m";
  return {};
}

std::optional<double> number_or_refuse(const json* value, const std::string& place,
                                       Ledger& ledger) {
  const auto number = number_in(value);
  if (number) return *number;
  ledger.add(place, number.error());
  return std::nullopt;
}

/// The zone of US coasts by hours from Greenwich and whether clocks change; where no zone of the
/// data base is meant, the fixed offset.
std::string zone_of(const json* station) {
  const auto hours = number_in(member(station, "timezonecorr"));
  const json* changes = member(station, "observedst");
  if (!hours || !*hours || changes == nullptr || !changes->is_boolean()) return "UTC";
  const int corr = static_cast<int>(std::clamp(std::round(**hours), -13.0, 14.0));
  static constexpr std::array<std::pair<int, const char*>, 6> kZones{{{-4, "Atlantic/Bermuda"},
                                                                      {-5, "America/New_York"},
                                                                      {-6, "America/Chicago"},
                                                                      {-8, "America/Los_Angeles"},
                                                                      {-9, "America/Anchorage"},
                                                                      {-10, "America/Adak"}}};
  if (changes->get<bool>()) {
    const auto found = std::ranges::find(kZones, corr, [](const auto& zone) { return zone.first; });
    return found == kZones.end() ? "UTC" : found->second;
  }
  if (corr == 0 || corr < -12) return "UTC";
  // In these names the sign is that of the hours west (IANA, file etcetera).
  return fmt::format("Etc/GMT{}{}", corr < 0 ? '+' : '-', std::abs(corr));
}

ordered_json datums_of(const json* block, Ledger& ledger) {
  ordered_json datums;
  const json* list = member(block, "datums");
  if (list == nullptr || !list->is_array() || list->empty()) return nullptr;
  const std::string unit = unit_of(block);
  if (unit.empty()) ledger.add("/datums/units", "says neither feet nor meters");
  datums["unit"] = unit;
  const auto put = [&](std::string_view name, const json* value, const std::string& place) {
    const auto height = number_or_refuse(value, place, ledger);
    const bool is_plane = std::ranges::find(kPlanes, name) != kPlanes.end();
    if (!height || !is_plane) return;
    if (datums.contains(name)) ledger.add(place, "the datum stands in the list twice");
    datums[std::string(name)] = *height;
  };
  for (std::size_t i = 0; i < list->size(); ++i) {
    const json* row = element(list, i);
    put(text_in(member(row, "name")), member(row, "value"), fmt::format("/datums/datums/{}", i));
  }
  for (const char* name : {"HAT", "LAT"}) {
    if (!datums.contains(name)) put(name, member(block, name), std::string("/datums/") + name);
  }
  return datums;
}

ordered_json constituents_of(const json* block, Ledger& ledger) {
  const json* list = member(block, "HarmonicConstituents");
  if (list == nullptr || !list->is_array() || list->empty()) return nullptr;
  const std::string unit = unit_of(block);
  if (unit.empty()) ledger.add("/harmonicConstituents/units", "says neither feet nor meters");
  ordered_json rows = ordered_json::array();
  for (std::size_t i = 0; i < list->size(); ++i) {
    const json* row = element(list, i);
    const std::string place = fmt::format("/harmonicConstituents/{}", i);
    const std::string name = line_in(member(row, "name"), 20);
    const auto amplitude = number_or_refuse(member(row, "amplitude"), place + "/amplitude", ledger);
    const auto phase = number_or_refuse(member(row, "phase_GMT"), place + "/phase_GMT", ledger);
    const auto speed = number_or_refuse(member(row, "speed"), place + "/speed", ledger);
    const auto constituent = Constituent::named(name);
    if (!constituent) {
      if (amplitude == 0.0) continue;
      ledger.add(place, "\"" + name + "\" is none of the constituents that can be worked out");
      continue;
    }
    if (speed && std::abs(*speed - constituent->speed_deg_per_h()) > kSpeedAgrees_deg_per_h) {
      ledger.add(place + "/speed", "is not the speed of " + name);
    }
    rows.push_back({name, amplitude ? ordered_json(*amplitude) : ordered_json(nullptr),
                    phase ? ordered_json(*phase) : ordered_json(nullptr)});
  }
  return {{"unit", unit}, {"phase", "GMT"}, {"rows", rows}};
}

/// One height offset: a ratio ("R"), or an addition ("F", fixed) in the unit of the reply.
ordered_json height_offset(const json* offsets, const char* key, Ledger& ledger) {
  const std::string place = std::string("/tidePredOffsets/") + key;
  const auto value = number_or_refuse(member(offsets, key), place, ledger);
  if (!value) return nullptr;
  const std::string how = text_in(member(offsets, "heightAdjustedType"));
  if (how == "R") return {{"ratio", *value}};
  const std::string unit = unit_of(offsets);
  if (how == "F" && !unit.empty()) {
    return {{"add", to_text(unit == "ft" ? feet(*value) : metres(*value))}};
  }
  ledger.add(place, "does not say whether it is a ratio or an addition, or of which unit");
  return nullptr;
}

void put_offsets(const json* offsets, ordered_json& file, Ledger& ledger) {
  const std::string reference = line_in(member(offsets, "refStationId"), 20);
  if (reference.empty()) return;
  file["reference"] = reference;
  ordered_json& out = file["offsets"];
  for (const auto& [key, ours] :
       {std::pair("timeOffsetHighTide", "high_time"), std::pair("timeOffsetLowTide", "low_time")}) {
    const auto minutes =
        number_or_refuse(member(offsets, key), std::string("/tidePredOffsets/") + key, ledger);
    if (minutes) out[ours] = fmt::format("{} min", *minutes);
  }
  out["high"] = height_offset(offsets, "heightOffsetHighTide", ledger);
  out["low"] = height_offset(offsets, "heightOffsetLowTide", ledger);
}

}  // namespace

std::string co_ops_station_path(std::string_view station) {
  return fmt::format(
      "/mdapi/prod/webapi/stations/{}.json?expand=datums,harcon,tidepredoffsets&"
      "units=metric",
      station);
}

std::expected<std::string, Problems> co_ops_station_file(std::string_view name,
                                                         std::string_view text,
                                                         const Asked& asked) {
  const auto tree = reply_tree(name, text);
  if (!tree) return std::unexpected(tree.error());
  const json* station = element(member(tree->get(), "stations"), 0);
  if (station == nullptr) return refused(name, "/stations", "holds no station");
  const std::string id = line_in(member(station, "id"), 20);
  if (!asked.station.empty() && id != asked.station) {
    return refused(name, "/stations/0/id", "is \"" + id + "\"; " + asked.station + " was asked");
  }
  Ledger ledger(name, "the reply");
  ordered_json file;
  file["kind"] = "tide station";
  std::string called = asked.name.empty() ? line_in(member(station, "name"), 80) : asked.name;
  if (called.empty()) called = id;
  file["name"] = called;
  const auto latitude = number_or_refuse(member(station, "lat"), "/stations/0/lat", ledger);
  const auto longitude = number_or_refuse(member(station, "lng"), "/stations/0/lng", ledger);
  file["position"] = latitude && longitude
                         ? ordered_json{{"latitude", *latitude}, {"longitude", *longitude}}
                         : ordered_json(nullptr);
  file["zone"] = asked.zone ? asked.zone->name() : zone_of(station);
  ordered_json datums = datums_of(member(station, "datums"), ledger);
  const json* lakes = member(station, "greatlakes");
  const bool tidal = lakes == nullptr || !lakes->is_boolean() || !lakes->get<bool>();
  const json* offsets = member(station, "tidePredOffsets");
  put_offsets(offsets, file, ledger);
  // A subordinate station's offsets are from its reference's heights above MLLW.
  const bool has_plane = datums.is_null() ? file.contains("reference") : datums.contains("MLLW");
  file["chart_datum"] = tidal && has_plane ? ordered_json("MLLW") : ordered_json(nullptr);
  if (!datums.is_null()) file["datums"] = std::move(datums);
  if (!file.contains("reference")) {
    file["constituents"] = constituents_of(member(station, "harmonicConstituents"), ledger);
  }
  file["uncertainty"] = asked.height_uncertainty ? ordered_json(to_text(*asked.height_uncertainty))
                                                 : ordered_json(nullptr);
  file["source"] = "NOAA CO-OPS station " + id + ", constants and datums as published";
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  return file.dump(1) + "\n";
}

std::expected<TideStationFile, Problems> co_ops_station(std::string_view name,
                                                        std::string_view text, const Asked& asked) {
  const auto file = co_ops_station_file(name, text, asked);
  if (!file) return std::unexpected(file.error());
  auto read = read_tide_station(name, *file);
  const auto tree = reply_tree(name, text);
  if (read) read->number = line_in(member(element(member(tree->get(), "stations"), 0), "id"), 20);
  return read;
}

}  // namespace passage_brief
