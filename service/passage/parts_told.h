// Which parts of a reach, or of a bar, are told by themselves, so that no part hides another that
// could shut the way: soft ground that is shoalest hides no rock, and what is shoalest as charted
// hides nothing that is charted less surely.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {

struct PartOfWater {
  bool hard;  // the margin over hard ground, or in open water, is in force there
  Length under_keel;
  Known<Length> could_be;
};

enum class ToldAs { least, hard_ground, least_sure };

struct ToldPart {
  std::size_t part;  // index into the list given
  ToldAs as;
  Known<Length> could_be;  // as little as it or a part near it in this, told with it
};

/// Given in order of passing. The one with least under the keel first (of equals the first); then,
/// where that is soft, the least of hard ground; then of hard and of soft ground the one that could
/// be least, or is not known, where that is less by more than 5 cm than what is told already. Each
/// part once; empty for an empty list.
[[nodiscard]] std::vector<ToldPart> parts_told(const std::vector<PartOfWater>& parts);

/// "hard ground in Sound Reach".
[[nodiscard]] std::string name_of_part(ToldAs as, const std::string& whole);

}  // namespace passage_brief
