// Bearings, times and reasons in few words, and what types may be asked to do.
#pragma once

#include <chrono>
#include <string>

#include "units/direction.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief::given {

template <class A, class B>
concept Addable = requires(A a, B b) { a + b; };
template <class A, class B>
concept Subtractable = requires(A a, B b) { a - b; };

/// 10:00 UTC on 14 June 2026.
inline constexpr Instant kTen =
    std::chrono::sys_days(std::chrono::year(2026) / 6 / 14) + std::chrono::hours(10);

[[nodiscard]] inline TrueBearing true_bearing(double deg) { return TrueBearing::from_degrees(deg); }

/// Why it is not known; "known" when it is.
template <class T>
[[nodiscard]] std::string why(const Known<T>& known) {
  return known.has_value() ? "known" : in_words(known.error());
}

}  // namespace passage_brief::given
