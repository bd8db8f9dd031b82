// A promise between our own functions, checked in every build.
//
// check(condition, words) throws BrokenPromise when the condition is false: no brief is issued, the
// program lives. It is never used for wrong input (see reading/problem.h) nor for missing facts
// (see known.h).
#pragma once

#include <source_location>
#include <stdexcept>
#include <string>

namespace passage_brief {

/// Thrown by check(); a fault of this program, not of its input.
class BrokenPromise : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

/// For a place that is reached only when a promise is broken.
[[noreturn]] inline void broken_promise(
    const char* words, std::source_location where = std::source_location::current()) {
  throw BrokenPromise(std::string(where.file_name()) + ":" + std::to_string(where.line()) + ": " +
                      words);
}

inline void check(bool promise, const char* words,
                  std::source_location where = std::source_location::current()) {
  if (!promise) broken_promise(words, where);
}

}  // namespace passage_brief
