// When a drawbridge opens, as the waterway file states it: 33 CFR part 117 as a list of rules.
//
// The first rule that holds wins; where none holds the bridge opens on signal (33 CFR 117.5). A
// rule holds at an instant when all of these do, by wall time in the waterway's zone: the date is
// among its days, months, season and dates; the holidays allow it; the time of day is in [from,
// to), of the day before too where the sun sets after midnight. It does not bind vessels it exempts
// or does not apply to. What comes of it: opening_times.h.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "units/time.h"

namespace passage_brief {

enum class Opens { on_signal, at_times, on_notice, closed, held_open };

/// `except`: not on holidays; `only`: on no other days; `same`: makes no difference.
enum class OnHolidays { same, except, only };

/// What the tender takes a vessel for.
enum class BridgeUser { pleasure, commercial, public_vessel, emergency, distress };

/// A limit of the day: minutes past midnight by the clock (0 to 1440), or by the sun.
struct DayLimit {
  enum class By { clock, sunrise, sunset };
  By by;
  std::chrono::minutes clock{0};
};

struct DayHours {
  DayLimit from;
  DayLimit to;  // of the next day where on no day of the year it is later than `from`
};

struct OpeningRule {
  Opens opens = Opens::on_signal;
  std::vector<std::chrono::weekday> days;      // empty: all
  std::vector<std::chrono::weekday> night_of;  // nights by the day they begin; empty: no such limit
  OnHolidays holidays = OnHolidays::same;
  std::vector<std::string> holiday_set;  // names of calendars
  std::vector<std::string> named_days;   // holidays by name; empty: no such limit
  bool eve_of_holiday = false;           // eves count as holidays; alone: holds on eves only
  std::vector<std::chrono::month> months;
  std::optional<std::pair<std::chrono::month_day, std::chrono::month_day>> season;  // inclusive
  std::optional<std::pair<std::chrono::year_month_day, std::chrono::year_month_day>>
      dates;                                  // incl.
  std::optional<DayHours> hours;              // empty: all day
  std::vector<std::chrono::minutes> times;    // of the day, for at_times
  std::vector<std::chrono::minutes> minutes;  // past each hour, for at_times
  bool if_waiting = false;                    // opens only if a vessel waits
  Interval notice{0};                         // elapsed, for on_notice
  std::optional<std::string> telephone;
  std::vector<BridgeUser> binds;  // empty: all
  std::vector<BridgeUser> exempt;
};

struct Openings {
  std::optional<std::string> law;  // "33 CFR 117.573"
  std::optional<std::chrono::year_month_day> as_of;
  std::vector<OpeningRule> rules;
};

}  // namespace passage_brief
