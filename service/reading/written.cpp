#include "reading/written.h"

#include <fmt/format.h>

#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "reading/json_text.h"

namespace passage_brief {
namespace {

using nlohmann::json;

// Recursion ends: the text was refused beyond kMostDepth before its tree was built.
Written written(const json& value) {
  Written copy{nullptr, found(value)};
  if (value.is_boolean()) {
    copy.value = value.get<bool>();
  } else if (value.is_number()) {
    copy.value = value.get<double>();
  } else if (value.is_string()) {
    copy.value = value.get<std::string>();
  } else if (value.is_array()) {
    Written::List list;
    for (const json& element : value) list.push_back(written(element));
    copy.value = std::move(list);
  } else if (value.is_object()) {
    Written::Members members;
    for (const auto& [key, member] : value.items()) members.push_back({key, written(member)});
    copy.value = std::move(members);
  }
  return copy;
}

}  // namespace

Form<Written> object_as_written(std::string must_be, std::string schema) {
  return form_of<Written>(
      must_be, std::move(schema),
      [must_be](const json& value, const Place& place) -> std::optional<Written> {
        if (value.is_object()) return written(value);
        refuse_value(value, place, must_be);
        return std::nullopt;
      });
}

void refuse_value(const Written& value, const Place& place, std::string_view expected) {
  std::string words = fmt::format("found {}; expected {}", value.found, expected);
  if (!place.example().empty()) words += fmt::format(", for example {}", place.example());
  place.refuse(std::move(words));
}

std::expected<TextsAtTop, Problems> texts_at_top(std::string_view file, std::string_view text) {
  const auto tree = parse_json(file, text);
  if (!tree) return std::unexpected(tree.error());
  TextsAtTop texts;
  if (!(*tree)->is_object()) return texts;
  for (const auto& [key, value] : (*tree)->items()) {
    if (value.is_string()) texts.emplace(key, value.get<std::string>());
  }
  return texts;
}

std::optional<std::string> text_of(const TextsAtTop& texts, std::string_view key) {
  const auto text = texts.find(key);
  if (text == texts.end()) return std::nullopt;
  return text->second;
}

}  // namespace passage_brief
