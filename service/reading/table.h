// Field tables: what the keys of one kind of JSON object must be.
//
//   Form<Anchor> anchor() {
//     return object<Anchor>(
//         "anchor",
//         {must_be_given("rode", length("10 ft", "1000 ft"), "All the rode on board.", "\"150
//         ft\""),
//          may_be_left_out("bow_roller", length("0 ft", "30 ft"), "Height above water.", "\"5
//          ft\"")},
//         [](const Row& row) {
//           return Anchor{.rode = row.get<Length>("rode"),
//                         .bow_roller = row.maybe<Length>("bow_roller")};
//         });
//   }
//
// One table drives the reader, the JSON Schema and the page in DEVELOPERS.md (describe_table.h).
// Fields are read in the order of the table; keys that are not in it are problems. Every problem of
// an object is reported, then the checks across fields run, and only an object without problems is
// built. Building must look at
// every field once: a field that the table names and nobody uses throws BrokenPromise.
#pragma once

#include <any>
#include <expected>
#include <functional>
#include <map>
#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "reading/form.h"
#include "reading/json_text.h"
#include "reading/problem.h"
#include "units/check.h"
#include "units/known.h"
#include "units/position.h"

namespace passage_brief {

template <class T>
[[nodiscard]] Field field_of(std::string name, Need need, Form<T> form, std::string words,
                             std::string example) {
  return {std::move(name),
          need,
          std::move(form.must_be),
          std::move(words),
          std::move(example),
          std::move(form.schema),
          [read = std::move(form.read)](const nlohmann::json& value, const Place& place) {
            std::optional<T> read_value = read(value, place);
            return read_value ? std::any(std::move(*read_value)) : std::any();
          },
          std::move(form.inside),
          true};
}
template <class T>
[[nodiscard]] Field must_be_given(std::string name, Form<T> form, std::string words,
                                  std::string example) {
  return field_of(std::move(name), Need::must_be_given, std::move(form), std::move(words),
                  std::move(example));
}
template <class T>
[[nodiscard]] Field may_be_left_out(std::string name, Form<T> form, std::string words,
                                    std::string example) {
  return field_of(std::move(name), Need::may_be_left_out, std::move(form), std::move(words),
                  std::move(example));
}
template <class T>
[[nodiscard]] Field may_be_unknown(std::string name, Form<T> form, std::string words,
                                   std::string example) {
  return field_of(std::move(name), Need::may_be_unknown, std::move(form), std::move(words),
                  std::move(example));
}
/// A key whose text is always the same: `"kind": "vessel"`. Building does not look at it.
[[nodiscard]] Field always(std::string name, std::string word);
/// The same, where it may be left out.
[[nodiscard]] Field always_if_given(std::string name, std::string word);
/// A key that other programs write and that is passed over, whatever it holds.
[[nodiscard]] Field passed_over(std::string name, std::string words);

/// The values of one object, read and checked, by the names of its table. A name that is not in the
/// table, or a type that is not the field's, throws BrokenPromise.
class Row {
 public:
  Row(const std::vector<Field>& fields, const nlohmann::json& object, const Place& place);

  /// A field that must be given.
  template <class T>
  [[nodiscard]] const T& get(std::string_view name) const {
    const std::any& value = value_of(name);
    check(value.has_value(), "get() is for a field that must be given");
    return as<T>(value);
  }
  /// Nothing when it was left out, null or (in a check across fields) refused.
  template <class T>
  [[nodiscard]] std::optional<T> maybe(std::string_view name) const {
    const T* value = look_at<T>(name);
    if (value == nullptr) return std::nullopt;
    return *value;
  }
  /// The same without a copy.
  template <class T>
  [[nodiscard]] const T* look_at(std::string_view name) const {
    const std::any& value = value_of(name);
    return value.has_value() ? &as<T>(value) : nullptr;
  }
  template <class T>
  [[nodiscard]] T get_or(std::string_view name, T otherwise) const {
    return maybe<T>(name).value_or(std::move(otherwise));
  }
  /// Not known when left out or null: "the waterway file gives no clearance for Mill Bridge".
  template <class T>
  [[nodiscard]] Known<T> known(std::string_view name, std::string_view whose) const {
    const std::any& value = value_of(name);
    if (!value.has_value()) return not_known(reason_for(name, whose));
    return as<T>(value);
  }
  /// Whether the key is there and not null, right or wrong.
  [[nodiscard]] bool given(std::string_view name) const;

  /// Adds a problem at a field of this object.
  void refuse(std::string_view name, std::string words) const;
  /// Adds a problem at the object itself.
  void refuse(std::string words) const { place_->refuse(std::move(words)); }
  [[nodiscard]] const Place& place() const { return *place_; }

 private:
  friend struct RowReading;
  void read_field(std::size_t index, const nlohmann::json& object);
  template <class T>
  static const T& as(const std::any& value) {
    const T* typed = std::any_cast<T>(&value);
    check(typed != nullptr, "the type asked for is the field's");
    return *typed;
  }
  [[nodiscard]] const std::any& value_of(std::string_view name) const;
  [[nodiscard]] std::string reason_for(std::string_view name, std::string_view whose) const;

  const std::vector<Field>* fields_;
  const Place* place_;
  std::vector<std::any> values_;
  std::vector<bool> given_;
  mutable std::vector<bool> used_;
};

/// Looks across the fields of one object; refuses through the row.
using RowCheck = std::function<void(const Row&)>;

// What object() needs done without seeing the JSON library.
struct RowReading {
  /// Reads every field; nothing when the value is not an object.
  static std::optional<Row> read(const std::string& title, const std::vector<Field>& fields,
                                 const nlohmann::json& value, const Place& place);
  /// Whether every field is right and every field that must be given is there.
  static bool complete(const Row& row);
  /// Throws BrokenPromise when building did not look at a field.
  static void check_all_used(const std::string& title, const Row& row);
  static std::string schema(const std::string& title, const std::vector<Field>& fields);
  static std::vector<TablePage> pages(const std::string& title, const FieldTable& table);
};

/// An object with these fields and no others. build may give nothing after refusing through the
/// row.
template <class T>
[[nodiscard]] Form<T> object(std::string title, std::vector<Field> fields,
                             std::function<std::optional<T>(const Row&)> build,
                             std::vector<RowCheck> checks = {}) {
  const auto table = std::make_shared<const std::vector<Field>>(std::move(fields));
  std::string schema = RowReading::schema(title, *table);
  std::vector<TablePage> pages = RowReading::pages(title, table);
  std::string must_be = "an object: " + title;
  return {std::move(must_be), std::move(schema),
          [title = std::move(title), table, build = std::move(build), checks = std::move(checks)](
              const nlohmann::json& value, const Place& place) -> std::optional<T> {
            const std::size_t problems_before = place.problem_count();
            const std::optional<Row> row = RowReading::read(title, *table, value, place);
            if (!row) return std::nullopt;
            for (const RowCheck& look : checks) look(*row);
            if (!RowReading::complete(*row) || place.problem_count() > problems_before) {
              return std::nullopt;
            }
            std::optional<T> built = build(*row);
            if (!built || place.problem_count() > problems_before) return std::nullopt;
            RowReading::check_all_used(title, *row);
            return built;
          },
          std::move(pages)};
}

/// {"latitude": 38.5, "longitude": -76.4}
[[nodiscard]] Form<Position> position();

/// An object of one of several kinds, told apart by the text of one key; every kind's table has
/// that key as always(tag, word).
template <class T>
[[nodiscard]] Form<T> one_of_kinds(std::string tag,
                                   std::vector<std::pair<std::string, Form<T>>> kinds);

/// An object whose keys are free names: a map in the order of the file.
template <class T>
[[nodiscard]] Form<std::vector<std::pair<std::string, T>>> named_values(Form<T> value,
                                                                        std::size_t most);

/// {"unit": "m", "MLLW": 1.822, "MHW": null}: bare numbers under free names, in a unit they state.
struct NamedNumbers {
  double unit;  // its size, as the form of the unit gives it
  std::vector<std::pair<std::string, std::optional<double>>> values;  // null: nothing
};
[[nodiscard]] Form<NamedNumbers> named_numbers(Form<double> unit, double least, double most);

namespace form_detail {
/// Which kind the value's tag names, or nothing and a problem.
std::optional<std::size_t> kind_of(const nlohmann::json& value, const Place& place,
                                   const std::string& tag, const std::vector<std::string>& words);
std::string kinds_schema(const std::vector<std::string>& schemas);
/// The keys of an object, or nothing and a problem.
std::optional<std::vector<std::string>> keys_of(const nlohmann::json& value, const Place& place,
                                                std::size_t most);
const nlohmann::json& member(const nlohmann::json& object, const std::string& key);
std::string named_values_schema(const std::string& value);
}  // namespace form_detail

template <class T>
Form<T> one_of_kinds(std::string tag, std::vector<std::pair<std::string, Form<T>>> kinds) {
  std::vector<std::string> words;
  std::vector<std::string> schemas;
  std::vector<TablePage> inside;
  for (const auto& [word, form] : kinds) {
    words.push_back(word);
    schemas.push_back(form.schema);
    inside.insert(inside.end(), form.inside.begin(), form.inside.end());
  }
  std::string must_be = "an object with \"" + tag + "\", " + form_detail::words_listed(words);
  return {std::move(must_be), form_detail::kinds_schema(schemas),
          [tag = std::move(tag), words = std::move(words), kinds = std::move(kinds)](
              const nlohmann::json& value, const Place& place) -> std::optional<T> {
            const auto index = form_detail::kind_of(value, place, tag, words);
            if (!index) return std::nullopt;
            return kinds[*index].second.read(value, place);
          },
          std::move(inside)};
}

template <class T>
Form<std::vector<std::pair<std::string, T>>> named_values(Form<T> value, std::size_t most) {
  using Named = std::vector<std::pair<std::string, T>>;
  std::vector<TablePage> inside = value.inside;
  return {"an object of names, each with " + value.must_be,
          form_detail::named_values_schema(value.schema),
          [value = std::move(value), most](const nlohmann::json& object,
                                           const Place& place) -> std::optional<Named> {
            const auto keys = form_detail::keys_of(object, place, most);
            if (!keys) return std::nullopt;
            Named all;
            for (const std::string& key : *keys) {
              std::optional<T> one =
                  value.read(form_detail::member(object, key), place.inside(key));
              if (one) all.emplace_back(key, std::move(*one));
            }
            if (all.size() != keys->size()) return std::nullopt;
            return all;
          },
          std::move(inside)};
}

/// A whole file. document: what it is called in a sentence ("the waterway file").
template <class T>
[[nodiscard]] std::expected<T, Problems> read_json(std::string_view file, std::string_view text,
                                                   std::string_view document, const Form<T>& form) {
  const std::expected<JsonTree, Problems> tree = parse_json(file, text);
  if (!tree) return std::unexpected(tree.error());
  Ledger ledger(file, document);
  std::optional<T> value = form.read(**tree, Place(ledger));
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  check(value.has_value(), "a form that gives nothing says why");
  return std::move(*value);
}

}  // namespace passage_brief
