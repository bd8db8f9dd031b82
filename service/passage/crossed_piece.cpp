#include "passage/crossed_piece.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <expected>
#include <functional>
#include <ratio>
#include <string>

#include "passage/triangle.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

using Step = std::chrono::duration<std::int64_t, std::ratio<120>>;
constexpr std::chrono::hours kLongest{12};

CrossedPiece stopped(CrossedPiece found, const std::string& why) {
  found.makes_headway = false;
  found.over_ground = not_known(why);
  found.over_ground_most = not_known(why);
  found.ends = not_known(why);
  return found;
}

CrossedPiece untold(CrossedPiece found, const std::unexpected<NotKnown>& why) {
  found.makes_headway = why;
  found.holds_line = why;
  found.over_ground = why;
  found.over_ground_most = why;
  return found;
}

}  // namespace

CrossedPiece crossed_piece(
    TrueBearing course, Speed through_water, Length distance, const Known<Instant>& begins,
    const std::function<Known<Velocity>(const Known<Instant>&)>& current_at) {
  CrossedPiece found{begins, through_water, through_water, current_at(begins), 0, true, true};
  if (!begins.has_value()) return untold(found, not_known_as(begins));
  Instant at = *begins;
  Length left = distance;
  while (true) {
    const auto ends_at = [&](Speed over_ground) {
      return at + seconds_long(in_metres(left) / in_metres_per_second(over_ground));
    };
    const auto step = std::chrono::floor<Step>(at);
    const Known<Velocity> current = current_at(Instant(step + Interval(Step(1)) / 2));
    if (!current.has_value()) {
      found.current = current;
      found.ends = ends_at(through_water);
      return untold(found, not_known_as(current));
    }
    const Speed across = component_toward(course + degrees(90), *current);
    found.across = std::max(found.across, std::abs(across / through_water));
    const auto held =
        course_to_steer(course, through_water, SetToward{bearing_of(*current)}, speed_of(*current));
    if (!held) {
      found.holds_line = held.error() != NoCourse::cannot_hold_the_line;
      return stopped(found, in_words(held.error()));
    }
    const Speed made_good = held->over_ground;
    const bool first = at == *begins;
    found.over_ground = first ? made_good : std::min(*found.over_ground, made_good);
    found.over_ground_most = first ? made_good : std::max(*found.over_ground_most, made_good);
    found.ends = ends_at(held->over_ground);
    const Instant step_ends = step + Step(1);
    if (*found.ends <= step_ends) return found;
    if (step_ends - *begins > kLongest) {
      return stopped(found, "she hardly makes way over the ground");
    }
    left -= metres(in_metres_per_second(held->over_ground) * in_seconds(step_ends - at));
    at = step_ends;
  }
}

}  // namespace passage_brief
