#include "given/rules.h"

#include <fmt/format.h>

#include <expected>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>

#include "given/csv_table.h"
#include "given/files.h"

namespace passage_brief::given {
namespace {

std::expected<RulesText, std::string> nothing(std::string_view) {
  return std::unexpected("nothing to build on");
}

RuleSet read_or_throw(const RulesText& text, const FindRules& find) {
  auto rules = read_rules(text, find);
  if (!rules) throw std::runtime_error(in_lines(rules.error()));
  return std::move(*rules);
}

}  // namespace

std::string rules_text(std::string_view cautions) {
  return fmt::format(
      R"({{"kind": "rules", "name": "test", "edition": "1",
"margins": {{"under_keel": "2 ft", "under_keel_hard": "3 ft", "under_bridge": "2 ft",
"track": "30 ft", "position": "8 m", "wash": "0.3 ft", "shoaling": "0.2 ft",
"forecast_age": "6 h", "forecasts_differ": "8 kn"}}, "cautions": [{}]}})",
      cautions);
}

RuleSet rules(std::string_view cautions) {
  return read_or_throw({"test.json", rules_text(cautions)}, nothing);
}

std::string problems_of(const std::string& text) {
  const auto rules = read_rules({"test.json", text}, nothing);
  return rules ? "" : in_lines(rules.error());
}

std::string caution_when(std::string_view when, bool limit) {
  return fmt::format(
      R"({{"id": "made for a test", "for_each": "reach", "when": {}, "grade": "caution",
"limit": {}, "say": "{{reach}}", "source": "test"}})",
      when, limit);
}

int permission(Verdict verdict) {
  switch (verdict) {
    case Verdict::within_limits:
      return 2;
    case Verdict::cautions:
      return 1;
    case Verdict::cannot_tell:
    case Verdict::outside_limits:
      return 0;
  }
  return 2;
}

RuleSet shipped_rules(const std::string& name) {
  const std::filesystem::path folder = std::filesystem::path(PROJECT_DIR) / "rules";
  const auto text_of = [](const std::filesystem::path& file) {
    return RulesText{file.string(), contents_of(file)};
  };
  return read_or_throw(text_of(folder / (name + ".json")),
                       [&](std::string_view wanted) -> std::expected<RulesText, std::string> {
                         for (const auto& entry : std::filesystem::directory_iterator(folder)) {
                           RulesText text = text_of(entry.path());
                           if (name_of_rules(text.text) == wanted) return text;
                         }
                         return std::unexpected("no such rules");
                       });
}

}  // namespace passage_brief::given
