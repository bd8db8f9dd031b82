#include "brief/current_between.h"

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <optional>
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

constexpr std::chrono::minutes kLookedAtEvery{5};
constexpr double kTurnsBetween = 1.02;     // what is missed between two looks (our rule)
constexpr Speed kHardlyAny = knots(0.05);  // shares of less say nothing

}  // namespace

CurrentBetween::CurrentBetween(const Facts& facts, Span span) {
  for (const CurrentStation& station : facts.currents) {
    std::vector<Seen> seen;
    std::size_t looks = 0;
    for (Instant at = span.begin - kLookedAtEvery; at <= span.end + kLookedAtEvery;
         at += kLookedAtEvery) {
      ++looks;
      const Known<Current> current = station.at(at);
      if (current.has_value()) seen.push_back({at, velocity(current->toward, current->speed)});
    }
    if (seen.empty()) continue;
    all_known_ = all_known_ && seen.size() == looks;
    stations_.push_back(std::move(seen));
  }
}

std::optional<double> CurrentBetween::grows(Instant from, Instant to) const {
  if (!all_known_) return std::nullopt;
  double grown = 1;
  for (const std::vector<Seen>& seen : stations_) {
    auto first = std::ranges::upper_bound(seen, from, {}, &Seen::at);
    auto last = std::ranges::lower_bound(seen, to, {}, &Seen::at);
    if (first != seen.begin()) --first;
    if (last == seen.end()) --last;
    const Speed at_ends = std::max({speed_of(first->current), speed_of(last->current), kHardlyAny});
    Speed most = at_ends;
    for (auto at = first; at != last; ++at) most = std::max(most, speed_of(at->current));
    grown = std::max(grown, kTurnsBetween * (most / at_ends));
  }
  return grown;
}

std::optional<double> CurrentBetween::fastest_change() const {
  if (!all_known_) return std::nullopt;
  double most = 0;
  for (const std::vector<Seen>& seen : stations_) {
    for (std::size_t i = 1; i < seen.size(); ++i) {
      const Speed change = speed_of(seen[i].current - seen[i - 1].current);
      most = std::max(most, in_metres_per_second(change) / in_seconds(kLookedAtEvery));
    }
  }
  return most * kTurnsBetween;
}

}  // namespace passage_brief
