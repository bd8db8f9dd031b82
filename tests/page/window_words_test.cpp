#include "page/window_words.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <iterator>
#include <string>
#include <utility>

#include "given/brief.h"
#include "page/calendar.h"
#include "page/text.h"

namespace passage_brief {
namespace {

using given::kLetter;

/// Rounded inward to five minutes, so that no departure printed is one that was not judged good.
TEST(WindowWords, TheBestMinuteIsNeverOutsideThePrintedWindow) {
  Window window = given::brief_with_window(feet(1.2), feet(0.8)).windows.front();  // 08:17 to 10:43
  const Clock24 clock(*Zone::named("America/New_York"), window.opens);
  ASSERT_EQ(window_times(window, clock), "08:20 to 10:40");
  window.best = window.opens;
  EXPECT_EQ(best_time(window, clock), "as it opens");
  window.best = window.closes;
  EXPECT_EQ(best_time(window, clock), "as it shuts");
  window.best = window.opens + std::chrono::minutes(3);
  EXPECT_EQ(best_time(window, clock), "at 08:20");
}

/// Nothing is said of a day that was not looked over.
TEST(WindowWords, NoWindowIsSaidOfTheSpanLookedOver) {
  Brief brief = given::brief_with_window(feet(1.2), feet(0.8));
  brief.window.reset();
  brief.windows.clear();
  for (const auto& [until, words] :
       {std::pair{"2026-06-14T23:59", "no window up to 23:59 EDT"},
        std::pair{"2026-06-15T23:59", "no window up to Mon 23:59 EDT"}}) {
    brief.windows_in->end = given::estuary_time(until);
    std::string text = brief_as_text(brief, kLetter);
    std::ranges::replace(text, '\n', ' ');
    std::string one_line;
    std::ranges::unique_copy(text, std::back_inserter(one_line),
                             [](char a, char b) { return a == ' ' && b == ' '; });
    EXPECT_NE(one_line.find(words), std::string::npos) << text;
  }
}

/// Found 2026-11-26: "01:35 to 07:15 EST EDT". Clocks go back on 1 November 2026 at 02:00 EDT: the
/// quarter to two comes twice.
TEST(WindowWords, OverTheNightClocksGoBackBothEndsSayTheirZone) {
  Window window = given::brief_with_window(feet(1.2), feet(0.8)).windows.front();
  window.opens = parse_instant("2026-11-01T01:35:00-04:00").value();
  window.closes = parse_instant("2026-11-01T07:15:00-05:00").value();
  window.best = window.opens;
  const Zone zone = *Zone::named("America/New_York");
  EXPECT_EQ(window_times(window, Clock24(zone, window.opens)), "01:35 EDT to 07:15 EST");
  const WindowList list{.span = {window.opens, window.closes}, .windows = {window}, .none = {}};
  const std::string text = windows_as_text(list, zone, Units::us);
  EXPECT_NE(text.find("Sunday 1 November 2026: 01:35 EDT to 07:15 EST, judged on"),
            std::string::npos)
      << text;
  EXPECT_EQ(text.find("ring the base"), std::string::npos);
  WindowList warned = list;
  warned.warnings = {{"gale", Grade::warning, {"Gale warning."}, {}, "", false}};
  EXPECT_NE(windows_as_text(warned, zone, Units::us)
                .find("\nWarning: Gale warning.\nNo time to leave heeds them: ring the base.\n"),
            std::string::npos);
  EXPECT_NE(windows_as_calendar(warned, "out", zone, Units::us, window.opens)
                .find("Warning: Gale warning."),
            std::string::npos);
  window.opens = parse_instant("2026-11-01T01:35:00-05:00").value();
  EXPECT_EQ(window_times(window, Clock24(zone, window.opens)), "01:35 to 07:15");
}

}  // namespace
}  // namespace passage_brief
