#include "fetch/observed_difference.h"

#include <fmt/format.h>

#include <chrono>
#include <optional>
#include <string>

#include "facts/tide/tide_station.h"
#include "facts/weather/alert.h"
#include "fetch/co_ops_levels_provider.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr std::chrono::hours kCountsFor{12};

}  // namespace

std::optional<SeenLevel> seen_level(const TideStation& station, const ObservedLevels& observed) {
  const ObservedLevel& last = observed.levels.back();
  const auto predicted = station.height(last.at);
  if (!predicted) return std::nullopt;
  return SeenLevel{.place = station.name(),
                   .by = ObservedBy::water_level,
                   .reading = last.height.above_datum(),
                   .expected = predicted->above_datum(),
                   .station = station.name(),
                   .at = last.at,
                   .above_predicted = last.height - *predicted};
}

std::optional<Alert> alert_of_level(const TideStation& station, const ObservedLevels& observed,
                                    const Zone& zone) {
  const ObservedLevel& last = observed.levels.back();
  const auto predicted = station.height(last.at);
  if (!predicted) return std::nullopt;
  const Length difference = last.height - *predicted;
  const bool lower = difference < metres(0);
  const Length size = lower ? -difference : difference;
  if (size < kLevelDiffers) return std::nullopt;
  return Alert{.event = lower ? "water lower than predicted" : "water higher than predicted",
               .headline = fmt::format("{}: at {} the gauge read {:.1f} ft ({:.2f} m) {} than "
                                       "predicted",
                                       station.name(), date_and_time(last.at, zone), in_feet(size),
                                       in_metres(size), lower ? "lower" : "higher"),
               .instruction = lower ? "It is taken off every depth of this brief: ask why."
                                    : "It is taken off every clearance of this brief: ask why.",
               .issuer = "NOAA CO-OPS gauge " + observed.station,
               .severity = lower ? Severity::moderate : Severity::minor,
               .zones = {},
               .issued = last.at,
               .begins = last.at,
               .ends = last.at + kCountsFor,
               .link = ""};
}

}  // namespace passage_brief
