// A length worked out, with what it rests on and how far off it may be.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "units/direction.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

/// One independent cause of error in a figure: one standard deviation.
struct ErrorTerm {
  std::string name;  // "tide", "survey", "squat"
  Length one_sigma;
  std::string source;
};

/// A value in a working, typed so that a page can print it in the reader's units.
using WorkedValue = std::variant<Length, Speed, Angle, Interval, Instant, double, std::string>;

struct WorkingInput {
  std::string name;  // "charted depth"
  WorkedValue value;
  std::string source;  // file, station or rule it comes from; may be empty
};

/// How one figure on the page came about, in the steps one would do by hand.
struct Working {
  std::string figure;   // "under the keel, Oyster Reach"
  std::string formula;  // "charted depth + height of tide - draft - squat - half the wave height"
  std::vector<WorkingInput> inputs;
  WorkedValue result = std::string("not known");
  std::string source;  // of the formula
};

struct Figure {
  Length value;
  std::vector<ErrorTerm> errors;
  Length one_way;  // >= 0: an allowance that only ever lessens the figure (shoaling since a survey)
};

/// figure - 1.645 sqrt(sum of the squared errors) - one-way allowance: at this place 95 % of
/// outcomes are at least this much, errors taken normal and independent (one-sided 95 % point of
/// the normal distribution, any handbook of statistics).
[[nodiscard]] Length could_be_as_little_as(const Figure& figure);

}  // namespace passage_brief
