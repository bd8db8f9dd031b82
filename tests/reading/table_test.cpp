#include "reading/table.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "reading/describe_table.h"
#include "reading/form.h"
#include "units/check.h"

namespace passage_brief {
namespace {

enum class Cargo { none, sand };

/// A small invented kind of file with one field of each need.
struct Barge {
  std::string name;
  Length draft;
  std::optional<Length> boom;
  Known<Speed> tow;
  std::vector<Cargo> cargo;
  bool operator==(const Barge&) const = default;
};

Form<Barge> barge() {
  return object<Barge>(
      "barge",
      {always("kind", "barge"), must_be_given("name", text(20), "Its name.", "\"Plover\""),
       must_be_given("draft", length("1 ft", "20 ft"), "Deepest point.", "\"4 ft\""),
       may_be_left_out("boom", length("0 m", "50 m"), "Longest reach.", "\"12 m\""),
       may_be_unknown("tow", speed("0 kn", "10 kn"), "Fastest tow.", "\"3 kn\""),
       may_be_left_out("cargo",
                       list_of(choice<Cargo>({{"none", Cargo::none}, {"sand", Cargo::sand}}), 1, 3),
                       "What it carries.", "[\"sand\"]")},
      [](const Row& row) {
        const std::string name = row.get<std::string>("name");
        return Barge{.name = name,
                     .draft = row.get<Length>("draft"),
                     .boom = row.maybe<Length>("boom"),
                     .tow = row.known<Speed>("tow", name),
                     .cargo = row.get_or<std::vector<Cargo>>("cargo", {})};
      },
      {[](const Row& row) {
        const auto draft = row.maybe<Length>("draft");
        const auto boom = row.maybe<Length>("boom");
        if (draft && boom && *boom < *draft) row.refuse("boom", "is shorter than the draft");
      }});
}

std::expected<Barge, Problems> read_barge(std::string_view text) {
  return read_json("barge.json", text, "the barge file", barge());
}

std::string problems_in(std::string_view text) {
  const auto barge_read = read_barge(text);
  if (barge_read) return "";
  std::string all;
  for (const Problem& problem : barge_read.error()) all += in_words(problem) + "\n";
  return all;
}

TEST(Table, ReadsARightObject) {
  const auto whole = read_barge(
      R"({"kind":"barge","name":"Plover","draft":"4 ft","boom":"12 m","tow":"3 kn","cargo":["sand"]})");
  ASSERT_TRUE(whole);
  EXPECT_EQ(*whole, (Barge{"Plover", feet(4), metres(12), knots(3), {Cargo::sand}}));
}

TEST(Table, NullAndLeftOutAreNotKnownWithAReason) {
  for (const char* tow : {"", R"(,"tow":null)"}) {
    const auto barge_read =
        read_barge(std::string(R"({"kind":"barge","name":"Plover","draft":"4 ft")") + tow + "}");
    ASSERT_TRUE(barge_read);
    ASSERT_FALSE(barge_read->tow);
    EXPECT_EQ(in_words(barge_read->tow.error()), "the barge file gives no tow for Plover");
  }
}

TEST(Table, NullIsRefusedWhereLeavingOutHasAMeaning) {
  EXPECT_EQ(
      problems_in(R"({"kind":"barge","name":"Plover","draft":"4 ft","boom":null})"),
      "barge.json: /boom: found null; leave the key out, or write a length with its unit, 0 m "
      "to 50 m, for example \"12 m\"\n");
}

TEST(Table, ReportsEveryProblemAtOnce) {
  EXPECT_EQ(
      problems_in(R"({"kind":"boat","draft":4,"boon":"1 m","cargo":["sand","snad",7]})"),
      "barge.json: /kind: found the text \"boat\"; expected \"barge\"\n"
      "barge.json: the key \"name\" is missing; write a text, for example \"Plover\"\n"
      "barge.json: /draft: found the number 4; expected a length with its unit, 1 ft to 20 ft, "
      "for example \"4 ft\"\n"
      "barge.json: /cargo/1: found the text \"snad\"; expected \"none\" or \"sand\"; did you "
      "mean \"sand\"?\n"
      "barge.json: /cargo/2: found the number 7; expected \"none\" or \"sand\"\n"
      "barge.json: /boon: the key \"boon\" is not known here; did you mean \"boom\"?\n");
}

TEST(Table, ChecksAcrossFieldsRunBesideOtherProblems) {
  EXPECT_EQ(problems_in(R"({"kind":"barge","draft":"4 m","boom":"3 m"})"),
            "barge.json: the key \"name\" is missing; write a text, for example \"Plover\"\n"
            "barge.json: /boom: is shorter than the draft\n");
}

TEST(Table, LimitsHoldOnBothSides) {
  const auto with_draft = [](const std::string& draft) {
    return problems_in(R"({"kind":"barge","name":"Plover","draft":")" + draft + "\"}");
  };
  EXPECT_EQ(with_draft("1 ft"), "");
  EXPECT_EQ(with_draft("20 ft"), "");
  EXPECT_NE(with_draft("0.99 ft").find("less than 1 ft"), std::string::npos);
  EXPECT_NE(with_draft("20.01 ft").find("more than 20 ft"), std::string::npos);
}

TEST(Table, SomethingElseThanAnObjectIsRefused) {
  EXPECT_EQ(problems_in("[]"), "barge.json: found a list; expected an object: barge\n");
}

TEST(Table, AFieldNobodyUsesIsABrokenPromise) {
  const auto forgetful = object<int>(
      "forgetful", {must_be_given("draft", length("1 ft", "20 ft"), "Deepest.", "\"4 ft\"")},
      [](const Row&) { return 1; });
  EXPECT_THROW((void)read_json("x.json", R"({"draft":"4 ft"})", "the file", forgetful),
               BrokenPromise);
}

TEST(Table, AskingForAnotherTypeOrNameIsABrokenPromise) {
  const std::vector<Field> fields{
      must_be_given("draft", length("1 ft", "20 ft"), "Deepest.", "\"4 ft\"")};
  const auto wrong_type =
      object<Speed>("wrong", fields, [](const Row& row) { return row.get<Speed>("draft"); });
  EXPECT_THROW((void)read_json("x.json", R"({"draft":"4 ft"})", "the file", wrong_type),
               BrokenPromise);
  const auto wrong_name =
      object<Length>("wrong", fields, [](const Row& row) { return row.get<Length>("drift"); });
  EXPECT_THROW((void)read_json("x.json", R"({"draft":"4 ft"})", "the file", wrong_name),
               BrokenPromise);
}

TEST(Table, EveryExampleIsTakenByItsOwnField) {
  EXPECT_TRUE(problems_of_examples(barge().inside).empty());
}

TEST(Table, ManyProblemsEndWithOneLine) {
  std::string many = "[";
  for (int i = 0; i < 300; ++i) many += i == 0 ? "1" : ",1";
  const auto lengths = list_of(length("0 m", "1 m"), 0, 1000);
  const auto list = read_json("x.json", many + "]", "the file", lengths);
  ASSERT_FALSE(list);
  EXPECT_EQ(list.error().size(), Ledger::kMostProblems + 1);
}

TEST(Table, RowsOfFixedLength) {
  const auto rows = list_of(row_of(text(8), number(0, 100), number(0, 360)), 1, 40);
  const auto right = read_json("x.json", R"([["M2",0.576,208.2]])", "the file", rows);
  ASSERT_TRUE(right);
  EXPECT_EQ(right->front(), std::make_tuple(std::string("M2"), 0.576, 208.2));
  const auto wrong = read_json("x.json", R"([["M2",0.576],["S2",-1,361]])", "the file", rows);
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.error().size(), 3U);
  EXPECT_EQ(wrong.error()[1].place, "/1/1");
}

TEST(Table, KindsAreToldApartByTheirTag) {
  const auto kind = [](const char* word, int value) {
    return std::pair<std::string, Form<int>>(
        word, object<int>(word, {always("what", word)}, [value](const Row&) { return value; }));
  };
  const auto kinds = one_of_kinds<int>("what", {kind("reach", 1), kind("bar", 2)});
  EXPECT_EQ(read_json("x.json", R"({"what":"bar"})", "the file", kinds).value(), 2);
  const auto wrong = read_json("x.json", R"({"what":"baar"})", "the file", kinds);
  ASSERT_FALSE(wrong);
  EXPECT_EQ(in_words(wrong.error().front()),
            "x.json: /what: found the text \"baar\"; expected \"reach\" or \"bar\"; did you mean "
            "\"bar\"?");
  EXPECT_FALSE(read_json("x.json", "{}", "the file", kinds));
}

TEST(Place, WritesJsonPointers) {
  Ledger ledger("x.json", "the file");
  const Place root(ledger);
  const Place list = root.inside("a/b~c");
  EXPECT_EQ(list.inside(3).pointer(), "/a~1b~0c/3");
}

TEST(Table, NamedNumbersStateTheirUnitAndMayBeNull) {
  const auto numbers = named_numbers(choice<double>({{"m", 1.0}, {"ft", 0.3048}}), -100, 100);
  const auto whole =
      read_json("planes.json", R"({"unit": "ft", "MSL": 3, "MHW": null})", "the file", numbers);
  ASSERT_TRUE(whole);
  EXPECT_EQ(whole->unit, 0.3048);
  EXPECT_EQ(whole->values, (std::vector<std::pair<std::string, std::optional<double>>>{
                               {"MHW", std::nullopt}, {"MSL", 3.0}}));

  const auto bad =
      read_json("planes.json", R"({"unit": "yd", "MSL": "3 ft"})", "the file", numbers);
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error().size(), 2u);
  const auto bare = read_json("planes.json", R"({"MSL": 3})", "the file", numbers);
  ASSERT_FALSE(bare);
  EXPECT_NE(bare.error().front().words.find("\"unit\" is missing"), std::string::npos);
}

}  // namespace
}  // namespace passage_brief
