// Out, a stay and back: which way shuts a window, the berth through the stay, and the scan.
#include "brief/out_and_back.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "brief/departure_judge.h"
#include "brief/departure_windows.h"
#include "brief/minute_scan.h"
#include "brief/prepare_brief.h"
#include "brief/window_search.h"
#include "given/open_water.h"
#include "given/random_passage.h"
#include "given/rules.h"
#include "given/scan.h"
#include "given/stations.h"

namespace passage_brief {
namespace {

using given::at;
using std::chrono::hours;
using std::chrono::minutes;

/// 2 km of channel at 2 kn, charted 0.5 m over mud, and a berth of 0.4 m at its end; level 3.6 m at
/// 10:00 falling 0.3 m each hour to 0.6 m at 20:00.
struct OutAndBack {
  Plan plan = given::plan_along({at(0, 0), at(0, 2000)});
  Facts facts = given::facts_over(given::empty_waterway(), metres(0));
  RuleSet rules = given::rules(
      R"({"id": "thin", "for_each": "reach", "when": {"under_keel": {"less_than": "margin"}},
      "grade": "caution", "limit": true, "say": "{reach}: {under_keel}", "source": "test"},
      {"id": "aground in the berth", "for_each": "berth", "when": {"under_keel": {"less_than":
      "0 ft"}}, "grade": "caution", "limit": true, "say": "{berth}", "source": "test"})");

  explicit OutAndBack(Interval stay) {
    rules.margins = given::plain_margins();
    Waterway& water = facts.waterway;
    water.reaches.push_back(
        given::plain_reach("Reach", {at(0, -100), at(0, 2100)}, metres(200), metres(0.5)));
    water.reaches.front().speed_limit = knots(2);
    water.berths.push_back({{"Quay", water.stations},
                            at(0, 2000),
                            metres(0.4),
                            std::chrono::year(2026) / 4 / 1,
                            SurveyQuality::channel_survey,
                            Bottom::mud,
                            std::nullopt,
                            std::nullopt});
    std::string rows;
    for (int i = 0; i <= 10; ++i) {
      rows += (i == 0 ? "[\"2026-06-14T" : ",[\"2026-06-14T") + std::to_string(10 + i) +
              ":00:00Z\"," + std::to_string(3.6 - 0.3 * i) + "]";
    }
    facts.tides = given::tides_of({R"({"kind": "tide station", "name": "Gauge",
        "zone": "Etc/UTC", "datums": {"unit": "m", "CD": 0, "MHW": 1}, "chart_datum": "CD",
        "uncertainty": "0.1 m", "heights": {"unit": "m", "rows": [)" +
                                   rows + "]}}"});
    facts.winds.push_back(given::steady_wind(0, knots(0)));
    plan.back = WayBackPlan{stay, plan.route};
    std::ranges::reverse(plan.back->route.points);
  }

  [[nodiscard]] WindowList windows(const std::string& to) const {
    const RouteSurvey survey(plan, facts.waterway, rules.margins);
    return windows_in(survey, plan, facts, rules,
                      {given::at("2026-06-14T10:00:00Z"), given::at(to)});
  }
};

TEST(OutAndBack, TheWayBackShutsTheWindow) {
  // One way takes 32 min 24 s. Water is enough until 17:51:48 (turning_back_test.cpp). Out, 1 h 30
  // min ashore and back she must have left 2 h 34 min 48 s before: 15:17:00. Out alone: 17:19.
  const OutAndBack given(minutes(90));
  const WindowList list = given.windows("2026-06-14T17:00:00Z");
  ASSERT_EQ(list.windows.size(), 1U);
  const Window& window = list.windows.front();
  EXPECT_GE(window.closes, given::at("2026-06-14T15:16:00Z"));
  EXPECT_LE(window.closes, given::at("2026-06-14T15:17:00Z"));
  ASSERT_TRUE(window.closed_by.has_value());
  EXPECT_EQ(window.closed_by->about.name, "Reach");
  EXPECT_TRUE(window.closed_by->on_the_way_back);
}

TEST(OutAndBack, TheBerthHoldsThroughTheStay) {
  // In at 12:32:24, out at 16:32:24: lowest 3.6 - 0.3 x 6.54 = 1.638 m; 0.4 + 1.638 - 1.2 = 0.838.
  const OutAndBack given((hours(4)));
  const Brief brief =
      prepare_brief(given.plan, given.facts, given.rules, given::at("2026-06-14T11:00:00Z"));
  const Depth& quay = brief.findings.depths.back();
  ASSERT_EQ(quay.place, DepthPlace::berth);
  EXPECT_NEAR(in_metres(*quay.under_keel), 0.838, 0.002);
  EXPECT_EQ(quay.name, "Quay, lowest of the stay");
  EXPECT_FALSE(quay.sounder_reads.has_value());  // no moment to read it at
  // As she comes in: 3.6 - 0.3 x 2.54 = 2.838 m; 0.4 + 2.838 - 1.2 = 2.038, and so reads the
  // sounder.
  const Depth& arrival = brief.findings.depths.at(brief.findings.depths.size() - 2);
  EXPECT_EQ(arrival.name, "Quay");
  EXPECT_NEAR(in_metres(*arrival.under_keel), 2.038, 0.002);
  ASSERT_NE(brief.back, nullptr);
  EXPECT_EQ(to_rfc3339(*brief.back->leaves), "2026-06-14T16:32:23Z");
}

TEST(OutAndBack, TheWorstWindOfTheStayCounts) {
  // In at 12:32:24 for 4 h, in a berth open from east through south to west: 18 kn from the south
  // at 14:00 count, not the 25 kn over the land an hour later.
  OutAndBack given((hours(4)));
  given.facts.waterway.berths.front().open_to_wind = {TrueBearing::from_degrees(90),
                                                      TrueBearing::from_degrees(270)};
  std::vector<WindHour> blows;
  for (const auto& [hour, from_deg, kn] :
       {std::tuple(10, 0, 5), {13, 0, 5}, {14, 180, 18}, {15, 0, 25}, {18, 0, 25}}) {
    blows.push_back({given::at("2026-06-14T00:00:00Z") + hours(hour),
                     WindFrom{TrueBearing::from_degrees(from_deg)}, knots(kn), knots(kn),
                     std::nullopt, nautical_miles(10), metres(0), 0.0});
  }
  given.facts.winds = {{{"wind forecast", "test", std::nullopt}, std::nullopt, std::move(blows)}};
  const Brief brief =
      prepare_brief(given.plan, given.facts, given.rules, given::at("2026-06-14T11:00:00Z"));
  const Depth& stay = brief.findings.depths.back();
  EXPECT_NEAR(in_knots(stay.wind->speed), 18, 1e-9);
  EXPECT_EQ(stay.wind_at, Known<Instant>(given::at("2026-06-14T14:00:00Z")));
  EXPECT_EQ(stay.open_to_wind, Known<bool>(true));
  const Depth& arrival = brief.findings.depths.at(brief.findings.depths.size() - 2);
  EXPECT_NEAR(in_knots(arrival.wind->speed), 5, 1e-9);
  EXPECT_EQ(arrival.open_to_wind, Known<bool>(false));
}

TEST(OutAndBack, VerdictIsTheWorseOfBothWays) {
  // Back at 17:05 from a stay of 4 h: 3.6 - 0.3 x 7.08 = 1.476 m: enough. Of 5 h: 1.176: too
  // little.
  for (const auto& [stay, verdict] : {std::pair(hours(4), Verdict::within_limits),
                                      std::pair(hours(5), Verdict::outside_limits)}) {
    const OutAndBack given(stay);
    const Brief brief =
        prepare_brief(given.plan, given.facts, given.rules, given::at("2026-06-14T11:00:00Z"));
    EXPECT_EQ(brief.judgement.verdict, verdict);
    EXPECT_EQ(brief.back->verdict, verdict);
    EXPECT_TRUE(std::ranges::none_of(brief.judgement.limits, [](const LimitResult& limit) {
      return limit.state != LimitState::kept;
    }));
  }
}

TEST(OutAndBack, PastThePredictionItCannotTell) {
  const OutAndBack given(hours(20));
  const Brief brief =
      prepare_brief(given.plan, given.facts, given.rules, given::at("2026-06-14T11:00:00Z"));
  EXPECT_EQ(brief.judgement.verdict, Verdict::cannot_tell);
}

TEST(OutAndBack, ScanEqualsThePlainJudge) {
  const RuleSet rules = given::shipped_rules("small_craft");
  std::size_t good = 0;
  for (unsigned number = 1; number < 200; number += 30) {
    given::RandomPassage passage = given::random_passage(number);
    passage.plan.back = WayBackPlan{minutes(45), passage.plan.route};
    std::ranges::reverse(passage.plan.back->route.points);
    const Span span{passage.span.begin, passage.span.begin + hours(2)};
    const RouteSurvey survey(passage.plan, passage.facts.waterway, rules.margins);
    const DepartureJudge judge(survey, passage.plan, passage.facts, rules, span);
    good += given::good_minutes_alike(judge, span, 15);
  }
  EXPECT_GT(good, 5U);
}

}  // namespace
}  // namespace passage_brief
