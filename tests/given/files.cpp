#include "given/files.h"

#include <filesystem>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <string_view>

#include "given/csv_table.h"
#include "reading/problem.h"

namespace passage_brief::given {

std::string file_text(const std::string& name) {
  return contents_of(std::filesystem::path(TESTS_DIR) / "given" / "files" / name);
}

std::string patched(const std::string& text, std::string_view patch) {
  return nlohmann::json::parse(text).patch(nlohmann::json::parse(patch)).dump();
}

std::string replaced(std::string text, std::string_view old_part, std::string_view new_part) {
  const std::size_t at = text.find(old_part);
  if (at == std::string::npos || text.find(old_part, at + 1) != std::string::npos) {
    throw std::runtime_error("does not stand there exactly once: " + std::string(old_part));
  }
  return text.replace(at, old_part.size(), new_part);
}

std::string listed(const Problems& problems) {
  std::string all;
  for (const Problem& problem : problems) {
    all += problem.place.empty() ? "" : problem.place + ": ";
    all += problem.words + "\n";
  }
  return all;
}

}  // namespace passage_brief::given
