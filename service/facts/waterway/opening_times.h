// When a drawbridge next opens for a vessel that comes to it.
//
// Limits are compared with wall time, so that an hour comes twice or not at all on the days clocks
// change; notice is counted in elapsed time. The answer is a full minute at or after the arrival:
// an opening at 13:00 serves whoever is there by 13:00:00. Sunrise and sunset are those of the
// day's light at the bridge (daylight/sun.h: within a minute or so of the ones printed; a sunset
// past midnight is the day before's). Where a rule hangs on a holiday calendar that is not at hand,
// whatever would come of it is not known. Days that a calendar marks as only observed are reckoned
// with both ways, as the law does not always say: given is the later opening, with the notice that
// either asks for.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "facts/holidays/holiday_calendar.h"
#include "facts/waterway/openings.h"
#include "units/known.h"
#include "units/position.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {

/// One bridge, one user. All but the instants must outlive it.
struct DrawUse {
  const Openings& openings;
  const Zone& zone;
  Position bridge;
  std::span<const HolidayCalendar> holidays;
  BridgeUser user;
};

struct OpeningDue {
  Instant at;                            // a full minute at or after the arrival
  std::optional<Instant> ask_by;         // the last time to give notice; empty: none is needed
  std::optional<std::string> telephone;  // for the notice
  bool if_waiting;                       // opens only for a vessel that waits there
};

/// Looked for this long ahead.
inline constexpr std::chrono::days kOpeningsAhead{7};

/// The first opening at or after the arrival, notice given in time; `notice_from`: the earliest
/// time it can be given, empty: any. Nothing when there is none within kOpeningsAhead.
[[nodiscard]] Known<std::optional<OpeningDue>> next_opening(const DrawUse& use, Instant arrives,
                                                            std::optional<Instant> notice_from);

/// The same for a vessel that gave no notice.
[[nodiscard]] Known<std::optional<OpeningDue>> next_opening_on_signal(const DrawUse& use,
                                                                      Instant arrives);

}  // namespace passage_brief
