#include "page/html.h"

#include <gtest/gtest.h>

#include <chrono>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>

#include "given/brief.h"
#include "page/filled_template.h"
#include "page/sheet.h"
#include "page/svg.h"

namespace passage_brief {
namespace {

using given::kLetter;

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}

TEST(Html, HoldsEveryPieceOfTheSheetAndTheDrawingsWords) {
  for (const Brief& brief : {given::brief(), given::crowded_brief()}) {
    const std::string page = brief_as_html(brief, kLetter);
    for (const Block& block : make_sheet(brief, kLetter).blocks) {
      for (const std::string& piece : printed_pieces(block)) {
        EXPECT_TRUE(page.contains(escaped(piece)) || page.contains(escaped(capitalised(piece))))
            << piece;
      }
      EXPECT_TRUE(page.contains(escaped(block.instead))) << block.instead;
    }
    EXPECT_EQ(count_of(page, "<svg "), 2u);
  }
}

// Found 2026-11-26: the judgement of the way back stood under "Not checked".
TEST(Html, TheWayBackHasAHeadingOfItsOwnBeforeWhatIsNotChecked) {
  Brief brief = given::brief();
  Brief there = given::brief();
  there.judgement.cautions = {given::caution(Grade::danger, "The bar breaks.")};
  brief.back = std::make_shared<const WayBack>(WayBack{
      std::chrono::hours(2), there.findings.passage.departs, there, Verdict::outside_limits});
  const std::string page = brief_as_html(brief, kLetter);
  const std::size_t heading = page.find("<h2>Way back</h2>");
  const std::size_t said = page.find("The bar breaks.");
  const std::size_t not_checked = page.find("<h2>Not checked</h2>");
  ASSERT_NE(not_checked, std::string::npos);
  EXPECT_LT(page.find("<h2>Cautions"), heading);
  EXPECT_LT(heading, said);
  EXPECT_LT(said, not_checked);
  brief.judgement.not_checked.clear();
  EXPECT_FALSE(brief_as_html(brief, kLetter).contains("<h2>Not checked</h2>"));
  EXPECT_FALSE(brief_as_html(given::brief(), kLetter).contains("<h2>Way back</h2>"));
}

TEST(Html, StandsAlone) {
  const std::string page = brief_as_html(given::brief(), kLetter);
  for (const char* const outside :
       {"<script", "src=", "href=", "@import", "url(http", "url(//", "<link", "javascript:"}) {
    EXPECT_FALSE(page.contains(outside)) << outside;
  }
  EXPECT_EQ(page, brief_as_html(given::brief(), kLetter));
}

/// Whatever a file calls things, the page's own marks are its only ones.
TEST(Html, HostileNamesAreText) {
  const std::string hostile =
      R"(</title><script>alert("1")</script>{{verdict}}&amp;'<img onerror=x>)";
  Brief brief = given::brief();
  brief.vessel.name = hostile;
  brief.route = hostile;
  brief.waterway = hostile;
  brief.rules = hostile;
  brief.notes = {hostile};
  brief.findings.legs.at(0).to = hostile;
  brief.findings.depths.at(3).name = hostile;
  brief.findings.bridges.at(0).name = hostile;
  brief.findings.marks.at(0).name = hostile;
  brief.findings.dangers.at(0).name = hostile;
  brief.tide_curve->station = hostile;
  brief.judgement.cautions.push_back(given::caution(Grade::caution, hostile));
  const std::string page = brief_as_html(brief, kLetter);
  EXPECT_FALSE(page.contains("<script"));
  EXPECT_FALSE(page.contains("<img"));
  EXPECT_EQ(count_of(page, "</title>"), 3u);  // of the page and of its two drawings
  EXPECT_GE(count_of(page, escaped(hostile)), 10u);
}

TEST(Escaped, LeavesNoMarkAndNoControlCharacter) {
  EXPECT_EQ(escaped("a<b>&\"c'\x01\x1f\n"), "a&lt;b&gt;&amp;&quot;c&#39;\n");
}

// ---- templates ----

using Values = nlohmann::ordered_json;

std::string refusal(const std::string& text, const Values& values) {
  try {
    (void)filled_template(text, values, {"name", "list", "hidden"});
  } catch (const TemplateRefused& refused) {
    return refused.what();
  }
  return "";
}

TEST(FilledTemplate, FillsTextsListsAndWhatIsLeftOut) {
  const Values values = {
      {"name", "a<b"}, {"list", {{{"name", "1"}}, {{"name", "2"}}}}, {"hidden", false}};
  EXPECT_EQ(filled_template("{{name}} {{{name}}}{{#list}} {{name}}{{/list}}{{#hidden}}x{{/hidden}}"
                            "{{^hidden}} y{{/hidden}}{{! a remark }}",
                            values, {"name", "list", "hidden"}),
            "a&lt;b a<b 1 2 y");
}

TEST(FilledTemplate, ANameThePageLacksIsAnErrorEvenWhereItIsNotReached) {
  const Values values = {{"name", "x"}, {"list", Values::array()}, {"hidden", false}};
  EXPECT_NE(refusal("{{nmae}}", values), "");
  EXPECT_NE(refusal("{{#hidden}}{{nmae}}{{/hidden}}", values), "");
  EXPECT_NE(refusal("{{#list}}{{{nmae}}}{{/list}}", values), "");
  EXPECT_NE(refusal("{{^nmae}}{{/nmae}}", values), "");
  EXPECT_EQ(refusal("{{ name }}", values), "");
  // One the page may have, but not here.
  EXPECT_NE(refusal("{{name}}", Values{{"list", Values::array()}}), "");
}

TEST(FilledTemplate, WhatIsNoTemplateIsRefused) {
  const Values values = {{"name", "x"}, {"list", Values::array()}, {"hidden", false}};
  for (const char* const wrong :
       {"{{name", "{{#list}}", "{{/list}}", "{{#list}}{{/hidden}}", "{{>name}}", "{{=<% %>=}}"}) {
    EXPECT_NE(refusal(wrong, values), "") << wrong;
  }
}

TEST(FilledTemplate, AFileThatIsNotThereIsSaid) {
  EXPECT_THROW((void)template_text("no_such.html"), TemplateRefused);
}

}  // namespace
}  // namespace passage_brief
