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

bool asks_the_sun(const OpeningRule& rule) {
  return rule.hours &&
         (rule.hours->from.by != DayLimit::By::clock || rule.hours->to.by != DayLimit::By::clock);
}

/// A local day: its date, and its daylight at the bridge where a rule asks for it.
struct DayAndSun {
  year_month_day date;
  Daylight sun;
};

std::optional<Instant> by_the_sun(const DayLimit& limit, const Daylight& sun) {
  return limit.by == DayLimit::By::sunrise ? sun.sunrise : sun.sunset;
}

/// Since the day's first minute by wall time; may be before it or past the next midnight. Where the
/// sun neither rises nor sets it is taken to be up all day.
Interval since_midnight(const DayLimit& limit, const DayAndSun& day, const Zone& zone) {
  if (limit.by == DayLimit::By::clock) return limit.clock;
  if (const auto at = by_the_sun(limit, day.sun)) {
    return *at + zone.at(*at).offset - Instant(sys_days(day.date));
  }
  return days(limit.by == DayLimit::By::sunrise ? 0 : 1);
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
      : use_(use), observed_(observed), span_(day) {
    using std::chrono::year;
    const year_month_day date = use_.zone.day_of(day.begin);
    const bool sun = std::ranges::any_of(use_.openings.rules, asks_the_sun);
    for (const int after : {-1, 0, 1}) {
      DayAndSun near{year_month_day(sys_days(date) + days(after)), {}};
      const Span span{day.begin + days(after), day.end + days(after)};
      if (sun) near.sun = daylight_on(use_.bridge, span);
      near_.push_back(near);
    }
    year_.push_back(of(0));
    if (!sun) return;
    const year inside = std::clamp(date.year(), year(1900), year(2037));  // a Zone's years
    for (const year_month_day solstice : {inside / 6 / 21, inside / 12 / 21}) {
      year_.push_back({solstice, daylight_on(use_.bridge, use_.zone.local_day(solstice))});
    }
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
  /// Yesterday is -1, tomorrow 1.
  [[nodiscard]] const DayAndSun& of(int day) const {
    return near_[static_cast<std::size_t>(day + 1)];
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
      if (limit.by == DayLimit::By::clock) return add(midnight + limit.clock);
      for (const DayAndSun& day : near_) {
        if (const auto at = by_the_sun(limit, day.sun)) add(*at);
      }
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

  /// Whether an instant of today is past a limit of the day that is so many days after today.
  [[nodiscard]] Known<bool> is_past(const DayLimit& limit, int day, Instant at,
                                    const EvenPart& part) const {
    if (day > 1) return false;
    if (limit.by == DayLimit::By::clock) {
      return day == 0 ? part.wall_minute(at) >= limit.clock : day < 0;
    }
    if (const auto passes = by_the_sun(limit, of(day).sun)) return at >= *passes;
    return not_known(limit.by == DayLimit::By::sunrise
                         ? "the sun does not rise at the bridge that day"
                         : "the sun does not set at the bridge that day");
  }

  /// Whether `to` is of the day after `from`: on no day of the year it comes later. So 18:00 to
  /// sunset is of one day, and in winter, with the sun down before 18:00, does not come at all.
  [[nodiscard]] bool runs_past_midnight(const DayHours& hours) const {
    const auto ends_that_day = [&](const DayAndSun& day) {
      return since_midnight(hours.from, day, use_.zone) < since_midnight(hours.to, day, use_.zone);
    };
    return std::ranges::none_of(year_, ends_that_day);
  }

  /// By the hours of yesterday, today or tomorrow.
  [[nodiscard]] Known<bool> holds(const OpeningRule& rule, Instant at, const EvenPart& part) const {
    if (!rule.hours) return on_day(rule, of(0).date);
    const bool overnight = runs_past_midnight(*rule.hours);
    Known<bool> any = false;
    for (const int day : {-1, 0, 1}) {
      const Known<bool> begun = is_past(rule.hours->from, day, at, part);
      const Known<bool> over = is_past(rule.hours->to, overnight ? day + 1 : day, at, part);
      if (begun == Known<bool>(false) || over == Known<bool>(true)) continue;
      // Small hours are of their own date unless the rule speaks of nights.
      const bool of_own_date = overnight && rule.night_of.empty();
      const Known<bool> dated = on_day(rule, of(of_own_date ? 0 : day).date);
      if (dated == Known<bool>(false)) continue;
      any = join([](bool, bool, bool) { return true; }, begun, over, dated);
      if (any.has_value()) return true;
    }
    return any;
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
  std::vector<DayAndSun> near_;  // yesterday, today, tomorrow
  std::vector<DayAndSun> year_;  // today and the solstices
};

/// The first opening in one stage at or after the arrival; nothing where there is none.
std::optional<OpeningDue> due_in(const Stage& stage, const OpeningRule* rule, Instant arrives,
                                 bool with_notice, std::optional<Instant> notice_from) {
  const Instant comes = std::max(stage.begin, arrives);
  if (rule != nullptr && rule->opens == Opens::held_open && comes < stage.end) {
    return OpeningDue{comes, std::nullopt, std::nullopt, false};
  }
  Instant first = std::chrono::ceil<minutes>(comes);
  if (first >= stage.end) return std::nullopt;
  if (rule == nullptr || rule->opens == Opens::on_signal) {
    return OpeningDue{first, std::nullopt, std::nullopt, false};
  }
  switch (rule->opens) {
    case Opens::on_notice: {
      if (!with_notice) return std::nullopt;
      if (notice_from && *notice_from + rule->notice > first) {
        first = std::chrono::ceil<minutes>(*notice_from + rule->notice);
      }
      if (first >= stage.end) return std::nullopt;
      return OpeningDue{first, first - rule->notice, rule->telephone, false};
    }
    case Opens::at_times:
      for (Instant at = first; at < stage.end; at += minutes(1)) {
        const minutes wall = stage.clock.wall_minute(at);
        const auto is = [](const std::vector<minutes>& list, minutes value) {
          return std::ranges::find(list, value) != list.end();
        };
        if (!is(rule->times, wall) && !is(rule->minutes, wall % minutes(60))) continue;
        return OpeningDue{at, std::nullopt, std::nullopt, rule->if_waiting};
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
  const Instant minute = std::chrono::ceil<minutes>(arrives);
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

/// Of two readings of the rules: the later time, and the earlier call where either asks for notice.
OpeningDue by_either(const OpeningDue& a, const OpeningDue& b) {
  const bool a_calls = a.ask_by && (!b.ask_by || *a.ask_by < *b.ask_by);
  const OpeningDue& call = a_calls ? a : b;
  return {std::max(a.at, b.at), call.ask_by, call.telephone, a.if_waiting || b.if_waiting};
}

/// Both with days that are only observed counted as holidays and not.
Known<std::optional<OpeningDue>> due(const DrawUse& use, Instant arrives, bool with_notice,
                                     std::optional<Instant> notice_from) {
  const auto any_observed = std::ranges::any_of(use.holidays, [](const HolidayCalendar& calendar) {
    return std::ranges::any_of(calendar.days, &Holiday::observed);
  });
  const auto read = [&](Instant from, Observed observed) {
    return first_due(use, from, with_notice, notice_from, observed);
  };
  if (!any_observed) return read(arrives, Observed::counts);
  // The later of two times need not be one by the other reading: asked again from there.
  for (Instant from = arrives; from <= arrives + kOpeningsAhead;) {
    const auto counted = read(from, Observed::counts);
    const auto passed_over = read(from, Observed::does_not_count);
    if (!counted.has_value() || !passed_over.has_value()) {
      return join([](const auto& a, const auto&) { return a; }, counted, passed_over);
    }
    if (!*counted || !*passed_over) break;
    const OpeningDue both = by_either(**counted, **passed_over);
    if ((*counted)->at == (*passed_over)->at) return std::optional(both);
    from = both.at;
  }
  return std::optional<OpeningDue>();
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
