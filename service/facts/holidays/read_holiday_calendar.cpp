#include "facts/holidays/read_holiday_calendar.h"

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <expected>
#include <string>
#include <string_view>
#include <vector>

#include "facts/holidays/holiday_calendar.h"
#include "facts/source.h"
#include "reading/form.h"
#include "reading/problem.h"
#include "reading/table.h"

namespace passage_brief {
namespace {

using std::chrono::year_month_day;

Form<Holiday> holiday() {
  return object<Holiday>(
      "holiday",
      {must_be_given("date", date(), "The day.", "\"2026-07-04\""),
       must_be_given("name", text(40), "What rules call it; movable days too.",
                     "\"Independence Day\""),
       may_be_left_out("observed", yes_or_no(),
                       "true: kept on this day although it falls on another; a bridge's opening is "
                       "then the later of counting it and not, with the notice of either.",
                       "true")},
      [](const Row& row) {
        return Holiday{row.get<year_month_day>("date"), row.get<std::string>("name"),
                       row.get_or("observed", false)};
      });
}

/// A day outside the years that are said to be covered would be half a year's list.
void check_years(const Row& row) {
  const auto* years = row.look_at<std::vector<int>>("years");
  const auto* days = row.look_at<std::vector<Holiday>>("days");
  if (years == nullptr || days == nullptr) return;
  const Place list = row.place().inside("days");
  for (std::size_t i = 0; i < days->size(); ++i) {
    const int year = static_cast<int>((*days)[i].date.year());
    if (std::ranges::find(*years, year) != years->end()) continue;
    const Place day = list.inside(i);
    day.inside("date").refuse("is in none of the years the calendar covers");
  }
}

}  // namespace

Form<HolidayCalendar> holiday_calendar_form() {
  return object<HolidayCalendar>(
      "holiday calendar",
      {always("kind", "holiday calendar"),
       must_be_given("name", text(40), "What opening rules call it in `holiday_set`.",
                     "\"US federal\""),
       may_be_unknown("source", text(), "Who sets the days.", "\"5 U.S.C. 6103\""),
       may_be_unknown("issued", instant(), "When the list was made.", "\"2026-01-02T00:00:00Z\""),
       must_be_given("years", list_of(whole_number(1900, 2037), 1, 138),
                     "Years of which every holiday is listed; any other year is not known.",
                     "[2026]"),
       must_be_given("days", list_of(holiday(), 0, 5000), "The holidays.",
                     R"([{"date": "2026-07-04", "name": "Independence Day"}])")},
      [](const Row& row) {
        const auto name = row.get<std::string>("name");
        HolidayCalendar calendar{name,
                                 Source{"holiday calendar " + name,
                                        row.get_or<std::string>("source", "source not stated"),
                                        row.maybe<Instant>("issued")},
                                 {},
                                 row.get<std::vector<Holiday>>("days")};
        for (const int year : row.get<std::vector<int>>("years")) {
          calendar.years.emplace_back(year);
        }
        return calendar;
      },
      {check_years});
}

std::expected<HolidayCalendar, Problems> read_holiday_calendar(std::string_view file,
                                                               std::string_view text) {
  static const auto form = holiday_calendar_form();  // made once
  return read_json(file, text, "the holiday calendar file", form);
}

}  // namespace passage_brief
