// The one table of facts that rules may test and sentences may print.
//
// Each row belongs to one kind of subject: how the fact is called, what it is, in which dimension,
// which words it can be, which way it is rounded, and how to get it from the findings. The reader
// of rules, the judge and the page in DEVELOPERS.md all go by this table, so that they cannot
// drift.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "passage/findings.h"
#include "rules/fact_value.h"
#include "rules/verdict.h"
#include "units/known.h"

namespace passage_brief {

/// What a FactValue holds, in the order of its alternatives.
enum class FactType { length, speed, interval, time, angle, voltage, number, yes_no, words };

struct Fact {
  SubjectKind of;
  std::string name;
  FactType type;
  Rounding rounding;
  PrintedAs printed_as;
  std::vector<std::string> words;  // all a `words` fact can be; empty: any text
  std::string meaning;             // for the person who writes rules
  bool of_part;  // of a depth: differs from one part of a reach to another (findings.h)
  std::function<Known<FactValue>(const Findings&, std::size_t index)> value;
  /// The margin in force that "margin" stands for; empty where there is none.
  std::function<FactValue(const Findings&, std::size_t index)> margin;
};

/// Every fact, by subject in the order of SubjectKind.
[[nodiscard]] std::span<const Fact> fact_table();

/// Of the depth of a part of a reach or bar that stands beside the whole (Depth::part). Only rules
/// that ask_of_parts() are put to it.
[[nodiscard]] bool is_part(const Subject& subject, const Findings& findings);

/// The row of that name for that kind of subject, or null.
[[nodiscard]] const Fact* find_fact(SubjectKind of, std::string_view name);

/// Which subject a depth is of: water outside every reach is judged as a reach.
[[nodiscard]] SubjectKind subject_kind_of(DepthPlace place);

/// Reaches, bars and berths.
[[nodiscard]] bool is_of_depth(SubjectKind kind);

/// The figure of a depth, a bridge or a cable that is measured against a margin; null for others.
/// What it could be as little as has its name and "_could_be".
[[nodiscard]] const Fact* figure_of(SubjectKind kind);

/// The things of one kind that were found, in order of passing. `index` counts in the list of
/// Findings that holds them: reaches, bars and berths all lie in `depths`, and water outside every
/// reach is judged as a reach.
[[nodiscard]] std::vector<Subject> subjects(const Findings& findings, SubjectKind kind);

[[nodiscard]] std::string_view in_words(SubjectKind kind);  // "reach"
[[nodiscard]] std::string_view in_words(FactType type);     // "length", "yes or no"
[[nodiscard]] std::span<const SubjectKind> all_subject_kinds();

/// The table as DEVELOPERS.md shows it, in Markdown.
[[nodiscard]] std::string fact_table_in_markdown();

}  // namespace passage_brief
