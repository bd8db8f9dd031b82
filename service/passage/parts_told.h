// Which parts of a reach, or of a bar, are told by themselves, so that no part hides another that
// could shut the way: soft ground that is shoalest hides no rock, water that rises hides none that
// falls, and what is shoalest as charted hides nothing that is charted less surely.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {

/// By how much is asked of it: who touches soft ground on a rising tide floats off; what is asked
/// over hard ground is asked in open water too.
enum class GroundToTouch { soft_and_rising, soft, hard };

struct PartOfWater {
  GroundToTouch ground;
  Length under_keel;
  Known<Length> could_be;
  double wave_share = 0;  // of the largest waves in the depth of water, in open water
};

enum class ToldAs { least, soft_ground, hard_ground, least_sure, roughest };

struct ToldPart {
  std::size_t part;  // index into the list given
  ToldAs as;
  Known<Length> could_be;  // as little as it, or a part near it in this, could be
};

/// Given in order of passing. The one with least under the keel first (of equals the first); then
/// the least of all ground of which more is asked; then of each ground the one that could be least,
/// or is not known, where that is less by more than 5 cm than what is told already of such ground
/// or harder; then where the waves are highest for the water, if they come near to breaking there.
/// Each part once; empty for an empty list.
[[nodiscard]] std::vector<ToldPart> parts_told(const std::vector<PartOfWater>& parts);

/// "Hard ground in Sound Reach".
[[nodiscard]] std::string name_of_part(ToldAs as, const std::string& whole);

}  // namespace passage_brief
