#include "rules/read_when.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "reading/json_text.h"
#include "reading/quantity_text.h"
#include "reading/written.h"
#include "rules/fact_table.h"

namespace passage_brief {
namespace {

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
std::optional<FactValue> quantity(const Written& value, const Place& place, const Fact& fact,
                                  std::expected<T, std::string> (*parse)(std::string_view)) {
  const auto* text = value.as<std::string>();
  if (text == nullptr) {
    refuse_value(value, place, expected_value(fact));
    return std::nullopt;
  }
  const auto parsed = parse(*text);
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

std::optional<FactValue> read_word(const Written& value, const Place& place, const Fact& fact,
                                   Kinds kinds) {
  const auto* word = value.as<std::string>();
  if (word == nullptr) {
    refuse_value(value, place, expected_value(fact));
    return std::nullopt;
  }
  const std::vector<std::string> words = words_of(fact, kinds);
  if (!words.empty() && std::ranges::find(words, *word) == words.end()) {
    place.refuse(fmt::format("found {}; `{}` is one of {}{}", value.found, fact.name, listed(words),
                             did_you_mean(*word, words)));
    return std::nullopt;
  }
  return FactValue(*word);
}

std::optional<FactValue> read_value(const Written& value, const Place& place, const Fact& fact,
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
      if (const auto* v = value.as<double>()) return FactValue(degrees(*v));
      break;
    case FactType::number:
      if (const auto* v = value.as<double>()) return FactValue(*v);
      break;
    case FactType::yes_no:
      if (const auto* v = value.as<bool>()) return FactValue(*v);
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

std::optional<Comparison> read_known(const Written& value, const Place& place, const Fact& fact) {
  const auto* known = value.as<bool>();
  if (known == nullptr) {
    refuse_value(value, place, "true or false");
    return std::nullopt;
  }
  return Comparison{&fact, Operator::known, {FactValue(*known)}, false};
}

std::optional<Comparison> read_one_of(const Written& value, const Place& place, const Fact& fact,
                                      Kinds kinds) {
  const auto* list = value.as<Written::List>();
  if (list == nullptr || list->empty()) {
    refuse_value(value, place, "a list of one value or more");
    return std::nullopt;
  }
  std::vector<FactValue> values;
  for (std::size_t i = 0; i < list->size(); ++i) {
    auto one = read_value((*list)[i], place.inside(i), fact, kinds);
    if (one) values.push_back(std::move(*one));
  }
  if (values.size() != list->size()) return std::nullopt;
  return Comparison{&fact, Operator::one_of, std::move(values), false};
}

std::optional<Comparison> read_comparison(std::string_view name, const Written& value,
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
  if (orders(*op) && value.as<std::string>() != nullptr && *value.as<std::string>() == "margin") {
    if (fact.margin) return Comparison{&fact, *op, {}, true};
    place.refuse(fmt::format("no margin is in force for `{}`; expected {}", fact.name,
                             expected_value(fact)));
    return std::nullopt;
  }
  auto against = read_value(value, place, fact, kinds);
  if (!against) return std::nullopt;
  return Comparison{&fact, *op, {std::move(*against)}, false};
}

std::optional<Test> read_comparisons(const std::string& name, const Written& value,
                                     const Place& place, Kinds kinds) {
  const Fact* fact = read_fact(name, place, kinds);
  const auto* members = value.as<Written::Members>();
  if (members == nullptr || members->empty()) {
    refuse_value(value, place, "an object with a comparison, for example {\"known\": true}");
    return std::nullopt;
  }
  if (fact == nullptr) return std::nullopt;
  std::vector<Test> all;
  for (const auto& [key, against] : *members) {
    auto one = read_comparison(key, against, place.inside(key), *fact, kinds);
    if (one) all.push_back({std::move(*one)});
  }
  if (all.size() != members->size()) return std::nullopt;
  if (all.size() == 1) return std::move(all.front());
  return Test{Joined{Joined::By::all, std::move(all)}};
}

std::optional<Test> read_at_depth(const Written& value, const Place& place, Kinds kinds,
                                  std::size_t depth);

std::optional<Test> read_joined(Joined::By by, const Written& value, const Place& place,
                                Kinds kinds, std::size_t depth) {
  if (by == Joined::By::none) {
    auto part = read_at_depth(value, place, kinds, depth);
    if (!part) return std::nullopt;
    return Test{Joined{by, {std::move(*part)}}};
  }
  const auto* list = value.as<Written::List>();
  if (list == nullptr || list->empty()) {
    refuse_value(value, place, "a list of one test or more");
    return std::nullopt;
  }
  std::vector<Test> parts;
  for (std::size_t i = 0; i < list->size(); ++i) {
    auto part = read_at_depth((*list)[i], place.inside(i), kinds, depth);
    if (part) parts.push_back(std::move(*part));
  }
  if (parts.size() != list->size()) return std::nullopt;
  return Test{Joined{by, std::move(parts)}};
}

std::optional<Test> read_at_depth(const Written& value, const Place& place, Kinds kinds,
                                  std::size_t depth) {
  if (depth == kMostTestDepth) {
    place.refuse(fmt::format("tests go no deeper than {}", kMostTestDepth));
    return std::nullopt;
  }
  const auto* members = value.as<Written::Members>();
  if (members == nullptr || members->size() != 1) {
    refuse_value(value, place, "an object with one key: `all`, `any`, `not` or the name of a fact");
    return std::nullopt;
  }
  const auto& [key, inside] = members->front();
  const Place at = place.inside(key);
  if (const auto by = find_in(kJoins, key)) return read_joined(*by, inside, at, kinds, depth + 1);
  return read_comparisons(key, inside, at, kinds);
}

std::string quoted_list(const std::vector<std::string>& names) {
  std::vector<std::string> quoted;
  for (const std::string& name : names) quoted.push_back(json_quoted(name));
  return fmt::format("[{}]", listed(quoted));
}

std::string schema_of_comparison(Operator op) {
  if (op == Operator::known) return R"({"type": "boolean"})";
  if (op == Operator::one_of) return R"({"type": "array", "minItems": 1})";
  if (orders(op)) return R"({"type": ["string", "number"]})";
  return R"({"type": ["string", "number", "boolean"]})";
}

/// Facts are named, but which belong to which kind of subject is the reader's alone.
std::string schema_of_tests() {
  std::vector<std::string> keys = names_of(kJoins);
  for (const Fact& fact : fact_table()) {
    if (std::ranges::find(keys, fact.name) == keys.end()) keys.push_back(fact.name);
  }
  std::vector<std::string> comparisons;
  for (const auto& [name, op] : kOperators) {
    comparisons.push_back(fmt::format("{}: {}", json_quoted(name), schema_of_comparison(op)));
  }
  return fmt::format(
      R"({{"$anchor": "test", "type": "object", "minProperties": 1, "maxProperties": 1,
"propertyNames": {{"enum": {}}},
"properties": {{
  "all": {{"type": "array", "minItems": 1, "items": {{"$ref": "#test"}}}},
  "any": {{"type": "array", "minItems": 1, "items": {{"$ref": "#test"}}}},
  "not": {{"$ref": "#test"}}}},
"additionalProperties": {{"type": "object", "minProperties": 1,
  "properties": {{{}}}, "additionalProperties": false}}}})",
      quoted_list(keys), listed(comparisons));
}

}  // namespace

Form<Written> test_as_written() {
  return object_as_written("a test, as described below", schema_of_tests());
}

std::optional<Test> read_test(const Written& value, const Place& place, Kinds kinds) {
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
