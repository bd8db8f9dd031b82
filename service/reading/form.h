// What a JSON value must be: one declaration that reads it, describes it and makes its schema.
//
//   Form<Length> draft = length("0.5 ft", "50 ft");
//   Form<std::vector<Length>> some = list_of(draft, 1, 10);
//
// A Form<T> reads a JSON value to a T, or adds every problem to the Place's ledger and gives
// nothing. Objects are forms too: see table.h. The same form gives the JSON Schema and the words
// of the field tables in DEVELOPERS.md (describe_table.h), so that the three cannot drift.
#pragma once

#include <any>
#include <chrono>
#include <cstddef>
#include <expected>
#include <functional>
#include <initializer_list>
#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "reading/problem.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {

struct TablePage;

/// Whether a key must be there.
enum class Need {
  must_be_given,    // left out or null: a problem
  may_be_left_out,  // left out has a meaning of its own; null is a problem
  may_be_unknown,   // left out or null: not known
};

/// One line of a field table, whatever the type of its value; made by the functions of table.h.
struct Field {
  std::string name;
  Need need;
  std::string must_be;  // after "expected"
  std::string words;    // what it is, for the person who writes the file
  std::string example;  // a right value, as JSON text
  std::string schema;   // JSON Schema of the value, as JSON text
  std::function<std::any(const nlohmann::json&, const Place&)> read;  // empty: refused
  std::vector<TablePage> inside;
  bool built_from = true;  // false: checked or passed over, and no part of the value
};

/// Made once and never changed: the forms that read by it and the pages that describe it share it.
using FieldTable = std::shared_ptr<const std::vector<Field>>;

/// The field table of one kind of object.
struct TablePage {
  std::string title;
  FieldTable fields;
};

template <class T>
struct Form {
  using Type = T;
  std::string must_be;  // "a length with its unit, 0.5 ft to 50 ft": after "expected"
  std::string schema;   // JSON Schema, as JSON text
  std::function<std::optional<T>(const nlohmann::json&, const Place&)> read;
  std::vector<TablePage> inside;  // the field tables of objects in it, outermost first
};

/// Adds "found X; expected Y, for example Z" at the place.
void refuse_value(const nlohmann::json& value, const Place& place, std::string_view expected);

// Single values.

/// One line of text, not empty, at most `most` bytes, without control characters and marks
/// of writing direction (unseen_character() of file_text.h).
[[nodiscard]] Form<std::string> text(std::size_t most = 200);
/// true or false.
[[nodiscard]] Form<bool> yes_or_no();
/// A bare number in [least, most].
[[nodiscard]] Form<double> number(double least, double most);
[[nodiscard]] Form<int> whole_number(int least, int most);
/// Exactly this text: what a `kind` says.
[[nodiscard]] Form<std::string> constant(std::string word);

/// Quantities with their unit; the limits are written as a person would and belong to the range.
[[nodiscard]] Form<Length> length(std::string_view least, std::string_view most);
[[nodiscard]] Form<Speed> speed(std::string_view least, std::string_view most);
[[nodiscard]] Form<Area> area(std::string_view least, std::string_view most);
[[nodiscard]] Form<Pressure> pressure(std::string_view least, std::string_view most);
[[nodiscard]] Form<Mass> mass(std::string_view least, std::string_view most);
[[nodiscard]] Form<Voltage> voltage(std::string_view least, std::string_view most);
[[nodiscard]] Form<Interval> interval(std::string_view least, std::string_view most);

/// Degrees true in [0, 360].
[[nodiscard]] Form<TrueBearing> bearing();
/// Degrees in [least, most], clockwise or east positive.
[[nodiscard]] Form<Angle> angle(double least_deg, double most_deg);
[[nodiscard]] Form<Latitude> latitude();
[[nodiscard]] Form<Longitude> longitude();
/// "2026-06-14"
[[nodiscard]] Form<std::chrono::year_month_day> date();
/// RFC 3339 with an offset; within the years a Zone can answer for (1900 to 2037).
[[nodiscard]] Form<Instant> instant();
/// An IANA name: "America/New_York".
[[nodiscard]] Form<Zone> time_zone();

/// One of some words, each with what it stands for.
template <class T>
[[nodiscard]] Form<T> choice(std::initializer_list<std::pair<const char*, T>> words);

/// One of some values, each written as its own in_words() says.
template <class T>
[[nodiscard]] Form<T> words_for(std::initializer_list<T> values);

// Forms from forms.

template <class T>
[[nodiscard]] Form<std::vector<T>> list_of(Form<T> element, std::size_t least, std::size_t most);

/// One value by itself, or a list of them.
template <class T>
[[nodiscard]] Form<std::vector<T>> one_or_more(Form<T> element, std::size_t most);

/// A list of fixed length, each place with its own form: ["M2", 0.576, 208.2].
template <class... Ts>
[[nodiscard]] Form<std::tuple<Ts...>> row_of(Form<Ts>... places);

/// Nothing where the value is null.
template <class T>
[[nodiscard]] Form<std::optional<T>> or_null(Form<T> form);

/// The value turned into something else; the text of an error is the problem's words.
template <class U, class T>
[[nodiscard]] Form<U> turned(Form<T> form,
                             std::function<std::expected<U, std::string>(const T&)> turn);

/// A form of your own: words, schema (JSON text), and a reader that adds its problems.
template <class T>
[[nodiscard]] Form<T> form_of(
    std::string must_be, std::string schema,
    std::function<std::optional<T>(const nlohmann::json&, const Place&)> read) {
  return {std::move(must_be), std::move(schema), std::move(read), {}};
}

// What the templates need done without seeing the JSON library.
namespace form_detail {
/// The text, or nothing and a problem that lists the words and the nearest one.
std::optional<std::size_t> index_of_word(const nlohmann::json& value, const Place& place,
                                         const std::vector<std::string>& words);
std::string words_listed(const std::vector<std::string>& words);
std::string words_schema(const std::vector<std::string>& words);
/// The number of elements, or nothing and a problem.
std::optional<std::size_t> list_size(const nlohmann::json& value, const Place& place,
                                     std::string_view must_be, std::size_t least, std::size_t most);
bool is_list(const nlohmann::json& value);
std::string either_schema(const std::string& one, const std::string& other);
const nlohmann::json& element(const nlohmann::json& list, std::size_t index);
std::string list_schema(const std::string& element, std::size_t least, std::size_t most);
std::string row_schema(const std::vector<std::string>& places);
bool is_text(const nlohmann::json& value);
bool is_word(const nlohmann::json& value, std::string_view word);
std::string list_words(std::string_view element, std::size_t least, std::size_t most);
bool is_null(const nlohmann::json& value);
std::string or_null_schema(const std::string& schema);
}  // namespace form_detail

namespace form_detail {
template <class T>
Form<T> choice_of(std::vector<std::string> names, std::vector<T> meanings) {
  return {words_listed(names),
          words_schema(names),
          [names, meanings](const nlohmann::json& value, const Place& place) -> std::optional<T> {
            const auto index = index_of_word(value, place, names);
            if (!index) return std::nullopt;
            return meanings[*index];
          },
          {}};
}
}  // namespace form_detail

template <class T>
Form<T> choice(std::initializer_list<std::pair<const char*, T>> words) {
  std::vector<std::string> names;
  std::vector<T> meanings;
  for (const auto& [name, meaning] : words) {
    names.emplace_back(name);
    meanings.push_back(meaning);
  }
  return form_detail::choice_of(std::move(names), std::move(meanings));
}

template <class T>
Form<T> words_for(std::initializer_list<T> values) {
  std::vector<std::string> names;
  for (const T value : values) names.emplace_back(in_words(value));
  return form_detail::choice_of(std::move(names), std::vector<T>(values));
}

template <class T>
Form<std::vector<T>> list_of(Form<T> element, std::size_t least, std::size_t most) {
  std::string must_be = form_detail::list_words(element.must_be, least, most);
  std::string schema = form_detail::list_schema(element.schema, least, most);
  std::vector<TablePage> inside = element.inside;
  return {must_be, std::move(schema),
          [element = std::move(element), must_be, least, most](
              const nlohmann::json& value, const Place& place) -> std::optional<std::vector<T>> {
            const auto size = form_detail::list_size(value, place, must_be, least, most);
            if (!size) return std::nullopt;
            std::vector<T> all;
            all.reserve(*size);
            for (std::size_t i = 0; i < *size; ++i) {
              std::optional<T> one = element.read(form_detail::element(value, i), place.inside(i));
              if (one) all.push_back(std::move(*one));
            }
            if (all.size() != *size) return std::nullopt;
            return all;
          },
          std::move(inside)};
}

template <class T>
Form<std::vector<T>> one_or_more(Form<T> element, std::size_t most) {
  Form<std::vector<T>> several = list_of(element, 1, most);
  std::string must_be = element.must_be + ", or a list of them";
  std::string schema = form_detail::either_schema(element.schema, several.schema);
  std::vector<TablePage> inside = element.inside;
  return {std::move(must_be), std::move(schema),
          [element = std::move(element), several = std::move(several)](
              const nlohmann::json& value, const Place& place) -> std::optional<std::vector<T>> {
            if (form_detail::is_list(value)) return several.read(value, place);
            std::optional<T> one = element.read(value, place);
            if (!one) return std::nullopt;
            return std::vector<T>{std::move(*one)};
          },
          std::move(inside)};
}

template <class... Ts>
Form<std::tuple<Ts...>> row_of(Form<Ts>... places) {
  std::string must_be = "a list of";
  std::size_t count = 0;
  ((must_be += (count++ == 0 ? " " : ", ") + places.must_be), ...);
  constexpr std::size_t size = sizeof...(Ts);
  return {
      must_be,
      form_detail::row_schema({places.schema...}),
      [forms = std::make_tuple(std::move(places)...), must_be](
          const nlohmann::json& value, const Place& place) -> std::optional<std::tuple<Ts...>> {
        if (!form_detail::list_size(value, place, must_be, size, size)) return std::nullopt;
        const auto read_all =
            [&]<std::size_t... I>(std::index_sequence<I...>) -> std::optional<std::tuple<Ts...>> {
          std::tuple<std::optional<Ts>...> all{
              std::get<I>(forms).read(form_detail::element(value, I), place.inside(I))...};
          if (!(std::get<I>(all).has_value() && ...)) return std::nullopt;
          return std::tuple<Ts...>{std::move(*std::get<I>(all))...};
        };
        return read_all(std::make_index_sequence<size>());
      },
      {}};
}

template <class T>
Form<std::optional<T>> or_null(Form<T> form) {
  return {form.must_be + " or null", form_detail::or_null_schema(form.schema),
          [read = std::move(form.read)](const nlohmann::json& value,
                                        const Place& place) -> std::optional<std::optional<T>> {
            if (form_detail::is_null(value)) return std::optional<T>();
            std::optional<T> one = read(value, place);
            if (!one) return std::nullopt;
            return one;
          },
          std::move(form.inside)};
}

template <class U, class T>
Form<U> turned(Form<T> form, std::function<std::expected<U, std::string>(const T&)> turn) {
  return {form.must_be, form.schema,
          [read = std::move(form.read), turn = std::move(turn)](
              const nlohmann::json& value, const Place& place) -> std::optional<U> {
            const std::optional<T> before = read(value, place);
            if (!before) return std::nullopt;
            std::expected<U, std::string> after = turn(*before);
            if (after) return std::move(*after);
            place.refuse(std::move(after.error()));
            return std::nullopt;
          },
          std::move(form.inside)};
}

}  // namespace passage_brief
