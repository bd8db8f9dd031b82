// What a boat adrift may come to: hazards, bridges off the track, and charted shoals, each in the
// plane of one stretch. Worked out once for a route.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/waterway/waterway.h"
#include "passage/corridor_depths.h"
#include "passage/findings.h"
#include "passage/meetings.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"
#include "units/quantity.h"

namespace passage_brief {

struct DriftTarget {
  std::string name;
  std::string what;
  DangerKind kind;
  Bottom bottom;
  PlaneShape shape;
  bool single_point;                 // drawn as one
  std::optional<DepthSource> depth;  // of shoal water: counts only while shoaler than the draft
};

/// Everything within 6 nm (an hour at any drift a small craft survives). A bridge on the way is no
/// danger to leeward: it is passed, and judged, as a bridge.
[[nodiscard]] std::vector<DriftTarget> drift_targets(const Waterway& waterway,
                                                     const std::vector<Meeting>& bridges_on_the_way,
                                                     const Stretch& stretch);

/// A target as one piece of the track has it.
struct TargetOff {
  Length nearest;     // to any point of the piece
  double side;        // negative to port, positive to starboard, of the nearest point
  Length from_begin;  // of a single point; else zero
  Length from_end;    // likewise
};

/// From the part of the stretch's line between two places along the track.
[[nodiscard]] TargetOff target_off(const DriftTarget& target, const Stretch& stretch, Length begin,
                                   Length end);

}  // namespace passage_brief
