// Whether the test of a rule holds for one thing found, and why it cannot be settled.
//
// Numbers within 1e-6 of each other (of the SI unit, of a degree, of one) are equal, so that a
// figure that prints as 2.0 ft is not "less than 2 ft". A comparison with a fact that is not known
// is unknown; `known` never is.
#pragma once

#include <cstddef>
#include <vector>

#include "passage/findings.h"
#include "rules/fact_value.h"
#include "rules/kleene.h"
#include "rules/rule_set.h"
#include "units/known.h"

namespace passage_brief {

inline constexpr double kEqualWithin = 1e-6;

/// A comparison with values of the same kind, one or more; not `known`.
[[nodiscard]] bool holds(Comparison::Operator op, const FactValue& value,
                         const std::vector<FactValue>& against);

[[nodiscard]] Truth truth_of(const Test& test, const Findings& findings, std::size_t index);

/// Whether it asks for a fact that a part of a reach has of its own (Fact::of_part).
[[nodiscard]] bool asks_of_parts(const Test& test);

/// For a test that is unknown: the reasons of every fact that keeps it from being settled, each
/// once. Facts that could not change the outcome are left out.
[[nodiscard]] NotKnown why_unknown(const Test& test, const Findings& findings, std::size_t index);

}  // namespace passage_brief
