// Windows in words, rounded inward to 5 minutes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "brief/window.h"
#include "page/figures.h"
#include "page/sheet_parts.h"

namespace passage_brief {

/// How limits were held where it was asked to be sure.
inline constexpr std::string_view kHeldSure =
    "Limits held at what each depth and clearance could be as little as (95 %).";

/// "09:05 to 12:20"; to the minute where rounding would leave nothing; "01:35 EDT to 07:15 EST"
/// over a night in which the clocks change.
[[nodiscard]] std::string window_times(const Window& window, const Clock24& clock);

/// The same with what it was judged on, where that is not everything: for wherever nothing else
/// says so beside it.
[[nodiscard]] std::string window_told(const Window& window, const Clock24& clock);

/// The times that are printed.
[[nodiscard]] Span printed_span(const Window& window);

/// When most is to spare: "at 10:40", or "as it opens", "as it shuts" where rounding leaves that
/// out.
[[nodiscard]] std::string best_time(const Window& window, const Clock24& clock);

/// "Oyster Reach: 1.2 ft under the keel at 12:40." or "cannot tell: ..." ; empty for no edge.
[[nodiscard]] std::string edge_words(const std::optional<WindowEdge>& edge, const Reader& reader);

/// "1.9 ft more than the margin at Oyster Reach" or "2.1 ft short at the bar".
[[nodiscard]] std::string to_spare_words(const ToSpare& to_spare, const Reader& reader);

/// What never lets go, how near it comes, and what would open it; a sentence each.
[[nodiscard]] std::vector<std::string> no_window_words(const NoWindow& none, const Reader& reader);

/// "30 minutes late costs 0.6 ft at the bar."
[[nodiscard]] std::string otherwise_words(const Otherwise& other, const Reader& reader);

/// "Warning: Gale Warning ...", a line each, and that no time heeds them; empty where there is
/// none.
[[nodiscard]] std::string warnings_text(const WindowList& list, const Reader& reader);

/// What `windows` prints: 78 columns at most where words allow.
[[nodiscard]] std::string windows_as_text(const WindowList& list, const Zone& zone, Units units);

}  // namespace passage_brief
