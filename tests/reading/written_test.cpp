#include "reading/written.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "reading/table.h"

namespace passage_brief {
namespace {

TEST(Written, KeepsEveryKindOfValueAndWhatWasFound) {
  const auto read = read_json("x.json", R"({"a": [1.5, "two", true, null, {}], "b": -3})",
                              "the file", object_as_written("an object", "{}"));
  ASSERT_TRUE(read);
  const auto& members = *read->as<Written::Members>();
  ASSERT_EQ(members.size(), 2U);
  EXPECT_EQ(members[0].name, "a");
  const auto& list = *members[0].value.as<Written::List>();
  ASSERT_EQ(list.size(), 5U);
  EXPECT_EQ(*list[0].as<double>(), 1.5);
  EXPECT_EQ(*list[1].as<std::string>(), "two");
  EXPECT_EQ(*list[2].as<bool>(), true);
  EXPECT_NE(list[3].as<std::nullptr_t>(), nullptr);
  EXPECT_TRUE(list[4].as<Written::Members>()->empty());
  EXPECT_EQ(list[1].as<double>(), nullptr);
  EXPECT_EQ(members[1].value.found, "the number -3");
}

TEST(Written, OnlyAnObjectIsTaken) {
  const auto read = read_json("x.json", "[1]", "the file", object_as_written("a test", "{}"));
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().at(0).words, "found a list; expected a test");
}

TEST(Written, TextAtTheTopIsHadFromAFileThatIsWrongElsewhere) {
  const auto name_in = [](const char* text) {
    const auto texts = texts_at_top("x.json", text);
    return texts ? text_of(*texts, "name") : std::optional<std::string>("not JSON");
  };
  EXPECT_EQ(name_in(R"({"name": "x", "unheard of": 1})"), "x");
  EXPECT_EQ(name_in(R"({"name": 1})"), std::nullopt);
  EXPECT_EQ(name_in(R"(["name"])"), std::nullopt);
  EXPECT_EQ(name_in(R"({"name": "x")"), "not JSON");
}

TEST(OneOrMore, TakesAValueByItselfOrAList) {
  const auto read = [](const char* json) {
    return read_json("x.json", json, "the file", one_or_more(text(10), 2));
  };
  EXPECT_EQ(read(R"("a")").value(), std::vector<std::string>{"a"});
  EXPECT_EQ(read(R"(["a", "b"])").value(), (std::vector<std::string>{"a", "b"}));
  EXPECT_FALSE(read("[]"));
  EXPECT_FALSE(read(R"(["a", "b", "c"])"));
  EXPECT_FALSE(read("3"));
}

}  // namespace
}  // namespace passage_brief
