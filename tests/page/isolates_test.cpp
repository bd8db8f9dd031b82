// Against FriBidi, the reference implementation of Unicode Standard Annex 9: what stands left to
// right in the file stands so on the page, whatever script the names are in.

#include "page/isolates.h"

#include <fribidi.h>
#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <vector>

#include "given/brief.h"
#include "page/calendar.h"
#include "page/html.h"
#include "page/text.h"

namespace passage_brief {
namespace {

const std::string kHebrew = "גשר הרכבת";
const std::string kArabic = "جسر النهر";

/// A line from left to right as it is shown, less the names and what shows nothing.
std::string shown(const std::string& line) {
  std::vector<FriBidiChar> letters(line.size());
  const auto count =
      fribidi_charset_to_unicode(FRIBIDI_CHAR_SET_UTF8, line.data(),
                                 static_cast<FriBidiStrIndex>(line.size()), letters.data());
  letters.resize(static_cast<std::size_t>(count));
  std::vector<FriBidiChar> seen(letters.size() + 1);
  FriBidiParType from_the_left = FRIBIDI_PAR_LTR;
  EXPECT_NE(fribidi_log2vis(letters.data(), count, &from_the_left, seen.data(), nullptr, nullptr,
                            nullptr),
            0);
  std::string plain;
  for (int i = 0; i < count; ++i) {
    const FriBidiChar letter = seen[static_cast<std::size_t>(i)];
    if (letter > ' ' && letter < 0x7F) plain += static_cast<char>(letter);
  }
  return plain;
}

std::string without_names(const std::string& line) {
  std::string plain;
  for (const char letter : line) {
    if (letter > ' ' && letter < 0x7F) plain += letter;
  }
  return plain;
}

void expect_as_written(const std::string& page) {
  std::istringstream lines(page);
  int named = 0;
  for (std::string line; std::getline(lines, line);) {
    EXPECT_EQ(shown(line), without_names(line)) << line;
    if (line.find("\xE2\x81\xA8") != std::string::npos) ++named;
  }
  EXPECT_GT(named, 0);
}

Brief brief_with_names(const std::string& name) {
  Brief brief = given::brief();
  for (Depth& depth : brief.findings.depths) depth.name = name;
  for (BridgeFinding& bridge : brief.findings.bridges) bridge.name = name;
  return brief;
}

constexpr PageChoice kMetric{Units::metric, Paper::a4};

TEST(Isolates, WithoutThemFiguresChangePlaces) {
  const std::string line = kHebrew + " 10:05 3.1 ft";
  EXPECT_NE(shown(line), without_names(line)) << "nothing to guard against";
  EXPECT_EQ(shown(with_isolates(line)), without_names(line));
}

TEST(Isolates, KeepFiguresBetweenTwoNames) {
  for (const std::string& line :
       {"10:05 " + kArabic + ", 3.1 ft; 10:20 " + kHebrew + " 54 ft", kHebrew + " 2 " + kArabic,
        kArabic + ": 3.1 (" + kHebrew + ") -0.5"}) {
    EXPECT_EQ(shown(with_isolates(line)), without_names(line)) << line;
  }
}

TEST(Isolates, StandRoundOneNameOfSeveralWords) {
  EXPECT_EQ(with_isolates("under " + kHebrew + " now"),
            "under \xE2\x81\xA8גשר\xC2\xA0הרכבת\xE2\x81\xA9 now");
}

TEST(Isolates, LeaveOtherTextAlone) {
  for (const std::string& text :
       {std::string("Oyster bar 10:05, 3.1 ft"), std::string("Čertův most \xE2\x80\x93 5°"),
        std::string("川の橋 10:05"), std::string()}) {
    EXPECT_EQ(with_isolates(text), text);
  }
}

TEST(Isolates, OfTheTextPage) {
  expect_as_written(brief_as_text(brief_with_names(kHebrew), kMetric));
  expect_as_written(brief_as_text(brief_with_names(kArabic), kMetric));
}

TEST(Isolates, OfThePhonePage) {
  expect_as_written(brief_as_html(brief_with_names(kArabic), kMetric));
}

TEST(Isolates, OfTheCalendar) {
  // Its long lines are folded; a reader unfolds them first (RFC 5545, 3.1).
  std::string calendar = brief_as_calendar(brief_with_names(kHebrew), kMetric);
  for (std::size_t at = 0; (at = calendar.find("\r\n ")) != std::string::npos;)
    calendar.erase(at, 3);
  expect_as_written(calendar);
}

}  // namespace
}  // namespace passage_brief
