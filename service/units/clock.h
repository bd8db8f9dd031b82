// What time is it: the real clock, or a fixed one for tests and for making a brief again.
#pragma once

#include "units/time.h"

namespace passage_brief {

class Clock {
 public:
  Clock() = default;
  Clock(const Clock&) = delete;
  Clock& operator=(const Clock&) = delete;
  virtual ~Clock() = default;
  [[nodiscard]] virtual Instant now() const = 0;
};

class SystemClock final : public Clock {
 public:
  [[nodiscard]] Instant now() const override {
    return std::chrono::floor<Interval>(std::chrono::system_clock::now());
  }
};

class FixedClock final : public Clock {
 public:
  explicit FixedClock(Instant at) : at_(at) {}
  [[nodiscard]] Instant now() const override { return at_; }

 private:
  Instant at_;
};

}  // namespace passage_brief
