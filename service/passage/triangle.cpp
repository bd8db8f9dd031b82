#include "passage/triangle.h"

#include <algorithm>
#include <cmath>
#include <expected>
#include <string>

#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr double kSineRounding = 1e-12;
constexpr Speed kStandingStill = metres_per_second(1e-6);  // less is rounding

}  // namespace

std::string in_words(NoCourse why) {
  switch (why) {
    case NoCourse::cannot_hold_the_line:
      return "the current sets the boat off the line faster than she can steer against it";
    case NoCourse::no_headway:
      return "the boat makes no headway against the current";
  }
  return {};
}

std::expected<CourseToSteer, NoCourse> course_to_steer(TrueBearing track, Speed through_water,
                                                       SetToward set, Speed drift) {
  if (through_water <= knots(0)) return std::unexpected(NoCourse::no_headway);
  const double set_off_track_rad = in_radians(set.bearing - track);
  const double sin_c = drift / through_water * std::sin(set_off_track_rad);
  if (std::abs(sin_c) > 1 + kSineRounding) return std::unexpected(NoCourse::cannot_hold_the_line);
  const double c_rad = std::asin(std::clamp(sin_c, -1.0, 1.0));
  const Speed made_good = through_water * std::cos(c_rad) + drift * std::cos(set_off_track_rad);
  if (made_good < kStandingStill) return std::unexpected(NoCourse::no_headway);
  return CourseToSteer{track - radians(c_rad), made_good};
}

}  // namespace passage_brief
