// The triangle of velocities: what to steer so that a current does not carry the boat off her
// track.
//
//   sin c = (drift / speed through the water) sin(set - track)
//   course to steer = track - c
//   speed made good = speed through the water x cos c + drift x cos(set - track)
//
// American Practical Navigator (Bowditch, NGA Pub. 9), Dead Reckoning. Leeway is not in it: it is
// steered for on top. Exact for one current over the whole leg; a current 0.2 kn out at 5 kn
// through the water puts the course up to 2.3 degrees out.
#pragma once

#include <expected>
#include <string>

#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {

struct CourseToSteer {
  TrueBearing steer;
  Speed over_ground;  // along the track, > 0
};

enum class NoCourse {
  cannot_hold_the_line,  // the current across the track is stronger than the boat
  no_headway             // the line can be held, but the boat stands still or goes astern along it
};
[[nodiscard]] std::string in_words(NoCourse why);

/// A boat that does not move through the water makes no headway, wherever the current takes her.
[[nodiscard]] std::expected<CourseToSteer, NoCourse> course_to_steer(TrueBearing track,
                                                                     Speed through_water,
                                                                     SetToward set, Speed drift);

}  // namespace passage_brief
