// A brief made by hand: invented boat, water and figures, for tests of the printers.
#pragma once

#include <string>
#include <string_view>

#include "brief/brief.h"
#include "page/page_choice.h"

namespace passage_brief::given {

/// What most pages are made for.
inline constexpr PageChoice kLetter{Units::us, Paper::letter};

/// "2026-06-14T10:05", wall time of the invented estuary (Eastern US).
[[nodiscard]] Instant estuary_time(std::string_view wall);

/// Six legs from a marina to a quay with a fixed bridge, a cable, marks, dangers to leeward and the
/// verdict "cautions". Every figure known. Sums hold:
/// Oyster Cut 3.0 + 2.48 - 4.0 - 0.12 - 0.16 = 1.20 ft under the keel.
[[nodiscard]] Brief brief();

/// The same way through crowded water: 40 marks, 12 bridges, 25 cautions of which 2 are warnings,
/// 6 cautions and 17 notices, each with words of its own; three notes. Two legs control nothing.
[[nodiscard]] Brief crowded_brief();

/// A bridge the mast does not fit under, that opens at 10:21 EDT if asked by 08:21.
void open_if_asked(BridgeFinding& bridge);

/// A caution about the whole passage.
[[nodiscard]] Caution caution(Grade grade, std::string words);

/// The brief with one departure window, 08:17 to 10:43, shut by the bridge "Mill Bridge" at a
/// height over the mast of its own, with so much to spare at its best minute.
[[nodiscard]] Brief brief_with_window(Length over_mast_then, Length most_to_spare);

}  // namespace passage_brief::given
