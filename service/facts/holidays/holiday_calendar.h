// Which days are holidays: data, year by year. A year that no calendar covers is not known.
#pragma once

#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "facts/source.h"
#include "units/known.h"

namespace passage_brief {

struct Holiday {
  std::chrono::year_month_day date;
  std::string name;
  /// Kept on this day although it falls on another (33 CFR and state law do not always say whether
  /// that counts): whoever asks must reckon with both.
  bool observed;
};

struct HolidayCalendar {
  std::string name;  // "US federal": what opening rules call it
  Source source;
  std::vector<std::chrono::year> years;  // every holiday of these years is in `days`
  std::vector<Holiday> days;
};

/// Whether days that are only observed are taken for holidays.
enum class Observed { counts, does_not_count };

/// Whether the date is a holiday of any of the named calendars. Not known, saying which, where one
/// of them is not at hand or does not cover the year, unless another already says yes.
[[nodiscard]] Known<bool> is_holiday(std::span<const HolidayCalendar> calendars,
                                     const std::vector<std::string>& names,
                                     std::chrono::year_month_day date, Observed observed);

/// Whether the date is a holiday of that name ("Easter") in any calendar named (in any at hand
/// where none is named). Not known where none of them has it in that year.
[[nodiscard]] Known<bool> is_named_day(std::span<const HolidayCalendar> calendars,
                                       const std::vector<std::string>& names, std::string_view day,
                                       std::chrono::year_month_day date, Observed observed);

}  // namespace passage_brief
