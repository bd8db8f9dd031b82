// When to leave: a situation worked by hand, and every minute against the plain judge.
#include "brief/departure_windows.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

#include "brief/departure_judge.h"
#include "brief/minute_scan.h"
#include "brief/window_search.h"
#include "facts/tide/read_current_station.h"
#include "given/open_water.h"
#include "given/random_passage.h"
#include "given/rules.h"
#include "given/scan.h"
#include "given/stations.h"
#include "passage/route_survey.h"

namespace passage_brief {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

/// Situation worked by the trade's arithmetic (common practice, no source). A drawbridge 15 min
/// after departure opens on the hour and half hour; a bar 20 min further: charted 1.0 ft, draft 4.0
/// ft, squat 0.3 ft, margin 2.0 ft, calm. Height of tide 5.9 ft at 13:00 falling evenly to 5.0 at
/// 14:00.
///   12:45: through at 13:00, bar 13:20, under the keel 5.6 + 1.0 - 4.0 - 0.3 = 2.3 ft
///   12:46: at the bridge 13:01, opens 13:30, bar 13:50: 5.15 + 1.0 - 4.3 = 1.85 ft, too little
/// A timeline without the wait would leave until 13:05.
struct BridgeShutsTheBar {
  Plan plan = given::plan_along({given::at(0, 0), given::at(0, 4600)});
  Facts facts = given::facts_over(given::empty_waterway(), metres(0));
  RuleSet rules = given::rules(
      R"({"id": "bar", "for_each": "bar", "when": {"under_keel": {"less_than": "2 ft"}},
      "grade": "caution", "limit": true, "say": "{bar}: {under_keel}", "source": "test"},
      {"id": "bridge", "for_each": "bridge", "when": {"passes": {"is": false}},
      "grade": "warning", "limit": true, "say": "{bridge}", "source": "test"})");

  BridgeShutsTheBar() {
    // 4 kn: 1 nm in 15 min. Squat by Barrass, open water: Cb V^2 / 100 = 0.5715 x 16 / 100 m =
    // 0.3 ft; ICORELS is less for a long narrow hull.
    plan.vessel.slow = knots(4);
    plan.vessel.cruise = knots(4);
    plan.vessel.draft = feet(4);
    plan.vessel.block_coefficient = 0.5715;
    plan.vessel.length = metres(16);
    plan.vessel.waterline = metres(15);
    plan.vessel.beam = metres(3);
    rules.margins.wash = metres(0);
    rules.margins.under_keel_hard = feet(2);  // a bar counts as open water: hard margin
    Waterway& water = facts.waterway;
    water.reaches.push_back(given::plain_reach("Deep", {given::at(0, -100), given::at(0, 4700)},
                                               metres(300), metres(20)));
    OpeningRule half_hours;
    half_hours.opens = Opens::at_times;
    half_hours.minutes = {minutes(0), minutes(30)};
    water.bridges.push_back({{"Draw", water.stations},
                             // A second before the quarter hour, so that no rounding decides.
                             LineShape{given::at(-200, 1850), given::at(200, 1850)},
                             BridgeKind::bascule,
                             metres(2),
                             ClearanceOf::low_steel,
                             not_known("it opens clear"),
                             true,
                             metres(30),
                             true,
                             Openings{std::nullopt, std::nullopt, {half_hours}},
                             "VHF 13",
                             std::nullopt});
    const double bar_m = 1852 + 1852 * 20.0 / 15;
    water.bars.push_back({{"Bar", water.stations},
                          {given::at(-200, bar_m), given::at(200, bar_m)},
                          feet(1),
                          std::chrono::year(2026) / 6 / 1,
                          SurveyQuality::channel_survey,
                          Bottom::mud,
                          std::nullopt});
    std::string rows;
    for (int hour = 6; hour <= 20; ++hour) {
      rows += (rows.empty() ? "" : ", ") + std::string("[\"2026-06-14T") + (hour < 10 ? "0" : "") +
              std::to_string(hour) + ":00:00Z\", " + std::to_string(5.9 - 0.9 * (hour - 13)) + "]";
    }
    facts.tides = given::tides_of({R"({"kind": "tide station", "name": "Gauge", "zone": "Etc/UTC",
         "datums": {"unit": "ft", "CD": 0, "MHW": 3}, "chart_datum": "CD",
         "heights": {"unit": "ft", "rows": [)" +
                                   rows + R"(]}, "uncertainty": "0.1 ft"})"});
    facts.winds.push_back(given::steady_wind(0, knots(0)));
  }

  [[nodiscard]] JudgedMinute judged(const char* at) const {
    const RouteSurvey survey(plan, facts.waterway, rules.margins);
    return DepartureJudge(survey, plan, facts, rules, {given::at(at), given::at(at)})
        .at(given::at(at));
  }
};

TEST(DepartureWindows, DrawbridgeShutsTheBar) {
  const BridgeShutsTheBar given;
  const auto bar = [&](const char* at) {
    const std::vector<Depth> depths = given.judged(at).departure.findings.depths;
    return *std::ranges::find(depths, DepthPlace::bar, &Depth::place);
  };
  EXPECT_EQ(to_rfc3339(*bar("2026-06-14T12:45:00Z").passing.at).substr(11, 5), "13:19");  // bow
  EXPECT_NEAR(in_feet(*bar("2026-06-14T12:45:00Z").under_keel), 2.3, 0.01);
  EXPECT_NEAR(in_feet(*bar("2026-06-14T12:46:00Z").under_keel), 1.85, 0.01);

  const RouteSurvey survey(given.plan, given.facts.waterway, given.rules.margins);
  const WindowList list =
      windows_in(survey, given.plan, given.facts, given.rules,
                 {given::at("2026-06-14T12:00:00Z"), given::at("2026-06-14T15:00:00Z")});
  ASSERT_EQ(list.windows.size(), 1U);
  const Window& window = list.windows.front();
  EXPECT_EQ(to_rfc3339(window.opens), "2026-06-14T12:00:00Z");
  EXPECT_EQ(to_rfc3339(window.closes), "2026-06-14T12:45:00Z");
  EXPECT_FALSE(window.opened_by.has_value());  // the span begins: no closure
  ASSERT_TRUE(window.closed_by.has_value());
  EXPECT_EQ(window.closed_by->limit, "bar");
  EXPECT_EQ(window.closed_by->about.name, "Bar");
  // Through at 12:30, on the highest water of the three openings.
  EXPECT_EQ(to_rfc3339(window.best), "2026-06-14T12:00:00Z");
  ASSERT_TRUE(window.most_to_spare.has_value());
  EXPECT_NEAR(in_feet(window.most_to_spare->left), 2.3 + 0.45 - 2.0, 0.01);
}

/// A gale warning closes nothing: the list says that it is in force.
TEST(DepartureWindows, SayWhatWarningsAreInForce) {
  BridgeShutsTheBar given;
  const Span span{given::at("2026-06-14T12:00:00Z"), given::at("2026-06-14T13:00:00Z")};
  const auto warnings = [&](const char* begins, const char* ends) {
    given.facts.alerts = {{.event = "Gale Warning",
                           .headline = "Gale Warning issued June 14",
                           .instruction = "",
                           .issuer = "the weather service",
                           .severity = Severity::severe,
                           .zones = {},
                           .issued = given::at("2026-06-14T06:00:00Z"),
                           .begins = given::at(begins),
                           .ends = given::at(ends),
                           .link = ""}};
    const RouteSurvey survey(given.plan, given.facts.waterway, given.rules.margins);
    return windows_in(survey, given.plan, given.facts, given.rules, span).warnings;
  };
  const auto in_force = warnings("2026-06-14T12:30:00Z", "2026-06-14T20:00:00Z");
  ASSERT_EQ(in_force.size(), 1U);
  EXPECT_EQ(in_force.front().grade, Grade::warning);
  EXPECT_TRUE(warnings("2026-06-14T06:00:00Z", "2026-06-14T11:00:00Z").empty());
  // It begins after the last departure, while she may be under way.
  const auto under_way = warnings("2026-06-14T13:10:00Z", "2026-06-14T20:00:00Z");
  ASSERT_EQ(under_way.size(), 1U);
  EXPECT_EQ(under_way.front().grade, Grade::warning);
  const auto to_come = warnings("2026-06-16T15:00:00Z", "2026-06-16T20:00:00Z");
  ASSERT_EQ(to_come.size(), 1U);
  EXPECT_EQ(to_come.front().grade, Grade::notice);
}

TEST(DepartureWindows, NoWindowSaysWhatNeverLetsGo) {
  const BridgeShutsTheBar given;
  const RouteSurvey survey(given.plan, given.facts.waterway, given.rules.margins);
  const WindowList list =
      windows_in(survey, given.plan, given.facts, given.rules,
                 {given::at("2026-06-14T13:20:00Z"), given::at("2026-06-14T15:00:00Z")});
  EXPECT_TRUE(list.windows.empty());
  ASSERT_TRUE(list.none.has_value());
  ASSERT_EQ(list.none->never_let_go.size(), 1U);
  EXPECT_EQ(list.none->never_let_go.front().about.name, "Bar");
  // 13:20 comes to the bridge at 13:35, opens 14:00, bar 14:20: 4.7 + 1.0 - 4.3 = 1.4 ft, 0.6
  // short.
  ASSERT_TRUE(list.none->least_short.has_value());
  EXPECT_NEAR(in_feet(list.none->least_short->left), -0.615, 0.01);
}

/// The water falls 0.9 ft an hour under a bridge that opens on signal, at full minutes; half a
/// minute after one the mast begins to fit. Departures 5 s apart come to it round that time.
TEST(DepartureWindows, NobodyIsOvertakenInTheMinuteInWhichTheMastBeginsToFit) {
  BridgeShutsTheBar given;
  Bridge& bridge = given.facts.waterway.bridges.front();
  const Openings openings = *bridge.openings;
  const auto passed_by_who_leaves = [&](Instant departs) {
    given.plan.departure.at = departs;
    const RouteSurvey survey(given.plan, given.facts.waterway, given.rules.margins);
    return judge_departure(survey, given.plan, given.facts, given.rules).findings.bridges.front();
  };
  // Fixed, she comes to it at once: so much is left of the margin, or lacks.
  bridge.what = BridgeKind::fixed;
  bridge.openings = std::nullopt;
  Instant departs = given::at("2026-06-14T12:45:00Z");
  const Instant comes = *passed_by_who_leaves(departs).passing.at;
  departs += std::chrono::ceil<minutes>(comes) + std::chrono::seconds(30) - comes;
  const BridgeFinding just_then = passed_by_who_leaves(departs);
  const Length left = *just_then.over_mast.back().over_mast - just_then.margin;
  bridge.clearance = *bridge.clearance - left;
  bridge.what = BridgeKind::bascule;
  bridge.openings = openings;
  OpeningRule on_signal;
  on_signal.opens = Opens::on_signal;
  bridge.openings->rules = {on_signal};
  Instant before = Instant::min();
  for (int second = -60; second <= 60; second += 5) {
    const Instant passes = *passed_by_who_leaves(departs + std::chrono::seconds(second)).passing.at;
    EXPECT_GE(passes, before) << second;
    before = passes;
  }
}

TEST(DepartureWindows, LateAndSlow) {
  const BridgeShutsTheBar given;
  const RouteSurvey survey(given.plan, given.facts.waterway, given.rules.margins);
  Plan plan = given.plan;
  plan.departure.at = given::at("2026-06-14T12:45:00Z");
  const JudgedDeparture judged = judge_departure(survey, plan, given.facts, given.rules);
  const std::vector<Otherwise> all =
      late_and_slow(survey, plan, given.facts, given.rules, judged.findings);
  ASSERT_EQ(all.size(), 2U);
  // 13:15: at the bridge 13:30, which opens; bar 13:50: 1.85 ft, 0.45 less.
  ASSERT_TRUE(all[0].costs.has_value());
  EXPECT_NEAR(in_feet(*all[0].costs), 0.45, 0.01);
  EXPECT_EQ(all[0].verdict, Verdict::outside_limits);
  // 3.2 kn: at the bridge 13:03:45, opens 13:30, bar 25 min later 13:55: tide 5.075, squat 0.64 x
  // 0.3 = 0.192 ft: 5.075 + 1 - 4.192 = 1.883 ft, 0.417 less than 2.3.
  ASSERT_TRUE(all[1].costs.has_value());
  EXPECT_NEAR(in_feet(*all[1].costs), 0.417, 0.01);
}

/// One hour of the forecast has a wind across the track; then the corridor reaches far enough to
/// leeward to take in a rock, of which no departure half an hour before or after tells.
TEST(DepartureWindows, APeakOfWindBetweenTwoHoursIsNotPassedOver) {
  BridgeShutsTheBar given;
  given.facts.waterway.bridges.clear();
  given.facts.waterway.bars.clear();
  given.rules.rules = given::rules(R"({"id": "keel", "for_each": "reach",
      "when": {"under_keel": {"less_than": "0 ft"}},
      "grade": "caution", "limit": true, "say": "{name}: {under_keel}", "source": "test"})")
                          .rules;
  const WindSeries calm = given.facts.winds.front();
  std::vector<WindHour> forecast = calm.hours();
  for (WindHour& hour : forecast) {
    if (hour.at != given::at("2026-06-14T10:00:00Z")) continue;
    hour.from = WindFrom{TrueBearing::from_degrees(270)};
    hour.speed = knots(24);
  }
  given.facts.winds = {WindSeries(calm.source(), calm.position(), forecast)};
  const Span span{given::at("2026-06-14T09:00:00Z"), given::at("2026-06-14T10:20:00Z")};
  bool some_shut_for_a_while = false;
  for (const double off_m : {14.0, 18.0, 22.0, 28.0, 36.0}) {
    given.facts.waterway.hazards = {{{"Rock", given.facts.waterway.stations},
                                     PointShape{given::at(off_m, 2300)},
                                     "rock",
                                     feet(-9),  // dries
                                     false,
                                     std::nullopt,
                                     Bottom::rock}};
    const RouteSurvey survey(given.plan, given.facts.waterway, given.rules.margins);
    const DepartureJudge judge(survey, given.plan, given.facts, given.rules, span);
    const std::size_t good = given::good_minutes_alike(judge, span, 1);
    some_shut_for_a_while = some_shut_for_a_while || (good > 0 && good < minutes_of(span).count);
  }
  EXPECT_TRUE(some_shut_for_a_while);
}

/// A rule of someone's own may shut the way only for a while between two departures at which it
/// does not, or open it: at the bridge each half hour, at one hour of the forecast.
TEST(DepartureWindows, LimitsThatComeAndGoAreHeldToEachMinute) {
  BridgeShutsTheBar given;
  const WindSeries steady = given.facts.winds.front();
  std::vector<WindHour> forecast = steady.hours();
  for (WindHour& hour : forecast) {
    if (hour.at != given::at("2026-06-14T11:00:00Z")) continue;
    hour.from = WindFrom{TrueBearing::from_degrees(90)};
    hour.speed = knots(20);
    hour.gust = knots(30);
    hour.thunder = 0.9;
  }
  given.facts.winds = {WindSeries(steady.source(), steady.position(), forecast)};
  const Span span{given::at("2026-06-14T09:00:00Z"), given::at("2026-06-14T12:00:00Z")};
  const RouteSurvey survey(given.plan, given.facts.waterway, given.rules.margins);
  for (const std::string when :
       {R"("bridge", "when": {"wait": {"more_than": "20 min"}})",
        R"("passage", "when": {"duration": {"more_than": "50 min"}})",
        R"("passage", "when": {"thunder": {"more_than": 0.5}})",
        R"("passage", "when": {"gust": {"at_most": "25 kn"}})",
        R"("leg", "when": {"gust": {"more_than": "20 kn"}})",
        R"("bar", "when": {"wind_from": {"at_least": 60, "at_most": 120}})"}) {
    const RuleSet rules = given::rules(R"({"id": "own", "for_each": )" + when +
                                       R"(, "grade": "caution", "limit": true, "say": "own",
                                       "source": "test"})");
    given.rules.rules = rules.rules;
    const DepartureJudge judge(survey, given.plan, given.facts, given.rules, span);
    const std::size_t good = given::good_minutes_alike(judge, span, 1);
    EXPECT_GT(good, 0U) << when;
    EXPECT_LT(good, minutes_of(span).count) << when;
  }
}

/// In a narrow secondary channel the current across leaves room to spare at slack water only, a few
/// minutes between two departures that both lack it.
TEST(DepartureWindows, SlackWaterBetweenTwoDeparturesIsFound) {
  BridgeShutsTheBar given;
  given.facts.waterway.bridges.clear();
  given.facts.waterway.bars.clear();
  Reach& reach = given.facts.waterway.reaches.front();
  reach.channel = Channel::secondary;
  reach.width = metres(9);
  reach.stations.current = "Race";
  given.facts.waterway.stations.current = "Race";
  given.facts.currents = {*read_current_station("race", R"({"kind": "current station",
      "name": "Race", "zone": "Etc/UTC", "flood_toward": 90, "ebb_toward": 270,
      "source": "invented", "mean": "0 kn", "uncertainty": "0.1 kn",
      "constituents": {"unit": "kn", "phase": "GMT", "rows": [["M2", 2, 0]]}})")};
  given.rules.rules = given::rules(R"({"id": "room", "for_each": "reach",
      "when": {"spare_width": {"less_than": "8 ft"}},
      "grade": "warning", "limit": true, "say": "{name}: {spare_width}", "source": "test"})")
                          .rules;
  // Slack comes each 6.2 hours.
  const Span span{given::at("2026-06-14T08:00:00Z"), given::at("2026-06-14T15:00:00Z")};
  const RouteSurvey survey(given.plan, given.facts.waterway, given.rules.margins);
  const DepartureJudge judge(survey, given.plan, given.facts, given.rules, span);
  const std::size_t good = given::good_minutes_alike(judge, span, 1);
  EXPECT_GT(good, 0U);
  EXPECT_LT(good, 128U);
}

/// In open water without a word of waves a mast is told not to fit only while not even a calm would
/// leave it room: charted 6 m above MHW of 3 ft (0.914 m), mast 4 m, margin 0.6 m: above a level of
/// 2.314 m (7.6 ft), which one high water alone comes to. Then it is an opening she passes through;
/// before and after it cannot be told.
TEST(DepartureWindows, AMastToldOfAtHighWaterAloneIsFound) {
  BridgeShutsTheBar given;
  given.facts.waterway.reaches.front().open_water = true;
  given.facts.waterway.bridges.front().clearance = metres(6);
  given.facts.waterway.bars.clear();
  const WindSeries steady = given.facts.winds.front();
  std::vector<WindHour> forecast = steady.hours();
  for (WindHour& hour : forecast) hour.wave = std::nullopt;
  given.facts.winds = {WindSeries(steady.source(), steady.position(), forecast)};
  std::string rows;
  for (int hour = 6; hour <= 20; ++hour) {
    rows += (rows.empty() ? "" : ", ") + std::string("[\"2026-06-14T") + (hour < 10 ? "0" : "") +
            std::to_string(hour) + ":00:00Z\", " + (hour == 11 ? "9" : "5") + "]";
  }
  given.facts.tides = given::tides_of({R"({"kind": "tide station", "name": "Gauge",
       "zone": "Etc/UTC", "datums": {"unit": "ft", "CD": 0, "MHW": 3}, "chart_datum": "CD",
       "heights": {"unit": "ft", "rows": [)" +
                                       rows + R"(]}, "uncertainty": "0.1 ft"})"});
  given.rules.rules = given::rules(R"({"id": "bridge", "for_each": "bridge",
      "when": {"passes": {"is": false}}, "grade": "warning", "limit": true, "say": "{bridge}",
      "source": "test"})")
                          .rules;
  const Span span{given::at("2026-06-14T08:00:00Z"), given::at("2026-06-14T14:00:00Z")};
  const RouteSurvey survey(given.plan, given.facts.waterway, given.rules.margins);
  const DepartureJudge judge(survey, given.plan, given.facts, given.rules, span);
  const std::size_t good = given::good_minutes_alike(judge, span, 1);
  EXPECT_GT(good, 0U);
  EXPECT_LT(good, 64U);
  const BridgeFinding high =
      given.judged("2026-06-14T10:45:00Z").departure.findings.bridges.front();
  EXPECT_EQ(high.opening->fits_on_arrival, Known<bool>(false));
  EXPECT_EQ(high.opening->passes, Known<bool>(true));
  EXPECT_FALSE(high.over_mast.front().over_mast.has_value());
  const BridgeFinding low = given.judged("2026-06-14T13:00:00Z").departure.findings.bridges.front();
  EXPECT_FALSE(low.opening->fits_on_arrival.has_value());
}

TEST(DepartureWindows, MinutesOfASpan) {
  const Instant noon = given::at("2026-06-14T12:00:00Z");
  EXPECT_EQ(minutes_of({noon, noon}).count, 1U);
  EXPECT_EQ(minutes_of({noon + Interval(1), noon + minutes(2)}).first, noon + minutes(1));
  EXPECT_EQ(minutes_of({noon + Interval(1), noon + minutes(2)}).count, 2U);
  EXPECT_EQ(minutes_of({noon + Interval(1), noon + Interval(2)}).count, 0U);
}

/// Minutes to hold against the plain judge: all of some passages; of the rest one in 60 and three
/// on each side of every edge. ALL_MINUTES=1 in the environment: all of all (minutes to run).
std::vector<std::size_t> minutes_to_try(bool all, const std::vector<MinuteFound>& found) {
  std::vector<std::size_t> tried;
  for (std::size_t i = 0; i < found.size(); ++i) {
    bool try_it = all || i % 60 == 0;
    for (std::size_t k = i < 3 ? 0 : i - 3; k < std::min(i + 3, found.size() - 1); ++k) {
      try_it = try_it || found[k].good != found[k + 1].good;
    }
    if (try_it) tried.push_back(i);
  }
  return tried;
}

struct Compared {
  std::size_t good = 0;
  std::size_t bad = 0;
};

void compare(unsigned number, const given::RandomPassage& passage, Span span, bool every_minute,
             Compared& so_far) {
  static const RuleSet rules = given::shipped_rules("renters");
  const RouteSurvey survey(passage.plan, passage.facts.waterway, rules.margins);
  const DepartureJudge judge(survey, passage.plan, passage.facts, rules, span);
  const Minutes all = minutes_of(span);
  const std::vector<MinuteFound> quick = scan_minutes(judge, all);
  ASSERT_EQ(quick.size(), all.count);
  for (const std::size_t i : minutes_to_try(every_minute, quick)) {
    const JudgedMinute plain = judge.at(all.at(i));
    ASSERT_EQ(plain.good, quick[i].good) << "passage " << number << ", " << to_rfc3339(all.at(i));
    if (plain.good) {
      ASSERT_EQ(plain.judged_on, quick[i].judged_on) << "passage " << number;
    }
    (plain.good ? so_far.good : so_far.bad) += 1;
  }
}

unsigned number_in(const char* variable) {
  const char* const value = std::getenv(variable);
  return value == nullptr ? 0 : static_cast<unsigned>(std::atoi(value));
}

/// 200 passages drawn by lot over six hours each, clock changes and a New Year among them; one in
/// four of them where EVERY_PASSAGE=1 is not set, for the sanitizers make them slow. By hand
/// WHOLE_WEEKS=3 adds every minute of seven days of so many.
TEST(DepartureWindows, ScanEqualsThePlainJudge) {
  Compared compared;
  const unsigned step = number_in("EVERY_PASSAGE") != 0 ? 1 : 4;
  for (unsigned number = 0; number < 200; number += step) {
    const given::RandomPassage passage = given::random_passage(number);
    const bool every_minute = number % 100 == 0 || number_in("ALL_MINUTES") != 0;
    compare(number, passage, passage.span, every_minute, compared);
    if (HasFatalFailure()) return;
  }
  EXPECT_GT(compared.good, 200U / step);  // passages that prove something either way
  EXPECT_GT(compared.bad, 200U / step);
  for (unsigned number = 0; number < number_in("WHOLE_WEEKS"); ++number) {
    const given::RandomPassage passage = given::random_passage(number);
    Compared week;
    compare(number, passage, {passage.span.begin, passage.span.begin + kLongestSpan}, true, week);
    if (HasFatalFailure()) return;
    std::cout << "passage " << number << ": " << week.good << " minutes good, " << week.bad
              << " not\n";
  }
}

/// The minute with most to spare is the one the plain way finds.
TEST(DepartureWindows, BestMinuteIsThatOfThePlainJudge) {
  const RuleSet rules = given::shipped_rules("small_craft");
  std::size_t windows = 0;
  for (unsigned number = 0; number < 200 && windows < 3; ++number) {
    const given::RandomPassage passage = given::random_passage(number);
    const Span span{passage.span.begin, passage.span.begin + hours(2)};
    const RouteSurvey survey(passage.plan, passage.facts.waterway, rules.margins);
    const DepartureJudge judge(survey, passage.plan, passage.facts, rules, span);
    const Minutes all = minutes_of(span);
    const std::vector<MinuteFound> scanned = scan_minutes(judge, all);
    if (!std::ranges::any_of(scanned, &MinuteFound::good)) continue;
    const std::vector<Window> quick = windows_among(judge, all, scanned);
    const std::vector<Window> plain = windows_among(judge, all, judge_every_minute(judge, all));
    ASSERT_EQ(quick.size(), plain.size()) << "passage " << number;
    for (std::size_t i = 0; i < plain.size(); ++i) {
      EXPECT_EQ(quick[i].opens, plain[i].opens) << "passage " << number;
      EXPECT_EQ(quick[i].closes, plain[i].closes) << "passage " << number;
      EXPECT_EQ(quick[i].best, plain[i].best) << "passage " << number;
      ++windows;
    }
  }
  EXPECT_GE(windows, 3U);
}

}  // namespace
}  // namespace passage_brief
