// What the rules say of one departure.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "rules/fact_value.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

/// Signal words of ANSI Z535.4, by what can happen to people: danger will, warning could kill or
/// maim, caution may hurt slightly, notice hurts nobody.
enum class Grade { danger, warning, caution, notice };

enum class Verdict { within_limits, cautions, cannot_tell, outside_limits };

/// What a caution or a rule is about: one thing found, or the whole passage.
enum class SubjectKind { passage, berth, leg, reach, bar, bridge, cable, danger, mark, light };

struct Subject {
  SubjectKind kind;
  std::size_t index;            // into the list of Findings for its kind; 0 for passage and light
  std::string name;             // "Oyster Reach"; "the passage"
  std::optional<Length> along;  // place on the track, for order of passing
  bool operator==(const Subject&) const = default;
};

/// A fact inside a sentence: printed in the reader's units, rounded toward caution.
struct FactInText {
  std::string fact;
  Known<FactValue> value;  // not known prints as "not known"
  Rounding rounding;
  PrintedAs printed_as;
};

/// A sentence with its facts still typed.
using Sentence = std::vector<std::variant<std::string, FactInText>>;

struct Caution {
  std::string id;
  Grade grade;
  Sentence say;
  Subject about;
  std::string source;
  bool limit;  // it closes the departure
};

/// A rule whose test could not be settled.
struct NotChecked {
  std::string id;
  Subject about;
  NotKnown because;
  bool limit;
};

enum class LimitState { kept, broken, cannot_tell };

/// Every limit as it stood for every subject: what departure windows are made of.
struct LimitResult {
  std::string id;
  Subject about;
  LimitState state;
};

struct Judgement {
  Verdict verdict;
  std::vector<Caution> cautions;        // by grade, then in order of passing
  std::vector<NotChecked> not_checked;  // limits first
  std::vector<LimitResult> limits;
};

[[nodiscard]] std::string in_words(Verdict verdict);  // "outside limits"
[[nodiscard]] std::string in_words(Grade grade);      // "warning"

}  // namespace passage_brief
