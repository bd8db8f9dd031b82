// inputs.json: bad and odd inputs, one a row: a right file (tests/given/files), one change, and
// what `check` must say. Each is run through the program as a person would.
//
// A change is one or more of: patch (JSON Patch), text (the whole file), replace and replace_more
// (old, new), repeat and repeat_more (old, new, how often), keep (bytes), append, insert_hex (byte
// offset, bytes). exit 2: place and words stand in one line of standard error; exit 0: words stand
// on standard output.

#include <gtest/gtest.h>

#include <cctype>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "given/csv_table.h"
#include "given/files.h"
#include "given/run_program.h"

namespace passage_brief {
namespace {

using nlohmann::json;

struct Input {
  json row;
  friend void PrintTo(const Input& input, std::ostream* out) { *out << input.row.dump(); }
};

std::vector<Input> inputs() {
  const auto file = std::filesystem::path(TESTS_DIR) / "broken" / "inputs.json";
  std::vector<Input> all;
  for (const json& row : json::parse(given::contents_of(file))) all.push_back({row});
  return all;
}

std::string repeated(const std::string& text, const json& change) {
  std::string many;
  for (int i = 0; i < change[2].get<int>(); ++i) many += change[1].get<std::string>();
  return given::replaced(text, change[0].get<std::string>(), many);
}

std::string with_bytes(std::string text, const json& change) {
  const auto hex = change[1].get<std::string>();
  std::string bytes;
  for (std::size_t i = 0; i < hex.size(); i += 2) {
    bytes += static_cast<char>(std::stoi(hex.substr(i, 2), nullptr, 16));
  }
  return text.insert(change[0].get<std::size_t>(), bytes);
}

std::string changed(const json& row) {
  std::string text = given::file_text(row["base"].get<std::string>());
  if (row.contains("patch")) text = given::patched(text, row["patch"].dump());
  if (row.contains("text")) text = row["text"].get<std::string>();
  for (const char* key : {"replace", "replace_more"}) {
    if (!row.contains(key)) continue;
    text = given::replaced(text, row[key][0].get<std::string>(), row[key][1].get<std::string>());
  }
  for (const char* key : {"repeat", "repeat_more"}) {
    if (row.contains(key)) text = repeated(text, row[key]);
  }
  if (row.contains("keep")) text.resize(row["keep"].get<std::size_t>());
  if (row.contains("append")) text += row["append"].get<std::string>();
  if (row.contains("insert_hex")) text = with_bytes(text, row["insert_hex"]);
  return text;
}

class BrokenInput : public testing::TestWithParam<Input> {};

TEST_P(BrokenInput, IsAnswered) {
  const json& row = GetParam().row;
  const auto folder = std::filesystem::path(testing::TempDir()) /
                      testing::UnitTest::GetInstance()->current_test_info()->name();
  std::filesystem::create_directories(folder);
  const auto file = folder / row["base"].get<std::string>();
  std::ofstream(file, std::ios::binary) << changed(row);
  const auto run = given::run_program({"check", file.string()});
  EXPECT_EQ(run.status, row["exit"].get<int>());
  const auto place = row["place"].get<std::string>();
  const auto words = row["words"].get<std::string>();
  if (run.status == 0) {
    EXPECT_NE(run.out.find(words), std::string::npos) << run.out;
  } else {
    const std::string begin = file.string() + ": " + (place.empty() ? "" : place + ": ");
    bool said = false;
    std::istringstream lines(run.err);
    for (std::string line; std::getline(lines, line);) {
      said = said || (line.rfind(begin, 0) == 0 && line.find(words) != std::string::npos);
    }
    EXPECT_TRUE(said) << "expected " << begin << "..." << words << "\nbut it said\n" << run.err;
  }
  std::filesystem::remove_all(folder);
}

std::string name_of(const testing::TestParamInfo<Input>& info) {
  std::string name = info.param.row["kind"].get<std::string>() + "_" +
                     info.param.row["key"].get<std::string>() + "_" +
                     info.param.row["defect"].get<std::string>();
  for (char& c : name) c = std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '_';
  return name;
}

INSTANTIATE_TEST_SUITE_P(Row, BrokenInput, testing::ValuesIn(inputs()), name_of);

TEST(BrokenInputs, AreAtLeast150AndNoTwoAlike) {
  std::set<std::tuple<std::string, std::string, std::string>> seen;
  for (const Input& input : inputs()) {
    const json& row = input.row;
    const auto word = [&](const char* key) { return row[key].get<std::string>(); };
    EXPECT_TRUE(seen.insert({word("kind"), word("key"), word("defect")}).second) << row.dump();
  }
  EXPECT_GE(seen.size(), 150U);
}

// The bases are right as they stand, so that what a row shows is its own change.
TEST(BrokenInputs, StartFromFilesThatAreRight) {
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(TESTS_DIR) / "given" / "files")) {
    const auto run = given::run_program({"check", entry.path().string()});
    EXPECT_EQ(run.status, 0) << run.err;
  }
}

}  // namespace
}  // namespace passage_brief
