// Where the sounder says stop: by the shipped rules, the margin over hard, open or not rising
// ground, nothing where it is soft, sheltered and rising (rules/small_craft.json, trade practice of
// grounding on mud with a rising tide: common practice, no source).
#include "rules/limit_under_keel.h"

#include <gtest/gtest.h>

#include <functional>
#include <string>

#include "given/findings.h"
#include "given/rules.h"

namespace passage_brief {
namespace {

/// The reach of the given findings (mud, sheltered, rising, margin 2 ft), changed.
double limit_ft(const RuleSet& rules, const std::function<void(Depth&)>& change) {
  Findings found = given::findings();
  std::size_t reach = 0;
  while (found.depths.at(reach).place != DepthPlace::reach) ++reach;
  change(found.depths[reach]);
  return in_feet(limit_under_keel(rules, found, reach));
}

TEST(LimitUnderKeel, IsTheMarginWhereTouchingIsGrave) {
  const RuleSet rules = given::shipped_rules("small_craft");
  EXPECT_NEAR(limit_ft(rules, [](Depth&) {}), 0, 1e-9);
  EXPECT_NEAR(limit_ft(rules, [](Depth& d) { d.tide_is = Trend::falling; }), 2, 1e-9);
  EXPECT_NEAR(limit_ft(rules, [](Depth& d) { d.tide_is = Trend::standing; }), 2, 1e-9);
  EXPECT_NEAR(limit_ft(rules, [](Depth& d) { d.bottom = Bottom::rock; }), 2, 1e-9);
  EXPECT_NEAR(limit_ft(rules, [](Depth& d) { d.bottom = Bottom::not_stated; }), 2, 1e-9);
  EXPECT_NEAR(limit_ft(rules, [](Depth& d) { d.open_water = true; }), 2, 1e-9);
}

TEST(LimitUnderKeel, WhatCannotBeSettledCountsAsTheLimit) {
  const RuleSet rules = given::shipped_rules("small_craft");
  EXPECT_NEAR(limit_ft(rules, [](Depth& d) { d.tide_is = not_known("no tide station"); }), 2, 1e-9);
}

TEST(LimitUnderKeel, DoesNotDependOnTheFigureExpected) {
  const RuleSet rules = given::shipped_rules("small_craft");
  EXPECT_NEAR(limit_ft(rules,
                       [](Depth& d) {
                         d.tide_is = Trend::falling;
                         d.under_keel = not_known("nobody sounded it");
                         d.under_keel_could_be = not_known("nobody sounded it");
                       }),
              2, 1e-9);
}

TEST(LimitUnderKeel, LeavesOutWhatMoreWaterWouldNotMend) {
  const RuleSet rules = given::shipped_rules("small_craft");
  EXPECT_NEAR(limit_ft(rules, [](Depth& d) { d.blocked = true; }), 0, 1e-9);
}

TEST(LimitUnderKeel, ComesFromTheLimitsOfTheRules) {
  const auto rules_of = [](const std::string& when, bool limit) {
    return given::rules(given::caution_when(when, limit));
  };
  const auto as_found = [](Depth&) {};
  const std::string three = R"({"under_keel": {"less_than": "3 ft"}})";
  EXPECT_NEAR(limit_ft(rules_of(three, true), as_found), 3, 1e-9);
  EXPECT_NEAR(limit_ft(rules_of(three, false), as_found), 0, 1e-9);
  const std::string least = R"({"under_keel_could_be": {"less_than": "margin"}})";
  EXPECT_NEAR(limit_ft(rules_of(least, true), as_found), 2, 1e-9);
  const std::string below_the_keel = R"({"under_keel": {"less_than": "-1 ft"}})";
  EXPECT_NEAR(limit_ft(rules_of(below_the_keel, true), as_found), 0, 1e-9);
}

}  // namespace
}  // namespace passage_brief
