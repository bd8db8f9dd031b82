// What is wrong with an input, and where, in words for the person who wrote it.
//
// A reader returns std::expected<T, Problems> and reports every problem it can see, not only the
// first. A problem is wrong input; a missing fact is a Known (units/known.h), and a fault of this
// program is a BrokenPromise (units/check.h).
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace passage_brief {

struct Problem {
  std::string file;   // the name the person gave
  std::string place;  // JSON Pointer ("/air_draft/0/height"), "line 12", or empty: the whole file
  std::string words;  // what was found, what was expected, with an example
  bool operator==(const Problem&) const = default;
};

using Problems = std::vector<Problem>;

/// "vessel.json: /draft: found the number 4; ..."
[[nodiscard]] std::string in_words(const Problem& problem);

/// The word of the list nearest to one that is not in it, or an empty string when none is near: at
/// most one slip (a letter too many, too few, wrong or swapped) for every three letters.
[[nodiscard]] std::string nearest_word(std::string_view word, std::span<const std::string> known);

/// "; did you mean \"draft\"?" or an empty string.
[[nodiscard]] std::string did_you_mean(std::string_view word, std::span<const std::string> known);

/// Collects the problems of one file while it is read. Past kMostProblems one last line says that
/// there are more.
class Ledger {
 public:
  static constexpr std::size_t kMostProblems = 200;

  /// document: what the file is called in a sentence ("the waterway file").
  Ledger(std::string_view file, std::string_view document) : file_(file), document_(document) {}
  void add(std::string place, std::string words);
  [[nodiscard]] bool clean() const { return count_ == 0; }
  /// All that were added, also those past the limit.
  [[nodiscard]] std::size_t count() const { return count_; }
  [[nodiscard]] const Problems& problems() const { return problems_; }
  [[nodiscard]] const std::string& document() const { return document_; }

 private:
  std::string file_;
  std::string document_;
  Problems problems_;
  std::size_t count_ = 0;
};

/// A value's place in a JSON file. Places are made on the way down and point at the one above, so a
/// Place must not outlive its parent; the text of the pointer is made only when needed.
class Place {
 public:
  explicit Place(Ledger& ledger) : ledger_(&ledger) {}
  /// example: JSON text of a right value, shown when this one is refused.
  [[nodiscard]] Place inside(std::string_view key, std::string_view example = {}) const;
  [[nodiscard]] Place inside(std::size_t index) const;

  [[nodiscard]] std::string pointer() const;
  [[nodiscard]] std::string_view example() const { return example_; }
  [[nodiscard]] const std::string& document() const { return ledger_->document(); }
  [[nodiscard]] std::size_t problem_count() const { return ledger_->count(); }

  void refuse(std::string words) const { ledger_->add(pointer(), std::move(words)); }

 private:
  Ledger* ledger_;
  const Place* parent_ = nullptr;
  std::string_view key_;
  std::size_t index_ = 0;
  bool in_list_ = false;
  std::string_view example_;
};

}  // namespace passage_brief
