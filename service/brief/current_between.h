// What currents do between two times, from the stations' own curves looked at every five minutes:
// no curve turns in less.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "facts/facts.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {

class CurrentBetween {
 public:
  CurrentBetween(const Facts& facts, Span span);

  /// The strongest from one time of the span to another, of the stronger of both ends: 1 or more;
  /// the most of every station. Nothing where a current is not known somewhere in the span and is
  /// elsewhere.
  [[nodiscard]] std::optional<double> grows(Instant from, Instant to) const;
  /// By how much another current runs at one time than at another; likewise.
  [[nodiscard]] std::optional<Speed> changes(Instant from, Instant to) const;
  /// Off the even run from the current at one time to that at another, whichever way; likewise.
  [[nodiscard]] std::optional<Speed> strays(Instant from, Instant to) const;

 private:
  struct Seen {
    Instant at;
    Velocity current;
  };
  /// What is seen of a station from one time to another, and once on either side.
  [[nodiscard]] static std::span<const Seen> seen_in(const std::vector<Seen>& station, Instant from,
                                                     Instant to);

  std::vector<std::vector<Seen>> stations_;
  bool all_known_ = true;
};

}  // namespace passage_brief
