#include "facts/waterway/read_openings.h"

#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "facts/waterway/bridge.h"
#include "reading/form.h"
#include "reading/table.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// Looked through and not built: the rules stay text until the openings are worked out.
Form<bool> looked_through(std::string title, std::vector<Field> fields,
                          std::vector<RowCheck> checks = {}) {
  for (Field& field : fields) field.built_from = false;
  return object<bool>(
      std::move(title), std::move(fields), [](const Row&) { return true; }, std::move(checks));
}

bool is_two_digits(std::string_view text, int most) {
  if (text.size() != 2 || text[0] < '0' || text[0] > '9' || text[1] < '0' || text[1] > '9') {
    return false;
  }
  return (text[0] - '0') * 10 + (text[1] - '0') <= most;
}

/// "06:30", up to "24:00" for the end of the day.
Form<std::string> time_of_day(bool sun_allowed) {
  Form<std::string> form = turned<std::string, std::string>(
      text(10), [sun_allowed](const std::string& words) -> std::expected<std::string, std::string> {
        if (sun_allowed && (words == "sunrise" || words == "sunset")) return words;
        const bool clock = words.size() == 5 && words[2] == ':' &&
                           is_two_digits(std::string_view(words).substr(0, 2), 23) &&
                           is_two_digits(std::string_view(words).substr(3), 59);
        if (clock || words == "24:00") return words;
        return std::unexpected("\"" + words + "\" is not a time of day like \"06:30\"" +
                               (sun_allowed ? ", \"sunrise\" or \"sunset\"" : ""));
      });
  form.must_be = sun_allowed ? "a time of day like \"06:30\", \"sunrise\" or \"sunset\""
                             : "a time of day like \"06:30\"";
  return form;
}

/// "04-16": month and day, 29 February included.
Form<std::string> day_of_year() {
  Form<std::string> form = turned<std::string, std::string>(
      text(5), [](const std::string& words) -> std::expected<std::string, std::string> {
        if (parse_date("2024-" + words)) return words;
        return std::unexpected("\"" + words + "\" is not a month and day like \"04-16\"");
      });
  form.must_be = "a month and day like \"04-16\"";
  return form;
}

Form<std::string> word_of(std::initializer_list<const char*> words) {
  std::vector<std::string> all(words.begin(), words.end());
  return form_detail::choice_of(all, all);
}

void check_opens(const Row& row) {
  const auto opens = row.maybe<std::string>("opens");
  if (!opens) return;
  const bool at = row.given("times") || row.given("minutes");
  if (*opens == "at" && !at) {
    row.refuse("\"opens\": \"at\" needs \"times\", like [\"07:30\"], or \"minutes\", like [0, 30]");
  }
  if (*opens != "at" && at) row.refuse("times or minutes belong to \"opens\": \"at\"");
  if (*opens == "notice" && !row.given("notice")) {
    row.refuse("\"opens\": \"notice\" needs \"notice\", for example \"4 h\"");
  }
  if (*opens != "notice" && row.given("notice")) {
    row.refuse("notice", "belongs to \"opens\": \"notice\"");
  }
  if (row.given("from") != row.given("to")) row.refuse("from and to belong together");
  if (row.given("holiday_set") && !row.given("holidays")) {
    row.refuse("holiday_set", "needs \"holidays\": \"except\", \"only\" or \"same\"");
  }
}

Form<bool> rule() {
  const auto days = word_of({"mon", "tue", "wed", "thu", "fri", "sat", "sun"});
  return looked_through(
      "opening rule",
      {must_be_given("opens", word_of({"on_signal", "at", "notice", "closed", "held_open"}),
                     "How the bridge opens while the rule holds.", "\"at\""),
       may_be_left_out("days", list_of(days, 1, 7), "Days of the week; left out: all.",
                       R"(["sat", "sun"])"),
       may_be_left_out("holidays", word_of({"except", "only", "same"}),
                       "Whether it holds on holidays.", "\"except\""),
       may_be_left_out("holiday_set", list_of(text(40), 1, 10), "Which holidays.",
                       R"(["US federal"])"),
       may_be_left_out("named_days", list_of(text(40), 1, 20), "Single holidays it holds on.",
                       R"(["Christmas"])"),
       may_be_left_out("eve_of_holiday", yes_or_no(), "Holds on the day before a holiday.", "true"),
       may_be_left_out("night_of", list_of(days, 1, 7),
                       "Nights, each belonging to the day it starts.", R"(["fri"])"),
       may_be_left_out("months", list_of(whole_number(1, 12), 1, 12), "Months; left out: all.",
                       "[1, 2]"),
       may_be_left_out("season", list_of(day_of_year(), 2, 2), "First and last day, both included.",
                       R"(["04-16", "11-15"])"),
       may_be_left_out("dates", list_of(date(), 2, 2),
                       "First and last date of a temporary deviation, both included.",
                       R"(["2026-06-01", "2026-06-14"])"),
       may_be_left_out("from", time_of_day(true), "Begins then.", "\"06:30\""),
       may_be_left_out("to", time_of_day(true), "No longer holds then; may be past midnight.",
                       "\"09:00\""),
       may_be_left_out("times", list_of(time_of_day(false), 1, 48), "Opens at these times.",
                       R"(["07:30"])"),
       may_be_left_out("minutes", list_of(whole_number(0, 59), 1, 12),
                       "Opens at these minutes past each hour.", "[0, 30]"),
       may_be_left_out("if_waiting", yes_or_no(), "Only if a vessel waits.", "true"),
       may_be_left_out("notice", interval("1 min", "240 h"), "How long before.", "\"4 h\""),
       may_be_left_out("telephone", text(40), "Where notice is given.", "\"+1 555 0100\""),
       may_be_left_out("applies_to", word_of({"all", "pleasure", "commercial"}),
                       "Whom it binds; left out: all.", "\"pleasure\""),
       may_be_left_out("exempt",
                       list_of(word_of({"public", "commercial", "emergency", "distress"}), 1, 4),
                       "Who is let through all the same.", R"(["emergency"])")},
      {check_opens});
}

}  // namespace

Form<OpeningRules> opening_rules() {
  const Form<bool> looked = looked_through(
      "openings", {may_be_unknown("law", text(80), "Where the rules stand.", "\"33 CFR 117.573\""),
                   may_be_unknown("as_of", date(), "Date of the text.", "\"2006-12-04\""),
                   must_be_given("rules", list_of(rule(), 0, 50),
                                 "First match wins; where none matches the bridge opens on signal.",
                                 R"([{"opens": "at", "minutes": [0, 30]}])")});
  return turned<OpeningRules, std::string>(
      kept_as_json(looked),
      [](const std::string& json) -> std::expected<OpeningRules, std::string> {
        return OpeningRules{json};
      });
}

}  // namespace passage_brief
