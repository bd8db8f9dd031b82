// How far the tide carries a depth, or the room below a bridge or a cable, between two judged
// departures beyond what it is at both.
//
// The stations' curves say exactly where the water turns and how high. What is put to them (air
// pressure, observed levels, waves) is taken at its widest. A bar along the track, which she is
// long over, is for each minute to say.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <utility>

#include "facts/facts.h"
#include "passage/findings.h"
#include "rules/verdict.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

/// Of the figure: of room overhead, down where the tide rises.
struct TideSwing {
  Length down = metres(0);   // below the lesser of both ends; infinite where it cannot be told
  Length up = metres(0);     // above the greater; likewise
  bool turns = false;        // there is a high or low water in it
  Length error = metres(0);  // what the figure could be (95 %) strays by as much more, either way
  Length waves = metres(0);  // what half of them strays by, in what comes before too
};

class TideBetween {
 public:
  /// Departures between come to what is asked for between the times of both. All must outlive it.
  /// `stay`: in the berth they end in.
  TideBetween(const Findings& earlier, const Findings& later, const Facts& facts, Interval stay);

  /// Of what has one place in the list of the earlier and another in that of the later. Nothing
  /// moves what is neither a depth, a bridge nor a cable.
  [[nodiscard]] TideSwing swing_of(SubjectKind kind, std::size_t a, std::size_t b) const;
  /// Of any part of the reach of two depths; up by all the tide there is from the first time in it
  /// to the last.
  [[nodiscard]] TideSwing swing_in(std::size_t a, std::size_t b) const;
  /// More than any place takes to come over, waits included.
  [[nodiscard]] Interval longest() const { return longest_; }

 private:
  template <class Overhead>
  [[nodiscard]] TideSwing overhead(const Overhead& earlier, const Overhead& later) const;
  [[nodiscard]] TideSwing room_all_the_while(const std::string& station, const Passing& earlier,
                                             const Passing& later, Instant clear,
                                             bool waves_count) const;
  [[nodiscard]] TideSwing work_out(SubjectKind kind, std::size_t a, std::size_t b) const;
  [[nodiscard]] TideSwing of_depth(SubjectKind kind, std::size_t earlier, std::size_t later) const;
  [[nodiscard]] TideSwing swing_at(const std::string& station, const Passing& earlier,
                                   const Passing& later, Interval stay = Interval(0),
                                   bool waves_count = false) const;
  [[nodiscard]] TideSwing swing_in(const Depth& earlier, const Depth& later) const;

  const Findings& earlier_;
  const Findings& later_;
  const Facts& facts_;
  Interval longest_;
  Interval stay_;
  mutable std::map<std::pair<SubjectKind, std::size_t>, TideSwing>
      swings_;  // by the earlier, once each
};

}  // namespace passage_brief
