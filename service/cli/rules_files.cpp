#include "cli/rules_files.h"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

#include "reading/file_text.h"
#include "rules/read_rules.h"

namespace passage_brief {
namespace {

namespace fs = std::filesystem;

/// By name, so that two files of one name are always tried in the same order.
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

std::optional<RulesText> rules_in(const fs::path& folder, std::string_view name) {
  for (const fs::path& file : json_files_in(folder)) {
    const auto text = read_file_text(file.string());
    if (text && name_of_rules(*text) == name) return RulesText{file.string(), *text};
  }
  return std::nullopt;
}

}  // namespace

FindRules rules_beside(const std::string& file) {
  const fs::path given = fs::path(file).parent_path();
  const fs::path beside = given.empty() ? fs::path(".") : given;
  return [beside](std::string_view name) -> std::optional<RulesText> {
    if (auto found = rules_in(beside, name)) return found;
    return rules_in(SHIPPED_RULES_DIR, name);
  };
}

}  // namespace passage_brief
