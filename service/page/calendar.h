// Calendar entries as a file (RFC 5545), and those of a brief: departure, the times that control
// the passage, the last time to ask for an opening, and when it is too late to leave by the brief.
//
// Times in UTC; lines end in CR LF and are folded at 75 octets between letters of UTF-8; texts are
// escaped (section 3.3.11). An entry's UID comes from what the brief is for and not from when it
// was made: a brief made again for the same boat, route and departure takes the place of the old.
// DTSTAMP is the time the brief was made. Same brief, same bytes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "page/page_choice.h"
#include "units/time.h"

namespace passage_brief {

struct Brief;
struct WindowList;
class Zone;

struct CalendarEntry {
  std::string about;  // what makes the UID; differs for each entry of a file
  Instant begins;
  std::optional<Instant> ends;  // empty: a moment
  std::string summary;
  std::string description;  // may hold line breaks; may be empty
};

/// Times are cut to the whole second.
[[nodiscard]] std::string calendar_of(const std::vector<CalendarEntry>& entries, Instant made_at);

[[nodiscard]] std::string brief_as_calendar(const Brief& brief, PageChoice choice);

/// An entry for each window, or one over the whole span where there is none. `title`: whose they
/// are, "Grey Heron: Mill Cove to Town Landing".
[[nodiscard]] std::string windows_as_calendar(const WindowList& list, const std::string& title,
                                              const Zone& zone, Units units, Instant made_at);

}  // namespace passage_brief
