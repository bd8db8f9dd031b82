// Holiday calendar file (JSON, "kind": "holiday calendar") -> HolidayCalendar.
#pragma once

#include <expected>
#include <string_view>

#include "facts/holidays/holiday_calendar.h"
#include "reading/form.h"
#include "reading/problem.h"

namespace passage_brief {

[[nodiscard]] Form<HolidayCalendar> holiday_calendar_form();
[[nodiscard]] std::expected<HolidayCalendar, Problems> read_holiday_calendar(std::string_view file,
                                                                             std::string_view text);

}  // namespace passage_brief
