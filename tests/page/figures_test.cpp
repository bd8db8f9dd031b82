// Expected figures: hand arithmetic beside each check. Unit sizes by definition: 1 ft = 0.3048 m.
#include "page/figures.h"

#include <gtest/gtest.h>

#include <chrono>
#include <limits>
#include <numeric>
#include <vector>

#include "units/check.h"

namespace passage_brief {
namespace {

using std::chrono::hours;
using std::chrono::milliseconds;
using std::chrono::minutes;
using std::chrono::seconds;

TEST(Rounded, TowardTheWayGiven) {
  EXPECT_EQ(rounded(2.39, 1, Rounding::down), "2.3");
  EXPECT_EQ(rounded(2.31, 1, Rounding::up), "2.4");
  EXPECT_EQ(rounded(2.34, 1, Rounding::nearest), "2.3");
  EXPECT_EQ(rounded(2.35, 1, Rounding::nearest), "2.4");
  EXPECT_EQ(rounded(17, -1, Rounding::down), "10");
  EXPECT_EQ(rounded(17, -1, Rounding::up), "20");
  EXPECT_EQ(rounded(0.12345, 4, Rounding::down), "0.1234");
}

TEST(Rounded, BelowZeroDownIsFurtherFromZero) {
  EXPECT_EQ(rounded(-0.31, 1, Rounding::down), "-0.4");
  EXPECT_EQ(rounded(-0.39, 1, Rounding::up), "-0.3");
  EXPECT_EQ(rounded(-0.31, 1, Rounding::nearest), "-0.3");
}

TEST(Rounded, NeverPrintsMinusZero) {
  EXPECT_EQ(rounded(-0.04, 1, Rounding::nearest), "0.0");
  EXPECT_EQ(rounded(-0.04, 1, Rounding::up), "0.0");
  EXPECT_EQ(rounded(-1e-9, 1, Rounding::down), "0.0");
}

TEST(Rounded, SnapsToAMillionthFirst) {
  EXPECT_EQ(rounded(3.9999999, 1, Rounding::down), "4.0");  // 1e-7 short: the snap takes it
  EXPECT_EQ(rounded(3.999999, 1, Rounding::down), "3.9");   // 1e-6 short: a real difference
  EXPECT_EQ(rounded(4.0000001, 1, Rounding::up), "4.0");
  EXPECT_EQ(rounded(4.000001, 1, Rounding::up), "4.1");
}

TEST(Rounded, RefusesWhatIsNoNumber) {
  EXPECT_THROW((void)rounded(std::numeric_limits<double>::quiet_NaN(), 1, Rounding::down),
               BrokenPromise);
  EXPECT_THROW((void)rounded(std::numeric_limits<double>::infinity(), 1, Rounding::down),
               BrokenPromise);
}

// Every tenth of a foot to 100 ft goes through metres and back without losing its last digit.
TEST(DepthText, EveryTenthOfAFootPrintsAsItself) {
  for (int tenths = -300; tenths <= 1000; ++tenths) {
    const Length depth = feet(tenths / 10.0);
    const std::string expected = rounded(tenths / 10.0, 1, Rounding::nearest) + " ft";
    EXPECT_EQ(depth_text(depth, Rounding::down, Units::us), expected);
    EXPECT_EQ(depth_text(depth, Rounding::up, Units::us), expected);
  }
}

TEST(DepthText, InTheReadersUnits) {
  EXPECT_EQ(depth_text(feet(4), Rounding::down, Units::us), "4.0 ft");
  EXPECT_EQ(depth_text(metres(1), Rounding::down, Units::us), "3.2 ft");  // 3.2808
  EXPECT_EQ(depth_text(metres(1), Rounding::up, Units::us), "3.3 ft");
  EXPECT_EQ(depth_text(feet(3), Rounding::down, Units::metric), "0.9 m");  // 0.9144
  EXPECT_EQ(depth_text(feet(3), Rounding::up, Units::metric), "1.0 m");
}

TEST(PrintedSum, TermsAddUpToTheTotalPrintedAlone) {
  // 3.0 + 2.48 - 4.0 - 0.12 - 0.16 = 1.20. Floors: 3.0 2.4 -4.0 -0.2 -0.2 = 1.0; two tenths are
  // missing and go to the largest remainders, tide (8) and squat (8).
  const PrintedSum sum = printed_sum({3.0, 2.48, -4.0, -0.12, -0.16}, 1.2, 1, Rounding::down);
  EXPECT_EQ(sum.total, 12);
  EXPECT_EQ(sum.terms, (std::vector<long long>{30, 25, -40, -1, -2}));
}

TEST(PrintedSum, ExactTermsStayAsTheyAre) {
  const PrintedSum sum = printed_sum({4.0, -4.0, 0.99}, 0.99, 1, Rounding::down);
  EXPECT_EQ(sum.terms, (std::vector<long long>{40, -40, 9}));
  EXPECT_EQ(sum.total, 9);
}

TEST(PrintedSum, AddsUpForManyValuesAndEachTermIsWithinOneDigit) {
  unsigned state = 20260614;  // a small fixed generator: values to 0.001
  const auto next = [&state] {
    state = state * 1664525U + 1013904223U;
    return static_cast<double>(static_cast<int>(state >> 16U) - 32768) / 1000.0;
  };
  for (int i = 0; i < 2000; ++i) {
    const std::vector<double> terms = {next(), next(), next(), next(), next()};
    const double total = std::reduce(terms.begin(), terms.end());
    for (const Rounding way : {Rounding::down, Rounding::up, Rounding::nearest}) {
      const PrintedSum sum = printed_sum(terms, total, 1, way);
      EXPECT_EQ(std::reduce(sum.terms.begin(), sum.terms.end(), 0LL), sum.total);
      const std::string alone = rounded(total, 1, way);
      EXPECT_EQ(rounded(static_cast<double>(sum.total) / 10, 1, Rounding::nearest), alone);
      for (std::size_t k = 0; k < terms.size(); ++k) {
        EXPECT_LT(std::abs(static_cast<double>(sum.terms[k]) / 10 - terms[k]), 0.1 + 1e-5);
      }
    }
  }
}

TEST(DistanceText, ShortOnesInFeetOrMetresLongOnesInMiles) {
  EXPECT_EQ(distance_text(feet(37.9), Rounding::down, Units::us), "37 ft");
  EXPECT_EQ(distance_text(feet(319), Rounding::down, Units::us), "310 ft");
  EXPECT_EQ(distance_text(metres(95.5), Rounding::down, Units::metric), "95 m");
  EXPECT_EQ(distance_text(nautical_miles(0.249), Rounding::down, Units::metric), "460 m");
  EXPECT_EQ(distance_text(nautical_miles(0.25), Rounding::down, Units::us), "0.25 nm");
  EXPECT_EQ(distance_text(nautical_miles(1.239), Rounding::down, Units::us), "1.23 nm");
}

TEST(SpeedText, WindInWholeKnotsUpOthersInTenths) {
  EXPECT_EQ(wind_text(knots(14)), "14 kn");
  EXPECT_EQ(wind_text(knots(14.01)), "15 kn");
  EXPECT_EQ(speed_text(knots(7.5), Rounding::nearest), "7.5 kn");
  EXPECT_EQ(speed_text(knots(0.81), Rounding::up), "0.9 kn");
}

TEST(BearingText, ThreeFiguresAndTheirNorth) {
  EXPECT_EQ(bearing_text(TrueBearing::from_degrees(7.4)), "007 T");
  EXPECT_EQ(bearing_text(MagneticBearing::from_degrees(359.6)), "000 M");
  EXPECT_EQ(bearing_text(CompassBearing::from_degrees(359.4)), "359 by compass");
}

TEST(IntervalText, SecondsMinutesHours) {
  EXPECT_EQ(interval_text(seconds(94), Rounding::down), "90 s");
  EXPECT_EQ(interval_text(seconds(95), Rounding::down), "95 s");
  EXPECT_EQ(interval_text(seconds(179), Rounding::down), "175 s");
  EXPECT_EQ(interval_text(seconds(239), Rounding::down), "3 min");
  EXPECT_EQ(interval_text(minutes(119), Rounding::down), "119 min");
  EXPECT_EQ(interval_text(hours(2) + minutes(10) + seconds(59), Rounding::down), "2 h 10 min");
  EXPECT_EQ(interval_text(-minutes(20) - seconds(1), Rounding::down), "minus 21 min");
}

Instant at(const Zone& zone, std::string_view wall) {
  return zone.instant_of(parse_wall_time(wall).value()).value();
}

TEST(Clock24, SaysItsZoneAndAnotherDay) {
  const Zone zone = Zone::named("America/New_York").value();
  const Clock24 clock(zone, at(zone, "2026-06-14T22:30"));
  EXPECT_EQ(clock.with_zone(at(zone, "2026-06-14T22:30"), Rounding::nearest), "22:30 EDT");
  EXPECT_EQ(clock.with_zone(at(zone, "2026-06-15T00:40"), Rounding::nearest), "Mon 00:40 EDT");
  EXPECT_EQ(clock.date(), "Sunday 14 June 2026");  // 14 June 2026: a Sunday (any calendar)
  EXPECT_EQ(clock.letters(), "EDT");
  EXPECT_EQ(clock.bare(at(zone, "2026-06-14T23:59:30"), Rounding::nearest), "Mon 00:00");
  EXPECT_EQ(clock.bare(at(zone, "2026-06-14T23:59:30"), Rounding::down), "23:59");
  EXPECT_EQ(clock.bare(at(zone, "2026-06-14T23:59:29"), Rounding::nearest), "23:59");
}

TEST(Clock24, LettersFollowTheClockOnTheDayItChanges) {
  const Zone zone = Zone::named("America/New_York").value();  // clocks go back 2026-11-01 02:00 EDT
  const Instant departs = at(zone, "2026-11-01T00:30");
  const Clock24 clock(zone, departs);
  EXPECT_EQ(clock.with_zone(departs + hours(1), Rounding::nearest), "01:30 EDT");
  EXPECT_EQ(clock.with_zone(departs + hours(2), Rounding::nearest), "01:30 EST");
  EXPECT_EQ(clock.bare(departs + hours(1), Rounding::nearest), "01:30");
  EXPECT_EQ(clock.bare(departs + hours(2), Rounding::nearest), "01:30 EST");
}

/// Found 2026-11-26: "void after Sun 16:30" on the page of a Sunday meant the Sunday before.
TEST(Clock24, ADateWhereAWeekdayWouldBeReadAsANearerOne) {
  const Zone zone = Zone::named("America/New_York").value();
  const Clock24 clock(zone, at(zone, "2026-06-14T10:00"));  // a Sunday
  const auto said = [&](const char* wall) { return clock.bare(at(zone, wall), Rounding::down); };
  EXPECT_EQ(said("2026-06-07T16:30"), "7 June 16:30");
  EXPECT_EQ(said("2026-06-08T16:30"), "Mon 16:30");
  EXPECT_EQ(said("2026-06-20T23:59"), "Sat 23:59");
  EXPECT_EQ(said("2026-06-21T00:00"), "21 June 00:00");
  EXPECT_EQ(clock.with_zone(at(zone, "2027-01-02T09:05"), Rounding::down),
            "2 January 2027 09:05 EST");
}

/// RFC 3339, section 5.6: "Z" is UTC; Eastern daylight time is four hours behind it.
TEST(Clock24, TimesInWordsFromElsewhereAreOfItsZone) {
  const Zone zone = Zone::named("America/New_York").value();
  const Clock24 clock(zone, at(zone, "2026-06-14T10:00"));
  EXPECT_EQ(with_local_times("wind ends at 2026-06-15T01:00:00Z, or 2026-06-15T05:00:00Z.", clock),
            "wind ends at 21:00 EDT, or Mon 01:00 EDT.");
  EXPECT_EQ(with_local_times("buoy 2026-06-15", clock), "buoy 2026-06-15");
  EXPECT_EQ(with_local_times("2026-13-15T01:00:00Z", clock), "2026-13-15T01:00:00Z");
}

TEST(SentenceText, PrintsFactsTowardCautionAndSaysWhatIsNotKnown) {
  const Zone zone = Zone::named("America/New_York").value();
  const Clock24 clock(zone, at(zone, "2026-06-14T09:30"));
  const Sentence sentence = {
      "Mill Reach: ",
      FactInText{"under_keel", Known<FactValue>(FactValue(feet(1.99))), Rounding::down,
                 PrintedAs::usual},
      " at ",
      FactInText{"time", Known<FactValue>(FactValue(at(zone, "2026-06-14T10:05"))),
                 Rounding::nearest, PrintedAs::usual},
      ", wind ",
      FactInText{"wind", not_known("no forecast"), Rounding::up, PrintedAs::usual},
      "."};
  EXPECT_EQ(sentence_text(sentence, Units::us, clock),
            "Mill Reach: 1.9 ft at 10:05 EDT, wind not known.");
  EXPECT_EQ(sentence_text(sentence, Units::metric, clock),  // 1.99 ft = 0.6066 m
            "Mill Reach: 0.6 m at 10:05 EDT, wind not known.");
}

TEST(SentenceText, PrintsEachFigureAsItsFactSays) {
  const Zone zone = Zone::named("America/New_York").value();
  const Clock24 clock(zone, at(zone, "2026-06-14T09:30"));
  const auto said = [&](FactValue value, Rounding way, PrintedAs printed_as) {
    return sentence_text({FactInText{"fact", Known<FactValue>(value), way, printed_as}}, Units::us,
                         clock);
  };
  using enum Rounding;
  // Counts and years are whole, and keep the zeros they end in.
  EXPECT_EQ(said(0.0, nearest, PrintedAs::whole), "0");
  EXPECT_EQ(said(2.0, nearest, PrintedAs::whole), "2");
  EXPECT_EQ(said(10.0, nearest, PrintedAs::whole), "10");
  EXPECT_EQ(said(3.02, up, PrintedAs::whole), "4");
  EXPECT_EQ(said(0.304, up, PrintedAs::percent), "31 %");
  EXPECT_EQ(said(100.0, nearest, PrintedAs::usual), "100");
  EXPECT_EQ(said(1.5, down, PrintedAs::usual), "1.5");
  // Wind up to whole knots; a ceiling down; current keeps its tenth.
  EXPECT_EQ(said(knots(15.2), up, PrintedAs::wind), "16 kn");
  EXPECT_EQ(said(knots(20), up, PrintedAs::wind), "20 kn");
  EXPECT_EQ(said(knots(27.9), down, PrintedAs::wind), "27 kn");
  EXPECT_EQ(said(knots(0.84), up, PrintedAs::usual), "0.9 kn");
  // Bearings in three figures with their north; other angles in degrees.
  EXPECT_EQ(said(degrees(45), nearest, PrintedAs::true_bearing), "045 T");
  EXPECT_EQ(said(degrees(359.7), nearest, PrintedAs::true_bearing), "000 T");
  EXPECT_EQ(said(degrees(7.4), nearest, PrintedAs::magnetic_bearing), "007 M");
  EXPECT_EQ(said(degrees(300), nearest, PrintedAs::compass_bearing), "300 by compass");
  EXPECT_EQ(said(degrees(5.1), up, PrintedAs::usual), "6\u00b0");
}

}  // namespace
}  // namespace passage_brief
