// RFC 5545 (Internet Calendaring and Scheduling Core Object Specification, September 2009): section
// numbers stand beside the checks.

#include "page/calendar.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <memory>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "brief/copies.h"
#include "given/brief.h"

namespace passage_brief {
namespace {

using given::kLetter;

/// 3.1: "Lines of text SHOULD NOT be longer than 75 octets, excluding the line break"; unfolding
/// takes out each CRLF with the one blank after it.
std::string unfolded(std::string text) {
  for (std::size_t at = text.find("\r\n "); at != std::string::npos; at = text.find("\r\n ", at)) {
    text.erase(at, 3);
  }
  return text;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = text.find("\r\n", begin);
    EXPECT_NE(end, std::string::npos) << "a line without CRLF";
    if (end == std::string::npos) break;
    lines.push_back(text.substr(begin, end - begin));
    begin = end + 2;
  }
  return lines;
}

std::vector<std::string> values_of(const std::string& calendar, const std::string& name) {
  std::vector<std::string> values;
  for (const std::string& line : lines_of(unfolded(calendar))) {
    if (line.starts_with(name + ":")) values.push_back(line.substr(name.size() + 1));
  }
  return values;
}

std::string of_summary(const std::string& summary) {
  return calendar_of({{"one", given::estuary_time("2026-06-14T09:30"), std::nullopt, summary, ""}},
                     given::estuary_time("2026-06-14T07:10"));
}

/// 3.3.11: backslash, semicolon and comma are escaped, a line break is \n.
TEST(Calendar, EscapesText) {
  EXPECT_EQ(values_of(of_summary("a;b,c\\d\ne:f\"g\x07"), "SUMMARY").at(0), R"(a\;b\,c\\d\ne:f"g)");
}

/// 3.1, and no letter of UTF-8 is cut: every physical line by itself is whole UTF-8.
TEST(Calendar, FoldsAt75OctetsBetweenLetters) {
  for (int n = 0; n < 8; ++n) {
    std::string words(static_cast<std::size_t>(n), 'x');
    for (int i = 0; i < 60; ++i) words += "\u00e9\u20ac";
    const std::string calendar = of_summary(words);
    for (const std::string& line : lines_of(calendar)) {
      EXPECT_LE(line.size(), 75u);
      const std::string own = line.starts_with(' ') ? line.substr(1) : line;
      EXPECT_NE(static_cast<unsigned char>(own[0]) & 0xC0U, 0x80U) << "begins within a letter";
    }
    EXPECT_EQ(values_of(calendar, "SUMMARY").at(0), words);
  }
  const std::string exactly = of_summary(std::string(75 - 8, 'x'));  // "SUMMARY:" is 8
  EXPECT_EQ(exactly.find("\r\n "), std::string::npos);
  EXPECT_NE(of_summary(std::string(76 - 8, 'x')).find("\r\n "), std::string::npos);
}

/// 3.6 and 3.6.1: VERSION and PRODID once, in each event UID and DTSTAMP, no bare line ends.
TEST(Calendar, HasWhatAFileMustHave) {
  const std::string calendar = brief_as_calendar(given::brief(), kLetter);
  const std::vector<std::string> lines = lines_of(calendar);
  EXPECT_EQ(lines.front(), "BEGIN:VCALENDAR");
  EXPECT_EQ(lines.back(), "END:VCALENDAR");
  EXPECT_EQ(values_of(calendar, "VERSION"), std::vector<std::string>{"2.0"});
  EXPECT_EQ(values_of(calendar, "PRODID").size(), 1u);
  const std::size_t events = values_of(calendar, "DTSTART").size();
  EXPECT_EQ(values_of(calendar, "DTSTAMP").size(), events);
  const std::vector<std::string> uids = values_of(calendar, "UID");
  EXPECT_EQ(std::set<std::string>(uids.begin(), uids.end()).size(), events);
  for (const std::string& line : lines) EXPECT_EQ(line.find_first_of("\r\n"), std::string::npos);
}

/// Eastern daylight time is UTC - 4 h: departs 09:30, arrives 10:33, Oyster Cut 09:53, Mill Bridge
/// 10:21, void after 10:30, made 07:10 (given/brief.cpp).
TEST(Calendar, HoldsDepartureControllingTimesAndVoidAfter) {
  const std::string calendar = brief_as_calendar(given::brief(), kLetter);
  EXPECT_EQ(values_of(calendar, "DTSTART"),
            (std::vector<std::string>{"20260614T133000Z", "20260614T135300Z", "20260614T142100Z",
                                      "20260614T143000Z"}));
  EXPECT_EQ(values_of(calendar, "DTEND"), std::vector<std::string>{"20260614T143300Z"});
  for (const std::string& stamp : values_of(calendar, "DTSTAMP")) {
    EXPECT_EQ(stamp, "20260614T111000Z");
  }
}

/// Eastern daylight time is UTC - 4 h.
TEST(Calendar, HoldsTheLastTimeToAskForAnOpening) {
  Brief brief = given::brief();
  given::open_if_asked(brief.findings.bridges.front());
  const std::string calendar = brief_as_calendar(brief, kLetter);
  const auto begins = values_of(calendar, "DTSTART");
  EXPECT_NE(std::ranges::find(begins, "20260614T122100Z"), begins.end()) << calendar;
  EXPECT_TRUE(unfolded(calendar).contains("SUMMARY:Ask for the opening of Mill Bridge"));
  EXPECT_TRUE(unfolded(calendar).contains(
      "ask by 08:21 EDT on 555 0100\\, on signal alone not within 7 days"))
      << unfolded(calendar);
  WayBack back{std::chrono::hours(2), brief.findings.passage.departs, brief, Verdict::cautions};
  brief.back = std::make_shared<const WayBack>(std::move(back));
  const auto summaries = values_of(brief_as_calendar(brief, kLetter), "SUMMARY");
  for (const char* const asked :
       {"Ask for the opening of Mill Bridge", R"(Ask for the opening of Mill Bridge\, way back)"}) {
    EXPECT_EQ(std::ranges::count(summaries, std::string(asked)), 1) << asked;
  }
}

/// The least under the keel is on the way back, at 12:40 EDT, which is 16:40 UTC.
TEST(Calendar, TheLeastOfTheWayBackStandsAtItsOwnTime) {
  Brief brief = given::brief();
  WayBack back{std::chrono::hours(2), brief.findings.passage.departs, given::brief(),
               Verdict::cautions};
  back.brief->findings.depths.at(*back.brief->least_depth).passing.at =
      given::estuary_time("2026-06-14T12:40");
  back.has_least_depth = true;
  brief.back = std::make_shared<const WayBack>(std::move(back));
  EXPECT_EQ(values_of(brief_as_calendar(brief, kLetter), "DTSTART").at(1), "20260614T164000Z");
}

TEST(Calendar, HoldsTheWindowsRoundedInwardWithWhatShutsThem) {
  const std::string calendar =
      brief_as_calendar(given::brief_with_window(feet(1.2), feet(0.8)), kLetter);
  const auto begins = values_of(calendar, "DTSTART");
  EXPECT_NE(std::ranges::find(begins, "20260614T122000Z"), begins.end());  // 08:20 EDT
  const auto summaries = values_of(calendar, "SUMMARY");
  EXPECT_TRUE(std::ranges::any_of(summaries, [](const std::string& summary) {
    return summary.starts_with("May leave 08:20 to 10:40: ");
  }));
  const auto words = values_of(calendar, "DESCRIPTION");
  EXPECT_TRUE(std::ranges::any_of(words, [](const std::string& text) {
    return text.find("Mast too high: 1.2 ft over it.") != std::string::npos;
  }));
}

TEST(Calendar, AWindowPastTheForecastSaysSoInItsTitle) {
  Brief brief = given::brief_with_window(feet(1.2), feet(0.8));
  brief.windows.front().judged_on = JudgedOn::tide_and_light;
  const auto summaries = values_of(brief_as_calendar(brief, kLetter), "SUMMARY");
  EXPECT_TRUE(std::ranges::any_of(summaries, [](const std::string& summary) {
    return summary.starts_with("May leave 08:20 to 10:40 (tide and light only): ");
  }));
}

TEST(Calendar, SaysWhereAKeptCopyStandsIn) {
  Brief brief = given::brief();
  ASSERT_FALSE(brief.sources.empty());
  brief.sources.back().source.note = "kept copy issued at 2026-06-13T20:00:00Z";
  const auto words = values_of(brief_as_calendar(brief, kLetter), "DESCRIPTION");
  EXPECT_TRUE(words.at(0).find("kept copy issued at 2026-06-13T20:00:00Z") != std::string::npos);
}

TEST(Calendar, HoldsWindowsByThemselvesOrThatThereIsNone) {
  const Brief brief = given::brief_with_window(feet(1.2), feet(0.8));
  WindowList list{*brief.windows_in, brief.windows, std::nullopt};
  const auto calendar = [&] {
    return windows_as_calendar(list, "Sandpiper: out", brief.zone, Units::us, brief.made_at);
  };
  EXPECT_EQ(values_of(calendar(), "DTSTART"), std::vector<std::string>{"20260614T122000Z"});
  const auto uid = values_of(calendar(), "UID");
  list.windows.front().opens += std::chrono::minutes(4);  // a new forecast moves the edge
  EXPECT_EQ(values_of(calendar(), "UID"), uid);
  list.windows = brief.windows;
  EXPECT_EQ(values_of(calendar(), "SUMMARY"),
            std::vector<std::string>{"May leave 08:20 to 10:40: Sandpiper: out"});
  // 3.4: a calendar holds one component at least.
  list.windows.clear();
  list.none = NoWindow{{}, list.span.begin, std::nullopt, {}};
  EXPECT_EQ(values_of(calendar(), "SUMMARY"),
            std::vector<std::string>{"No window to leave: Sandpiper: out"});
}

TEST(Calendar, UidComesFromWhatTheBriefIsForAndNotFromWhenItIsMade) {
  Brief later = given::brief();
  later.made_at = given::estuary_time("2026-06-14T08:00");
  later.judgement.verdict = Verdict::outside_limits;
  const auto uids = [](const Brief& brief) {
    return values_of(brief_as_calendar(brief, kLetter), "UID");
  };
  EXPECT_EQ(uids(given::brief()), uids(later));
  Brief other = given::brief();
  other.findings.passage.departs = given::estuary_time("2026-06-14T09:31");
  EXPECT_NE(uids(given::brief()).at(0), uids(other).at(0));
  other = given::brief();
  other.vessel.name = "Sandpiper II";
  EXPECT_NE(uids(given::brief()).at(0), uids(other).at(0));
}

TEST(Calendar, SaysNotToLeaveWhereTheVerdictSaysSo) {
  Brief brief = given::brief();
  for (const Verdict verdict : {Verdict::outside_limits, Verdict::cannot_tell}) {
    brief.judgement.verdict = verdict;
    const auto summaries = values_of(brief_as_calendar(brief, kLetter), "SUMMARY");
    for (const std::string& summary : summaries) {
      EXPECT_TRUE(summary.starts_with("DO NOT LEAVE: ")) << summary;
    }
  }
}

/// Common practice, no source: an entry of a telephone is read by its title alone.
TEST(Calendar, AForecastTooOldAndAnExerciseStandInTheTitles) {
  Brief brief = given::brief_with_window(feet(1.2), feet(0.8));
  const Brief learner = copy_for(Copy::learner, brief);
  for (const std::string& summary : values_of(brief_as_calendar(learner, kLetter), "SUMMARY")) {
    EXPECT_TRUE(summary.starts_with("EXERCISE: ")) << summary;
  }
  brief.void_after = brief.findings.passage.departs - std::chrono::hours(1);
  const auto summaries = values_of(brief_as_calendar(brief, kLetter), "SUMMARY");
  EXPECT_TRUE(summaries.at(0).starts_with("DO NOT LEAVE: ")) << summaries.at(0);
  EXPECT_TRUE(summaries.at(1).starts_with("DO NOT LEAVE: ")) << summaries.at(1);
}

/// Departure is at 09:30, arrival at 10:33, and 10:30 between them (given/brief.cpp).
TEST(Calendar, WhoIsUnderWayIsNotToldToThrowTheBriefAway) {
  const std::string calendar = brief_as_calendar(given::brief(), kLetter);
  EXPECT_TRUE(values_of(calendar, "SUMMARY").back().starts_with("Too late to leave by the brief"));
  EXPECT_TRUE(values_of(calendar, "DESCRIPTION").back().starts_with("Not left yet: "));
}

// Found 2026-11-26: "too late to leave" after the window had shut: 10:43, printed 10:40; the zone
// is 4 h behind UTC.
TEST(Calendar, TooLateToLeaveIsNoLaterThanTheWindowAsPrinted) {
  Brief brief = given::brief_with_window(feet(1.2), feet(0.8));
  brief.void_after = given::estuary_time("2026-06-14T10:43");
  EXPECT_EQ(values_of(brief_as_calendar(brief, kLetter), "DTSTART").back(), "20260614T144000Z");
}

/// Nor is there a time up to which she might; what an earlier brief said of it goes.
TEST(Calendar, ABriefNotToLeaveByIsNeverTooLate) {
  Brief brief = given::brief();
  const std::string before = values_of(brief_as_calendar(brief, kLetter), "UID").back();
  brief.judgement.verdict = Verdict::outside_limits;
  brief.void_after = not_known("the verdict is not to leave at all");
  const std::string calendar = brief_as_calendar(brief, kLetter);
  EXPECT_FALSE(calendar.contains("Too late"));
  EXPECT_EQ(values_of(calendar, "UID").back(), before);
  EXPECT_EQ(values_of(calendar, "DTSTART").back(), values_of(calendar, "DTSTART").front());
}

TEST(Calendar, WhatHasNoTimeHasNoEntry) {
  Brief brief = given::brief();
  brief.findings.depths.at(3).passing.at = not_known("the boat must wait for a bridge first");
  brief.findings.passage.arrives = not_known("the boat must wait for a bridge first");
  brief.void_after = not_known("no forecast is dated");
  const std::string calendar = brief_as_calendar(brief, kLetter);
  EXPECT_EQ(values_of(calendar, "DTSTART").size(), 2u);  // departure and bridge
  EXPECT_TRUE(values_of(calendar, "DTEND").empty());
}

}  // namespace
}  // namespace passage_brief
