#include "rules/read_when.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "reading/quantity_text.h"
#include "rules/fact_table.h"

namespace passage_brief {
namespace {

using nlohmann::json;
using Operator = Comparison::Operator;
using Kinds = std::span<const SubjectKind>;

constexpr std::array<std::pair<std::string_view, Operator>, 7> kOperators = {
    {{"less_than", Operator::less_than},
     {"more_than", Operator::more_than},
     {"at_least", Operator::at_least},
     {"at_most", Operator::at_most},
     {"is", Operator::is},
     {"one_of", Operator::one_of},
     {"known", Operator::known}}};

constexpr std::array<std::pair<std::string_view, Joined::By>, 3> kJoins = {
    {{"all", Joined::By::all}, {"any", Joined::By::any}, {"not", Joined::By::none}}};

template <class Table>
std::vector<std::string> names_of(const Table& table) {
  std::vector<std::string> names;
  for (const auto& entry : table) names.emplace_back(entry.first);
  return names;
}

template <class Table>
auto find_in(const Table& table, std::string_view name) {
  const auto found = std::ranges::find(table, name, [](const auto& entry) { return entry.first; });
  return found == table.end() ? std::nullopt : std::optional(found->second);
}

std::string listed(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, ", "));
}

bool orders(Operator op) {
  return op == Operator::less_than || op == Operator::more_than || op == Operator::at_least ||
         op == Operator::at_most;
}

/// Whether values of the type lie on a line, so that one can be less than another.
bool has_order(FactType type) {
  return type != FactType::yes_no && type != FactType::words && type != FactType::time;
}

std::string expected_value(const Fact& fact) {
  switch (fact.type) {
    case FactType::length:
      return "a length with its unit, for example \"2 ft\"";
    case FactType::speed:
      return "a speed with its unit, for example \"15 kn\"";
    case FactType::interval:
      return "a length of time with its unit, for example \"10 min\"";
    case FactType::voltage:
      return "a voltage with its unit, for example \"115 kV\"";
    case FactType::angle:
      return "a bare number of degrees";
    case FactType::number:
      return "a bare number";
    case FactType::yes_no:
      return "true or false";
    case FactType::time:
      return "nothing: a time can only be asked whether it is known";
    case FactType::words:
      return fact.words.empty() ? "a text" : "one of " + listed(fact.words);
  }
  return {};
}

template <class T>
std::optional<FactValue> quantity(const json& value, const Place& place, const Fact& fact,
                                  std::expected<T, std::string> (*parse)(std::string_view)) {
  if (!value.is_string()) {
    refuse_value(value, place, expected_value(fact));
    return std::nullopt;
  }
  const auto parsed = parse(value.get_ref<const std::string&>());
  if (!parsed) {
    place.refuse(parsed.error());
    return std::nullopt;
  }
  return *parsed;
}

/// Words may differ between kinds of subject: one is enough that has it.
std::vector<std::string> words_of(const Fact& fact, Kinds kinds) {
  std::vector<std::string> words = fact.words;
  for (const SubjectKind kind : kinds) {
    for (const std::string& word : find_fact(kind, fact.name)->words) {
      if (std::ranges::find(words, word) == words.end()) words.push_back(word);
    }
  }
  return words;
}

std::optional<FactValue> read_word(const json& value, const Place& place, const Fact& fact,
                                   Kinds kinds) {
  if (!value.is_string()) {
    refuse_value(value, place, expected_value(fact));
    return std::nullopt;
  }
  std::string word = value.get<std::string>();
  const std::vector<std::string> words = words_of(fact, kinds);
  if (!words.empty() && std::ranges::find(words, word) == words.end()) {
    place.refuse(fmt::format("found {}; `{}` is one of {}{}", found(value), fact.name,
                             listed(words), did_you_mean(word, words)));
    return std::nullopt;
  }
  return FactValue(std::move(word));
}

std::optional<FactValue> read_value(const json& value, const Place& place, const Fact& fact,
                                    Kinds kinds) {
  switch (fact.type) {
    case FactType::length:
      return quantity(value, place, fact, parse_length);
    case FactType::speed:
      return quantity(value, place, fact, parse_speed);
    case FactType::interval:
      return quantity(value, place, fact, parse_interval);
    case FactType::voltage:
      return quantity(value, place, fact, parse_voltage);
    case FactType::words:
      return read_word(value, place, fact, kinds);
    case FactType::angle:
      if (value.is_number()) return FactValue(degrees(value.get<double>()));
      break;
    case FactType::number:
      if (value.is_number()) return FactValue(value.get<double>());
      break;
    case FactType::yes_no:
      if (value.is_boolean()) return FactValue(value.get<bool>());
      break;
    case FactType::time:
      break;
  }
  refuse_value(value, place, expected_value(fact));
  return std::nullopt;
}

/// Whether the fact can be asked this; a problem if not.
bool may_ask(const Fact& fact, Operator op, std::string_view name, const Place& place) {
  if (op == Operator::known) return true;
  if (fact.type == FactType::time) {
    place.refuse(
        fmt::format("`{}` is a time: it can only be asked whether it is `known`", fact.name));
    return false;
  }
  if (orders(op) && !has_order(fact.type)) {
    place.refuse(
        fmt::format("`{}` is {}, which has no order: `{}` cannot be asked of it; use "
                    "`is`, `one_of` or `known`",
                    fact.name, in_words(fact.type), name));
    return false;
  }
  return true;
}

std::optional<Comparison> read_known(const json& value, const Place& place, const Fact& fact) {
  if (!value.is_boolean()) {
    refuse_value(value, place, "true or false");
    return std::nullopt;
  }
  return Comparison{&fact, Operator::known, {FactValue(value.get<bool>())}, false};
}

std::optional<Comparison> read_one_of(const json& value, const Place& place, const Fact& fact,
                                      Kinds kinds) {
  if (!value.is_array() || value.empty()) {
    refuse_value(value, place, "a list of one value or more");
    return std::nullopt;
  }
  std::vector<FactValue> values;
  for (std::size_t i = 0; i < value.size(); ++i) {
    auto one = read_value(value[i], place.inside(i), fact, kinds);
    if (one) values.push_back(std::move(*one));
  }
  if (values.size() != value.size()) return std::nullopt;
  return Comparison{&fact, Operator::one_of, std::move(values), false};
}

std::optional<Comparison> read_comparison(std::string_view name, const json& value,
                                          const Place& place, const Fact& fact, Kinds kinds) {
  const std::optional<Operator> op = find_in(kOperators, name);
  if (!op) {
    const auto names = names_of(kOperators);
    place.refuse(fmt::format("unknown comparison \"{}\"; expected one of {}{}", name, listed(names),
                             did_you_mean(name, names)));
    return std::nullopt;
  }
  if (!may_ask(fact, *op, name, place)) return std::nullopt;
  if (*op == Operator::known) return read_known(value, place, fact);
  if (*op == Operator::one_of) return read_one_of(value, place, fact, kinds);
  if (value.is_string() && value.get_ref<const std::string&>() == "margin" && orders(*op)) {
    if (fact.margin) return Comparison{&fact, *op, {}, true};
    place.refuse(fmt::format("no margin is in force for `{}`; expected {}", fact.name,
                             expected_value(fact)));
    return std::nullopt;
  }
  auto against = read_value(value, place, fact, kinds);
  if (!against) return std::nullopt;
  return Comparison{&fact, *op, {std::move(*against)}, false};
}

std::optional<Test> read_comparisons(const std::string& name, const json& value, const Place& place,
                                     Kinds kinds) {
  const Fact* fact = read_fact(name, place, kinds);
  if (!value.is_object() || value.empty()) {
    refuse_value(value, place, "an object with a comparison, for example {\"known\": true}");
    return std::nullopt;
  }
  if (fact == nullptr) return std::nullopt;
  std::vector<Test> all;
  for (const auto& [key, against] : value.items()) {
    auto one = read_comparison(key, against, place.inside(key), *fact, kinds);
    if (one) all.push_back({std::move(*one)});
  }
  if (all.size() != value.size()) return std::nullopt;
  if (all.size() == 1) return std::move(all.front());
  return Test{Joined{Joined::By::all, std::move(all)}};
}

std::optional<Test> read_at_depth(const json& value, const Place& place, Kinds kinds,
                                  std::size_t depth);

std::optional<Test> read_joined(Joined::By by, const json& value, const Place& place, Kinds kinds,
                                std::size_t depth) {
  if (by == Joined::By::none) {
    auto part = read_at_depth(value, place, kinds, depth);
    if (!part) return std::nullopt;
    return Test{Joined{by, {std::move(*part)}}};
  }
  if (!value.is_array() || value.empty()) {
    refuse_value(value, place, "a list of one test or more");
    return std::nullopt;
  }
  std::vector<Test> parts;
  for (std::size_t i = 0; i < value.size(); ++i) {
    auto part = read_at_depth(value[i], place.inside(i), kinds, depth);
    if (part) parts.push_back(std::move(*part));
  }
  if (parts.size() != value.size()) return std::nullopt;
  return Test{Joined{by, std::move(parts)}};
}

std::optional<Test> read_at_depth(const json& value, const Place& place, Kinds kinds,
                                  std::size_t depth) {
  if (depth == kMostTestDepth) {
    place.refuse(fmt::format("tests go no deeper than {}", kMostTestDepth));
    return std::nullopt;
  }
  if (!value.is_object() || value.size() != 1) {
    refuse_value(value, place, "an object with one key: `all`, `any`, `not` or the name of a fact");
    return std::nullopt;
  }
  const auto entry = value.begin();
  const Place at = place.inside(entry.key());
  if (const auto by = find_in(kJoins, entry.key())) {
    return read_joined(*by, entry.value(), at, kinds, depth + 1);
  }
  return read_comparisons(entry.key(), entry.value(), at, kinds);
}

json schema_of_tests() {
  std::set<std::string> keys;
  for (const auto& entry : kJoins) keys.emplace(entry.first);
  for (const Fact& fact : fact_table()) keys.insert(fact.name);
  json comparisons = json::object();
  for (const auto& [name, op] : kOperators) {
    comparisons[std::string(name)] = op == Operator::known ? json{{"type", "boolean"}}
                                     : op == Operator::one_of
                                         ? json{{"type", "array"}, {"minItems", 1}}
                                     : orders(op) ? json{{"type", {"string", "number"}}}
                                                  : json{{"type", {"string", "number", "boolean"}}};
  }
  const json one = {{"$ref", "#test"}};
  const json several = {{"type", "array"}, {"minItems", 1}, {"items", one}};
  return {{"$anchor", "test"},
          {"type", "object"},
          {"minProperties", 1},
          {"maxProperties", 1},
          {"propertyNames", {{"enum", keys}}},
          {"properties", {{"all", several}, {"any", several}, {"not", one}}},
          {"additionalProperties",
           {{"type", "object"},
            {"minProperties", 1},
            {"properties", comparisons},
            {"additionalProperties", false}}}};
}

}  // namespace

Form<JsonTree> test_as_written() {
  const std::string must_be = "a test, as described below";
  return form_of<JsonTree>(
      must_be, schema_of_tests().dump(),
      [must_be](const json& value, const Place& place) -> std::optional<JsonTree> {
        if (value.is_object()) return std::make_shared<const json>(value);
        refuse_value(value, place, must_be);
        return std::nullopt;
      });
}

std::optional<Test> read_test(const json& value, const Place& place, Kinds kinds) {
  return read_at_depth(value, place, kinds, 0);
}

Test test_for(const Test& test, SubjectKind kind) {
  Test other = test;
  if (auto* comparison = std::get_if<Comparison>(&other.what)) {
    comparison->fact = find_fact(kind, comparison->fact->name);
  } else {
    for (Test& part : std::get<Joined>(other.what).parts) part = test_for(part, kind);
  }
  return other;
}

const Fact* read_fact(std::string_view name, const Place& place, Kinds kinds) {
  const Fact* first = nullptr;
  for (const SubjectKind kind : kinds) {
    const Fact* fact = find_fact(kind, name);
    if (fact == nullptr) {
      std::vector<std::string> names;
      for (const Fact& known : fact_table()) {
        if (known.of == kind) names.push_back(known.name);
      }
      place.refuse(fmt::format("\"{}\" is no fact of a {}{}", name, in_words(kind),
                               did_you_mean(name, names)));
      return nullptr;
    }
    if (first == nullptr) first = fact;
    if (fact->type != first->type) {
      place.refuse(fmt::format("\"{}\" is {} for a {} but {} for a {}: write two cautions", name,
                               in_words(first->type), in_words(first->of), in_words(fact->type),
                               in_words(kind)));
      return nullptr;
    }
  }
  return first;
}

}  // namespace passage_brief
