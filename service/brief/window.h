// When to leave: runs of departures in which every limit is kept, and what ends each run.
#pragma once

#include <optional>
#include <string>
#include <vector>

// IWYU pragma: begin_exports
#include "passage/findings.h"
#include "rules/verdict.h"
#include "units/quantity.h"
#include "units/time.h"
// IWYU pragma: end_exports

namespace passage_brief {

/// `tide_and_light`: past the forecast (its hours, or its age by the rules), as if calm and clear
/// past its hours.
enum class JudgedOn { everything, tide_and_light };

[[nodiscard]] std::string in_words(JudgedOn judged_on);  // "tide and light"

/// The limit that is not kept a minute beyond the edge of a window.
struct WindowEdge {
  std::string limit;  // id of the rule
  Subject about;
  LimitState state;  // broken or cannot_tell
  Sentence say;      // of a broken limit, with the figures a minute beyond the edge
  NotKnown because;  // of one that cannot tell; else empty
  bool on_the_way_back = false;
};

/// What is left beyond the margin at the tightest place: under the keel, over the mast, below a
/// wire.
struct ToSpare {
  Length left;  // below zero: short
  Subject about;
  Known<Instant> at;
};

struct Window {
  Instant opens;                         // first good minute
  Instant closes;                        // last good minute
  std::optional<WindowEdge> opened_by;   // empty: the span looked over begins here
  std::optional<WindowEdge> closed_by;   // empty: it ends here, or the forecast does
  Instant best;                          // the minute with most to spare; the earliest of equals
  std::optional<ToSpare> most_to_spare;  // then; empty where nothing is measured against a margin
  JudgedOn judged_on;
};

/// What would give a window where there is none.
struct AnotherWay {
  std::string how;  // "at 4.5 kn all the way", "another tide"
  Window window;
};

/// A span without any window.
struct NoWindow {
  std::vector<WindowEdge> never_let_go;  // limits kept at no minute, as they stand at `nearest`
  Instant nearest;                       // the minute that comes nearest
  std::optional<ToSpare> least_short;    // then
  std::vector<AnotherWay> would_open;
};

/// What was found in a span.
struct WindowList {
  Span span;
  std::vector<Window> windows;   // in order
  std::optional<NoWindow> none;  // where there is none
  bool sure_95 = false;          // limits held to what figures could be as little as
  /// Of the weather service, in force on some way or to come; they close nothing here.
  std::vector<Caution> warnings = {};
};

/// The same passage left later, or run slower.
struct Otherwise {
  std::string how;  // "30 minutes late", "20 % slow"
  Verdict verdict;
  std::optional<Subject> tightest;      // the tightest place of the brief's own departure
  Known<Length> costs;                  // less left there than then; below zero: more
  std::optional<WindowEdge> closed_by;  // where a limit is no longer kept
};

}  // namespace passage_brief
