#include "cli/file_kinds.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "given/csv_table.h"
#include "given/files.h"
#include "reading/describe_table.h"

namespace passage_brief {
namespace {

namespace fs = std::filesystem;

/// With RENEW set in the environment the made text is written instead of compared.
constexpr const char* kHowToRenew =
    "made text differs from the file; renew with: RENEW=1 build/release/tests/service-tests "
    "--gtest_filter='FileKinds.*'";

bool renewing() { return std::getenv("RENEW") != nullptr; }

void write(const fs::path& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

TEST(FileKinds, SchemasAreWhatTheTablesMake) {
  for (const FileKind& kind : file_kinds()) {
    const fs::path file = fs::path(PROJECT_DIR) / kind.schema_file;
    if (renewing()) write(file, kind.schema());
    EXPECT_TRUE(given::contents_of(file) == kind.schema())
        << kind.schema_file << ": " << kHowToRenew;
  }
}

TEST(FileKinds, ExamplesInTheTablesAreTaken) {
  for (const FileKind& kind : file_kinds()) {
    EXPECT_EQ(given::listed(problems_of_examples(kind.pages())), "") << kind.word;
  }
}

TEST(FileKinds, AreToldApartByContent) {
  const auto word = [](const std::string& text) {
    const auto kind = kind_of("f", text);
    return kind ? (*kind)->word : given::listed(kind.error());
  };
  EXPECT_EQ(word(given::file_text("vessel.json")), "vessel");
  EXPECT_EQ(word(given::file_text("route.gpx")), "route");
  EXPECT_EQ(word("\xEF\xBB\xBF " + given::file_text("route.gpx")), "route");
  EXPECT_EQ(word(given::file_text("route.geojson")), "route");
  EXPECT_EQ(word(given::file_text("waterway.json")), "waterway");
  EXPECT_EQ(word(given::file_text("tide.json")), "tide station");
  EXPECT_EQ(word(given::file_text("current.json")), "current station");
  EXPECT_EQ(word(given::file_text("wind.json")), "wind forecast");
  EXPECT_EQ(word(given::file_text("holidays.json")), "holiday calendar");
  EXPECT_EQ(word(given::file_text("rules.json")), "rules");
  EXPECT_EQ(
      word(R"({"kind": "vesel"})"),
      "/kind: found \"vesel\"; expected \"vessel\", \"route\", \"waterway\", \"tide station\", "
      "\"current station\", \"wind forecast\", \"holiday calendar\", \"sources\" or \"rules\"; did "
      "you mean "
      "\"vessel\"?\n");
  EXPECT_EQ(word("[]").rfind("does not say what it is", 0), 0U);
}

}  // namespace
}  // namespace passage_brief
