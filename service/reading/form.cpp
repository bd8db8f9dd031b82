#include "reading/form.h"

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <cstddef>
#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "reading/file_text.h"
#include "reading/json_text.h"
#include "reading/problem.h"
#include "reading/quantity_text.h"
#include "units/check.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

using nlohmann::json;

/// The text of a JSON string, or nothing and a problem.
const std::string* text_in(const json& value, const Place& place, std::string_view expected) {
  if (!value.is_string()) {
    refuse_value(value, place, expected);
    return nullptr;
  }
  return &value.get_ref<const std::string&>();
}

/// A text that a parser turns into a T; the parser's own words say what is wrong.
template <class T>
Form<T> parsed_text(std::string must_be, std::string schema,
                    std::function<std::expected<T, std::string>(std::string_view)> parse) {
  return form_of<T>(must_be, std::move(schema),
                    [must_be, parse = std::move(parse)](const json& value,
                                                        const Place& place) -> std::optional<T> {
                      const std::string* words = text_in(value, place, must_be);
                      if (words == nullptr) return std::nullopt;
                      std::expected<T, std::string> parsed = parse(*words);
                      if (parsed) return std::move(*parsed);
                      place.refuse(std::move(parsed.error()));
                      return std::nullopt;
                    });
}

template <class Q>
using Parser = std::expected<Q, std::string> (*)(std::string_view);

template <class Q>
Form<Q> quantity(Dimension dimension, Parser<Q> parse, std::string_view least,
                 std::string_view most) {
  const std::expected<Q, std::string> low = parse(least);
  const std::expected<Q, std::string> high = parse(most);
  check(low && high && *low <= *high, "the limits of a quantity are right and in order");
  const json schema = {{"type", "string"}, {"pattern", pattern_of(dimension)}};
  return parsed_text<Q>(
      fmt::format("{} with its unit, {} to {}", in_words(dimension), least, most), schema.dump(),
      [low = *low, high = *high, least = std::string(least), most = std::string(most),
       parse](std::string_view words) -> std::expected<Q, std::string> {
        const std::expected<Q, std::string> value = parse(words);
        if (!value) return value;
        if (*value < low) {
          return std::unexpected(
              fmt::format("{} is less than {}, the least that is taken here", words, least));
        }
        if (*value > high) {
          return std::unexpected(
              fmt::format("{} is more than {}, the most that is taken here", words, most));
        }
        return value;
      });
}

template <class T>
Form<T> number_as(std::string must_be, double least, double most, T (*make)(double)) {
  const json schema = {{"type", "number"}, {"minimum", least}, {"maximum", most}};
  return form_of<T>(
      must_be, schema.dump(),
      [must_be, least, most, make](const json& value, const Place& place) -> std::optional<T> {
        if (value.is_number()) {
          const double number = value.get<double>();
          if (number >= least && number <= most) return make(number);
        }
        refuse_value(value, place, must_be);
        return std::nullopt;
      });
}

/// A date with months and days in the years a Zone answers for.
std::expected<std::chrono::year_month_day, std::string> date_in_reach(std::string_view words) {
  const auto day = parse_date(words);
  if (day && (day->year() < std::chrono::year(1900) || day->year() > std::chrono::year(2037))) {
    return std::unexpected(fmt::format("{} is not within the years 1900 to 2037", words));
  }
  return day;
}

std::expected<Instant, std::string> instant_in_reach(std::string_view words) {
  const auto at = parse_instant(words);
  if (at && !Zone::covers(*at)) {
    return std::unexpected(fmt::format("{} is not within the years 1900 to 2037", words));
  }
  return at;
}

std::expected<std::string, std::string> one_line(std::string_view words, std::size_t most) {
  if (words.find_first_not_of(' ') == std::string_view::npos) {
    return std::unexpected("found an empty text; write some words or leave the key out");
  }
  if (words.size() > most) {
    return std::unexpected(
        fmt::format("found a text of {} bytes; at most {} are taken here", words.size(), most));
  }
  if (const std::string wrong = unseen_character(words); !wrong.empty()) {
    return std::unexpected(fmt::format("found {} in the text", wrong));
  }
  return std::string(words);
}

}  // namespace

void refuse_value(const json& value, const Place& place, std::string_view expected) {
  std::string words = fmt::format("found {}; expected {}", found(value), expected);
  if (!place.example().empty() && place.example() != expected)
    words += fmt::format(", for example {}", place.example());
  place.refuse(std::move(words));
}

Form<std::string> text(std::size_t most) {
  const json schema = {{"type", "string"}, {"minLength", 1}, {"maxLength", most}};
  return parsed_text<std::string>("a text", schema.dump(),
                                  [most](std::string_view words) { return one_line(words, most); });
}

Form<bool> yes_or_no() {
  return form_of<bool>("true or false", R"({"type": "boolean"})",
                       [](const json& value, const Place& place) -> std::optional<bool> {
                         if (value.is_boolean()) return value.get<bool>();
                         refuse_value(value, place, "true or false");
                         return std::nullopt;
                       });
}

Form<double> number(double least, double most) {
  return number_as<double>(fmt::format("a number from {} to {}", least, most), least, most,
                           [](double v) { return v; });
}

Form<int> whole_number(int least, int most) {
  const std::string must_be = fmt::format("a whole number from {} to {}", least, most);
  const json schema = {{"type", "integer"}, {"minimum", least}, {"maximum", most}};
  return form_of<int>(must_be, schema.dump(),
                      [=](const json& value, const Place& place) -> std::optional<int> {
                        if (value.is_number()) {
                          const double number = value.get<double>();
                          if (number >= least && number <= most && number == std::floor(number)) {
                            return static_cast<int>(number);
                          }
                        }
                        refuse_value(value, place, must_be);
                        return std::nullopt;
                      });
}

Form<std::string> constant(std::string word) {
  const std::string must_be = json_quoted(word);
  const json schema = {{"const", word}};
  return form_of<std::string>(
      must_be, schema.dump(),
      [must_be, word = std::move(word)](const json& value,
                                        const Place& place) -> std::optional<std::string> {
        if (value == json(word)) return word;
        refuse_value(value, place, must_be);
        return std::nullopt;
      });
}

Form<Length> length(std::string_view least, std::string_view most) {
  return quantity<Length>(Dimension::length, parse_length, least, most);
}
Form<Speed> speed(std::string_view least, std::string_view most) {
  return quantity<Speed>(Dimension::speed, parse_speed, least, most);
}
Form<Area> area(std::string_view least, std::string_view most) {
  return quantity<Area>(Dimension::area, parse_area, least, most);
}
Form<Pressure> pressure(std::string_view least, std::string_view most) {
  return quantity<Pressure>(Dimension::pressure, parse_pressure, least, most);
}
Form<Mass> mass(std::string_view least, std::string_view most) {
  return quantity<Mass>(Dimension::mass, parse_mass, least, most);
}
Form<Voltage> voltage(std::string_view least, std::string_view most) {
  return quantity<Voltage>(Dimension::voltage, parse_voltage, least, most);
}
Form<Interval> interval(std::string_view least, std::string_view most) {
  return quantity<Interval>(Dimension::interval, parse_interval, least, most);
}

Form<TrueBearing> bearing() {
  return number_as<TrueBearing>("a bearing in degrees true, 0 to 360", 0, 360,
                                [](double deg) { return TrueBearing::from_degrees(deg); });
}
Form<Angle> angle(double least_deg, double most_deg) {
  return number_as<Angle>(fmt::format("an angle in degrees, {} to {}", least_deg, most_deg),
                          least_deg, most_deg, [](double deg) { return degrees(deg); });
}
Form<Latitude> latitude() {
  return number_as<Latitude>("a latitude in degrees, -90 to 90, north positive", -90, 90,
                             [](double deg) { return *Latitude::from_degrees(deg); });
}
Form<Longitude> longitude() {
  return number_as<Longitude>("a longitude in degrees, -180 to 180, east positive", -180, 180,
                              [](double deg) { return *Longitude::from_degrees(deg); });
}
Form<std::chrono::year_month_day> date() {
  return parsed_text<std::chrono::year_month_day>(
      "a date like \"2026-06-14\"", R"({"type": "string", "format": "date"})", date_in_reach);
}
Form<Instant> instant() {
  return parsed_text<Instant>(
      "a time with its offset like \"2026-06-14T09:30:00-04:00\" or \"2026-06-14T13:30:00Z\"",
      R"({"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt][0-9]{2}:[0-9]{2}"})",
      instant_in_reach);
}
Form<Zone> time_zone() {
  return parsed_text<Zone>("a time zone of the IANA data base like \"America/New_York\"",
                           R"({"type": "string"})",
                           [](std::string_view name) -> std::expected<Zone, std::string> {
                             std::optional<Zone> zone = Zone::named(name);
                             if (zone) return *std::move(zone);
                             return std::unexpected(fmt::format(
                                 "{} is not a time zone of the IANA data base; write one like "
                                 "\"America/New_York\" or \"Europe/London\"",
                                 json_quoted(name.substr(0, 60))));
                           });
}

namespace form_detail {

std::optional<std::size_t> index_of_word(const json& value, const Place& place,
                                         const std::vector<std::string>& words) {
  if (value.is_string()) {
    const std::string& word = value.get_ref<const std::string&>();
    for (std::size_t i = 0; i < words.size(); ++i) {
      if (words[i] == word) return i;
    }
    place.refuse(fmt::format("found {}; expected {}{}", found(value), words_listed(words),
                             did_you_mean(word, words)));
    return std::nullopt;
  }
  refuse_value(value, place, words_listed(words));
  return std::nullopt;
}

std::string words_listed(const std::vector<std::string>& words) {
  std::string listed;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) listed += i + 1 == words.size() ? " or " : ", ";
    listed += json_quoted(words[i]);
  }
  return listed;
}

std::string words_schema(const std::vector<std::string>& words) {
  return json{{"enum", words}}.dump();
}

std::optional<std::size_t> list_size(const json& value, const Place& place,
                                     std::string_view must_be, std::size_t least,
                                     std::size_t most) {
  if (!value.is_array()) {
    refuse_value(value, place, must_be);
    return std::nullopt;
  }
  if (value.size() < least || value.size() > most) {
    place.refuse(fmt::format("found a list of {}; expected {}", value.size(), must_be));
    return std::nullopt;
  }
  return value.size();
}

const json& element(const json& list, std::size_t index) { return list[index]; }

std::string list_schema(const std::string& element, std::size_t least, std::size_t most) {
  return fmt::format(R"({{"type": "array", "items": {}, "minItems": {}, "maxItems": {}}})", element,
                     least, most);
}

bool is_list(const json& value) { return value.is_array(); }

std::string either_schema(const std::string& one, const std::string& other) {
  return fmt::format(R"({{"anyOf": [{}, {}]}})", one, other);
}

bool is_null(const json& value) { return value.is_null(); }

std::string or_null_schema(const std::string& schema) {
  return fmt::format(R"({{"anyOf": [{}, {{"type": "null"}}]}})", schema);
}

std::string row_schema(const std::vector<std::string>& places) {
  std::string listed;
  for (const std::string& place : places) listed += (listed.empty() ? "" : ", ") + place;
  return fmt::format(R"({{"type": "array", "prefixItems": [{}], "items": false, "minItems": {}}})",
                     listed, places.size());
}

bool is_text(const json& value) { return value.is_string(); }
bool is_word(const json& value, std::string_view word) {
  return value.is_string() && value.get_ref<const std::string&>() == word;
}

std::string list_words(std::string_view element, std::size_t least, std::size_t most) {
  return fmt::format("a list of {} to {}, each {}", least, most, element);
}

}  // namespace form_detail
}  // namespace passage_brief
