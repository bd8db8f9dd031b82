// One brief: everything a page prints and JSON holds, without any layout.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

// What the brief carries; the printers in page/ may see these too.
// IWYU pragma: begin_exports
#include "brief/window.h"
#include "facts/source.h"
#include "facts/tide/seen_level.h"
#include "facts/tide/tide_station.h"
#include "passage/figure.h"
#include "passage/findings.h"
#include "plan/vessel.h"
#include "rules/lesson_figure.h"
#include "rules/verdict.h"
#include "units/known.h"
#include "units/time.h"
#include "units/zone.h"
// IWYU pragma: end_exports

namespace passage_brief {

enum class SourceState { current, old, expired, undated };

struct SourceUsed {
  Source source;
  std::optional<Interval> age;  // at the time the brief is made
  SourceState state;
};

/// High and low waters of the local day at one station.
struct HighLow {
  std::string station;
  TideEvent event;
};

struct TideSample {
  Instant at;
  Known<TideHeight> height;
};

/// The day's tide at the station of the controlling place.
struct DayOfTide {
  std::string station;
  std::string datum;                // "MLLW"
  std::vector<TideSample> samples;  // every 10 minutes of the local day of departure
  Known<std::vector<TideEvent>> high_low;
};

/// Places to lie in safety and to turn round, in order of passing.
struct PlaceOnTheWay {
  std::string name;
  std::string what;
  Length along;
  Length off;
  Known<Instant> at;
};

/// Whom a copy is for: the skipper; a learner, who fills in what is left blank; the instructor, who
/// has the working of it behind the page.
enum class Copy { skipper, learner, instructor };

struct WayBack;

struct Brief {
  Instant made_at;
  std::string waterway;
  Zone zone;
  Vessel vessel;
  std::string route;
  std::string rules;                             // "renters 2026-05 on small craft 2026-05"
  std::vector<std::string> limits_changed = {};  // by the rules, of those they build on
  Findings findings;
  Judgement judgement;           // its verdict is the worse of both ways, where there is a way back
  std::optional<Window> window;  // the one this departure lies in
  std::vector<Window> windows;   // of the span looked over, in order
  std::optional<Span> windows_in = std::nullopt;     // the span looked over; empty: not looked for
  std::optional<NoWindow> no_window = std::nullopt;  // where that span has none
  std::vector<Otherwise> otherwise = {};             // 30 minutes late, 20 % slow
  /// Not to be left by after this. Earliest of: the forecast's validity by the rules' age limit,
  /// the last forecast hour, the time by which the departure itself is past by an hour, and, where
  /// windows were looked for, the end of the one it lies in. Not known where no forecast is dated;
  /// none where the verdict is not to leave.
  Known<Instant> void_after;
  std::vector<HighLow> high_low;
  std::optional<DayOfTide> tide_curve;
  std::vector<PlaceOnTheWay> refuges;
  std::vector<PlaceOnTheWay> turning_places;
  Known<std::chrono::year_month_day> notices_read;
  std::vector<std::string> notes;  // of the waterway, near the track
  std::vector<SourceUsed> sources;
  /// Indexes of the controlling ones: least under keel (or first that is not known), least over
  /// the mast with the antennas as low as they go.
  std::optional<std::size_t> least_depth;  // into findings.depths
  /// Another depth with less left beyond what is wanted there, by a centimetre or more, or with any
  /// told where the least is not known; empty: none.
  std::optional<std::size_t> nearest_margin = std::nullopt;
  std::optional<std::size_t> lowest_bridge;   // into findings.bridges
  std::optional<std::size_t> nearest_danger;  // into findings.dangers
  std::vector<Working> working;
  Copy copy = Copy::skipper;  // made by copy_for()
  /// What a learner's copy leaves blank, by the rules.
  std::vector<LessonFigure> left_blank = {};
  std::vector<SeenLevel> observed = {};  // as they count here
  bool sure_95 = false;                  // limits were held to what figures could be as little as
  std::shared_ptr<const WayBack> back = nullptr;  // where one was asked for
};

/// The stay after arrival and the way back, judged as a passage of its own. Through the stay the
/// berth is lain in: its Depth in the findings of the way out is that at the lowest water.
struct WayBack {
  Interval stay;
  Known<Instant> leaves;
  std::optional<Brief> brief;      // empty where the time of leaving is not known
  Verdict verdict;                 // its own; cannot tell without a brief
  bool has_least_depth = false;    // less under the keel than anywhere on the way out
  bool has_lowest_bridge = false;  // likewise over the mast
};

}  // namespace passage_brief
