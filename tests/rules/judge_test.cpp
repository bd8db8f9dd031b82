#include "rules/judge.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "given/findings.h"
#include "given/rules.h"

namespace passage_brief {
namespace {

using given::caution_when;
using given::findings;
using given::rules;

/// The reach of the given findings: 4 ft under the keel, margin 2 ft, mud, rising.
LimitState state_of(const std::string& when, const Findings& found = findings()) {
  const Judgement judgement = judge(rules(caution_when(when, true)), found);
  EXPECT_EQ(judgement.limits.size(), 1U);
  return judgement.limits.at(0).state;
}

constexpr LimitState kBroken = LimitState::broken;
constexpr LimitState kKept = LimitState::kept;
constexpr LimitState kCannotTell = LimitState::cannot_tell;

Findings depth_not_known() {
  Findings found = findings();
  for (Depth& depth : found.depths) depth.under_keel = not_known("nobody sounded it");
  return found;
}

TEST(Judge, EveryComparisonOnBothSidesOfItsLimit) {
  const std::vector<std::pair<const char*, LimitState>> cases = {
      {R"({"under_keel": {"less_than": "4 ft"}})", kKept},
      {R"({"under_keel": {"less_than": "4.1 ft"}})", kBroken},
      {R"({"under_keel": {"more_than": "4 ft"}})", kKept},
      {R"({"under_keel": {"more_than": "3.9 ft"}})", kBroken},
      {R"({"under_keel": {"at_least": "4 ft"}})", kBroken},
      {R"({"under_keel": {"at_least": "4.1 ft"}})", kKept},
      {R"({"under_keel": {"at_most": "4 ft"}})", kBroken},
      {R"({"under_keel": {"at_most": "3.9 ft"}})", kKept},
      {R"({"under_keel": {"is": "4 ft"}})", kBroken},
      {R"({"under_keel": {"less_than": "margin"}})", kKept},
      {R"({"under_keel": {"at_least": "margin"}})", kBroken},
      {R"({"under_keel": {"at_least": "3 ft", "less_than": "5 ft"}})", kBroken},
      {R"({"under_keel": {"at_least": "3 ft", "less_than": "4 ft"}})", kKept},
      {R"({"bottom": {"is": "mud"}})", kBroken},
      {R"({"bottom": {"is": "rock"}})", kKept},
      {R"({"bottom": {"one_of": ["rock", "mud"]}})", kBroken},
      {R"({"bottom": {"one_of": ["rock", "coral"]}})", kKept},
      {R"({"open_water": {"is": false}})", kBroken},
      {R"({"open_water": {"is": true}})", kKept},
      {R"({"speed": {"more_than": "5 kn"}})", kBroken},
      {R"({"after_departure": {"less_than": "11 min"}})", kBroken},
      {R"({"survey_age_years": {"less_than": 1}})", kBroken},
      {R"({"time": {"known": true}})", kBroken},
      {R"({"under_keel": {"known": false}})", kKept}};
  for (const auto& [when, state] : cases) EXPECT_EQ(state_of(when), state) << when;
}

TEST(Judge, FiguresThatPrintAlikeAreEqual) {
  // 0.1 + 0.2 is a hair over 0.3: such a sum must not pass a limit of its own printed value.
  Findings found = findings();
  found.depths[1].under_keel = feet(0.1) + feet(0.2);
  EXPECT_EQ(state_of(R"({"under_keel": {"more_than": "0.3 ft"}})", found), kKept);
  EXPECT_EQ(state_of(R"({"under_keel": {"at_most": "0.3 ft"}})", found), kBroken);
  found.depths[1].under_keel = feet(2) - metres(1e-9);
  EXPECT_EQ(state_of(R"({"under_keel": {"less_than": "margin"}})", found), kKept);
  found.depths[1].under_keel = feet(2) - metres(1e-5);
  EXPECT_EQ(state_of(R"({"under_keel": {"less_than": "margin"}})", found), kBroken);
}

TEST(Judge, WhatIsNotKnownLeavesATestUnknownButKnownIsAlwaysSettled) {
  const Findings found = depth_not_known();
  EXPECT_EQ(state_of(R"({"under_keel": {"less_than": "2 ft"}})", found), kCannotTell);
  EXPECT_EQ(state_of(R"({"not": {"under_keel": {"less_than": "2 ft"}}})", found), kCannotTell);
  EXPECT_EQ(state_of(R"({"under_keel": {"known": false}})", found), kBroken);
  EXPECT_EQ(state_of(R"({"under_keel": {"known": true}})", found), kKept);
}

TEST(Judge, JoinsFollowKleene) {
  const Findings found = depth_not_known();
  const std::string unknown = R"({"under_keel": {"less_than": "2 ft"}})";
  const std::string yes = R"({"bottom": {"is": "mud"}})";
  const std::string no = R"({"bottom": {"is": "rock"}})";
  const auto joined = [&](const char* join, const std::string& a, const std::string& b) {
    return state_of(fmt::format(R"({{"{}": [{}, {}]}})", join, a, b), found);
  };
  EXPECT_EQ(joined("all", unknown, no), kKept);
  EXPECT_EQ(joined("all", unknown, yes), kCannotTell);
  EXPECT_EQ(joined("all", yes, yes), kBroken);
  EXPECT_EQ(joined("any", unknown, yes), kBroken);
  EXPECT_EQ(joined("any", unknown, no), kCannotTell);
  EXPECT_EQ(joined("any", no, no), kKept);
  EXPECT_EQ(state_of(fmt::format(R"({{"not": {}}})", no), found), kBroken);
  EXPECT_EQ(state_of(fmt::format(R"({{"not": {{"any": [{}, {}]}}}})", no, yes), found), kKept);
}

TEST(Judge, ReasonsAreThoseThatCouldChangeTheOutcome) {
  Findings found = depth_not_known();
  found.depths[1].tide_is = not_known("no tide station");
  const std::string when =
      R"({"any": [{"under_keel": {"less_than": "2 ft"}},
                  {"all": [{"tide": {"is": "falling"}}, {"bottom": {"is": "rock"}}]}]})";
  const Judgement judgement = judge(rules(caution_when(when, true)), found);
  ASSERT_EQ(judgement.not_checked.size(), 1U);
  // The bottom settles the second part, so the missing tide has no bearing.
  EXPECT_EQ(judgement.not_checked[0].because.reasons,
            std::vector<std::string>{"nobody sounded it"});
  EXPECT_EQ(judgement.not_checked[0].about.name, "Cut");
  EXPECT_TRUE(judgement.not_checked[0].limit);
}

/// Rules of one sort each, for the table of verdicts.
std::string entry(const char* id, const char* when, const char* grade, bool limit) {
  return fmt::format(R"({{"id": "{}", "for_each": "reach", "when": {}, "grade": "{}", "limit": {},
                         "say": "x", "source": "test"}})",
                     id, when, grade, limit);
}

TEST(Verdict, WholeTruthTable) {
  const char* yes = R"({"bottom": {"is": "mud"}})";
  const char* no = R"({"bottom": {"is": "rock"}})";
  const char* unknown = R"({"under_keel": {"less_than": "2 ft"}})";
  struct Case {
    const char* limit_a;
    const char* limit_b;
    const char* caution;
    const char* grade;
    Verdict verdict;
  };
  // Any limit broken: outside limits. Else any that cannot tell: cannot tell. Else a caution of
  // grade caution or above: cautions. Else within limits; a caution that is unknown counts for
  // nothing.
  const std::vector<Case> cases = {{no, no, no, "danger", Verdict::within_limits},
                                   {no, no, yes, "notice", Verdict::within_limits},
                                   {no, no, yes, "caution", Verdict::cautions},
                                   {no, no, yes, "warning", Verdict::cautions},
                                   {no, no, yes, "danger", Verdict::cautions},
                                   {no, no, unknown, "danger", Verdict::within_limits},
                                   {no, unknown, no, "danger", Verdict::cannot_tell},
                                   {no, unknown, yes, "danger", Verdict::cannot_tell},
                                   {unknown, yes, no, "danger", Verdict::outside_limits},
                                   {yes, unknown, yes, "notice", Verdict::outside_limits},
                                   {no, yes, no, "notice", Verdict::outside_limits}};
  for (const Case& c : cases) {
    const RuleSet set =
        rules(entry("a", c.limit_a, "notice", true) + "," + entry("b", c.limit_b, "notice", true) +
              "," + entry("c", c.caution, c.grade, false));
    EXPECT_EQ(judge(set, depth_not_known()).verdict, c.verdict)
        << c.limit_a << c.limit_b << c.caution << c.grade;
  }
}

TEST(Judge, CautionsStandByGradeThenInOrderOfPassing) {
  Findings found = findings();
  found.depths[1].passing.along = nautical_miles(2);
  found.depths.push_back(given::depth(DepthPlace::reach, "First Cut"));
  found.depths.back().passing.along = nautical_miles(0.5);
  const std::string always = R"({"name": {"known": true}})";
  const auto for_each = [&](const char* id, const char* kind, const char* grade) {
    return fmt::format(R"({{"id": "{}", "for_each": "{}", "when": {}, "grade": "{}", "say": "x",
                           "source": "t"}})",
                       id, kind, always, grade);
  };
  const Judgement judgement = judge(
      rules(for_each("n", "passage", "notice") + "," + for_each("c", "reach", "caution") + "," +
            for_each("p", "passage", "caution") + "," + for_each("d", "bridge", "danger")),
      found);
  std::vector<std::string> order;
  for (const Caution& caution : judgement.cautions) {
    order.push_back(caution.id + " " + caution.about.name);
  }
  EXPECT_EQ(order, (std::vector<std::string>{"d Mill Bridge", "p the passage", "c First Cut",
                                             "c Cut", "n the passage"}));
}

TEST(Judge, SentenceHoldsFactsWithTheirRounding) {
  const RuleSet set = rules(
      R"({"id": "x", "for_each": "reach", "when": {"name": {"known": true}}, "grade": "notice",
          "say": "{reach}: {under_keel} of {needed}, {why under_keel}{why tide}.", "source": "t"})");
  Findings found = findings();
  found.depths[1].tide_is = not_known("no tide station");
  const Judgement judgement = judge(set, found);
  ASSERT_EQ(judgement.cautions.size(), 1U);
  const Sentence& say = judgement.cautions[0].say;
  const auto fact = [&](std::size_t i) { return std::get<FactInText>(say.at(i)); };
  EXPECT_EQ(std::get<std::string>(fact(0).value.value()), "Cut");
  EXPECT_EQ(std::get<std::string>(say.at(1)), ": ");
  EXPECT_EQ(fact(2).fact, "under_keel");
  EXPECT_EQ(fact(2).rounding, Rounding::down);
  EXPECT_EQ(fact(4).rounding, Rounding::up);
  // 8.6 ft of water less 4.0 ft under the keel.
  EXPECT_NEAR(in_feet(std::get<Length>(fact(4).value.value())), 4.6, 1e-9);
  // A fact that is known has no reason to print; one that is not has its own.
  EXPECT_EQ(std::get<std::string>(say.at(6)), "no tide station");
  EXPECT_EQ(std::get<std::string>(say.at(7)), ".");
  EXPECT_EQ(say.size(), 8U);
}

TEST(Judge, WaterOutsideEveryReachIsJudgedAsAReach) {
  Findings found = findings();
  found.depths.push_back(given::depth(DepthPlace::unnamed_water, "open water"));
  const Judgement judgement =
      judge(rules(caution_when(R"({"under_keel": {"known": true}})", true)), found);
  EXPECT_EQ(judgement.limits.size(), 2U);
}

TEST(Judge, SameFindingsGiveTheSameJudgement) {
  const RuleSet set = given::shipped_rules("renters");
  const Judgement a = judge(set, depth_not_known());
  const Judgement b = judge(set, depth_not_known());
  ASSERT_EQ(a.limits.size(), b.limits.size());
  for (std::size_t i = 0; i < a.limits.size(); ++i) {
    EXPECT_EQ(a.limits[i].id, b.limits[i].id);
    EXPECT_EQ(a.limits[i].about, b.limits[i].about);
    EXPECT_EQ(a.limits[i].state, b.limits[i].state);
  }
  EXPECT_EQ(a.verdict, b.verdict);
}

}  // namespace
}  // namespace passage_brief
