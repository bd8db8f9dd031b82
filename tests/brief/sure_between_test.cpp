// Where the search for windows may step over minutes.
#include "brief/sure_between.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "brief/departure_judge.h"
#include "brief/departure_windows.h"
#include "brief/minute_scan.h"
#include "cli/input_files.h"
#include "given/demo.h"
#include "passage/route_survey.h"
#include "units/clock.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

class SureBetween : public ::testing::TestWithParam<std::string> {};

/// A limit on a fact that nothing is known of between two departures (swings.h) would make every
/// minute be judged.
TEST_P(SureBetween, OfEveryShippedLimit) {
  const FixedClock clock(*parse_instant("2026-06-14T11:00:00Z"));
  const auto inputs = read_inputs(given::demo_files(GetParam(), "2026-06-15T12:00"), clock);
  ASSERT_TRUE(inputs.has_value());
  const RouteSurvey survey(inputs->plan, inputs->facts.waterway, inputs->rules.margins);
  const Instant noon = inputs->plan.departure.at;
  const DepartureJudge judge(survey, inputs->plan, inputs->facts, inputs->rules,
                             {noon, noon + hours(1)});
  const JudgedMinute first = judge.limits_at(noon);
  const JudgedMinute second = judge.limits_at(noon + minutes(1));
  ASSERT_TRUE(first.good && second.good) << "nothing to be sure of";
  EXPECT_EQ(good_throughout(judge.ways_of(first).front(), judge.ways_of(second).front(),
                            judge.calm_facts(), judge.rules()),
            std::optional(true));
}

TEST_P(SureBetween, FewMinutesOfTheDemoAreJudged) {
  const FixedClock clock(*parse_instant("2026-06-14T11:00:00Z"));
  const auto inputs = read_inputs(given::demo_files(GetParam(), "2026-06-15T00:00"), clock);
  ASSERT_TRUE(inputs.has_value());
  const RouteSurvey survey(inputs->plan, inputs->facts.waterway, inputs->rules.margins);
  const Span span{inputs->plan.departure.at, inputs->plan.departure.at + hours(48)};
  const DepartureJudge judge(survey, inputs->plan, inputs->facts, inputs->rules, span);
  const std::vector<MinuteFound> found = scan_minutes(judge, minutes_of(span));
  // What is left is told of those that were judged.
  EXPECT_LT(std::ranges::count_if(found, [](const MinuteFound& m) { return m.left.has_value(); }),
            300)
      << "of " << found.size();
  EXPECT_TRUE(std::ranges::any_of(found, &MinuteFound::good));
}

INSTANTIATE_TEST_SUITE_P(Rules, SureBetween,
                         ::testing::Values("small_craft", "renters", "learners"));

}  // namespace
}  // namespace passage_brief
