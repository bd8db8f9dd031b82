#include "reading/json_text.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "reading/file_text.h"

namespace passage_brief {
namespace {

std::string refusal(const std::string& text) {
  const auto tree = parse_json("x.json", text);
  return tree ? "" : in_words(tree.error().front());
}

std::string nested(std::size_t levels) {
  return std::string(levels, '[') + std::string(levels, ']');
}

TEST(JsonText, DepthIsLimitedOnBothSidesOfTheLimit) {
  EXPECT_EQ(refusal(nested(kMostDepth)), "");
  EXPECT_EQ(refusal(nested(kMostDepth + 1)), "x.json: is nested deeper than 32 levels");
  // Deep enough to overflow a stack if a tree were built.
  EXPECT_EQ(refusal(nested(1'000'000)), "x.json: is nested deeper than 32 levels");
}

TEST(JsonText, CountIsLimitedOnBothSidesOfTheLimit) {
  std::string ones = "[";
  for (std::size_t i = 1; i < kMostValues; ++i) ones += i == 1 ? "1" : ",1";
  EXPECT_EQ(refusal(ones + "]"), "");
  EXPECT_EQ(refusal(ones + ",1]"), "x.json: holds more than 400000 values, the most that are read");
}

TEST(JsonText, SizeIsLimited) {
  EXPECT_EQ(refusal(std::string(kMostFileBytes, ' ') + "1"),
            "x.json: is larger than 8 MB, the most that is read");
}

TEST(JsonText, AKeyTwiceIsAProblemWithItsPlace) {
  const auto tree = parse_json("x.json", R"({"a":[1,{"b":1,"b":2}],"c":1,"a":1})");
  ASSERT_FALSE(tree);
  ASSERT_EQ(tree.error().size(), 2U);
  EXPECT_EQ(in_words(tree.error()[0]), "x.json: /a/1/b: the key \"b\" stands twice here; keep one");
  EXPECT_EQ(in_words(tree.error()[1]), "x.json: /a: the key \"a\" stands twice here; keep one");
  EXPECT_EQ(refusal(R"([{"a":1},{"a":1}])"), "");
}

TEST(JsonText, AByteOrderMarkIsPassedOver) {
  EXPECT_EQ(refusal("\xEF\xBB\xBF{}"), "");
  EXPECT_EQ(refusal("\xFF\xFE{\0}"), "x.json: is written in UTF-16; save it as UTF-8");
}

TEST(JsonText, TextThatIsNotUtf8IsRefusedWithItsLine) {
  EXPECT_EQ(refusal("{\n\"name\": \"Caf\xE9\"}"),
            "x.json: line 2: byte 0xE9 is not UTF-8 text; save the file as UTF-8");
  // Unicode 15 table 3-7: overlong, surrogate, beyond U+10FFFF, cut short.
  for (const char* wrong : {"\"\xC0\xAF\"", "\"\xE0\x80\xAF\"", "\"\xED\xA0\x80\"",
                            "\"\xF4\x90\x80\x80\"", "\"\xF0\x9F\x9A", "\"\x80\""}) {
    EXPECT_NE(refusal(wrong).find("is not UTF-8"), std::string::npos) << wrong;
  }
  EXPECT_EQ(refusal("\"\xF0\x9F\x9A\xA4 \xE2\x80\xB2 \xC3\xA9\""), "");
}

TEST(JsonText, ASyntaxErrorHasLineAndColumn) {
  EXPECT_EQ(refusal("{\n  \"a\": 1,\n}").substr(0, 42),
            "x.json: line 3: is not JSON at column 1: u");
  EXPECT_NE(refusal("{\"a\": NaN}"), "");
  EXPECT_NE(refusal("{\"a\": 1e999}"), "");
  EXPECT_NE(refusal("{\"a\": 1} 2"), "");
  EXPECT_NE(refusal("{\"a\": 'x'}"), "");
  EXPECT_NE(refusal("{\"a\": \"\x01\"}"), "");
  EXPECT_EQ(refusal(" \n"), "x.json: is empty");
}

TEST(JsonText, FoundNamesTheValue) {
  EXPECT_EQ(found(nlohmann::json::parse("4.5")), "the number 4.5");
  EXPECT_EQ(found(nlohmann::json::parse("\"a\\\"b\"")), R"(the text "a\"b")");
  EXPECT_EQ(found(nlohmann::json(std::string(59, 'a') + "\u00e9")),
            "the text \"" + std::string(59, 'a') + "...\"");
}

TEST(FileText, MissingFilesAndFoldersAreProblems) {
  EXPECT_EQ(in_words(read_file_text("/nowhere/x.json").error().front()),
            "/nowhere/x.json: there is no such file");
  EXPECT_EQ(in_words(read_file_text("/").error().front()), "/: is a folder, not a file");
  EXPECT_EQ(in_words(read_file_text("/dev/zero").error().front()),
            "/dev/zero: is larger than 8 MB, the most that is read");
}

}  // namespace
}  // namespace passage_brief
