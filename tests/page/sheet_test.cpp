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
  const std::string changes = "They change what they build on";
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

// Found 2026-11-26: a visibility of 150 m read "0.0 nm" beside a caution of 490 ft. 150 / 0.3048 =
// 492.1 ft.
TEST(Sheet, FogIsToldInTheUnitOfItsCaution) {
  Brief brief = given::brief();
  brief.findings.passage.visibility = metres(150);
  const std::string text = given::with_single_blanks(brief_as_text(brief, kLetter));
  EXPECT_TRUE(text.contains("visibility 490 ft")) << text;
  brief.findings.passage.visibility = nautical_miles(8);
  EXPECT_TRUE(given::with_single_blanks(brief_as_text(brief, kLetter)).contains("8.0 nm"));
}

// Common practice, no source: calm comes from nowhere, the wind at the other end does not.
TEST(Sheet, AWindFromCalmOrToCalmHasItsBearing) {
  Brief calm_first = given::brief();
  calm_first.findings.legs.front().wind->speed = knots(0);
  Brief calm_last = given::brief();
  calm_last.findings.legs.back().wind->speed = knots(0);
  EXPECT_TRUE(given::with_single_blanks(brief_as_text(calm_first, kLetter))
                  .contains("Wind calm at first, from 215 T at the end, up to 16 kn"));
  EXPECT_TRUE(given::with_single_blanks(brief_as_text(calm_last, kLetter))
                  .contains("Wind from 215 T at first, calm at the end, up to 16 kn"));
}

// Common practice, no source: an anchor of which too little rode is out yet holds nothing.
TEST(Sheet, ARodeLongEnoughIsNoPromiseToHold) {
  Brief brief = given::brief();
  for (Danger& danger : brief.findings.dangers) danger.anchor_would_hold = true;
  brief.findings.dangers.front().distance = metres(0);
  brief.findings.dangers.front().reached_in = Interval(0);
  const std::string text = given::with_single_blanks(brief_as_text(brief, kLetter));
  EXPECT_TRUE(text.contains("long enough off every danger named, given room to bite")) << text;
  EXPECT_FALSE(text.contains("would hold")) << text;
}

// Found 2026-11-26: "Wreck to starboard, 0 m, 0 s" was said of one she passes over.
TEST(Sheet, ADangerInTheCorridorLiesInOrBesideTheWay) {
  Brief brief = given::brief();
  brief.findings.dangers.front().distance = metres(0);
  brief.findings.dangers.front().reached_in = Interval(0);
  const std::string text = given::with_single_blanks(brief_as_text(brief, kLetter));
  EXPECT_TRUE(text.contains("marina pilings to port, in or beside the way")) << text;
}

// Found 2026-11-26: the head said "because reason A", and what that is stood on the next page; then
// the list named a letter whose words stood in the head's small print alone.
TEST(Sheet, TheHeadSaysAReasonInFullAndTheRestRefersToIt) {
  Brief brief = given::brief();
  const std::string why = "the tide station file of Reedmouth holds no heights";
  brief.findings.passage.arrives = not_known(why);
  brief.void_after = not_known(why);
  brief.findings.depths.front().under_keel = not_known(why);
  const std::string text = given::with_single_blanks(brief_as_text(brief, kLetter));
  const std::size_t said = text.find(why + " (reason A)");
  EXPECT_LT(said, text.find("IN ORDER OF PASSING")) << text;
  EXPECT_GT(text.find("not known: reason A"), said) << text;
  EXPECT_TRUE(text.contains("Reason A: " + why + ".")) << text;
}

}  // namespace
}  // namespace passage_brief
