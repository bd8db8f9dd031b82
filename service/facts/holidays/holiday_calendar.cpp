#include "facts/holidays/holiday_calendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "units/known.h"

namespace passage_brief {
namespace {

const HolidayCalendar* called(std::span<const HolidayCalendar> calendars, std::string_view name) {
  const auto found = std::ranges::find_if(
      calendars, [name](const HolidayCalendar& calendar) { return calendar.name == name; });
  return found == calendars.end() ? nullptr : &*found;
}

bool covers(const HolidayCalendar& calendar, std::chrono::year year) {
  return std::ranges::find(calendar.years, year) != calendar.years.end();
}

bool counts(const Holiday& day, Observed observed) {
  return !day.observed || observed == Observed::counts;
}

}  // namespace

Known<bool> is_holiday(std::span<const HolidayCalendar> calendars,
                       const std::vector<std::string>& names, std::chrono::year_month_day date,
                       Observed observed) {
  NotKnown why;
  for (const std::string& name : names) {
    const HolidayCalendar* calendar = called(calendars, name);
    if (calendar == nullptr) {
      why.reasons.push_back(fmt::format("no holiday calendar \"{}\" was given", name));
    } else if (!covers(*calendar, date.year())) {
      why.reasons.push_back(fmt::format("the holiday calendar \"{}\" does not cover {}", name,
                                        static_cast<int>(date.year())));
    } else if (std::ranges::any_of(calendar->days, [&](const Holiday& day) {
                 return day.date == date && counts(day, observed);
               })) {
      return true;
    }
  }
  if (!why.reasons.empty()) return std::unexpected(why);
  return false;
}

Known<bool> is_named_day(std::span<const HolidayCalendar> calendars,
                         const std::vector<std::string>& names, std::string_view day,
                         std::chrono::year_month_day date, Observed observed) {
  bool in_year = false;
  for (const HolidayCalendar& calendar : calendars) {
    if (!names.empty() && std::ranges::find(names, calendar.name) == names.end()) continue;
    if (!covers(calendar, date.year())) continue;
    for (const Holiday& holiday : calendar.days) {
      if (holiday.name != day || holiday.date.year() != date.year()) continue;
      in_year = true;
      if (holiday.date == date && counts(holiday, observed)) return true;
    }
  }
  if (in_year) return false;
  return not_known(
      fmt::format("no holiday calendar gives {} for {}", day, static_cast<int>(date.year())));
}

}  // namespace passage_brief
