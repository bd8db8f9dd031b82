#include "reading/table.h"

#include <fmt/format.h>

#include <algorithm>
#include <any>
#include <cstddef>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "reading/form.h"
#include "reading/json_text.h"
#include "reading/problem.h"
#include "units/check.h"

namespace passage_brief {
namespace {

using nlohmann::json;

std::vector<std::string> names_of(const std::vector<Field>& fields) {
  std::vector<std::string> names;
  names.reserve(fields.size());
  for (const Field& field : fields) names.push_back(field.name);
  return names;
}

std::size_t index_of(const std::vector<Field>& fields, std::string_view name) {
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (fields[i].name == name) return i;
  }
  throw BrokenPromise("no field table has a key " + std::string(name));
}

std::string example_or_words(const Field& field) {
  return field.example.empty() || field.example == field.must_be
             ? field.must_be
             : field.must_be + ", for example " + field.example;
}

}  // namespace

Field always(std::string name, std::string word) {
  const std::string example = json_quoted(word);
  Field field =
      must_be_given(std::move(name), constant(std::move(word)), "Says what this is.", example);
  field.built_from = false;
  return field;
}

Field always_if_given(std::string name, std::string word) {
  Field field = always(std::move(name), std::move(word));
  field.need = Need::may_be_left_out;
  return field;
}

Field passed_over(std::string name, std::string words) {
  return {.name = std::move(name),
          .need = Need::may_be_unknown,
          .must_be = "anything",
          .words = std::move(words),
          .example = "",
          .schema = "true",
          .read = [](const json&, const Place&) { return std::any(true); },
          .inside = {},
          .built_from = false};
}

Form<Position> position() {
  return object<Position>(
      "position",
      {must_be_given("latitude", latitude(), "North positive, on WGS 84.", "38.5"),
       must_be_given("longitude", longitude(), "East positive, on WGS 84.", "-76.4")},
      [](const Row& row) {
        return Position{row.get<Latitude>("latitude"), row.get<Longitude>("longitude")};
      });
}

Form<NamedNumbers> named_numbers(Form<double> unit, double least, double most) {
  const Form<std::optional<double>> value = or_null(number(least, most));
  const std::string must_be = fmt::format("an object with its \"unit\" ({}) and under each name {}",
                                          unit.must_be, value.must_be);
  const std::string schema = fmt::format(
      R"({{"type": "object", "properties": {{"unit": {}}}, "required": ["unit"], "additionalProperties": {}}})",
      unit.schema, value.schema);
  return form_of<NamedNumbers>(
      must_be, schema, [=](const json& object, const Place& place) -> std::optional<NamedNumbers> {
        constexpr std::size_t most_names = 100;
        const auto keys = form_detail::keys_of(object, place, most_names);
        if (!keys) return std::nullopt;
        const std::size_t problems_before = place.problem_count();
        NamedNumbers numbers{1, {}};
        if (!object.contains("unit")) {
          place.refuse("the key \"unit\" is missing; write " + unit.must_be);
        }
        for (const std::string& key : *keys) {
          const Place inside = place.inside(key);
          if (key == "unit") {
            numbers.unit = unit.read(object[key], inside).value_or(1);
          } else if (const auto one = value.read(object[key], inside)) {
            numbers.values.emplace_back(key, *one);
          }
        }
        if (place.problem_count() > problems_before) return std::nullopt;
        return numbers;
      });
}

Row::Row(const std::vector<Field>& fields, const json& object, const Place& place)
    : fields_(&fields),
      place_(&place),
      values_(fields.size()),
      given_(fields.size(), false),
      used_(fields.size(), false) {
  for (std::size_t i = 0; i < fields.size(); ++i) read_field(i, object);
  const std::vector<std::string> names = names_of(fields);
  for (const auto& [key, value] : object.items()) {
    if (std::find(names.begin(), names.end(), key) != names.end()) continue;
    place.inside(key).refuse(fmt::format("the key {} is not known here{}",
                                         json_quoted(key.substr(0, 60)), did_you_mean(key, names)));
  }
}

void Row::read_field(std::size_t index, const json& object) {
  const Field& field = (*fields_)[index];
  const auto member = object.find(field.name);
  if (member == object.end()) {
    if (field.need != Need::must_be_given) return;
    place_->refuse(
        fmt::format("the key \"{}\" is missing; write {}", field.name, example_or_words(field)));
    return;
  }
  const Place inside = place_->inside(field.name, field.example);
  given_[index] = !member->is_null();
  if (member->is_null() && field.need == Need::may_be_unknown) return;
  if (member->is_null() && field.need == Need::may_be_left_out) {
    inside.refuse("found null; leave the key out, or write " + example_or_words(field));
    return;
  }
  values_[index] = field.read(*member, inside);
}

bool Row::given(std::string_view name) const { return given_[index_of(*fields_, name)]; }

void Row::refuse(std::string_view name, std::string words) const {
  place_->inside((*fields_)[index_of(*fields_, name)].name).refuse(std::move(words));
}

const std::any& Row::value_of(std::string_view name) const {
  const std::size_t index = index_of(*fields_, name);
  used_[index] = true;
  return values_[index];
}

std::string Row::reason_for(std::string_view name, std::string_view whose) const {
  std::string plain(name);
  std::replace(plain.begin(), plain.end(), '_', ' ');
  return fmt::format("{} gives no {} for {}", place_->document(), plain, whose);
}

std::optional<Row> RowReading::read(const std::string& title, const std::vector<Field>& fields,
                                    const json& value, const Place& place) {
  if (!value.is_object()) {
    refuse_value(value, place, "an object: " + title);
    return std::nullopt;
  }
  return Row(fields, value, place);
}

bool RowReading::complete(const Row& row) {
  for (std::size_t i = 0; i < row.fields_->size(); ++i) {
    const bool must = (*row.fields_)[i].need == Need::must_be_given;
    if ((must || row.given_[i]) && !row.values_[i].has_value()) return false;
  }
  return true;
}

void RowReading::check_all_used(const std::string& title, const Row& row) {
  for (std::size_t i = 0; i < row.fields_->size(); ++i) {
    const Field& field = (*row.fields_)[i];
    if (!field.built_from || row.used_[i]) continue;
    throw BrokenPromise("building " + title + " does not look at " + field.name);
  }
}

std::string RowReading::schema(const std::string& title, const std::vector<Field>& fields) {
  std::string properties;
  std::vector<std::string> required;
  for (const Field& field : fields) {
    std::string schema = field.schema;
    if (field.need == Need::may_be_unknown && schema != "true") {
      schema = form_detail::or_null_schema(schema);
    }
    // The words stand beside the form's own keywords.
    if (schema != "true") {
      schema =
          fmt::format(R"({{"description": {}, {})", json_quoted(field.words), schema.substr(1));
    }
    if (field.need == Need::must_be_given) required.push_back(field.name);
    if (!properties.empty()) properties += ", ";
    properties += json_quoted(field.name) + ": " + schema;
  }
  return fmt::format(
      R"({{"title": {}, "type": "object", "properties": {{{}}}, "required": {}, "additionalProperties": false}})",
      json_quoted(title), properties, json(required).dump());
}

std::vector<TablePage> RowReading::pages(const std::string& title, const FieldTable& table) {
  std::vector<TablePage> pages{{title, table}};
  for (const Field& field : *table) {
    pages.insert(pages.end(), field.inside.begin(), field.inside.end());
  }
  return pages;
}

namespace form_detail {

std::optional<std::size_t> kind_of(const json& value, const Place& place, const std::string& tag,
                                   const std::vector<std::string>& words) {
  if (!value.is_object()) {
    refuse_value(value, place, "an object with " + json_quoted(tag) + ", " + words_listed(words));
    return std::nullopt;
  }
  if (!value.contains(tag)) {
    place.refuse(
        fmt::format("the key {} is missing; write {}", json_quoted(tag), words_listed(words)));
    return std::nullopt;
  }
  return index_of_word(value[tag], place.inside(tag), words);
}

std::string kinds_schema(const std::vector<std::string>& schemas) {
  std::string listed;
  for (const std::string& schema : schemas) listed += (listed.empty() ? "" : ", ") + schema;
  return fmt::format(R"({{"oneOf": [{}]}})", listed);
}

std::optional<std::vector<std::string>> keys_of(const json& value, const Place& place,
                                                std::size_t most) {
  if (!value.is_object()) {
    refuse_value(value, place, "an object of names");
    return std::nullopt;
  }
  if (value.size() > most) {
    place.refuse(fmt::format("found {} names; at most {} are taken here", value.size(), most));
    return std::nullopt;
  }
  std::vector<std::string> keys;
  for (const auto& [key, unused] : value.items()) keys.push_back(key);
  return keys;
}

const json& member(const json& object, const std::string& key) { return object.at(key); }

std::string named_values_schema(const std::string& value) {
  return fmt::format(R"({{"type": "object", "additionalProperties": {}}})", value);
}

}  // namespace form_detail
}  // namespace passage_brief
