// The `when` of a caution: JSON text -> Test.
//
//   {"under_keel": {"less_than": "margin"}}
//   {"all": [{"bottom": {"one_of": ["rock", "coral"]}}, {"not": {"tide": {"is": "rising"}}}]}
//
// A test is an object with one key: `all` or `any` with a list of one or more tests, `not` with one
// test, or the name of a fact with one or more comparisons, all of which must hold. A comparison is
// less_than, more_than, at_least, at_most, is, one_of (a list) or known (true or false); its value
// is of the fact's own kind: a quantity with its unit, bare degrees, a bare number, true or false,
// or one of the fact's words. "margin" stands for the margin in force, where the fact has one.
// Tests go at most kMostTestDepth deep.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>

#include "reading/form.h"
#include "reading/problem.h"
#include "reading/written.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"

namespace passage_brief {

inline constexpr std::size_t kMostTestDepth = 16;

/// Passes an object on as it stands; its schema is that of the whole language.
[[nodiscard]] Form<Written> test_as_written();

/// A test of facts that every one of these kinds has, or nothing after adding every problem. The
/// facts are those of the first kind.
[[nodiscard]] std::optional<Test> read_test(const Written& value, const Place& place,
                                            std::span<const SubjectKind> kinds);

/// The same test of another of the kinds it was read for.
[[nodiscard]] Test test_for(const Test& test, SubjectKind kind);

/// The fact of that name, of the first kind; a fact that some kind lacks, or has otherwise, is a
/// problem at the place, with the nearest known name.
[[nodiscard]] const Fact* read_fact(std::string_view name, const Place& place,
                                    std::span<const SubjectKind> kinds);

}  // namespace passage_brief
