#include "reading/json_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <expected>
#include <memory>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "reading/file_text.h"
#include "reading/problem.h"

namespace passage_brief {
namespace {

using nlohmann::json;

/// The part of the parser's message that says what it saw: "unexpected '}'; expected string
/// literal".
std::string complaint(std::string_view what) {
  const std::size_t begin = what.find(" - ");
  if (begin == std::string_view::npos) {
    const std::size_t bracket = what.find("] ");
    return std::string(bracket == std::string_view::npos ? what : what.substr(bracket + 2));
  }
  return std::string(what.substr(begin + 3));
}

/// Walks the text without building anything: depth, count, keys that stand twice, syntax.
class LimitsWalk final : public json::json_sax_t {
 public:
  LimitsWalk(std::string_view text, Ledger& ledger) : text_(text), ledger_(ledger) {}

  bool null() override { return value(); }
  bool boolean(bool) override { return value(); }
  bool number_integer(std::int64_t) override { return value(); }
  bool number_unsigned(std::uint64_t) override { return value(); }
  bool number_float(double, const std::string&) override { return value(); }
  bool string(std::string&) override { return value(); }
  bool binary(json::binary_t&) override { return value(); }
  bool start_object(std::size_t) override { return open(true); }
  bool start_array(std::size_t) override { return open(false); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(std::string& name) override {
    Level& level = levels_.back();
    level.key = name;
    if (!level.keys.insert(name).second) {
      ledger_.add(pointer(), fmt::format("the key \"{}\" stands twice here; keep one", name));
    }
    return true;
  }

  bool parse_error(std::size_t byte, const std::string&, const json::exception& error) override {
    const std::size_t at = std::min(byte == 0 ? 0 : byte - 1, text_.size());
    const std::size_t line_begin = text_.substr(0, at).rfind('\n');
    const std::size_t column = line_begin == std::string_view::npos ? at + 1 : at - line_begin;
    ledger_.add(line_of(text_, at),
                fmt::format("is not JSON at column {}: {}", column, complaint(error.what())));
    return false;
  }

 private:
  struct Level {
    bool object;
    std::size_t count = 0;
    std::string key;
    std::set<std::string> keys;
  };

  bool value() {
    if (!levels_.empty()) ++levels_.back().count;
    if (++values_ <= kMostValues) return true;
    ledger_.add("", fmt::format("holds more than {} values, the most that are read", kMostValues));
    return false;
  }
  bool open(bool object) {
    if (!value()) return false;
    if (levels_.size() == kMostDepth) {
      ledger_.add("", fmt::format("is nested deeper than {} levels", kMostDepth));
      return false;
    }
    levels_.push_back({object, 0, {}, {}});
    return true;
  }
  bool close() {
    levels_.pop_back();
    return true;
  }
  std::string pointer() const {
    std::string text;
    for (const Level& level : levels_) {
      text += "/" + (level.object ? level.key : std::to_string(level.count - 1));
    }
    return text;
  }

  std::string_view text_;
  Ledger& ledger_;
  std::vector<Level> levels_;
  std::size_t values_ = 0;
};

}  // namespace

std::expected<JsonTree, Problems> parse_json(std::string_view file, std::string_view text) {
  if (Problems problems = problems_of_text(file, text); !problems.empty()) {
    return std::unexpected(std::move(problems));
  }
  text = without_byte_order_mark(text);
  Ledger ledger(file, "the file");
  LimitsWalk walk(text, ledger);
  json::sax_parse(text, &walk);
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  return std::make_shared<const json>(json::parse(text));
}

std::string found(const json& value) {
  switch (value.type()) {
    case json::value_t::null:
      return "null";
    case json::value_t::boolean:
      return value.get<bool>() ? "true" : "false";
    case json::value_t::string: {
      const std::string& text = value.get_ref<const std::string&>();
      constexpr std::size_t most = 60;
      if (text.size() <= most) return "the text " + json_quoted(text);
      std::size_t end = most;  // not in the middle of a letter
      while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
      return "the text " + json_quoted(text.substr(0, end) + "...");
    }
    case json::value_t::number_integer:
    case json::value_t::number_unsigned:
    case json::value_t::number_float:
      return "the number " + value.dump();
    case json::value_t::array:
      return "a list";
    case json::value_t::object:
      return "an object";
    case json::value_t::binary:
    case json::value_t::discarded:
      break;
  }
  return "something else";
}

std::string json_quoted(std::string_view text) { return json(std::string(text)).dump(); }

}  // namespace passage_brief
