#include "page/sheet.h"

#include <gtest/gtest.h>

#include <string>

#include "given/brief.h"
#include "given/pdf_text.h"
#include "page/html.h"
#include "page/pdf.h"
#include "page/text.h"

namespace passage_brief {
namespace {

using given::kLetter;

// Found 2026-11-26: the page named the edition and not what that builds on, so that two pages made
// under other limits read alike; and a limit that an edition lifts was told nowhere.
TEST(Sheet, NamesTheRulesTheirBaseAndTheLimitsTheyChange) {
  Brief brief = given::brief();
  const std::string changes = "They change limits they build on";
  const std::string rules = "by the rules renters 2026-05 on small craft 2026-05.";
  const std::string before = given::with_single_blanks(brief_as_text(brief, kLetter));
  EXPECT_NE(before.find(rules), std::string::npos) << before;
  EXPECT_EQ(before.find(changes), std::string::npos) << before;
  brief.limits_changed = {"fog (lifted for passage)", "aground (stated anew)"};
  const std::string said =
      rules + " " + changes + ": fog (lifted for passage); aground (stated anew).";
  for (const std::string& page : {brief_as_text(brief, kLetter), brief_as_html(brief, kLetter),
                                  given::pages_of_pdf(brief_as_pdf(brief, kLetter)).front()}) {
    EXPECT_NE(given::with_single_blanks(page).find(said), std::string::npos) << page;
  }
}

}  // namespace
}  // namespace passage_brief
