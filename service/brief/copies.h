// The copies of one brief: skipper's, learner's, instructor's.
//
// A learner's copy has its figures taken out here, before any printer sees them, so that no page,
// drawing, alternative text or JSON can give one away: each becomes "not known" with the reason
// kLeftBlank, which printers show as a line to write on. Workings go too. A figure that was not
// known stays so, with its own reason.
#pragma once

#include <string_view>

#include "brief/brief.h"
#include "units/known.h"

namespace passage_brief {

inline constexpr std::string_view kLeftBlank = "left blank, to be worked out";

/// Whether a figure is not shown for no other reason than that a learner is to work it out.
[[nodiscard]] bool is_left_blank(const NotKnown& why);

/// From a skipper's copy. For a learner, with brief.left_blank taken out.
[[nodiscard]] Brief copy_for(Copy copy, Brief brief);

}  // namespace passage_brief
