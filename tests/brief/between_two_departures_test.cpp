// What happens only between two departures that the search for windows judges: the scan held to the
// judge at each minute. Invented water; every case was once taken for good.
#include <gtest/gtest.h>

#include <chrono>
#include <string>
#include <utility>
#include <vector>

#include "brief/departure_judge.h"
#include "facts/tide/constituent.h"
#include "facts/tide/harmonic.h"
#include "given/open_water.h"
#include "given/rules.h"
#include "given/scan.h"
#include "given/stations.h"
#include "passage/route_survey.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

using given::at;
using std::chrono::hours;
using std::chrono::minutes;

const Instant kSix = given::at("2026-06-14T06:00:00Z");

/// One constituent, by its greatest and its phase lag.
HarmonicCurve beats(double mean, const char* constituent, double greatest, double phase_deg) {
  return {mean, {{*Constituent::named(constituent), greatest, degrees(phase_deg)}}};
}

/// Rising and falling 1 m about 1.2 m above chart datum.
TideStation moving_tide() {
  return TideStation({"Gauge",
                      at(0, 0),
                      Zone::utc(),
                      Source{"Gauge", "made for a test", std::nullopt},
                      metres(0.05),
                      std::string("CD"),
                      {{"CD", Height<StationZero>::above(metres(0))},
                       {"MHW", Height<StationZero>::above(metres(2))}},
                      "",
                      TideCurve(beats(1.2, "M2", 1, 50))});
}

CurrentStation stream(double toward_deg, HarmonicCurve along) {
  return CurrentStation(
      {"Stream", at(0, 0), Zone::utc(), Source{"Stream", "made for a test", std::nullopt},
       knots(0.1), SetToward{TrueBearing::from_degrees(toward_deg)},
       SetToward{TrueBearing::from_degrees(toward_deg + 180)}, CurrentCurve(std::move(along))});
}

/// Hour by hour from 22:00 the day before.
WindSeries winds(const std::vector<std::pair<double, double>>& from_and_kn) {
  std::vector<WindHour> all;
  for (std::size_t i = 0; i < from_and_kn.size(); ++i) {
    const auto [from_deg, kn] = from_and_kn[i];
    all.push_back({kSix - hours(8) + hours(i), WindFrom{TrueBearing::from_degrees(from_deg)},
                   knots(kn), knots(kn), std::nullopt, nautical_miles(10), metres(0), 0.0});
  }
  return {{"wind forecast", "made for a test", kSix}, std::nullopt, std::move(all)};
}

WindSeries steady(double from_deg, double kn) {
  return winds(std::vector<std::pair<double, double>>(40, {from_deg, kn}));
}

/// Due north through deep water 300 m wide.
struct North {
  Plan plan;
  Facts facts;

  explicit North(double length_m)
      : plan(given::plan_along({at(0, 0), at(0, length_m)})),
        facts{given::empty_waterway(), {moving_tide()}, {}, {steady(180, 4)}} {
    facts.waterway.reaches.push_back(
        given::plain_reach("Reach", {at(0, -100), at(0, 2100)}, metres(300), metres(20)));
    plan.departure.at = kSix;
    plan.vessel.anchor = std::nullopt;
  }

  void add_stream(CurrentStation station) {
    facts.currents.push_back(std::move(station));
    facts.waterway.stations.current = "Stream";
    facts.waterway.reaches.front().stations.current = "Stream";
  }
  void add_rock(double east_m, double north_m) {
    facts.waterway.hazards.push_back({{"Rock", facts.waterway.stations},
                                      at(east_m, north_m),
                                      "rock",
                                      metres(0),
                                      true,
                                      std::nullopt,
                                      Bottom::rock});
  }

  /// How many minutes are good; a failure where the scan says otherwise than the judge.
  [[nodiscard]] std::size_t good(const RuleSet& rules, Interval from, Interval to) const {
    const RouteSurvey survey(plan, facts.waterway, rules.margins);
    const Span span{kSix + from, kSix + to};
    const DepartureJudge judge(survey, plan, facts, rules, span);
    return given::good_minutes_alike(judge, span, 1);
  }
};

RuleSet danger_limit() {
  return given::rules(R"({"id": "close", "for_each": "danger", "when": {"all": [
      {"hard": {"is": true}}, {"reached_in": {"less_than": "5 min"}}]},
      "grade": "warning", "limit": true, "say": "{name}", "source": "test"})");
}

// A stream of 6.6 kn at its most, of a quarter of a day, against 6 kn through the water.
TEST(BetweenTwoDepartures, AStreamOnTheBowStopsHer) {
  North given(900);
  given.add_stream(stream(0, beats(0, "M4", 6.6 * 0.5144, 180)));
  EXPECT_GT(given.good(given::shipped_rules("small_craft"), hours(4), hours(8)), 0U);
}

TEST(BetweenTwoDepartures, AStreamAcrossTakesHerOffTheLine) {
  North given(900);
  given.add_stream(stream(90, beats(0, "M4", 7 * 0.5144, 0)));
  EXPECT_GT(given.good(given::shipped_rules("small_craft"), hours(4), hours(8)), 0U);
}

// The rock is 12 m off, within the corridor and half a length: she is on it at once when the wind
// turns from one degree on the one side of her course to one on the other, for an hour in three.
TEST(BetweenTwoDepartures, AWindSwingsTowardARockAtTheEdge) {
  North given(2000);
  given.add_rock(12, 750);
  std::vector<std::pair<double, double>> wobbles;
  for (int i = 0; i < 40; ++i) wobbles.emplace_back(i % 3 == 1 ? 181 : 179, 6);
  given.facts.winds = {winds(wobbles)};
  EXPECT_GT(given.good(danger_limit(), minutes(447), minutes(554)), 0U);
}

// Eight streams a day across, no wind to speak of.
TEST(BetweenTwoDepartures, AStreamSetsTowardARockAtTheEdge) {
  North given(2000);
  given.add_rock(14, 700);
  given.facts.winds = {steady(180, 1)};
  given.add_stream(stream(90, beats(0, "M8", 0.514, 40)));
  EXPECT_GT(given.good(danger_limit(), minutes(297), minutes(404)), 0U);
}

// A ledge of 0.9 m to leeward is a danger to a draft of 1.2 m while less than 0.3 m stand over
// chart datum: only about low water, 0.2 m.
TEST(BetweenTwoDepartures, ALedgeIsADangerAtLowWaterAlone) {
  North given(2000);
  given.facts.winds = {steady(270, 14)};
  given.facts.waterway.depth_areas.push_back(
      given::plain_area("Ledge", given::oblong(30, 500, 60, 900), metres(0.9)));
  given.facts.waterway.depth_areas.back().bottom = Bottom::rock;
  EXPECT_GT(given.good(danger_limit(), hours(0), hours(13)), 0U);
}

}  // namespace
}  // namespace passage_brief
