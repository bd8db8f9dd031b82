// The tables of DEVELOPERS.md are those the readers and the judge go by. To renew them, run these
// tests with RENEW=1 in the environment.

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <set>
#include <string>

#include "cli/file_kinds.h"
#include "given/csv_table.h"
#include "reading/describe_table.h"
#include "rules/fact_table.h"

namespace passage_brief {
namespace {

const std::string kPage = PROJECT_DIR "/DEVELOPERS.md";

/// The table that belongs between a marker ("fields: vessel", "facts") and its end.
std::optional<std::string> table_for(const std::string& marker) {
  if (marker == "facts") return fact_table_in_markdown();
  const std::string fields = "fields: ";
  if (!marker.starts_with(fields)) return std::nullopt;
  const auto kind = kind_called(marker.substr(fields.size()));
  if (!kind) return std::nullopt;
  return field_tables((*kind)->pages());
}

/// The page with every marked table renewed; the markers it shows are put into `shown`.
std::string renewed(const std::string& page, std::set<std::string>& shown) {
  const std::string opens = "<!-- ";
  const std::string closes = " -->\n";
  const std::string ends = "<!-- end -->";
  std::string made;
  std::size_t from = 0;
  for (auto at = page.find(opens); at != std::string::npos; at = page.find(opens, from)) {
    const auto after = page.find(closes, at);
    const auto end = page.find(ends, at);
    if (after == std::string::npos || end == std::string::npos) break;
    const std::string marker = page.substr(at + opens.size(), after - at - opens.size());
    const auto table = table_for(marker);
    EXPECT_TRUE(table.has_value()) << "no table is made for \"" << marker << "\"";
    made +=
        page.substr(from, after + closes.size() - from) + "\n" + table.value_or("") + "\n" + ends;
    from = end + ends.size();
    shown.insert(marker);
  }
  return made + page.substr(from);
}

TEST(DevelopersPage, ShowsTheTablesTheProgramGoesBy) {
  const std::string page = given::contents_of(kPage);
  std::set<std::string> shown;
  const std::string made = renewed(page, shown);
  for (const FileKind& kind : file_kinds()) {
    EXPECT_TRUE(shown.contains("fields: " + kind.word)) << "DEVELOPERS.md lacks " << kind.word;
  }
  EXPECT_TRUE(shown.contains("facts"));
  if (std::getenv("RENEW") != nullptr) {
    std::ofstream(kPage) << made;
    return;
  }
  EXPECT_TRUE(made == page) << "the tables of DEVELOPERS.md are old: run this test with RENEW=1";
}

TEST(DevelopersPage, NamesEveryFolderOfTheHouse) {
  const std::string page = given::contents_of(kPage);
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(PROJECT_DIR) / "service")) {
    const std::string name = entry.path().filename().string();
    EXPECT_NE(page.find("| `" + name + "` |"), std::string::npos) << name << " is not on the map";
  }
}

}  // namespace
}  // namespace passage_brief
