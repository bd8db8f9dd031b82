#include "facts/waterway/read_openings.h"

#include <array>
#include <chrono>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "facts/waterway/openings.h"
#include "reading/form.h"
#include "reading/table.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using std::chrono::minutes;
using std::chrono::month_day;
using std::chrono::weekday;
using std::chrono::year_month_day;

std::optional<int> two_digits(std::string_view text, int most) {
  if (text.size() != 2 || text[0] < '0' || text[0] > '9' || text[1] < '0' || text[1] > '9') {
    return std::nullopt;
  }
  const int value = (text[0] - '0') * 10 + (text[1] - '0');
  return value <= most ? std::optional(value) : std::nullopt;
}

/// "06:30", up to "24:00" for the end of the day.
std::optional<minutes> clock_time(std::string_view words) {
  if (words == "24:00") return minutes(24 * 60);
  if (words.size() != 5 || words[2] != ':') return std::nullopt;
  const auto hour = two_digits(words.substr(0, 2), 23);
  const auto minute = two_digits(words.substr(3), 59);
  if (!hour || !minute) return std::nullopt;
  return minutes(*hour * 60 + *minute);
}

Form<DayLimit> day_limit() {
  Form<DayLimit> form = turned<DayLimit, std::string>(
      text(10), [](const std::string& words) -> std::expected<DayLimit, std::string> {
        if (words == "sunrise") return DayLimit{DayLimit::By::sunrise};
        if (words == "sunset") return DayLimit{DayLimit::By::sunset};
        if (const auto clock = clock_time(words)) return DayLimit{DayLimit::By::clock, *clock};
        return std::unexpected("\"" + words +
                               "\" is not a time of day like \"06:30\", \"sunrise\" or \"sunset\"");
      });
  form.must_be = "a time of day like \"06:30\", \"sunrise\" or \"sunset\"";
  return form;
}

Form<minutes> time_of_day() {
  Form<minutes> form = turned<minutes, std::string>(
      text(10), [](const std::string& words) -> std::expected<minutes, std::string> {
        const auto clock = clock_time(words);
        if (clock && *clock < minutes(24 * 60)) return *clock;
        return std::unexpected("\"" + words + "\" is not a time of day like \"06:30\"");
      });
  form.must_be = "a time of day like \"06:30\"";
  return form;
}

/// "04-16": month and day, 29 February included.
Form<month_day> day_of_year() {
  Form<month_day> form = turned<month_day, std::string>(
      text(5), [](const std::string& words) -> std::expected<month_day, std::string> {
        if (const auto in_leap_year = parse_date("2024-" + words)) {
          return month_day(in_leap_year->month(), in_leap_year->day());
        }
        return std::unexpected("\"" + words + "\" is not a month and day like \"04-16\"");
      });
  form.must_be = "a month and day like \"04-16\"";
  return form;
}

Form<weekday> day_of_week() {
  using namespace std::chrono;
  return choice<weekday>({{"mon", Monday},
                          {"tue", Tuesday},
                          {"wed", Wednesday},
                          {"thu", Thursday},
                          {"fri", Friday},
                          {"sat", Saturday},
                          {"sun", Sunday}});
}

void check_opens(const Row& row) {
  const auto opens = row.maybe<Opens>("opens");
  if (!opens) return;
  const bool at = row.given("times") || row.given("minutes");
  if (*opens == Opens::at_times && !at) {
    row.refuse("\"opens\": \"at\" needs \"times\", like [\"07:30\"], or \"minutes\", like [0, 30]");
  }
  if (*opens != Opens::at_times && at) row.refuse("times or minutes belong to \"opens\": \"at\"");
  if (*opens == Opens::on_notice && !row.given("notice")) {
    row.refuse("\"opens\": \"notice\" needs \"notice\", for example \"4 h\"");
  }
  if (*opens != Opens::on_notice && row.given("notice")) {
    row.refuse("notice", "belongs to \"opens\": \"notice\"");
  }
}

void check_limits(const Row& row) {
  if (row.given("from") != row.given("to")) row.refuse("from and to belong together");
  const auto holidays = row.maybe<OnHolidays>("holidays");
  const bool asks = (holidays && *holidays != OnHolidays::same) || row.given("eve_of_holiday");
  if (asks && !row.given("holiday_set")) {
    row.refuse("needs \"holiday_set\": which holidays, for example [\"US federal\"]");
  }
  if (row.given("holiday_set") && !row.given("holidays") && !row.given("eve_of_holiday") &&
      !row.given("named_days")) {
    row.refuse("holiday_set", "needs \"holidays\": \"except\", \"only\" or \"same\"");
  }
  if (row.given("night_of") && (row.given("days") || !row.given("from"))) {
    row.refuse("night_of", "goes with \"from\" and \"to\", and without \"days\"");
  }
  const auto dates = row.maybe<std::vector<year_month_day>>("dates");
  if (dates && dates->size() == 2 && (*dates)[1] < (*dates)[0]) {
    row.refuse("dates", "end before they begin");
  }
}

template <class T>
std::optional<std::pair<T, T>> pair_of(const Row& row, std::string_view name) {
  const auto both = row.maybe<std::vector<T>>(name);
  if (!both) return std::nullopt;
  return std::pair((*both)[0], (*both)[1]);
}

std::optional<DayHours> hours_of(const Row& row) {
  const auto from = row.maybe<DayLimit>("from");
  const auto to = row.maybe<DayLimit>("to");
  if (!from || !to) return std::nullopt;
  return DayHours{*from, *to};
}

OpeningRule built(const Row& row) {
  OpeningRule rule;
  rule.opens = row.get<Opens>("opens");
  rule.days = row.get_or("days", std::vector<weekday>());
  rule.night_of = row.get_or("night_of", std::vector<weekday>());
  rule.holidays = row.get_or("holidays", OnHolidays::same);
  rule.holiday_set = row.get_or("holiday_set", std::vector<std::string>());
  rule.named_days = row.get_or("named_days", std::vector<std::string>());
  rule.eve_of_holiday = row.get_or("eve_of_holiday", false);
  for (const int month : row.get_or("months", std::vector<int>())) {
    rule.months.emplace_back(static_cast<unsigned>(month));
  }
  rule.season = pair_of<month_day>(row, "season");
  rule.dates = pair_of<year_month_day>(row, "dates");
  rule.hours = hours_of(row);
  rule.times = row.get_or("times", std::vector<minutes>());
  for (const int minute : row.get_or("minutes", std::vector<int>())) {
    rule.minutes.emplace_back(minute);
  }
  rule.if_waiting = row.get_or("if_waiting", false);
  rule.notice = row.get_or("notice", Interval(0));
  rule.telephone = row.maybe<std::string>("telephone");
  rule.binds = row.get_or("applies_to", std::vector<BridgeUser>());
  rule.exempt = row.get_or("exempt", std::vector<BridgeUser>());
  return rule;
}

Form<OpeningRule> rule() {
  const auto users = choice<BridgeUser>({{"public", BridgeUser::public_vessel},
                                         {"commercial", BridgeUser::commercial},
                                         {"emergency", BridgeUser::emergency},
                                         {"distress", BridgeUser::distress}});
  return object<OpeningRule>(
      "opening rule",
      {must_be_given("opens",
                     choice<Opens>({{"on_signal", Opens::on_signal},
                                    {"at", Opens::at_times},
                                    {"notice", Opens::on_notice},
                                    {"closed", Opens::closed},
                                    {"held_open", Opens::held_open}}),
                     "How the bridge opens while the rule holds.", "\"at\""),
       may_be_left_out("days", list_of(day_of_week(), 1, 7), "Days of the week; left out: all.",
                       R"(["sat", "sun"])"),
       may_be_left_out("holidays",
                       choice<OnHolidays>({{"except", OnHolidays::except},
                                           {"only", OnHolidays::only},
                                           {"same", OnHolidays::same}}),
                       "Whether it holds on holidays.", "\"except\""),
       may_be_left_out("holiday_set", list_of(text(40), 1, 10),
                       "Which holidays: names of holiday calendars.", R"(["US federal"])"),
       may_be_left_out("named_days", list_of(text(40), 1, 20),
                       "Single holidays it holds on, as the calendars call them.",
                       R"(["Christmas"])"),
       may_be_left_out("eve_of_holiday", yes_or_no(),
                       "Days before a holiday count as holidays; without `holidays`: it holds on "
                       "those days only.",
                       "true"),
       may_be_left_out("night_of", list_of(day_of_week(), 1, 7),
                       "Nights, each belonging to the day it starts, as are holidays, season and "
                       "dates then.",
                       R"(["fri"])"),
       may_be_left_out("months", list_of(whole_number(1, 12), 1, 12), "Months; left out: all.",
                       "[1, 2]"),
       may_be_left_out("season", list_of(day_of_year(), 2, 2), "First and last day, both included.",
                       R"(["04-16", "11-15"])"),
       may_be_left_out("dates", list_of(date(), 2, 2),
                       "First and last date of a temporary deviation, both included.",
                       R"(["2026-06-01", "2026-06-14"])"),
       may_be_left_out("from", day_limit(), "Begins then.", "\"06:30\""),
       may_be_left_out(
           "to", day_limit(),
           "No longer holds then; past midnight where it is on no day of the year later "
           "than `from`.",
           "\"09:00\""),
       may_be_left_out("times", list_of(time_of_day(), 1, 48), "Opens at these times.",
                       R"(["07:30"])"),
       may_be_left_out("minutes", list_of(whole_number(0, 59), 1, 12),
                       "Opens at these minutes past each hour.", "[0, 30]"),
       may_be_left_out("if_waiting", yes_or_no(), "Only if a vessel waits.", "true"),
       may_be_left_out("notice", interval("1 min", "240 h"), "How long before, in elapsed hours.",
                       "\"4 h\""),
       may_be_left_out("telephone", text(40), "Where notice is given.", "\"+1 555 0100\""),
       may_be_left_out("applies_to",
                       choice<std::vector<BridgeUser>>({{"all", {}},
                                                        {"pleasure", {BridgeUser::pleasure}},
                                                        {"commercial", {BridgeUser::commercial}}}),
                       "Whom it binds; left out: all.", "\"pleasure\""),
       may_be_left_out("exempt", list_of(users, 1, 4), "Whom it does not bind.",
                       R"(["emergency"])")},
      [](const Row& row) -> std::optional<OpeningRule> { return built(row); },
      {check_opens, check_limits});
}

}  // namespace

Form<Openings> opening_rules() {
  return object<Openings>(
      "openings",
      {may_be_unknown("law", text(80), "Where the rules stand.", "\"33 CFR 117.573\""),
       may_be_unknown("as_of", date(), "Date of the text.", "\"2006-12-04\""),
       must_be_given("rules", list_of(rule(), 0, 50),
                     "First match wins; where none matches the bridge opens on signal.",
                     R"([{"opens": "at", "minutes": [0, 30]}])")},
      [](const Row& row) -> std::optional<Openings> {
        return Openings{row.maybe<std::string>("law"), row.maybe<year_month_day>("as_of"),
                        row.get<std::vector<OpeningRule>>("rules")};
      });
}

}  // namespace passage_brief
