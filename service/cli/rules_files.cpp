#include "cli/rules_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <expected>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <variant>
#include <vector>

#include "reading/file_text.h"
#include "reading/problem.h"
#include "rules/fact_table.h"
#include "rules/read_rules.h"
#include "rules/rule_set.h"

namespace passage_brief {
namespace {

namespace fs = std::filesystem;

/// By name, so that problems always come in the same order.
std::vector<fs::path> json_files_in(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code unreadable;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder, unreadable)) {
    std::error_code gone;
    if (entry.path().extension() == ".json" && entry.is_regular_file(gone)) {
      files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// Empty where none is of that name. Two that differ, an old edition kept beside the new, are no
/// answer; copies are.
std::expected<std::optional<RulesText>, std::string> rules_in(const fs::path& folder,
                                                              std::string_view name) {
  std::optional<RulesText> found;
  for (const fs::path& file : json_files_in(folder)) {
    const auto text = read_file_text(file.string());
    if (!text || name_of_rules(*text) != name) continue;
    if (found && found->text != *text) {
      return std::unexpected(
          fmt::format("two files that differ are named \"{}\": {} and {}; keep one of them there",
                      name, found->file, file.string()));
    }
    if (!found) found = RulesText{file.string(), *text};
  }
  return found;
}

FindRules rules_beside(const std::string& file) {
  const fs::path given = fs::path(file).parent_path();
  const fs::path beside = given.empty() ? fs::path(".") : given;
  return [beside](std::string_view name) -> std::expected<RulesText, std::string> {
    for (const fs::path& folder : {beside, fs::path(SHIPPED_RULES_DIR)}) {
      auto found = rules_in(folder, name);
      if (!found) return std::unexpected(std::move(found.error()));
      if (*found) return **std::move(found);
    }
    return std::unexpected(fmt::format("no rules file named \"{}\" was found", name));
  };
}

/// The facts of a depth that say whether there is water enough.
constexpr std::array<std::string_view, 6> kOfWater{
    "under_keel", "under_keel_could_be", "short_by", "keel_touches", "water", "charted"};

bool asks_of_water(const Test& test) {
  if (const auto* joined = std::get_if<Joined>(&test.what)) {
    return std::ranges::any_of(joined->parts, asks_of_water);
  }
  const std::string& name = std::get<Comparison>(test.what).fact->name;
  return std::ranges::find(kOfWater, name) != kOfWater.end();
}

bool limits_a_depth(const Rule& rule) {
  return rule.limit && is_of_depth(rule.for_each) && asks_of_water(rule.when);
}

}  // namespace

std::expected<RuleSet, Problems> read_edition(const std::string& file, const std::string& text) {
  auto rules = read_rules({file, text}, rules_beside(file));
  if (!rules || std::ranges::any_of(rules->rules, limits_a_depth)) return rules;
  const bool any = std::ranges::any_of(rules->rules, &Rule::limit);
  return std::unexpected(Problems{
      {file, "/cautions",
       fmt::format("no rule of it, nor of what it builds on, is a limit{}: no want of water would "
                   "close a departure; give one \"limit\": true that asks of under_keel",
                   any ? " on a depth" : "")}});
}

}  // namespace passage_brief
