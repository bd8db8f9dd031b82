// A JSON value as it was written, for readers whose shape no field table can say (tests within
// tests): the JSON library stays in this folder.
#pragma once

#include <cstddef>
#include <expected>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "reading/form.h"
#include "reading/problem.h"

namespace passage_brief {

struct Written {
  struct Member;
  using List = std::vector<Written>;
  using Members = std::vector<Member>;
  std::variant<std::nullptr_t, bool, double, std::string, List, Members> value;
  std::string found;  // "the number 4": for a problem's words

  /// The value as one of its alternatives, or null.
  template <class T>
  [[nodiscard]] const T* as() const {
    return std::get_if<T>(&value);
  }
};

struct Written::Member {
  std::string name;
  Written value;
};

/// Any object, with a schema of the reader's own.
[[nodiscard]] Form<Written> object_as_written(std::string must_be, std::string schema);

/// Adds "found X; expected Y, for example Z" at the place.
void refuse_value(const Written& value, const Place& place, std::string_view expected);

/// What stands as a text at the top of a JSON file's object, by its key, whatever else in the file
/// is right or wrong; none where it is no object.
using TextsAtTop = std::map<std::string, std::string, std::less<>>;
[[nodiscard]] std::expected<TextsAtTop, Problems> texts_at_top(std::string_view file,
                                                               std::string_view text);
/// One of them, where it is there.
[[nodiscard]] std::optional<std::string> text_of(const TextsAtTop& texts, std::string_view key);

}  // namespace passage_brief
