// How far ahead dangers are looked for, by what limits ask.
#include "brief/danger_horizon.h"

#include <gtest/gtest.h>

#include <chrono>
#include <optional>
#include <string>

#include "given/rules.h"
#include "rules/rule_set.h"

namespace passage_brief {
namespace {

using std::chrono::minutes;

RuleSet limit_when(const std::string& when, bool limit = true) {
  return given::rules(R"({"id": "lee", "for_each": "danger", "when": )" + when +
                      R"(, "grade": "caution", "limit": )" + (limit ? "true" : "false") +
                      R"(, "say": "{name}", "source": "test"})");
}

Interval asked(const std::string& when) {
  return asked_within(limit_when(when).rules.front().when);
}

TEST(DangerHorizon, WhatATestAsks) {
  const std::string five = R"({"reached_in": {"less_than": "5 min"}})";
  const std::string ten = R"({"reached_in": {"at_most": "10 min"}})";
  const std::string hard = R"({"hard": {"is": true}})";
  EXPECT_EQ(asked(five), minutes(5));
  EXPECT_EQ(asked(R"({"all": [)" + hard + "," + ten + "," + five + "]}"), minutes(5));
  EXPECT_EQ(asked(R"({"any": [)" + ten + "," + five + "]}"), minutes(10));
  // What does not hang on the time, or on a long one, holds as far as dangers are told.
  for (const std::string& when :
       {hard, R"({"any": [)" + hard + "," + five + "]}", R"({"not": )" + five + "}",
        std::string(R"({"reached_in": {"more_than": "5 min"}})"),
        std::string(R"({"reached_in": {"less_than": "3 h"}})")}) {
    EXPECT_EQ(asked(when), minutes(60)) << when;
  }
}

TEST(DangerHorizon, WhatARuleSetWants) {
  const std::string five = R"({"reached_in": {"less_than": "5 min"}})";
  EXPECT_EQ(dangers_wanted_within(limit_when(five)), std::optional<Interval>(minutes(16)));
  EXPECT_EQ(dangers_wanted_within(limit_when(five, false)), std::nullopt);
  EXPECT_EQ(dangers_wanted_within(limit_when(R"({"hard": {"is": true}})")),
            std::optional<Interval>(minutes(60)));
  EXPECT_TRUE(is_seen_at_both(limit_when(five).rules.front()));
  EXPECT_FALSE(is_seen_at_both(limit_when(R"({"hard": {"is": true}})").rules.front()));
}

}  // namespace
}  // namespace passage_brief
