// What currents do between two times, from the stations' own curves looked at every five minutes:
// no curve turns in less.
#pragma once

#include <optional>
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
  /// In m/s each second, anywhere in the span; likewise.
  [[nodiscard]] std::optional<double> fastest_change() const;

 private:
  struct Seen {
    Instant at;
    Velocity current;
  };
  std::vector<std::vector<Seen>> stations_;
  bool all_known_ = true;
};

}  // namespace passage_brief
