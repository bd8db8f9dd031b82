// Rules files -> a RuleSet, whole or refused with every problem.
//
// A file may build on another by that one's name ("builds_on": "small craft"): its margins override
// margin by margin, and its cautions replace those of the same id where they stand, or are added at
// the end; what a learner's copy leaves blank is the nearest file's that says. Only when all layers
// are laid must every margin be there: none has a default. A limit that is replaced is told: an
// edition may loosen what it builds on, never unsaid.
#pragma once

#include <expected>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "reading/form.h"
#include "reading/problem.h"
#include "rules/rule_set.h"

namespace passage_brief {

/// A rules file as it was found.
struct RulesText {
  std::string file;  // its name, for problems
  std::string text;
};

/// The file whose `name` is this, or words why it cannot be had.
using FindRules = std::function<std::expected<RulesText, std::string>(std::string_view name)>;

/// How many files may build on one another.
inline constexpr std::size_t kMostLayers = 8;

[[nodiscard]] std::expected<RuleSet, Problems> read_rules(const RulesText& rules,
                                                          const FindRules& find);

/// What a text calls itself, if it is a rules file at all: to look one up by name.
[[nodiscard]] std::optional<std::string> name_of_rules(std::string_view text);

/// One file by itself, before layers are laid. Margins that it does not state are empty.
struct RulesLayer {
  struct Margins {
    std::optional<Length> under_keel;
    std::optional<Length> under_keel_hard;
    std::optional<Length> under_bridge;
    std::optional<Length> track;
    std::optional<Length> position;
    std::optional<Length> wash;
    std::optional<Length> shoaling;
    std::optional<Interval> forecast_age;
    std::optional<Speed> forecasts_differ;
    std::optional<Interval> observed_gain;
    std::optional<Interval> observed_loss;
    std::optional<double> observed_wind;
    std::optional<Length> observed_error;
    std::optional<Pressure> mean_pressure;
    std::optional<Speed> set_down_wind;
    std::optional<Length> set_down_error;
  };
  std::string name;
  std::string edition;
  std::optional<std::string> builds_on;
  Margins margins;
  std::optional<std::vector<LessonFigure>> left_blank;
  std::vector<std::vector<Rule>> cautions;  // each for one kind of subject or several
};

/// The field table of a rules file.
[[nodiscard]] Form<RulesLayer> rules_form();

}  // namespace passage_brief
