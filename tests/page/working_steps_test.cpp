// The sums of a working, as one would write them down. Arithmetic by hand beside each.
#include "page/working_steps.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "passage/figure.h"
#include "units/quantity.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

const Reader kReaderInUtc{Units::us, Clock24(Zone::utc(), *parse_instant("2026-06-14T10:00:00Z"))};
const SharedSources kNoneShared{{}};

std::string in_lines(Steps& steps) {
  std::string text;
  for (const std::string& step : steps.take().more) text += step + "\n";
  return text;
}

// 4.5066 + 3.02 = 7.5266, down 7.52; 7.5266 - 4 - 0.6723 - 0.3 = 2.5543, down 2.55. What 7.52
// leaves out goes to the squat, which is worked out, and not to the draft, which is given.
TEST(StepsOfAFigure, PrintWhatIsGivenAsItIsGiven) {
  Steps steps("Under the keel", kReaderInUtc, kNoneShared);
  const Carried water = steps.sum("Water", {{"charted", feet(4.5066)}, {"tide", feet(3.02)}},
                                  feet(7.5266), Rounding::down);
  steps.sum("Under the keel",
            {{"water", feet(7.5266), false, water},
             {"draft", feet(4), true},
             {"squat", feet(0.6723), true},
             {"wash", feet(0.3), true}},
            feet(2.5543), Rounding::down);
  EXPECT_EQ(in_lines(steps),
            "Water: charted 4.50 + tide 3.02 = 7.52 ft\n"
            "Under the keel: water 7.52 - draft 4.00 - squat 0.67 - wash 0.30 = 2.55 ft\n");
}

// 3.7293 is carried as 3.72; with 0.3 the page's 4.0293 is 4.0, and so is 4.02.
TEST(StepsOfAFigure, AddUpWhereNothingIsRounded) {
  Steps steps("Sounder", kReaderInUtc, kNoneShared);
  steps.sum("Sounder reads", {{"under the keel", feet(3.7293), false, 372}, {"wash", feet(0.3)}},
            feet(4.0293), Rounding::nearest);
  EXPECT_EQ(in_lines(steps), "Sounder reads: under the keel 3.72 + wash 0.30 = 4.02 ft\n");
}

/// The line that could_be() makes of a figure in feet, carried from a step before.
std::string could_be(double figure_ft, long long carried, const std::vector<ErrorTerm>& errors,
                     double could_be_ft, double for_parts_ft) {
  Steps steps("Under the keel", kReaderInUtc, kNoneShared);
  steps.could_be("Could be", {"figure", feet(figure_ft), false, carried}, feet(could_be_ft), errors,
                 feet(for_parts_ft));
  return in_lines(steps);
}

// Found 2026-11-26: "root of (0.10 squared + 0.16 squared) = 0.18", which is 0.19 by hand. By hand:
// 0.328 squared 0.107584 + 0.510 squared 0.2601 = 0.367684, root 0.6064; 1.645 x 0.606 = 0.9969.
// Exactly: root(0.3281 squared + 0.5102 squared) = 0.60659, x 1.645 = 0.99784; 3.1446 - 0.99784 -
// 0.0138 = 2.13296.
TEST(StepsOfAFigure, ARootIsThatOfItsPrintedTerms) {
  EXPECT_EQ(could_be(3.1446, 314, {{"tide", feet(0.3281), ""}, {"survey", feet(0.5102), ""}},
                     3.1446 - 1.645 * std::hypot(0.3281, 0.5102) - 0.0138, 0),
            "One standard deviation: root of (tide 0.328\u00b2 + survey 0.510\u00b2) = 0.606 ft\n"
            "Could be: figure 3.14 - 1.645 x this 1.00 - shoaling since the survey 0.01 = 2.13 "
            "ft\n");
}

// 0.306 x 1.645 = 0.5034; 2.60 - 0.50 = 2.10, but the page says 2.0: 2.6005 - 0.3064 x 1.645 =
// 2.0965.
TEST(StepsOfAFigure, SayWhatWasRoundedOffWhereItTells) {
  EXPECT_EQ(could_be(2.6005, 260, {{"survey", feet(0.3064), ""}}, 2.6005 - 0.3064 * 1.645, 0),
            "One standard deviation: root of (survey 0.306\u00b2) = 0.306 ft\n"
            "Could be: figure 2.60 - 1.645 x this 0.50 - rounded off before 0.01 = 2.09 ft\n");
}

// 0.4 x 1.645 = 0.658; 4.5 - 0.66 - 0.12 = 3.72, exactly 3.722.
TEST(StepsOfAFigure, NameWhatIsTakenOffForAPartNear) {
  EXPECT_EQ(could_be(4.5, 450, {{"survey", feet(0.4), ""}}, 3.722, 0.12),
            "One standard deviation: root of (survey 0.400\u00b2) = 0.400 ft\n"
            "Could be: figure 4.50 - 1.645 x this 0.66 - a part near it less sure 0.12 = 3.72 "
            "ft\n");
}

TEST(StepsOfAFigure, SayOnceWhereAllHaveTheSameFrom) {
  const auto working = [](const std::string& tide) {
    return Working{"under the keel",
                   "",
                   {{"squat", feet(0.5), "Barrass"},
                    {"height of tide", feet(3), tide},
                    {"draft", feet(4), "vessel"}},
                   feet(1),
                   "definition"};
  };
  const Working first = working("Town");
  const Working second = working("Bar");
  const SharedSources shared({{"under the keel", &first}, {"under the keel", &second}});
  Steps steps("Under the keel", kReaderInUtc, shared);
  steps.inputs(first);
  EXPECT_EQ(in_lines(steps), "From: height of tide (Town).\n");
  ASSERT_TRUE(shared.block());
  EXPECT_EQ(shared.block()->more,
            (std::vector<std::string>{"Barrass: squat.", "Definition: under the keel."}));

  const SharedSources alone({{"under the keel", &first}});
  Steps single("Under the keel", kReaderInUtc, alone);
  single.inputs(first);
  EXPECT_EQ(in_lines(single), "From: squat (Barrass); height of tide (Town).\n");
  EXPECT_FALSE(alone.block());
}

}  // namespace
}  // namespace passage_brief
