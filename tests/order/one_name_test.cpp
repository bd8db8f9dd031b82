// A type has its name to itself: two headers that each define a struct of one name make two types
// the linker takes for one (2026-11: `Run` of a track and `Run` of printed text crashed the
// program).

#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <regex>
#include <string>
#include <vector>

#include "given/csv_table.h"

namespace passage_brief {
namespace {

/// Names of the types a header defines at its outer level, where a line begins with them.
std::vector<std::string> types_defined_in(const std::string& text) {
  static const std::regex kDefinition(
      R"((?:^|\n)(?:struct|class|enum class) (\w+)(?: final)?(?: :[^;{]*)? \{)");
  std::vector<std::string> names;
  for (std::sregex_iterator at(text.begin(), text.end(), kDefinition), end; at != end; ++at) {
    names.push_back((*at)[1]);
  }
  return names;
}

TEST(OneName, EachTypeOfAHeaderHasItsNameToItself) {
  const std::filesystem::path service = std::filesystem::path(PROJECT_DIR) / "service";
  std::map<std::string, std::string> seen;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(service)) {
    if (entry.path().extension() != ".h") continue;
    const std::string path = std::filesystem::relative(entry.path(), service).generic_string();
    for (const std::string& name : types_defined_in(given::contents_of(entry.path()))) {
      const auto [before, is_new] = seen.emplace(name, path);
      EXPECT_TRUE(is_new) << name << " is defined in " << before->second << " and in " << path;
    }
  }
  EXPECT_GT(seen.size(), 100u);
}

TEST(OneName, FindsDefinitionsAndNotDeclarations) {
  EXPECT_EQ(types_defined_in("struct Run;\nstruct Run {\n};\nclass Page final : Sheet {\n};\n"
                             "enum class Side { port };\n  struct Inner {};\n"),
            (std::vector<std::string>{"Run", "Page", "Side"}));
}

}  // namespace
}  // namespace passage_brief
