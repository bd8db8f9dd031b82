// The rules of one house: margins and cautions, read whole from a file or refused.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "passage/findings.h"
#include "rules/fact_table.h"
#include "rules/fact_value.h"
#include "rules/lesson_figure.h"
#include "rules/verdict.h"

namespace passage_brief {

/// Compares one fact with stated values or with the margin in force for it.
struct Comparison {
  enum class Operator { less_than, more_than, at_least, at_most, is, one_of, known };
  const Fact* fact;  // a row of the fact table
  Operator op;
  std::vector<FactValue> values;  // one; one or more for one_of; for `known` one bool
  bool against_margin;            // values empty: the subject's own margin for this fact
};

struct Test;

/// Tests joined in Kleene's logic: all or any of one or more, none of exactly one ("not").
struct Joined {
  enum class By { all, any, none };
  By by;
  std::vector<Test> parts;
};

/// What a rule asks; it states the bad state.
struct Test {
  std::variant<Comparison, Joined> what;
};

/// Text, or the value of a fact, or the reasons why that is not known (empty where it is known).
struct SayPiece {
  enum class What { text, fact, why_not_known };
  What what;
  std::string text;  // as it stands
  const Fact* fact;  // null for text
};

struct Rule {
  std::string id;
  SubjectKind for_each;  // a caution of the file for several kinds is a Rule for each
  Test when;
  Grade grade;
  bool limit;
  std::vector<SayPiece> say;
  std::string source;
};

struct RuleSet {
  std::string name;
  std::string editions;  // its own and each it builds on: "renters 2026-05 on small craft 2026-05"
  Margins margins;
  std::vector<Rule> rules;
  std::vector<LessonFigure> left_blank = {};  // on a learner's copy; each once
  /// What became of limits it builds on that it replaces: "fog (lifted for passage)", or, where it
  /// is a limit still for every kind of subject, "fog (stated anew)", by another test it may be.
  /// And the margins that ask for less: "margin under the keel (relaxed)".
  std::vector<std::string> limits_changed = {};
  /// Asked for, never in a file: every limit must hold at what a depth or clearance could be as
  /// little as (at_their_least.h).
  bool sure_95 = false;
};

}  // namespace passage_brief
