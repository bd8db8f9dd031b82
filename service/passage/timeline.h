// Where the boat is, when: the track run at the speeds the rules of prudence allow.
//
// Speed through the water is the least of: slow in a secondary channel or where the depth is not
// known, else cruise; the speed limit; where water is under twice the draft, half of sqrt(g depth)
// (common practice, no source); and where it is under three drafts, a speed for which squat has a
// figure and with which no less is left under the keel than at twice the draft (our rules, no
// source): a little more water must not let go a speed whose squat takes more than it gave. The
// water is the least charted in the corridor, or on a bar that any of the hull is over, plus the
// tide when the boat gets there. Over the ground by the triangle with the current of the water,
// taken anew every two minutes by the clock.
//
// Water that names no current station: the time is worked as if there were none, is not sure from
// there on, and the leg's headway is not known. At a drawbridge she waits where she must
// (bridge_wait.h), which moves all that follows. No headway, or a bridge she cannot pass: the times
// beyond are not known, and say why. Water outside every reach is run at slow speed and counts as
// open to waves.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/facts.h"
#include "passage/bridge_wait.h"
#include "passage/findings.h"
#include "passage/hull.h"
#include "passage/leeway.h"
#include "passage/margins.h"
#include "passage/route_survey.h"
#include "passage/squat.h"
#include "plan/plan.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {

/// One piece of the track run at one speed, at most 500 m long.
struct TimedPiece {
  const SurveyedPiece* surveyed;  // lives as long as the survey
  TrackPiece piece;
  std::size_t stretch;
  std::size_t run;
  std::optional<std::string> slowed_because;
  Known<Velocity> current;
  Known<bool> makes_headway;
  Known<bool> holds_line;
  Known<Wind> wind;
  Known<Leeway> leeway;
};

class Timeline {
 public:
  /// `arrives`: through what bridge there is at the end of the last piece.
  Timeline(Instant departs, std::vector<TimedPiece> pieces, std::vector<BridgePassage> bridges,
           Known<Instant> arrives);

  [[nodiscard]] const std::vector<TimedPiece>& pieces() const { return pieces_; }
  /// When the boat's middle comes there, before any wait there; before the start: the departure, at
  /// the end and beyond: the arrival.
  [[nodiscard]] Known<Instant> at(Length along) const;
  /// Yes, or not known where a current before that place is not: at() is then worked without it.
  [[nodiscard]] Known<bool> time_is_sure(Length along) const;
  [[nodiscard]] const Known<Instant>& arrives() const { return arrives_; }
  /// One for each of RouteSurvey::bridges.
  [[nodiscard]] const std::vector<BridgePassage>& bridges() const { return bridges_; }
  /// The boat's middle between two places along the track, with every wait in which any of her lies
  /// there: she holds off short of the bridge.
  [[nodiscard]] Known<Span> between(Length begin, Length end) const;
  /// The piece that holds a place; at a joint, the later one.
  [[nodiscard]] const TimedPiece& piece_at(Length along) const;

 private:
  /// As at(), at the end too before any wait there.
  [[nodiscard]] Known<Instant> comes_to(Length along) const;

  Instant departs_;
  std::vector<TimedPiece> pieces_;
  std::optional<std::size_t> first_unsure_;  // of the pieces: its current is not known
  std::vector<BridgePassage> bridges_;
  Known<Instant> arrives_;
};

/// From begin to end of a piece; its begin alone where she does not come to the end.
[[nodiscard]] Known<Span> while_in(const TrackPiece& piece);

[[nodiscard]] Timeline timeline_of(const RouteSurvey& survey, const Plan& plan,
                                   const HullForm& hull, const Facts& facts,
                                   const Margins& margins);

/// The current at a place on the track, by the station of its water.
[[nodiscard]] Known<Velocity> current_here(const RouteSurvey& survey, const Facts& facts,
                                           Length along, const Known<Instant>& at);

/// Under a bridge: by its own station where it names one, else as current_here().
[[nodiscard]] Known<Velocity> current_under(const Bridge& bridge, const RouteSurvey& survey,
                                            const Facts& facts, Length along,
                                            const Known<Instant>& at);

/// Whether waves count at a place on the track: the reach is open water, or there is no reach, or
/// part of the hull is over a bar, whatever water that is drawn in.
[[nodiscard]] bool open_water_at(const RouteSurvey& survey, Length along);

/// Half the significant wave height in open water, else the wash of the margins.
[[nodiscard]] Known<Length> half_wave_at(const RouteSurvey& survey, const Facts& facts,
                                         const Margins& margins, Length along,
                                         const Known<Instant>& at);

/// The most of it in a span.
[[nodiscard]] Known<Length> half_wave_in(const RouteSurvey& survey, const Facts& facts,
                                         const Margins& margins, Length along,
                                         const Known<Span>& span);

/// What confines the water round the boat in a run of one reach.
[[nodiscard]] ChannelSection section_of(const RouteSurvey& survey, const Run& run);

}  // namespace passage_brief
