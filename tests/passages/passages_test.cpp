// Whole passages from files to the page, kept as text and read by a person. Each folder here holds
//   arguments     of `make`, one a line, paths from the project's folder
//   brief.txt     the page as it was read and found right
//   by_hand.json  its deciding figures worked out by hand from the input files: where the figure
//                 stands in the JSON, the figure, how near it must be, and the arithmetic
// With RENEW=1 in the environment brief.txt is written anew, to be read again before it is kept.

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "given/csv_table.h"
#include "given/run_program.h"

namespace passage_brief {
namespace {

using nlohmann::json;

const std::filesystem::path kPassages = TESTS_DIR "/passages";

std::vector<std::string> lines_of(const std::filesystem::path& file) {
  std::istringstream text(given::contents_of(file));
  std::vector<std::string> lines;
  for (std::string line; std::getline(text, line);) {
    if (!line.empty()) lines.push_back(line);
  }
  return lines;
}

std::vector<std::string> passages() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(kPassages)) {
    if (entry.is_directory()) names.push_back(entry.path().filename().string());
  }
  return names;
}

class Passage : public testing::TestWithParam<std::string> {
 protected:
  void SetUp() override {
    into_ = std::filesystem::path(testing::TempDir()) / ("passage-" + GetParam());
    std::vector<std::string> arguments = lines_of(kPassages / GetParam() / "arguments");
    arguments.insert(arguments.begin(), "make");
    arguments.insert(arguments.end(),
                     {"--as", "text,json", "--windows", "0", "--into", into_.string()});
    const given::ProgramRun run = given::run_program(arguments);
    ASSERT_EQ(run.status, 0) << run.err;
  }
  void TearDown() override { std::filesystem::remove_all(into_); }

  [[nodiscard]] std::string made(const char* file) const {
    return given::contents_of(into_ / file);
  }

 private:
  std::filesystem::path into_;
};

TEST_P(Passage, PrintsThePageThatWasRead) {
  const std::filesystem::path kept = kPassages / GetParam() / "brief.txt";
  if (std::getenv("RENEW") != nullptr) {
    std::ofstream(kept) << made("brief.txt");
    return;
  }
  EXPECT_EQ(made("brief.txt"), given::contents_of(kept));
}

TEST_P(Passage, HasItsDecidingFiguresAsByHand) {
  const json brief = json::parse(made("brief.json"));
  const json figures = json::parse(given::contents_of(kPassages / GetParam() / "by_hand.json"));
  ASSERT_GE(figures.size(), 3U);
  for (const json& figure : figures) {
    const json& found = brief.at(json::json_pointer(figure.at("figure").get<std::string>()));
    if (figure.at("by_hand").is_number()) {
      EXPECT_NEAR(found.get<double>(), figure.at("by_hand").get<double>(),
                  figure.at("within").get<double>())
          << figure.dump(1);
    } else {
      EXPECT_EQ(found, figure.at("by_hand")) << figure.dump(1);
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Kept, Passage, testing::ValuesIn(passages()),
                         [](const auto& given) { return given.param; });

}  // namespace
}  // namespace passage_brief
