// What was found for one departure: every figure the rules judge and the page prints.
//
// Values only. Lengths along the track are measured from the first point of the route. Every list
// is in order of passing. A figure that is not known carries its reasons.
#pragma once

#include <optional>
#include <string>
#include <vector>

// What the findings carry: rules may see these through this header and only so.
// IWYU pragma: begin_exports
#include "facts/daylight/sun.h"
#include "facts/tide/current_station.h"
#include "facts/tide/tide_station.h"
#include "facts/waterway/bridge.h"
#include "facts/waterway/mark.h"
#include "facts/waterway/opening_times.h"
#include "facts/waterway/reach.h"
#include "facts/weather/wind_series.h"
#include "passage/figure.h"
#include "passage/leeway.h"
#include "passage/margins.h"
#include "passage/relative_wind.h"
#include "plan/vessel.h"
#include "units/direction.h"
#include "units/height.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
// IWYU pragma: end_exports

namespace passage_brief {

/// Where and when on the way something is met.
struct Passing {
  Length along;       // from the start of the track
  Known<Instant> at;  // not known beyond a place where the boat makes no headway or must wait
  Position where;
  std::size_t leg;  // index into Findings::legs
  // Yes, or not known: it hangs on a current that is not. What a figure there could be then is not
  // known either.
  Known<bool> time_is_sure = true;
  // Of a bridge, a cable or a bar, from `at`, while its figure must hold: where it lies along the
  // track, or where she may lie short of it until a bridge beyond opens. The figure is the worst.
  Known<Interval> lasts = Interval(0);
  Length length = metres(0);  // of a bridge or a cable, along the track
};

[[nodiscard]] inline Known<Span> while_under(const Passing& passing) {
  return join([](Instant at, Interval lasts) { return Span{at, at + lasts}; }, passing.at,
              passing.lasts);
}

/// It is known when she comes to it, and she is not clear of it at once, or that is not known.
[[nodiscard]] inline bool takes_long(const Passing& passing) {
  return passing.at.has_value() && passing.lasts != Known<Interval>(Interval(0));
}

/// So little wind on the beam blows nobody a foot aside.
inline constexpr Speed kLightAir = metres_per_second(0.05);

/// A stretch of track run at one speed over one charted depth.
struct TrackPiece {
  Length begin;
  Length end;
  Known<Instant> begins;
  Known<Instant> ends;
  std::size_t leg;
  RelativeWind wind_aboard;   // at the begin of its block; none where it is not known
  Length blown_aside;         // off the line before it is seen: wants the corridor wider to leeward
  Length blown_by_light_air;  // likewise, had the wind aboard no more than kLightAir on the beam
  std::size_t block;          // into RouteSurvey::blocks()
  int leeward_step;  // the narrowest that meets the same depths (RouteSurvey::as_narrow_as)
  Speed through_water;
  Known<Speed> over_ground;          // the least; not known where a current is not
  Known<Speed> over_ground_most;     // likewise
  double across;                     // most of her speed that a current takes across, as a share
  Known<Length> charted;             // least in the corridor here
  Known<TideHeight> height_of_tide;  // on arrival at its begin
  std::string reach;                 // empty outside every reach
};

/// A push of wind or current below this is not worth a word (our rule, no source).
inline constexpr Speed kLeastPush = knots(0.1);

struct Leg {
  std::string from;
  std::string to;
  Position begin;
  Position end;
  TrueBearing course;
  Length distance;
  Known<Instant> starts;
  Known<Instant> ends;
  std::vector<std::string> reaches;  // names, in order of passing
  bool piled;                        // some of it lies between pilings
  bool open_water;                   // waves count on some of it
  Known<Wind> wind;                  // at the middle of the leg
  Known<Speed> gust;                 // greatest on the leg
  Known<RelativeDirection> wind_is;
  Known<std::optional<Side>> falls_off_to;  // empty: wind dead ahead, astern or calm
  Known<Angle> leeway;                      // >= 0, to leeward
  Known<Current> current;     // at the middle of the leg; not known where no station is named
  Known<bool> makes_headway;  // everywhere on the leg; not known where the current is not
  Known<bool> holds_line;     // the cross current is nowhere faster than the boat
  Known<RelativeDirection> current_from;  // the side it comes from
  Known<std::optional<Side>> set_to;      // the side it pushes toward; empty: along the leg or none
  Known<TrueBearing> steer_true;
  Known<MagneticBearing> steer_magnetic;
  Known<CompassBearing> steer_compass;  // not known without a deviation table
  Known<Variation> variation;           // nor where the field is too weak to trust a compass
  Known<Light> light;                   // darkest on the leg; not known where its times are not
  Known<Length> wave;        // significant height in its open water and on bars; zero without
  Known<Length> visibility;  // least on the leg
  Working working;           // of the heading to steer
};

enum class DepthPlace { reach, unnamed_water, bar, berth };

/// The controlling place of a reach, a bar, a berth or a stretch outside every reach: where the
/// least water is under the keel as the boat goes through. Parts that could shut the way though
/// another is shoaler are Depths of their own beside it: hard ground, what is charted less surely
/// (parts_told.h), and what has no depth on file.
struct Depth {
  DepthPlace place;
  /// Of its kind, along the way; berths 0 left, 1 reached, 2 lain in. A place is told of at every
  /// departure, its parts with the same number.
  std::size_t number = 0;
  std::string name;
  Passing passing;            // of the controlling place
  std::string controlled_by;  // "controlling depth", "sounding", "hazard Old Piles", ...
  Bottom bottom;
  Channel channel;
  bool open_water;
  Known<std::chrono::year_month_day> surveyed;
  SurveyQuality survey_quality;
  bool blocked;  // something that never covers lies in the corridor here
  bool part;     // beside the whole, which comes before it: of the depth it tells, not of the reach
  Known<Length> charted;
  Known<TideHeight> height_of_tide;
  Known<Trend> tide_is;  // all the while she is there
  Known<Length> water;
  Length draft;
  Known<Length> squat;  // zero in a berth; left out (zero) where `squat_left_out`
  bool squat_left_out;  // deep water beyond the range of squat formulas: said on the page
  Speed through_water;  // at the controlling place
  std::optional<std::string> slowed_because;  // where depth or a limit lowered the chosen speed
  Known<Length> wave;                         // half the wave height in open water, else the wash
  Known<Length> under_keel;
  Known<Length> under_keel_could_be;
  /// Taken off under_keel_could_be for a part near this that is less sure (parts_told.h).
  Length off_for_parts = metres(0);
  Length margin;  // in force here
  Known<Length> sounder_reads;
  Known<Length> stop_at;  // sounder reading at which a limit is reached; prepare_brief() puts it
  Known<Length> channel_width;       // only in a reach drawn with one
  Known<Length> spare_width;         // of it, beside the hull and its crabbing
  std::optional<Speed> speed_limit;  // of the reach; empty: none stated
  Known<Wind> wind;                  // on arrival; of a stay the worst of its hours
  Known<Instant> wind_at;            // when that blows
  Known<bool> open_to_wind;  // it comes from where the berth, or bar, is drawn open; else not known
  std::string tide_station;  // whose tide it is; empty where none is named
  std::vector<ErrorTerm> errors;
  Working working;
};

/// Over the mast with the antennas in one state.
struct OverMast {
  Antennas antennas;
  Length air_draft;
  Known<Length> over_mast;
  Known<Length> over_mast_could_be;
};

/// Whether so much is left. As in the rules lengths within a micrometre are equal: 8 m - 7.4 m
/// keeps a margin of 0.6 m.
[[nodiscard]] bool keeps(Length left, Length wanted);

/// The highest state of the antennas that keeps so much over the mast; nothing where none does.
[[nodiscard]] Known<std::optional<Antennas>> kept_in(const std::vector<OverMast>& states,
                                                     Length wanted);
/// That state; not known, for this reason, where none keeps it.
[[nodiscard]] Known<Antennas> fitting(const Known<std::optional<Antennas>>& kept,
                                      const std::string& why_none);

/// Where a boat waits for a bridge, and what wind and current do with her there: the worst of the
/// whole wait; as she comes, where it is not known when she passes.
struct HoldOff {
  Length short_of_bridge;       // at least: the drift of 5 minutes, where known, and her own length
  Known<Length> drift;          // toward the bridge in 5 minutes, engines stopped; >= 0
  Known<Speed> current_toward;  // the bridge; negative: away from it
  Known<Speed> wind_toward;     // likewise
};

/// How far she waits; not known where the drift is not.
[[nodiscard]] Known<Length> short_of_bridge(const HoldOff& off);

/// Nobody waits farther off, in any stream there is (our rule).
inline constexpr Length kFarthestHoldOff = nautical_miles(1);
/// More than the strongest current (kMostCurrent) and a storm drift any boat in five minutes, and
/// her own length: no less is asked of anybody.
inline constexpr Length kNobodyHoldsOffFarther = nautical_miles(3);
/// From how far off she may lie while she waits: what is asked of her is a least. Twice that and a
/// quarter of a mile at least (our rules); where the drift is not known, anywhere.
[[nodiscard]] Length may_lie_within(const HoldOff& off);

/// What she passes under where a bridge opens for her, but only so high.
struct OpenSpan {
  Known<Length> charted;    // above the bridge's clearance datum
  Known<Length> clearance;  // above the water as she passes
  Known<Length> clearance_could_be;
  std::vector<OverMast> over_mast;
  Known<Antennas> fits_with;  // up if the margin is kept so, else down; not known: neither
};

/// How a bridge that opens is come through: at once where the mast fits, else at the first full
/// minute at or after she reaches it when it is open or the mast fits.
struct OpeningFinding {
  Known<Instant> reached;
  Known<bool> fits_on_arrival;  // closed, in some antenna state
  Known<bool> passes;           // closed or open, within 7 days
  /// The same with the water as high as it could be (95 %) when she passes, no longer wait counted.
  Known<bool> passes_at_least = not_known("not worked out");
  Known<Interval> wait;         // zero where she passes at once
  Known<bool> through_opening;  // false: the mast fits when she passes
  // Both only where she does not fit on arrival; empty: none within 7 days.
  Known<std::optional<OpeningDue>> next = std::optional<OpeningDue>();  // notice given
  Known<std::optional<OpeningDue>> next_on_signal = std::optional<OpeningDue>();
  HoldOff hold_off;
  std::optional<std::string> law;
  std::optional<std::chrono::year_month_day> as_of;
};

struct BridgeFinding {
  std::string name;
  BridgeKind what;
  Passing passing;  // after any wait
  Known<Length> charted;
  Known<TideHeight> clearance_datum;  // above the bridge's own station's chart datum
  Known<TideHeight> height_of_tide;
  Known<Trend> tide_is;
  Known<Length> clearance;
  Known<Length> clearance_could_be;
  Known<Length> wave;
  std::vector<OverMast> over_mast;  // as the vessel lists her air drafts
  Known<Antennas>
      fits_with;     // up if the margin is kept so, else down; not known: neither, or cannot tell
  Known<bool> fits;  // closed, in some antenna state, margin kept
  Known<bool> opening_needed;  // false for a bridge that fits; fixed bridges: never
  Known<Length> gauge_reads;   // to low steel
  Known<Length>
      gauge_at_least;  // turn back below this reading: air draft + margin + wave, for `fits_with`
  Known<bool> clearance_gauge;  // whether the chart says there is one
  Known<Length> width;          // between fenders
  Length beam;
  Length margin;
  Known<Wind> wind;        // on arrival, before any wait
  Known<Current> current;  // likewise
  std::optional<std::string> radio;
  std::optional<std::string> sound_signal;
  std::string tide_station;
  std::vector<ErrorTerm> errors;
  Working working;
  std::optional<OpeningFinding> opening = std::nullopt;  // of a bridge that opens
  std::optional<OpenSpan> open_span = std::nullopt;      // she passes under it
};

/// Under what she passes: the closed span, or the open one where that opens only so high.
[[nodiscard]] const std::vector<OverMast>& passed_under(const BridgeFinding& bridge);
[[nodiscard]] const Known<Antennas>& antennas_passed(const BridgeFinding& bridge);
[[nodiscard]] const Known<Length>& clearance_passed(const BridgeFinding& bridge);
[[nodiscard]] const Known<Length>& clearance_could_be_passed(const BridgeFinding& bridge);

/// Whether she would need an opening with the antennas in one state, as she passes.
[[nodiscard]] Known<bool> needs_opening(const BridgeFinding& bridge, const OverMast& state);

/// The antenna state with most room; as first listed where none is known; null where there is none.
[[nodiscard]] const OverMast* most_room(const std::vector<OverMast>& states);
[[nodiscard]] const OverMast* in_state(const std::vector<OverMast>& states, Antennas antennas);
/// The state she passes in, under what she passes: up where the margin is kept so, else the one
/// with the least air draft, whether or not the room is known; null where there is none.
[[nodiscard]] const OverMast* as_passed(const BridgeFinding& bridge);

struct CableFinding {
  std::string name;
  Passing passing;
  Carries carries;
  Known<Voltage> voltage;
  Known<Length> gap;  // to be kept below a live wire: zero for telephone or a safe clearance
  Known<Length> charted;
  Known<TideHeight> clearance_datum;
  Known<TideHeight> height_of_tide;
  Known<Length> clearance;
  Known<Length> clearance_could_be;
  Known<Length> wave;
  std::vector<OverMast> over_mast;  // below the wire, gap not taken off
  Known<Antennas> antennas;         // up where the margin is kept so, else as low as they go
  Known<Length> to_spare;           // over the mast, antennas so, less the gap
  Known<Length> to_spare_could_be;
  Length margin;
  std::string tide_station;
  std::vector<ErrorTerm> errors;
  Working working;
};

/// The highest state that keeps the margin and the gap below a wire, else the lowest there is.
[[nodiscard]] Known<Antennas> antennas_under_wire(const std::vector<OverMast>& states,
                                                  const Known<Length>& gap, Length margin);

[[nodiscard]] const std::vector<OverMast>& passed_under(const CableFinding& cable);
[[nodiscard]] const Known<Length>& clearance_passed(const CableFinding& cable);
[[nodiscard]] const Known<Length>& clearance_could_be_passed(const CableFinding& cable);
/// The state she passes in; where it is not known, that with the most room.
[[nodiscard]] const OverMast* as_passed(const CableFinding& cable);

enum class DangerKind { hazard, shoal_water, bridge };

/// What the boat comes to with engines stopped: down wind, or where the current sets.
struct Danger {
  std::string name;
  std::string what;
  DangerKind kind;
  std::size_t leg;
  Passing passing;  // the place on the track it is reached from soonest
  Side side;        // of the track
  bool to_leeward;  // wind carries her there
  bool set_toward;  // current carries her there
  Length distance;  // from the corridor's edge less half a length; >= 0
  Known<Interval> reached_in;
  Bottom bottom;
  Known<Length> anchor_holds_in;  // greatest depth of water the rode holds in
  Known<bool> anchor_would_hold;  // by the depth between here and there alone
  Working working;
};

struct MarkFinding {
  std::string name;
  Passing passing;
  std::optional<std::string> colour;
  std::optional<std::string> shape;
  std::optional<std::string> light;
  MarkStructure structure;
  KeptBy kept_by;
  Side lies_to;  // by geometry, on our heading
  Length off;    // distance from the track
  Known<std::optional<Side>>
      should_lie_to;  // by the buoyage; empty: either side; not known: "side not known"
  Known<bool> agrees;
};

/// A place to turn round near the track.
struct TurningPlaceFinding {
  std::string name;
  Length along;  // of the track, where it is nearest
  Known<Length> width;
};

/// A place to lie in safety near the track.
struct RefugeFinding {
  std::string name;
  Length along;                       // of the track, where it is nearest
  Known<Length> charted;              // least within a boat's length of it and on the way there
  Known<bool> floats_at_chart_datum;  // charted depth leaves the margin under the keel
};

/// What can be passed back, or reached further on.
enum class BackPlace { reach, unnamed_water, bar, berth, bridge, cable, refuge, turning_place };

/// Why a way back ends.
enum class BackEnds {
  not_at_all,       // the margin is not kept even as she passes
  water_falls,      // or waves rise
  water_rises,      // under a bridge or a cable
  all_day,          // nothing ends it within 24 h
  prediction_ends,  // of the tide: nothing is known beyond
  forecast_ends     // of the waves that count there
};

/// How much longer there is room overhead in the lowest state of the antennas.
struct BackLonger {
  Antennas antennas;
  Instant until;
  BackEnds ends;
};

/// Until when a place that was passed can be passed back, or a refuge or turning place ahead be
/// reached, with every margin kept (turning_back.h).
struct BackUntil {
  BackPlace what;
  std::string name;
  Length along;
  Known<Instant> at;     // passed, or come to
  Known<Instant> until;  // full minute, rounded down; for all_day 24 h after `at`
  Known<BackEnds> ends;
  bool opens;                // a bridge that may open beyond that time
  std::string tide_station;  // whose level ends it
  Working working;
  // The one thing in a reach or on a bar, or the hazard on the way to a place ahead, that ends it;
  // empty: the place itself.
  std::string over = {};
  // Of a bridge or a cable: as `until` counts them, up where the margin is kept so as she passes.
  std::optional<Antennas> antennas = std::nullopt;
  std::optional<BackLonger> longer = std::nullopt;
};

[[nodiscard]] std::string in_words(BackPlace place);  // "turning place"
[[nodiscard]] std::string in_words(BackEnds ends);    // "too little water"

/// Light and dark along the way; one in each Findings.
struct LightFinding {
  std::optional<Instant>
      sunrise;  // of the local day of departure, at the start; empty: does not occur
  std::optional<Instant> sunset;
  std::optional<Instant> civil_dawn;
  std::optional<Instant> civil_dusk;
  double moon_illuminated;        // 0 to 1 at departure
  bool moon_up;                   // at departure
  Known<Interval> before_sunset;  // from arrival to sunset; negative after it
  Known<bool> after_sunrise;      // departure at or after sunrise
};

/// The passage as a whole.
struct PassageFinding {
  Instant departs;
  Known<Instant> arrives;
  Length distance;
  Known<Speed> wind;   // greatest mean wind on the way
  Known<Speed> gust;   // greatest
  Known<Length> wave;  // greatest in open water and on bars; zero where there is none
  Known<Length> visibility;
  Known<double> thunder;
  Known<Interval> forecast_age;  // at departure, from its issue
  Known<bool> forecast_covers;   // every minute of the way
  Known<Instant> forecast_ends;
  std::optional<DesignCategory> design_category;  // its ceilings: plan/vessel.h
  Basis draft_is;
  Basis air_draft_is;
  Hull hull;
  int engines;
  Length length;  // over all
  Length beam;
};

/// What the weather does to the level, at its most along the way (water_level.h).
struct LevelShift {
  Length off_depths = metres(0);      // by air that presses more than usual
  Length off_clearances = metres(0);  // by air that presses less
  bool wind_may_shift = false;        // so that errors are taken wider
};

struct Findings {
  Margins margins;
  PassageFinding passage;
  LightFinding light;
  std::vector<Leg> legs;
  std::vector<TrackPiece> track;
  std::vector<Depth> depths;
  std::vector<BridgeFinding> bridges;
  std::vector<CableFinding> cables;
  std::vector<Danger> dangers;
  std::vector<MarkFinding> marks;
  std::vector<TurningPlaceFinding> turning_places;
  std::vector<RefugeFinding> refuges;
  std::vector<std::string> estimated;  // what of the hull was estimated, with the rule
  LevelShift level_shift = {};
  std::vector<BackUntil> back_until = {};  // in order of passing; prepare_brief() puts it
};

}  // namespace passage_brief
