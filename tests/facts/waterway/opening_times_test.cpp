// Openings of drawbridges against the published questions, and the cases they do not reach.
#include "facts/waterway/opening_times.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "facts/daylight/sun.h"
#include "facts/holidays/read_holiday_calendar.h"
#include "facts/waterway/read_waterway.h"
#include "given/csv_table.h"
#include "given/files.h"
#include "given/stations.h"
#include "units/position.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

const std::string kDrawbridges = std::string(TESTS_DIR) + "/tables/drawbridges/";

HolidayCalendar calendar(const std::string& file) {
  return read_holiday_calendar(file, given::contents_of(kDrawbridges + file)).value();
}

std::vector<HolidayCalendar> calendars() {
  return {calendar("us_federal.holidays.json"), calendar("state.holidays.json"),
          calendar("named_days.holidays.json")};
}

const Zone& new_york() {
  static const Zone zone = *Zone::named("America/New_York");
  return zone;
}

std::string wall(const std::optional<Instant>& at) {
  return at ? to_rfc3339(*at, new_york()).substr(0, 16) : "";
}

std::string wall(const Known<std::optional<OpeningDue>>& due) {
  if (!due.has_value()) return "not known: " + in_words(due.error());
  return wall(*due ? std::optional((*due)->at) : std::nullopt);
}

Instant at_wall(const std::string& text) { return parse_time_in(new_york(), text).value(); }

TEST(OpeningTimes, PublishedQuestions) {
  const std::string file = kDrawbridges + "six.waterway.json";
  const auto water = read_waterway(file, given::contents_of(file));
  ASSERT_TRUE(water.has_value()) << given::listed(water.error());
  const std::vector<HolidayCalendar> days = calendars();
  const std::map<std::string, BridgeUser> users{{"pleasure", BridgeUser::pleasure},
                                                {"commercial", BridgeUser::commercial},
                                                {"public", BridgeUser::public_vessel},
                                                {"emergency", BridgeUser::emergency}};
  int asked = 0;
  for (const auto& row : given::csv_table("drawbridges.csv")) {
    const auto bridge = std::ranges::find(water->bridges, row.text("bridge"), &Bridge::name);
    ASSERT_NE(bridge, water->bridges.end()) << row.place();
    const DrawUse use{*bridge->openings, water->zone, position_at(40, -40), days,
                      users.at(row.text("vessel"))};
    const Instant arrives = at_wall(row.text("arrives"));
    const auto next = next_opening(use, arrives, std::nullopt);
    EXPECT_EQ(wall(next), row.text("opens")) << row.place();
    EXPECT_EQ(wall(next.has_value() && *next ? (*next)->ask_by : std::nullopt), row.text("ask_by"))
        << row.place();
    EXPECT_EQ(wall(next_opening_on_signal(use, arrives)), row.text("on_signal")) << row.place();
    ++asked;
  }
  EXPECT_EQ(asked, 36);
}

/// One bridge in mid-ocean, New York time, with one or more rules as JSON.
class OneBridge {
 public:
  explicit OneBridge(const std::string& rules) : days_(calendars()) {
    const auto water = read_waterway(
        "w", R"({"type": "FeatureCollection", "kind": "waterway", "zone": "America/New_York",
        "features": [{"type": "Feature", "geometry": {"type": "Point", "coordinates": [-70, 40]},
        "properties": {"feature": "bridge", "name": "B", "what": "swing",
        "openings": {"rules": [)" +
                 rules + "]}}}]}");
    if (!water) throw std::runtime_error(given::listed(water.error()));
    openings_ = *water->bridges.front().openings;
  }
  [[nodiscard]] DrawUse use(BridgeUser user = BridgeUser::pleasure) const {
    return {openings_, new_york(), position_at(40, -70), days_, user};
  }
  [[nodiscard]] std::string next(const std::string& arrives) const {
    return wall(next_opening(use(), at_wall(arrives), std::nullopt));
  }
  std::vector<HolidayCalendar> days_;

 private:
  Openings openings_;
};

TEST(OpeningTimes, NoRuleIsOnSignal) {
  // 33 CFR 117.5: promptly and fully on request.
  EXPECT_EQ(OneBridge("").next("2026-06-14T03:17"), "2026-06-14T03:17");
}

// Found on 2026-11-26: who came at 10:00:57 was told that a bridge of the full and the half hour
// opens at 10:01. The first minute at or after her coming is 10:01, when it is shut.
TEST(OpeningTimes, WhoeverComesSecondsTooLateWaitsForTheNext) {
  const OneBridge half_hours(R"({"opens": "at", "minutes": [0, 30]})");
  const OneBridge signal(R"({"from": "08:00", "to": "13:01", "opens": "on_signal"},
      {"opens": "closed"})");
  const Instant one_pm = at_wall("2026-06-14T13:00");
  const auto opens = [&](const OneBridge& bridge, double seconds_late) {
    return wall(next_opening(bridge.use(), one_pm + seconds_long(seconds_late), std::nullopt));
  };
  EXPECT_EQ(opens(half_hours, -0.001), "2026-06-14T13:00");
  EXPECT_EQ(opens(half_hours, 0), "2026-06-14T13:00");
  EXPECT_EQ(opens(half_hours, 0.001), "2026-06-14T13:30");
  EXPECT_EQ(opens(half_hours, 57), "2026-06-14T13:30");
  // On signal too she passes at a full minute, and no later than the last one of the hours.
  EXPECT_EQ(opens(signal, -59), "2026-06-14T13:00");
  EXPECT_EQ(opens(signal, 0), "2026-06-14T13:00");
  EXPECT_EQ(opens(signal, 1), "2026-06-15T08:00");
}

TEST(OpeningTimes, HoursPastMidnightAndNights) {
  // Shut 22:00 to 06:00: on the hour else.
  const OneBridge shut(R"({"from": "22:00", "to": "06:00", "opens": "closed"})");
  EXPECT_EQ(shut.next("2026-06-14T21:59"), "2026-06-14T21:59");
  EXPECT_EQ(shut.next("2026-06-14T22:00"), "2026-06-15T06:00");
  EXPECT_EQ(shut.next("2026-06-15T05:59"), "2026-06-15T06:00");
  // The night of Friday 12 June ends on Saturday at 06:00; Thursday's and Saturday's are free.
  const OneBridge friday(
      R"({"night_of": ["fri"], "from": "22:00", "to": "06:00", "opens": "closed"})");
  EXPECT_EQ(friday.next("2026-06-12T03:00"), "2026-06-12T03:00");
  EXPECT_EQ(friday.next("2026-06-12T23:00"), "2026-06-13T06:00");
  EXPECT_EQ(friday.next("2026-06-13T05:00"), "2026-06-13T06:00");
  EXPECT_EQ(friday.next("2026-06-13T23:00"), "2026-06-13T23:00");
}

TEST(OpeningTimes, ClockChanges) {
  // 1 November 2026, America/New_York: clocks go back from 02:00 EDT to 01:00 EST, so that 01:30
  // comes at 05:30 and at 06:30 UTC. Limits are wall time: shut from 01:00 to 02:00 is two hours.
  const OneBridge bridge(R"({"from": "01:00", "to": "02:00", "opens": "closed"})");
  const auto next = [&](const char* utc) {
    return to_rfc3339((*next_opening(bridge.use(), given::at(utc), std::nullopt))->at);
  };
  EXPECT_EQ(next("2026-11-01T04:59:00Z"), "2026-11-01T04:59:00Z");
  EXPECT_EQ(next("2026-11-01T05:00:00Z"), "2026-11-01T07:00:00Z");
  EXPECT_EQ(next("2026-11-01T06:30:00Z"), "2026-11-01T07:00:00Z");
  // 8 March 2026: 02:30 does not come. A rule for it never binds, one that spans it is an hour
  // shorter: 01:00 EST (06:00 UTC) to 03:00 EDT (07:00 UTC).
  const OneBridge skipped(R"({"from": "02:00", "to": "03:00", "opens": "closed"})");
  EXPECT_EQ(skipped.next("2026-03-08T01:59"), "2026-03-08T01:59");
  EXPECT_EQ(skipped.next("2026-03-08T03:00"), "2026-03-08T03:00");
  const OneBridge spans(R"({"from": "01:00", "to": "03:00", "opens": "closed"})");
  EXPECT_EQ(
      to_rfc3339((*next_opening(spans.use(), given::at("2026-03-08T06:10:00Z"), std::nullopt))->at),
      "2026-03-08T07:00:00Z");
}

TEST(OpeningTimes, NoticeIsElapsedAndCanComeTooLate) {
  const OneBridge bridge(R"({"opens": "notice", "notice": "4 h", "telephone": "555 0100"})");
  const Instant arrives = at_wall("2026-06-14T12:00");
  const auto rung_from = [&](const std::string& from) {
    return *next_opening(bridge.use(), arrives, at_wall(from));
  };
  EXPECT_EQ(wall(rung_from("2026-06-14T08:00")->at), "2026-06-14T12:00");
  EXPECT_EQ(wall(rung_from("2026-06-14T08:01")->at), "2026-06-14T12:01");
  EXPECT_EQ(wall(rung_from("2026-06-14T10:30")->ask_by), "2026-06-14T10:30");
  EXPECT_EQ(rung_from("2026-06-14T08:00")->telephone, "555 0100");
  EXPECT_FALSE(next_opening_on_signal(bridge.use(), arrives)->has_value());
}

TEST(OpeningTimes, YearWithoutACalendarCannotTell) {
  const OneBridge bridge(
      R"({"days": ["mon"], "holidays": "except", "holiday_set": ["US federal"], "from": "07:00",
      "to": "09:00", "opens": "closed"})");
  EXPECT_EQ(bridge.next("2026-06-15T07:30"), "2026-06-15T09:00");
  // 14 June 2027 is a Monday; before the hours it asks nobody.
  EXPECT_EQ(bridge.next("2027-06-14T07:30"),
            "not known: the holiday calendar \"US federal\" does not cover 2027");
  EXPECT_EQ(bridge.next("2027-06-14T09:00"), "2027-06-14T09:00");
  OneBridge without = bridge;
  without.days_.clear();
  EXPECT_EQ(without.next("2026-06-15T07:30"),
            "not known: no holiday calendar \"US federal\" was given");
}

TEST(OpeningTimes, HolidaysTheirEvesAndOnlyThem) {
  const auto rule = [](const std::string& holidays) {
    return OneBridge("{" + holidays +
                     R"(, "holiday_set": ["US federal"], "from": "08:00", "to": "10:00",
                     "opens": "closed"})");
  };
  // 10 November is the eve of Veterans Day, 11 November the day, 12 November neither.
  const std::vector<std::string> shut_except{"10:00", "09:00", "10:00"};
  const std::vector<std::string> shut_only{"09:00", "10:00", "09:00"};
  const std::vector<std::string> shut_eves{"10:00", "09:00", "09:00"};
  const std::vector<std::string> shut_only_and_eves{"10:00", "10:00", "09:00"};
  const std::vector<std::string> shut_but_both{"09:00", "09:00", "10:00"};
  const auto on_three_days = [](const OneBridge& bridge) {
    std::vector<std::string> all;
    for (const char* day : {"10", "11", "12"}) {
      all.push_back(bridge.next("2026-11-" + std::string(day) + "T09:00").substr(11));
    }
    return all;
  };
  EXPECT_EQ(on_three_days(rule(R"("holidays": "except")")), shut_except);
  EXPECT_EQ(on_three_days(rule(R"("holidays": "only")")), shut_only);
  EXPECT_EQ(on_three_days(rule(R"("eve_of_holiday": true)")), shut_eves);
  EXPECT_EQ(on_three_days(rule(R"("holidays": "only", "eve_of_holiday": true)")),
            shut_only_and_eves);
  EXPECT_EQ(on_three_days(rule(R"("holidays": "except", "eve_of_holiday": true)")), shut_but_both);
}

TEST(OpeningTimes, ObservedDayGivesTheLaterAnswer) {
  // Friday 3 July 2026, kept for Saturday 4 July: the section does not say whether it counts.
  OneBridge bridge(
      R"({"days": ["fri"], "holidays": "except", "holiday_set": ["state"], "from": "06:30",
      "to": "09:00", "opens": "at", "times": ["07:30"]})");
  using std::chrono::year;
  bridge.days_[1].days.push_back({year(2026) / 7 / 3, "Independence Day", true});
  EXPECT_EQ(bridge.next("2026-07-03T06:45"), "2026-07-03T07:30");
  OneBridge only = OneBridge(
      R"({"holidays": "only", "holiday_set": ["state"], "from": "06:00", "to": "09:00",
      "opens": "closed"})");
  only.days_ = bridge.days_;
  EXPECT_EQ(only.next("2026-07-03T06:45"), "2026-07-03T09:00");
}

TEST(OpeningTimes, ObservedDayAsksForTheNoticeOfEitherReading) {
  // Found on 2026-11-26: where both readings opened at the same minute the notice of one was lost.
  // Friday 3 July 2026 again; without the call it may be shut until Saturday. 10:27 less 4 h:
  // 06:27.
  OneBridge bridge(
      R"({"days": ["mon", "tue", "wed", "thu", "fri"], "holidays": "except",
      "holiday_set": ["state"], "opens": "notice", "notice": "4 h", "telephone": "555 0142"})");
  using std::chrono::year;
  bridge.days_[1].days.push_back({year(2026) / 7 / 3, "Independence Day", true});
  const Instant arrives = at_wall("2026-07-03T10:27");
  const auto due = *next_opening(bridge.use(), arrives, std::nullopt);
  EXPECT_EQ(wall(due->at), "2026-07-03T10:27");
  EXPECT_EQ(wall(due->ask_by), "2026-07-03T06:27");
  EXPECT_EQ(due->telephone, "555 0142");
  EXPECT_EQ(wall(next_opening_on_signal(bridge.use(), arrives)), "2026-07-04T00:00");
  // Shut until noon if it counts; by both readings open at noon for whoever called by 08:00.
  OneBridge later(
      R"({"holidays": "only", "holiday_set": ["state"], "from": "08:00", "to": "12:00",
      "opens": "closed"}, {"opens": "notice", "notice": "4 h"})");
  later.days_ = bridge.days_;
  const auto noon = *next_opening(later.use(), arrives, std::nullopt);
  EXPECT_EQ(wall(noon->at), "2026-07-03T12:00");
  EXPECT_EQ(wall(noon->ask_by), "2026-07-03T08:00");
}

/// Twenty and forty minutes past the hour if it counts, the full and the half hour if not: at one
/// time by both only at noon, when either rule ends.
TEST(OpeningTimes, ATimeByOneReadingOfAnObservedDayIsNotOneByBoth) {
  OneBridge bridge(
      R"({"holidays": "only", "holiday_set": ["state"], "from": "08:00", "to": "12:00",
      "opens": "at", "minutes": [20, 40]}, {"from": "08:00", "to": "12:00", "opens": "at",
      "minutes": [0, 30]})");
  using std::chrono::year;
  bridge.days_[1].days.push_back({year(2026) / 7 / 3, "Independence Day", true});
  const auto due = *next_opening(bridge.use(), at_wall("2026-07-03T10:05"), std::nullopt);
  EXPECT_EQ(wall(due->at), "2026-07-03T12:00");
}

TEST(OpeningTimes, SunsetToSunrise) {
  const OneBridge bridge(R"({"from": "sunset", "to": "sunrise", "opens": "closed"})");
  const Daylight sun =
      daylight_on(position_at(40, -70), new_york().local_day(std::chrono::year(2026) / 6 / 14));
  const auto next = [&](Instant arrives) {
    return (*next_opening(bridge.use(), arrives, std::nullopt))->at;
  };
  const Instant risen = std::chrono::ceil<std::chrono::minutes>(*sun.sunrise);
  const Instant last = std::chrono::floor<std::chrono::minutes>(*sun.sunset - Interval(1));
  EXPECT_EQ(next(*sun.sunrise), risen);
  EXPECT_EQ(next(*sun.sunrise - std::chrono::hours(1)), risen);
  EXPECT_EQ(next(last), last);
  EXPECT_GT(next(*sun.sunset) - *sun.sunset, std::chrono::hours(8));
}

TEST(OpeningTimes, ClockToSunIsOfOneDayWhereItEverCanBe) {
  // Found on 2026-11-26: 18:00 to sunset was taken to run past midnight, round the clock. At 40 N
  // 70 W, cos H = (sin -0.833 - sin 40 sin d) / (cos 40 cos d): 15 June (d 23.3, noon 12:41 EDT)
  // H 112.5 deg, sunset 20:11; 15 December (d -23.25, noon 11:35 EST) H 70.1 deg, sunset 16:15.
  const OneBridge evening(
      R"({"from": "18:00", "to": "sunset", "opens": "on_signal"}, {"opens": "closed"})");
  EXPECT_EQ(evening.next("2026-06-15T03:00"), "2026-06-15T18:00");
  EXPECT_EQ(evening.next("2026-06-15T12:00"), "2026-06-15T18:00");
  EXPECT_EQ(evening.next("2026-06-15T20:05"), "2026-06-15T20:05");
  EXPECT_EQ(evening.next("2026-06-15T20:30"), "2026-06-16T18:00");
  EXPECT_EQ(evening.next("2026-12-15T19:00"), "");  // the sun is down before 18:00 all week
  const OneBridge dusk(
      R"({"from": "sunset", "to": "17:30", "opens": "closed"}, {"opens": "on_signal"})");
  EXPECT_EQ(dusk.next("2026-12-15T16:30"), "2026-12-15T17:30");
  EXPECT_EQ(dusk.next("2026-12-15T03:00"), "2026-12-15T03:00");
  EXPECT_EQ(dusk.next("2026-06-15T23:00"), "2026-06-15T23:00");
  // On no day of the year does 06:00 come after sunset, sunrise after 22:00, 01:00 after sunrise.
  const OneBridge night(R"({"from": "sunset", "to": "06:00", "opens": "closed"})");
  EXPECT_EQ(night.next("2026-06-15T23:00"), "2026-06-16T06:00");
  EXPECT_EQ(night.next("2026-12-15T05:00"), "2026-12-15T06:00");
  const OneBridge late(R"({"from": "22:00", "to": "sunrise", "opens": "closed"})");
  EXPECT_EQ(late.next("2026-06-15T21:00"), "2026-06-15T21:00");
  EXPECT_EQ(late.next("2026-06-15T23:00").substr(0, 13), "2026-06-16T05");  // 12:41 less 7 h 30
  const OneBridge long_day(R"({"from": "sunrise", "to": "01:00", "opens": "closed"})");
  EXPECT_EQ(long_day.next("2026-06-15T00:30"), "2026-06-15T01:00");
  EXPECT_EQ(long_day.next("2026-06-15T02:00"), "2026-06-15T02:00");
}

TEST(OpeningTimes, SunsetAfterMidnightEndsTheDayBefore) {
  // Found on 2026-11-26: a bridge shut from sunrise to sunset was said to open at noon, the sun of
  // 19 June having set after midnight. 64.1 N 22 W, UTC, Saturday 20 June 2026: declination 23.436,
  // noon 12:00 + 88 min + 1.7 min (equation of time, from memory); cos H = (sin -0.833 - sin 64.1
  // sin 23.436) / (cos 64.1 cos 23.436) = -0.9290, H 158.3 deg, 633 min: up from 02:57 to 00:03.
  const Zone zone = Zone::named("Atlantic/Reykjavik").value();
  const auto minutes_to = [&](const OneBridge& bridge, const char* arrives, const char* opens) {
    const DrawUse here = bridge.use();
    const DrawUse use{here.openings, zone, position_at(64.1, -22), here.holidays, here.user};
    const auto due = next_opening(use, given::at(arrives), std::nullopt);
    return due.has_value() && *due ? in_seconds((*due)->at - given::at(opens)) / 60 : 1e9;
  };
  const double apart = 1.5;  // minutes, of the hand sum
  const OneBridge by_day(R"({"from": "sunrise", "to": "sunset", "opens": "closed"})");
  EXPECT_NEAR(minutes_to(by_day, "2026-06-20T11:36:00Z", "2026-06-21T00:03:00Z"), 0, apart);
  EXPECT_NEAR(minutes_to(by_day, "2026-06-19T23:59:00Z", "2026-06-20T00:03:00Z"), 0, apart);
  EXPECT_EQ(minutes_to(by_day, "2026-06-20T01:30:00Z", "2026-06-20T01:30:00Z"), 0);
  const OneBridge by_night(R"({"from": "sunset", "to": "sunrise", "opens": "closed"})");
  EXPECT_EQ(minutes_to(by_night, "2026-06-20T12:00:00Z", "2026-06-20T12:00:00Z"), 0);
  EXPECT_EQ(minutes_to(by_night, "2026-06-20T23:59:00Z", "2026-06-20T23:59:00Z"), 0);
  EXPECT_NEAR(minutes_to(by_night, "2026-06-21T00:30:00Z", "2026-06-21T02:57:00Z"), 0, apart);
  // Saturday's daylight ends on Sunday, and begins after Friday's.
  const OneBridge saturday(
      R"({"days": ["sat"], "from": "sunrise", "to": "sunset", "opens": "closed"})");
  EXPECT_EQ(minutes_to(saturday, "2026-06-20T00:00:30Z", "2026-06-20T00:01:00Z"), 0);
  EXPECT_NEAR(minutes_to(saturday, "2026-06-21T00:00:30Z", "2026-06-21T00:03:00Z"), 0, apart);
}

TEST(OpeningTimes, DatedDeviationStandsBeforeTheRule) {
  const OneBridge bridge(
      R"({"dates": ["2026-06-10", "2026-06-14"], "opens": "closed"}, {"opens": "on_signal"})");
  EXPECT_EQ(bridge.next("2026-06-09T23:59"), "2026-06-09T23:59");
  EXPECT_EQ(bridge.next("2026-06-10T00:00"), "2026-06-15T00:00");
  const OneBridge for_long(R"({"dates": ["2026-06-01", "2026-06-30"], "opens": "closed"})");
  EXPECT_EQ(for_long.next("2026-06-10T00:00"), "");  // none within 7 days
}

}  // namespace
}  // namespace passage_brief
