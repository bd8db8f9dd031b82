// What lies along a route, worked out once: it depends on the drawing and the hull, not on the
// hour.
//
// The corridor is the water the hull may be in: half the beam, the track margin and the position
// error on each side of the line, half a length more round every turn of 5 degrees and over, and to
// leeward an extra that depends on the wind of the hour (`leeward_step`; as narrow as the same
// depths are met by). Inside a reach marked on
// both sides (piled, or with marks of both hands that name it) the corridor is clipped to the
// reach. Depths are found by areas, not by samples: whatever charts a depth inside the corridor
// counts, and a part of the corridor with no depth on file is found as such.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "facts/daylight/sun.h"
#include "facts/waterway/waterway.h"
#include "passage/corridor_depths.h"
#include "passage/drift_targets.h"
#include "passage/margins.h"
#include "passage/meetings.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"
#include "passage/sweep.h"
#include "plan/plan.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

/// A run of the centre line in one reach, or in none. The runs of a track join end to end.
struct Run {
  std::optional<std::size_t> reach;  // into Waterway::reaches
  Length begin;
  Length end;
  bool clipped;  // the corridor ends at the reach's sides
};

/// Whether a depth is of that run: what only the bow or stern reaches from a neighbouring run is
/// that run's; a thing without length on the joint belongs to both.
[[nodiscard]] bool belongs_to(const Run& run, const DepthOnTrack& depth);

/// Where the centre line lies in a depth area that names a current station.
struct OwnCurrent {
  Length begin;
  Length end;
  std::size_t area;  // into Waterway::depth_areas
};

/// A part of one run in one stretch, at most a mile long: wind and the corridor to leeward hold
/// through it. The blocks of a track join end to end.
struct TrackBlock {
  std::size_t stretch;
  std::size_t run;
  Length joins;  // the end of the block before
  Length begin;
  Length end;
  Position where;  // its begin
};

/// The edges of a target grown by a lee edge, as PlaneShape::runs, and the box round them.
struct GrownTarget {
  std::vector<std::vector<PlanePoint>> edges;
  PlaneBox box;
};

/// A piece of the track, at most 500 m long: cut where the charted depth changes as the hull, not
/// its middle, comes to it, that of a bar too, where a bridge stands that the boat may have to wait
/// for, and where another current begins.
struct SurveyedPiece {
  std::size_t stretch;
  std::size_t run;
  int leeward_step;
  Length begin;
  Length end;
  Position begins_at;
  Position middle;
  std::vector<const DepthOnTrack*> depths;  // all that any part of the hull comes over
  std::vector<const DepthOnTrack*> least;   // of these, and of bars', the least of each station
  std::vector<TargetOff> targets;           // one for each of drift_targets()
};

/// Of one local day, at both ends of the route.
struct SunOfDay {
  SunTimes at_start;
  SunTimes at_end;
};

class RouteSurvey {
 public:
  /// The waterway must outlive the survey.
  RouteSurvey(const Plan& plan, const Waterway& waterway, const Margins& margins);

  [[nodiscard]] const Track& track() const { return track_; }
  [[nodiscard]] const Waterway& waterway() const { return waterway_; }
  [[nodiscard]] const std::vector<Run>& runs() const { return runs_; }
  [[nodiscard]] const Run& run_at(Length along) const;
  /// Of its reach; outside every reach of the depth areas there that name one, else of the file.
  /// Empty where none is named, not known where two areas name two.
  [[nodiscard]] Known<std::string> current_station_at(Length along) const;
  [[nodiscard]] const std::vector<Meeting>& bridges() const { return bridges_; }
  /// The place on the track where something is met.
  [[nodiscard]] Position where(const Meeting& meeting) const { return position_at(meeting.along); }
  /// As the track has it; worked out once for each place asked for.
  [[nodiscard]] Position position_at(Length along) const;
  /// Worked out once for each day asked for.
  [[nodiscard]] const SunOfDay& sun_on(Span day) const;
  [[nodiscard]] const std::vector<Meeting>& cables() const { return cables_; }
  [[nodiscard]] const std::vector<Meeting>& bars() const { return bars_; }
  [[nodiscard]] const std::vector<Meeting>& marks() const { return marks_; }
  /// At each of marks() (buoyage.h).
  [[nodiscard]] const std::vector<Known<TrueBearing>>& buoyage() const { return buoyage_; }
  [[nodiscard]] const std::vector<Meeting>& refuges() const { return refuges_; }
  /// What charts the least depth within a boat's length of each refuge and, where it lies beside
  /// the corridor, on the straight way there from the track, in the order of refuges(). Not known
  /// where a bridge or a cable is over that way.
  [[nodiscard]] const std::vector<DepthSource>& refuge_depths() const { return refuge_depths_; }
  [[nodiscard]] const std::vector<Meeting>& turning_places() const { return turning_places_; }
  /// What charts the least depth in each turning place, or within a boat's length of its point, and
  /// on the way there as for refuges, in the order of turning_places().
  [[nodiscard]] const std::vector<DepthSource>& turning_depths() const { return turning_depths_; }
  [[nodiscard]] const std::vector<Meeting>& notes() const { return notes_; }
  /// The berth lain in at the first and last point, where one is drawn within 100 m.
  [[nodiscard]] std::optional<std::size_t> berth_left() const { return berth_left_; }
  [[nodiscard]] std::optional<std::size_t> berth_reached() const { return berth_reached_; }

  /// Its reach, or "water outside every reach, Fairway mouth to Bend".
  [[nodiscard]] std::string name_of(const Run& run) const;
  /// What any of the hull comes over as her middle is at a place, with the corridor of a step.
  [[nodiscard]] std::vector<const DepthOnTrack*> depths_under(std::size_t stretch, int step,
                                                              Length along) const;

  /// Half the corridor's width without the extra to leeward.
  [[nodiscard]] Length half_width() const { return half_width_; }

  /// Half the boat's length.
  [[nodiscard]] Length half_length() const { return half_length_; }

  /// 0: no extra; n > 0: starboard side wider; n < 0: port side wider. The extra doubles from step
  /// to step; a wanted extra is rounded up, but less than 30 cm is none.
  [[nodiscard]] static int leeward_step(Side side, Length extra);
  [[nodiscard]] static Length extra_of(int step);

  /// The edges of the corridor along one stretch, without the extra to leeward: each ring closed.
  [[nodiscard]] std::vector<std::vector<Position>> corridor_rings(std::size_t stretch) const;

  /// Depths met in one stretch with the corridor of a step, by rising begin. Worked out at the
  /// first call for that stretch and step; safe from several threads.
  [[nodiscard]] const std::vector<DepthOnTrack>& depths(std::size_t stretch, int step) const;

  [[nodiscard]] const std::vector<TrackBlock>& blocks() const { return blocks_; }
  /// The pieces of one block with the corridor of a step, end to end. As depths().
  [[nodiscard]] const std::vector<SurveyedPiece>& pieces(std::size_t block, int step) const;

  /// The narrowest step to the same side whose corridor has the same depths along the block, at the
  /// same places to 2 m. As depths().
  [[nodiscard]] int as_narrow_as(std::size_t block, int step) const;

  /// What a boat adrift may come to from a stretch.
  [[nodiscard]] const std::vector<DriftTarget>& drift_targets(std::size_t stretch) const {
    return targets_[stretch];
  }
  /// From the line to the lee edge of a run's corridor, half a length counted: half the corridor,
  /// or half the channel where that is narrower.
  [[nodiscard]] Length lee_edge(std::size_t run) const;
  /// A target of a stretch grown by the lee edge of a run. As depths().
  [[nodiscard]] const GrownTarget& grown_target(std::size_t stretch, std::size_t target,
                                                std::size_t run) const;

 private:
  [[nodiscard]] bool turns_at_begin_of(std::size_t stretch_index) const;
  [[nodiscard]] PlaneShape corridor(std::size_t stretch, int step) const;
  [[nodiscard]] std::vector<DepthOnTrack> find_depths(std::size_t stretch, int step) const;
  [[nodiscard]] bool marked_on_both_sides(const Reach& reach) const;
  void find_runs();
  void find_own_currents();
  [[nodiscard]] Length counts_within(Position point) const;
  void find_meetings();
  [[nodiscard]] std::optional<PlaneShape> way_to(const Meeting& meeting, const Stretch& here,
                                                 const PlaneShape& place) const;
  [[nodiscard]] std::string over_the_way(const Stretch& here, const PlaneShape& way) const;
  [[nodiscard]] DepthSource shoalest_on_the_way(const Meeting& meeting, const Stretch& here,
                                                const PlaneShape& place, PlaneShape water) const;
  void find_depths_of_places();
  void find_bar_depths();
  void find_blocks();
  [[nodiscard]] std::vector<SurveyedPiece> find_pieces(const TrackBlock& block, int step) const;
  [[nodiscard]] std::vector<Length> cuts_of(const TrackBlock& block,
                                            const std::vector<DepthOnTrack>& depths) const;
  [[nodiscard]] SurveyedPiece piece_of(const TrackBlock& block, int step,
                                       const std::vector<DepthOnTrack>& depths, Length begin,
                                       Length end) const;
  [[nodiscard]] std::optional<std::size_t> berth_near(Position position) const;

  const Waterway& waterway_;
  Track track_;
  Length half_width_;
  Length half_length_;
  std::vector<Run> runs_;
  std::vector<OwnCurrent> own_currents_;
  std::vector<Meeting> bridges_;
  std::vector<Meeting> cables_;
  std::vector<Meeting> bars_;
  std::vector<DepthOnTrack> bar_depths_;  // of each of bars_
  std::vector<Meeting> marks_;
  std::vector<Known<TrueBearing>> buoyage_;
  std::vector<Meeting> refuges_;
  std::vector<DepthSource> refuge_depths_;
  std::vector<Meeting> turning_places_;
  std::vector<DepthSource> turning_depths_;
  std::vector<Meeting> notes_;
  std::optional<std::size_t> berth_left_;
  std::optional<std::size_t> berth_reached_;
  std::vector<TrackBlock> blocks_;
  std::vector<std::vector<DriftTarget>> targets_;  // by stretch
  mutable std::mutex positions_mutex_;
  mutable std::map<double, Position> positions_;  // by metres along
  mutable std::mutex days_mutex_;
  mutable std::map<Instant, SunOfDay> days_;  // by their begin
  mutable std::mutex depths_mutex_;
  mutable std::map<std::pair<std::size_t, int>, std::unique_ptr<std::vector<DepthOnTrack>>> depths_;
  mutable std::mutex pieces_mutex_;
  mutable std::map<std::pair<std::size_t, int>, std::unique_ptr<std::vector<SurveyedPiece>>>
      pieces_;
  mutable std::mutex narrow_mutex_;
  mutable std::map<std::pair<std::size_t, int>, int> narrow_;
  mutable std::mutex grown_mutex_;
  /// By stretch, target, and lee edge in metres.
  mutable std::map<std::tuple<std::size_t, std::size_t, double>, std::unique_ptr<GrownTarget>>
      grown_;
};

}  // namespace passage_brief
