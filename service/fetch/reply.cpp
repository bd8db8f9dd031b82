#include "fetch/reply.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstddef>
#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>

#include "reading/file_text.h"
#include "reading/json_text.h"
#include "reading/problem.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

using nlohmann::json;

/// The service's own words where the reply is an error and no data; else empty. The same words come
/// from CO-OPS for a wrong datum, a window without events and an outage, so none is concluded.
std::string service_error(const json& tree) {
  const json* error = member(&tree, "error");
  if (error != nullptr && error->is_object()) return line_in(member(error, "message"));
  if (error != nullptr && error->is_boolean() && error->get<bool>()) {
    return line_in(member(&tree, "reason"));
  }
  if (error != nullptr && error->is_string()) return line_in(error);
  if (const json* message = member(&tree, "errorMsg")) return line_in(message);
  // RFC 9457, as api.weather.gov uses it.
  if (text_in(member(&tree, "type")).find("/problems/") != std::string::npos ||
      (member(&tree, "status") != nullptr && member(&tree, "detail") != nullptr)) {
    return line_in(member(&tree, "title")) + ": " + line_in(member(&tree, "detail"));
  }
  return {};
}

bool is_error(const json& tree) {
  return member(&tree, "error") != nullptr || member(&tree, "errorMsg") != nullptr ||
         !service_error(tree).empty();
}

}  // namespace

std::unexpected<Problems> refused(std::string_view name, std::string place, std::string words) {
  return std::unexpected(Problems{{std::string(name), std::move(place), std::move(words)}});
}

std::expected<JsonTree, Problems> reply_tree(std::string_view name, std::string_view text) {
  const std::string_view bare = without_byte_order_mark(text);
  const auto first = bare.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return refused(name, "", "the reply is empty");
  if (bare[first] == '<') return refused(name, "", "the reply is a web page or XML, and no data");
  auto tree = parse_json(name, text);
  if (!tree) return tree;
  if (!(*tree)->is_object()) return refused(name, "", "the reply is no JSON object");
  if (is_error(**tree)) {
    const std::string words = service_error(**tree);
    return refused(name, "",
                   words.empty() ? "the service answered with an error and no words"
                                 : "the service answered: \"" + words + "\"");
  }
  return tree;
}

const json* member(const json* object, std::string_view key) {
  if (object == nullptr || !object->is_object()) return nullptr;
  const auto found = object->find(std::string(key));
  return found == object->end() ? nullptr : &*found;
}

const json* element(const json* list, std::size_t index) {
  if (list == nullptr || !list->is_array() || index >= list->size()) return nullptr;
  return &(*list)[index];
}

std::expected<std::optional<double>, std::string> number_in(const json* value) {
  if (value == nullptr || value->is_null()) return std::nullopt;
  double number = 0;
  if (value->is_number()) {
    number = value->get<double>();
  } else if (value->is_string()) {
    const auto& text = value->get_ref<const std::string&>();
    if (text.empty()) return std::nullopt;
    const char* const end = text.data() + text.size();
    const auto [rest, error] = std::from_chars(text.data(), end, number);
    if (error != std::errc() || rest != end) {
      return std::unexpected("found " + found(*value) + "; expected a number");
    }
  } else {
    return std::unexpected("found " + found(*value) + "; expected a number");
  }
  if (!std::isfinite(number)) {
    return std::unexpected("found " + found(*value) + "; expected a finite number");
  }
  return number;
}

std::string text_in(const json* value) {
  if (value == nullptr) return {};
  if (value->is_string()) return value->get<std::string>();
  if (value->is_number_integer()) return value->dump();
  return {};
}

std::string line_in(const json* value, std::size_t most) {
  std::string line;
  const std::string text = text_in(value);
  for (std::size_t at = 0; at < text.size(); ++at) {
    const std::size_t unseen = unseen_bytes(std::string_view(text).substr(at));
    const char next = unseen > 0 ? ' ' : text[at];
    if (unseen > 1) at += unseen - 1;
    if (next == ' ' && (line.empty() || line.back() == ' ')) continue;
    line += next;
  }
  while (line.ends_with(' ')) line.pop_back();
  if (line.size() > most) {
    line.resize(most);
    line.resize(std::min(first_byte_not_utf8(line), line.size()));  // no half letter at the end
    line += "...";
  }
  return line;
}

std::expected<Instant, std::string> gmt_time_in(const json* value) {
  std::string text = text_in(value);
  if (text.size() > 10 && text[10] == ' ') text[10] = 'T';
  const auto wall = parse_wall_time(text);
  if (!wall) return std::unexpected(wall.error());
  return Zone::utc().instant_of(*wall);
}

std::expected<Instant, std::string> instant_in(const json* value) {
  const auto at = parse_instant(text_in(value));
  if (at && !Zone::covers(*at)) return std::unexpected("is not within the years 1900 to 2037");
  return at;
}

}  // namespace passage_brief
