// The rules of one house: margins and cautions, read whole from a file or refused.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "passage/findings.h"
#include "rules/fact_value.h"
#include "rules/verdict.h"

namespace passage_brief {

/// Compares one fact with a stated value or with the margin in force for it.
struct Comparison {
  enum class Operator { less_than, more_than, at_least, at_most, is, one_of, known };
  std::string fact;
  Operator op;
  std::vector<FactValue> values;  // one; several for one_of; for `known` one bool
  bool against_margin;            // values empty: the subject's own margin for this fact
};

/// all, any (of one or more), not (of one) and comparisons, in Kleene's three-valued logic.
struct Test {
  enum class Join { all, any, none_of };  // none_of: "not", of exactly one
  std::variant<Comparison, std::pair<Join, std::vector<Test>>> what;
};

/// Text with the names of facts between the pieces, as the file says it.
struct SayPiece {
  std::string text;                 // printed as it stands
  std::optional<std::string> fact;  // then this fact
};

struct Rule {
  std::string id;
  SubjectKind for_each;
  Test when;
  Grade grade;
  bool limit;
  std::vector<SayPiece> say;
  std::string source;
};

struct RuleSet {
  std::string name;
  std::string edition;
  Margins margins;
  std::vector<Rule> rules;
};

}  // namespace passage_brief
