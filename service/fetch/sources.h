// Where live facts come from: services, stations and places, how long a copy serves, and what the
// network is allowed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fetch/curl_transport.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {

/// Base addresses without a path.
struct Services {
  std::string co_ops = "https://api.tidesandcurrents.noaa.gov";
  std::string nws = "https://api.weather.gov";
  std::string open_meteo = "https://api.open-meteo.com";
  std::string open_meteo_marine = "https://marine-api.open-meteo.com";
};

/// A copy younger than fresh_for, by when it was fetched, is used without asking; past that it is
/// asked for again, and serves, labelled, as long as it is younger than usable_for, by when it was
/// issued (fetched, where the reply does not say).
struct KeepFor {
  Interval fresh_for;
  Interval usable_for;
};

struct KeepRules {
  KeepFor stations{std::chrono::hours(24 * 30), std::chrono::hours(24 * 400)};
  KeepFor predictions{std::chrono::hours(24 * 30), std::chrono::hours(24 * 400)};
  KeepFor winds{std::chrono::hours(1), std::chrono::hours(12)};
  KeepFor alerts{std::chrono::minutes(10), std::chrono::hours(3)};
  KeepFor levels{std::chrono::minutes(6), std::chrono::hours(1)};
};

/// Heights worked out from the published constants, or between those of a published table.
enum class TideFigures { constants, predictions, highs_and_lows };

struct TideSource {
  std::string name;     // what the waterway calls the station
  std::string station;  // CO-OPS number
  std::optional<Zone> zone;
  std::optional<Length> uncertainty;
  bool observed = false;                                     // whether its gauge is looked at too
  std::vector<TideFigures> from = {TideFigures::constants};  // in the order of trust
};

struct CurrentSource {
  std::string name;
  std::string station;
  std::string bin;  // depth by its number; empty: the station's own choice
  std::optional<Zone> zone;
  std::optional<Speed> uncertainty;
};

enum class WindService { nws, nws_hourly, open_meteo };

struct WindSource {
  std::string name;
  Position position;
  std::vector<WindService> from;  // in the order of trust
};

struct Sources {
  std::string store;  // path of the SQLite file; relative ones stand beside the configuration
  Interval within;    // for everything together, retries included
  Services services;
  KeepRules keep;
  NetworkLimits network;
  std::vector<TideSource> tides;
  std::vector<CurrentSource> currents;
  std::vector<WindSource> winds;
  std::vector<std::string> alerts;  // zones of the US National Weather Service
};

}  // namespace passage_brief
