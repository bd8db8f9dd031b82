#include "facts/tide/slack_max_curve.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "given/stations.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::at;

std::vector<FlowEvent> tide() {
  return {{at("2026-06-14T00:00:00Z"), 0, true},
          {at("2026-06-14T03:00:00Z"), 2, false},
          {at("2026-06-14T06:00:00Z"), 0, true},
          {at("2026-06-14T09:00:00Z"), -1, false}};
}

// Between a slack and a greatest flow the quarter of a sine, by hand: a third of the way 0.5 of the
// greatest, half way 0.7071.
TEST(SlackMaxCurve, IsAQuarterWaveBetweenEvents) {
  const auto curve = SlackMaxCurve::through(tide());
  ASSERT_TRUE(curve) << curve.error();
  EXPECT_NEAR(curve->at(at("2026-06-14T01:00:00Z"))->value, 1.0, 1e-12);
  EXPECT_NEAR(curve->at(at("2026-06-14T04:30:00Z"))->value, 2 * std::sqrt(0.5), 1e-12);
  EXPECT_NEAR(curve->at(at("2026-06-14T07:00:00Z"))->value, -0.5, 1e-12);
  EXPECT_NEAR(curve->at(at("2026-06-14T03:00:00Z"))->value, 2, 1e-12);
  // Rate at slack: V pi/2 over the stretch, 2 * 1.5708 / 10800 s.
  EXPECT_NEAR(curve->at(at("2026-06-14T00:00:00Z"))->rate_per_s, 2 * 1.570796 / 10800, 1e-9);
}

TEST(SlackMaxCurve, GivesItsEventsBack) {
  const auto curve = SlackMaxCurve::through(tide());
  const Span all{at("2026-06-14T00:00:00Z"), at("2026-06-14T09:00:00Z")};
  const auto turns = curve->turns(all);
  ASSERT_TRUE(turns);
  ASSERT_EQ(turns->size(), 2U);
  EXPECT_TRUE(turns->front().high);
  EXPECT_FALSE(turns->back().high);
  const auto zeros = curve->zeros(all);
  ASSERT_TRUE(zeros);
  ASSERT_EQ(zeros->size(), 2U);
  EXPECT_TRUE(zeros->front().upward);
  EXPECT_FALSE(zeros->back().upward);
}

TEST(SlackMaxCurve, IsNotKnownWhereTheTableSaysNothing) {
  auto events = tide();
  events.erase(events.begin() + 2);  // no slack between flood and ebb
  const auto curve = SlackMaxCurve::through(events);
  ASSERT_TRUE(curve) << curve.error();
  EXPECT_TRUE(curve->at(at("2026-06-14T03:00:00Z")));
  EXPECT_FALSE(curve->at(at("2026-06-14T04:00:00Z")));
  EXPECT_FALSE(curve->at(at("2026-06-13T23:59:59Z")));
  EXPECT_FALSE(curve->at(at("2026-06-14T09:00:01Z")));
  EXPECT_FALSE(curve->turns({at("2026-06-14T01:00:00Z"), at("2026-06-14T05:00:00Z")}));
  auto far = tide();
  far.back().at = at("2026-06-14T14:00:01Z");  // 8 h and a second
  EXPECT_FALSE(SlackMaxCurve::through(far)->at(at("2026-06-14T10:00:00Z")));
}

TEST(SlackMaxCurve, RefusesWhatCannotBe) {
  auto events = tide();
  std::swap(events[0].at, events[1].at);
  EXPECT_FALSE(SlackMaxCurve::through(events));
  events = tide();
  events[3].value = 1;  // flood, slack, flood
  EXPECT_FALSE(SlackMaxCurve::through(events));
  events.resize(1);
  EXPECT_FALSE(SlackMaxCurve::through(events));
}

}  // namespace
}  // namespace passage_brief
