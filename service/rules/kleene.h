// Kleene's strong logic of three values: yes, no and unknown.
//
// Ordered no < unknown < yes, "all" is the least of its parts and "any" the greatest; "not" turns
// the order round. So one `no` settles an "all" and one `yes` an "any", whatever is unknown beside
// it. S. C. Kleene, Introduction to Metamathematics (1952), section 64 (from memory).
#pragma once

#include <algorithm>

namespace passage_brief {

enum class Truth { no, unknown, yes };

[[nodiscard]] constexpr Truth truth_of(bool settled) { return settled ? Truth::yes : Truth::no; }
[[nodiscard]] constexpr Truth both(Truth a, Truth b) { return std::min(a, b); }
[[nodiscard]] constexpr Truth either(Truth a, Truth b) { return std::max(a, b); }
[[nodiscard]] constexpr Truth opposite(Truth a) {
  switch (a) {
    case Truth::no:
      return Truth::yes;
    case Truth::unknown:
      return Truth::unknown;
    case Truth::yes:
      return Truth::no;
  }
  return Truth::unknown;
}

}  // namespace passage_brief
