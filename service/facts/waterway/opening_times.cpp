#include "facts/waterway/opening_times.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <optional>
#include <utility>
#include <vector>

#include "facts/daylight/sun.h"
#include "facts/holidays/holiday_calendar.h"
#include "facts/waterway/openings.h"
#include "units/known.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

using std::chrono::days;
using std::chrono::minutes;
using std::chrono::sys_days;
using std::chrono::year_month_day;

constexpr minutes kDay{24 * 60};

/// A part of a local day in which clocks run evenly.
struct EvenPart {
  Instant begin;
  Instant end;
  Interval offset;  // of wall time from UTC

  [[nodiscard]] minutes wall_minute(Instant at) const {
    const auto wall = (at + offset).time_since_epoch();
    return std::chrono::floor<minutes>(wall - std::chrono::floor<days>(wall));
  }
};

/// The clock shows the same offset from begin to end, or changes once.
std::vector<EvenPart> even_parts(const Zone& zone, Span day) {
  const Interval first = zone.at(day.begin).offset;
  const Interval last = zone.at(day.end - Interval(1)).offset;
  if (first == last) return {{day.begin, day.end, first}};
  Instant before = day.begin;
  Instant after = day.end;
  while (after - before > Interval(1)) {
    const Instant middle = before + (after - before) / 2;
    (zone.at(middle).offset == first ? before : after) = middle;
  }
  return {{day.begin, after, first}, {after, day.end, last}};
}

/// One local day at the bridge: its date, and its sun where a rule asks for it.
struct LocalDay {
  year_month_day date;
  std::optional<Instant> sunrise;
  std::optional<Instant> sunset;
};

bool asks_the_sun(const OpeningRule& rule) {
  return rule.hours &&
         (rule.hours->from.by != DayLimit::By::clock || rule.hours->to.by != DayLimit::By::clock);
}

/// What a rule would do if it holds, over a stretch of time in which it does so evenly.
struct Stage {
  Instant begin;
  Instant end;
  EvenPart clock;
  Known<const OpeningRule*> rule;  // null: on signal
};

/// The stages of one local day, one after another.
class DayOfBridge {
 public:
  DayOfBridge(const DrawUse& use, Observed observed, Span day)
      : use_(use), observed_(observed), span_(day), today_(day_of(day.begin)) {
    yesterday_.date = year_month_day(sys_days(today_.date) - days(1));
  }

  [[nodiscard]] std::vector<Stage> stages() const {
    std::vector<Stage> all;
    for (const EvenPart& part : even_parts(use_.zone, span_)) {
      const std::vector<Instant> cuts = cuts_of(part);
      for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
        all.push_back({cuts[i], cuts[i + 1], part, rule_at(cuts[i], part)});
      }
    }
    return all;
  }

 private:
  [[nodiscard]] LocalDay day_of(Instant begin) const {
    LocalDay day{use_.zone.day_of(begin), std::nullopt, std::nullopt};
    if (std::ranges::any_of(use_.openings.rules, asks_the_sun)) {
      const SunTimes sun = sun_times(use_.bridge, span_);
      day.sunrise = sun.sunrise;
      day.sunset = sun.sunset;
    }
    return day;
  }

  /// Instants at which some rule may begin or cease to hold.
  [[nodiscard]] std::vector<Instant> cuts_of(const EvenPart& part) const {
    std::vector<Instant> cuts{part.begin, part.end};
    const auto add = [&](Instant at) {
      if (at > part.begin && at < part.end) cuts.push_back(at);
    };
    const Instant midnight =
        Instant(std::chrono::floor<days>((part.begin + part.offset).time_since_epoch())) -
        part.offset;
    const auto add_limit = [&](const DayLimit& limit) {
      if (limit.by == DayLimit::By::clock) add(midnight + limit.clock);
      if (limit.by == DayLimit::By::sunrise && today_.sunrise) add(*today_.sunrise);
      if (limit.by == DayLimit::By::sunset && today_.sunset) add(*today_.sunset);
    };
    for (const OpeningRule& rule : use_.openings.rules) {
      if (!rule.hours) continue;
      add_limit(rule.hours->from);
      add_limit(rule.hours->to);
    }
    std::ranges::sort(cuts);
    const auto doubles = std::ranges::unique(cuts);
    cuts.erase(doubles.begin(), doubles.end());
    return cuts;
  }

  [[nodiscard]] Known<const OpeningRule*> rule_at(Instant at, const EvenPart& part) const {
    for (const OpeningRule& rule : use_.openings.rules) {
      if (!binds(rule)) continue;
      const Known<bool> now = holds(rule, at, part);
      if (!now.has_value()) return not_known_as(now);
      if (*now) return &rule;
    }
    return nullptr;
  }

  [[nodiscard]] bool binds(const OpeningRule& rule) const {
    const auto named = [&](const std::vector<BridgeUser>& users) {
      return std::ranges::find(users, use_.user) != users.end();
    };
    return (rule.binds.empty() || named(rule.binds)) && !named(rule.exempt);
  }

  /// Sides of one limit of the day that an instant is on.
  [[nodiscard]] Known<bool> is_past(const DayLimit& limit, Instant at, const EvenPart& part) const {
    switch (limit.by) {
      case DayLimit::By::clock:
        return part.wall_minute(at) >= limit.clock;
      case DayLimit::By::sunrise:
        if (!today_.sunrise) return not_known("the sun does not rise at the bridge that day");
        return at >= *today_.sunrise;
      case DayLimit::By::sunset:
        if (!today_.sunset) return not_known("the sun does not set at the bridge that day");
        return at >= *today_.sunset;
    }
    return false;
  }

  /// Whether `from` comes after `to`, so that the hours run past midnight.
  [[nodiscard]] bool runs_past_midnight(const DayHours& hours) const {
    const auto rank = [](const DayLimit& limit) {
      switch (limit.by) {
        case DayLimit::By::clock:
          return limit.clock;
        case DayLimit::By::sunrise:
          return kDay / 4;
        case DayLimit::By::sunset:
          return kDay * 3 / 4;
      }
      return kDay;
    };
    return rank(hours.to) <= rank(hours.from);
  }

  [[nodiscard]] Known<bool> holds(const OpeningRule& rule, Instant at, const EvenPart& part) const {
    bool of_yesterday = false;  // the small hours of a night that began yesterday
    if (rule.hours) {
      const Known<bool> begun = is_past(rule.hours->from, at, part);
      const Known<bool> over = is_past(rule.hours->to, at, part);
      const bool wraps = runs_past_midnight(*rule.hours);
      const Known<bool> inside =
          join([wraps](bool b, bool o) { return wraps ? b || !o : b && !o; }, begun, over);
      if (!inside.has_value() || !*inside) return inside;
      of_yesterday = wraps && !rule.night_of.empty() && !*begun;
    }
    return on_day(rule, of_yesterday ? yesterday_.date : today_.date);
  }

  [[nodiscard]] Known<bool> on_day(const OpeningRule& rule, year_month_day date) const {
    const auto lists = [](const auto& list, const auto& value) {
      return list.empty() || std::ranges::find(list, value) != list.end();
    };
    const std::chrono::weekday day{sys_days(date)};
    if (!lists(rule.days, day) || !lists(rule.night_of, day)) return false;
    if (!lists(rule.months, date.month())) return false;
    if (rule.season && !in_season(*rule.season, {date.month(), date.day()})) return false;
    if (rule.dates && (date < rule.dates->first || date > rule.dates->second)) return false;
    return on_holidays(rule, date);
  }

  static bool in_season(const std::pair<std::chrono::month_day, std::chrono::month_day>& season,
                        std::chrono::month_day day) {
    const auto& [first, last] = season;
    return first <= last ? first <= day && day <= last : day >= first || day <= last;
  }

  [[nodiscard]] Known<bool> on_holidays(const OpeningRule& rule, year_month_day date) const {
    if (!rule.named_days.empty()) {
      const Known<bool> named = on_named_day(rule, date);
      if (!named.has_value() || !*named) return named;
    }
    if (rule.holidays == OnHolidays::same && !rule.eve_of_holiday) return true;
    Known<bool> holiday = false;
    if (rule.holidays != OnHolidays::same) {
      holiday = is_holiday(use_.holidays, rule.holiday_set, date, observed_);
    }
    if (rule.eve_of_holiday && holiday != Known<bool>(true)) {
      const Known<bool> eve = is_holiday(use_.holidays, rule.holiday_set,
                                         year_month_day(sys_days(date) + days(1)), observed_);
      holiday = eve == Known<bool>(true)
                    ? eve
                    : join([](bool a, bool b) { return a || b; }, holiday, eve);
    }
    if (rule.holidays != OnHolidays::except) return holiday;
    return join([](bool is) { return !is; }, holiday);
  }

  [[nodiscard]] Known<bool> on_named_day(const OpeningRule& rule, year_month_day date) const {
    NotKnown why;
    for (const std::string& name : rule.named_days) {
      const Known<bool> is = is_named_day(use_.holidays, rule.holiday_set, name, date, observed_);
      if (is.has_value() && *is) return true;
      known_detail::add_reasons(why, is);
    }
    if (!why.reasons.empty()) return std::unexpected(why);
    return false;
  }

  const DrawUse& use_;
  Observed observed_;
  Span span_;
  LocalDay today_;
  LocalDay yesterday_{};
};

/// The first opening in one stage at or after `from`; nothing where there is none.
std::optional<OpeningDue> due_in(const Stage& stage, const OpeningRule* rule, Instant arrives,
                                 bool with_notice, std::optional<Instant> notice_from) {
  // Whoever comes within a minute in which it is open passes at once, later ones at full minutes.
  const Instant minute = std::chrono::floor<minutes>(arrives);
  const auto passes_at = [&](Instant open) { return std::max(open, arrives); };
  Instant first = std::max(stage.begin, minute);
  const bool at_times = rule != nullptr && rule->opens == Opens::at_times;
  if (first >= stage.end || (arrives >= stage.end && !at_times)) return std::nullopt;
  if (rule == nullptr || rule->opens == Opens::on_signal || rule->opens == Opens::held_open) {
    return OpeningDue{passes_at(first), std::nullopt, std::nullopt, false};
  }
  switch (rule->opens) {
    case Opens::on_notice: {
      if (!with_notice) return std::nullopt;
      if (notice_from && *notice_from + rule->notice > passes_at(first)) {
        first = std::chrono::ceil<minutes>(*notice_from + rule->notice);
      }
      if (first >= stage.end) return std::nullopt;
      const Instant at = passes_at(first);
      return OpeningDue{at, at - rule->notice, rule->telephone, false};
    }
    case Opens::at_times:
      for (Instant at = std::chrono::ceil<minutes>(first); at < stage.end; at += minutes(1)) {
        const minutes wall = stage.clock.wall_minute(at);
        const auto is = [](const std::vector<minutes>& list, minutes value) {
          return std::ranges::find(list, value) != list.end();
        };
        if (!is(rule->times, wall) && !is(rule->minutes, wall % minutes(60))) continue;
        return OpeningDue{passes_at(at), std::nullopt, std::nullopt, rule->if_waiting};
      }
      return std::nullopt;
    case Opens::closed:
    case Opens::on_signal:
    case Opens::held_open:
      break;
  }
  return std::nullopt;
}

Known<std::optional<OpeningDue>> first_due(const DrawUse& use, Instant arrives, bool with_notice,
                                           std::optional<Instant> notice_from, Observed observed) {
  const Instant end = arrives + kOpeningsAhead;
  const Instant minute = std::chrono::floor<minutes>(arrives);
  Span day = use.zone.local_day(use.zone.day_of(arrives));
  while (day.begin <= end) {
    for (const Stage& stage : DayOfBridge(use, observed, day).stages()) {
      if (stage.end <= minute) continue;
      if (!stage.rule.has_value()) return not_known_as(stage.rule);
      const auto due = due_in(stage, *stage.rule, arrives, with_notice, notice_from);
      if (due && due->at <= end) return due;
    }
    if (!Zone::covers(day.end + days(1))) break;
    day = use.zone.local_day(use.zone.day_of(day.end));
  }
  return std::optional<OpeningDue>();
}

/// The later of the answers with and without days that are only observed; none is later still.
Known<std::optional<OpeningDue>> due(const DrawUse& use, Instant arrives, bool with_notice,
                                     std::optional<Instant> notice_from) {
  const auto any_observed = std::ranges::any_of(use.holidays, [](const HolidayCalendar& calendar) {
    return std::ranges::any_of(calendar.days, &Holiday::observed);
  });
  auto counted = first_due(use, arrives, with_notice, notice_from, Observed::counts);
  if (!any_observed) return counted;
  return join(
      [](const std::optional<OpeningDue>& a, const std::optional<OpeningDue>& b) {
        if (!a || !b) return std::optional<OpeningDue>();
        return a->at < b->at ? b : a;
      },
      counted, first_due(use, arrives, with_notice, notice_from, Observed::does_not_count));
}

}  // namespace

Known<std::optional<OpeningDue>> next_opening(const DrawUse& use, Instant arrives,
                                              std::optional<Instant> notice_from) {
  return due(use, arrives, true, notice_from);
}

Known<std::optional<OpeningDue>> next_opening_on_signal(const DrawUse& use, Instant arrives) {
  return due(use, arrives, false, std::nullopt);
}

}  // namespace passage_brief
