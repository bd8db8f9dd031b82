// What a rules file builds on, found in the folder beside it.
#include "cli/rules_files.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "cli/file_kinds.h"
#include "given/files.h"
#include "given/rules.h"

namespace passage_brief {
namespace {

namespace fs = std::filesystem;

/// A folder of its own, gone with the test.
class RulesFiles : public testing::Test {
 protected:
  RulesFiles() { fs::create_directory(folder_); }
  ~RulesFiles() override { fs::remove_all(folder_); }

  [[nodiscard]] std::string path(const std::string& name) const {
    return (folder_ / name).string();
  }
  void put(const std::string& name, const std::string& text) const {
    std::ofstream(path(name)) << text;
  }
  [[nodiscard]] std::string problems_of(const std::string& text) const {
    const auto rules = read_edition(path("own.json"), text);
    return rules ? "" : given::listed(rules.error());
  }

 private:
  fs::path folder_ =
      fs::path(testing::TempDir()) / ("passage-brief-rules-" + std::to_string(getpid()));
};

std::string base(const std::string& edition, const std::string& margin) {
  std::string text =
      given::rules_text(given::caution_when(R"({"under_keel": {"less_than": "margin"}})", true));
  text = given::replaced(text, R"("edition": "1")", R"("edition": ")" + edition + "\"");
  return given::replaced(text, R"("under_keel": "2 ft")", R"("under_keel": ")" + margin + "\"");
}

const std::string kOwn = R"({"kind": "rules", "name": "own", "edition": "7", "builds_on": "test"})";

// Found 2026-11-26: an old edition kept beside the new one, its margins nothing, was taken for it:
// its file sorts first.
TEST_F(RulesFiles, TwoOfOneNameThatDifferAreRefused) {
  put("base.json", base("2026-06", "2 ft"));
  put("2019_base.json", base("2019-01", "0 ft"));
  EXPECT_EQ(problems_of(kOwn),
            "/builds_on: two files that differ are named \"test\": " + path("2019_base.json") +
                " and " + path("base.json") + "; keep one of them there\n");
}

TEST_F(RulesFiles, ACopyIsTheSameRules) {
  put("base.json", base("2026-06", "2 ft"));
  put("copy of base.json", base("2026-06", "2 ft"));
  const auto rules = read_edition(path("own.json"), kOwn);
  ASSERT_TRUE(rules) << given::listed(rules.error());
  EXPECT_EQ(rules->editions, "own 7 on test 2026-06");
}

TEST_F(RulesFiles, CheckTellsTheLimitsThatAnEditionChanges) {
  put("base.json", base("2026-06", "2 ft"));
  const std::string lifts = given::replaced(
      kOwn, "}",
      R"(, "cautions": [)" + given::caution_when(R"({"under_keel": {"less_than": "1 ft"}})", true) +
          "]}");
  const auto said = kind_called("rules").value()->read(path("own.json"), lifts);
  ASSERT_TRUE(said) << given::listed(said.error());
  EXPECT_EQ(*said, "own 7 on test 2026-06, changed: made for a test (stated anew)");
}

}  // namespace
}  // namespace passage_brief
