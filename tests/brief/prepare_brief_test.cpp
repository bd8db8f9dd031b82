// Until when a brief may be left by.
#include "brief/prepare_brief.h"

#include <gtest/gtest.h>

#include <chrono>
#include <optional>
#include <string>

#include "given/open_water.h"
#include "given/rules.h"
#include "given/stations.h"
#include "page/json.h"

namespace passage_brief {
namespace {

using given::at;

/// 2 km of channel at 2 kn, charted 0.5 m over mud; level 3.6 m at 10:00 falling 0.3 m each hour.
/// She may leave until 17:19, to be sure until 16:19 (sure_test.cpp, Sure.WindowShutsSoonerByHand).
struct LeftBy {
  Plan plan = given::plan_along({at(0, 0), at(0, 2000)});
  Facts facts = given::facts_over(given::empty_waterway(), metres(0));
  RuleSet rules = given::rules(
      R"({"id": "thin", "for_each": "reach", "when": {"under_keel": {"less_than": "margin"}},
      "grade": "caution", "limit": true, "say": "{reach}: {under_keel}", "source": "test"})");

  LeftBy() {
    rules.margins = given::plain_margins();
    rules.margins.forecast_age = std::chrono::hours(72);
    facts.waterway.reaches.push_back(
        given::plain_reach("Reach", {at(0, -100), at(0, 2100)}, metres(200), metres(0.5)));
    facts.waterway.reaches.front().speed_limit = knots(2);
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
  }

  [[nodiscard]] Brief brief(const std::string& departs, const std::string& now,
                            int days = 1) const {
    Plan leaving = plan;
    leaving.departure.at = given::at("2026-06-14T" + departs + "Z");
    return prepare_brief(leaving, facts, rules, given::at("2026-06-14T" + now + "Z"),
                         std::chrono::days(days));
  }

  [[nodiscard]] std::string void_after(const std::string& departs, const std::string& now,
                                       int days = 1) const {
    const Known<Instant> last = brief(departs, now, days).void_after;
    return last.has_value() ? to_rfc3339(*last) : in_words(last.error());
  }
};

// Found 2026-11-26: "do not leave by this page after 09:10" under "Leave between 06:00 to 08:15".
// An hour after 16:00 is 17:00, before the window shuts at 17:19; an hour after 16:50 is 17:50.
TEST(PrepareBrief, NobodyLeavesByItAfterTheWindowShuts) {
  const LeftBy given;
  EXPECT_EQ(given.void_after("16:00:00", "11:00:00"), "2026-06-14T17:00:00Z");
  EXPECT_EQ(given.void_after("16:50:00", "11:00:00"), "2026-06-14T17:19:00Z");
  EXPECT_EQ(given.void_after("17:19:00", "11:00:00"), "2026-06-14T17:19:00Z");
  // The twentieth second lies past the last good minute: then, or not by this brief.
  EXPECT_EQ(given.void_after("17:19:20", "11:00:00"), "2026-06-14T17:19:20Z");
  EXPECT_EQ(given.void_after("16:50:00", "11:00:00", 0), "2026-06-14T17:50:00Z");
}

TEST(PrepareBrief, LateForAPastDepartureTheWindowShutsAllTheSame) {
  const LeftBy given;
  EXPECT_EQ(given.void_after("16:50:00", "17:00:30"), "2026-06-14T17:19:00Z");
  EXPECT_EQ(given.void_after("16:50:00", "17:30:00"), "2026-06-14T16:50:00Z");
}

TEST(PrepareBrief, ToBeSureTheWindowShutsSooner) {
  LeftBy given;
  EXPECT_EQ(given.void_after("15:40:00", "11:00:00"), "2026-06-14T16:40:00Z");
  given.rules.sure_95 = true;
  EXPECT_EQ(given.void_after("15:40:00", "11:00:00"), "2026-06-14T16:19:00Z");
}

TEST(PrepareBrief, WhereSheIsNotToLeaveItNamesNoTimeToLeaveBy) {
  const LeftBy given;
  for (const int days : {0, 1}) {
    const Brief brief = given.brief("17:20:00", "11:00:00", days);
    EXPECT_EQ(brief.judgement.verdict, Verdict::outside_limits);
    EXPECT_FALSE(brief.void_after.has_value());
    const std::string json = brief_as_json(brief, Units::metric);
    EXPECT_TRUE(json.contains(R"("void_after": null)"));
    EXPECT_TRUE(json.contains(R"("void_after": "the verdict is not to leave at all")"));
  }
}

}  // namespace
}  // namespace passage_brief
