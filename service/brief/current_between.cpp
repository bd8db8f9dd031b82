#include "brief/current_between.h"

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "facts/facts.h"
#include "facts/tide/current_station.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

constexpr std::chrono::minutes kCurrentsSeenEvery{5};
constexpr double kTurnsBetween = 1.02;            // what is missed between two looks (our rule)
constexpr Speed kHardlyAnyCurrent = knots(0.05);  // shares of less say nothing

}  // namespace

CurrentBetween::CurrentBetween(const Facts& facts, Span span) {
  for (const CurrentStation& station : facts.currents) {
    std::vector<Seen> seen;
    std::size_t looks = 0;
    for (Instant at = span.begin - kCurrentsSeenEvery; at <= span.end + kCurrentsSeenEvery;
         at += kCurrentsSeenEvery) {
      ++looks;
      const Known<Current> current = station.at(at);
      if (current.has_value()) seen.push_back({at, velocity(current->toward, current->speed)});
    }
    if (seen.empty()) continue;
    all_known_ = all_known_ && seen.size() == looks;
    stations_.push_back(std::move(seen));
  }
}

std::span<const CurrentBetween::Seen> CurrentBetween::seen_in(const std::vector<Seen>& station,
                                                              Instant from, Instant to) {
  auto first = std::ranges::upper_bound(station, from, {}, &Seen::at);
  auto last = std::ranges::lower_bound(station, to, {}, &Seen::at);
  if (first != station.begin()) --first;
  if (last == station.end()) --last;
  return {first, last + 1};
}

std::optional<double> CurrentBetween::grows(Instant from, Instant to) const {
  if (!all_known_) return std::nullopt;
  double grown = 1;
  for (const std::vector<Seen>& station : stations_) {
    const std::span<const Seen> seen = seen_in(station, from, to);
    const Speed at_ends = std::max(
        {speed_of(seen.front().current), speed_of(seen.back().current), kHardlyAnyCurrent});
    Speed most = at_ends;
    for (const Seen& one : seen) most = std::max(most, speed_of(one.current));
    grown = std::max(grown, kTurnsBetween * (most / at_ends));
  }
  return grown;
}

std::optional<Speed> CurrentBetween::changes(Instant from, Instant to) const {
  if (!all_known_) return std::nullopt;
  Speed most = knots(0);
  for (const std::vector<Seen>& station : stations_) {
    const std::span<const Seen> seen = seen_in(station, from, to);
    most = std::max(most, speed_of(seen.back().current - seen.front().current));
  }
  return most;
}

std::optional<Speed> CurrentBetween::strays(Instant from, Instant to) const {
  if (!all_known_) return std::nullopt;
  Speed most = knots(0);
  for (const std::vector<Seen>& station : stations_) {
    const std::span<const Seen> seen = seen_in(station, from, to);
    const Seen& first = seen.front();
    const Seen& last = seen.back();
    for (const Seen& one : seen) {
      const double part =
          last.at == first.at ? 0 : in_seconds(one.at - first.at) / in_seconds(last.at - first.at);
      const Velocity even = first.current * (1 - part) + last.current * part;
      most = std::max(most, speed_of(one.current - even) * kTurnsBetween);
    }
  }
  return most;
}

}  // namespace passage_brief
