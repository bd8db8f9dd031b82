// A wind forecast for one place: hours in order of time, read as a vector between them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "facts/source.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

/// One forecast hour. What the forecast leaves out or gives as null is empty: not known, not calm.
struct WindHour {
  Instant at;
  std::optional<WindFrom> from;  // may be empty only when speed is empty or zero
  std::optional<Speed> speed;    // 10 m mean wind, >= 0
  std::optional<Speed> gust;
  std::optional<Pressure> pressure;
  std::optional<Length> visibility;
  std::optional<Length> wave;     // significant height
  std::optional<double> thunder;  // probability, 0 to 1
};

struct Wind {
  WindFrom from;
  Speed speed;
};

class WindSeries {
 public:
  /// Hours by rising time, no two alike, at least one; throws BrokenPromise otherwise.
  WindSeries(Source source, std::optional<Position> position, std::vector<WindHour> hours);

  [[nodiscard]] const Source& source() const { return source_; }
  [[nodiscard]] const std::optional<Position>& position() const { return position_; }
  [[nodiscard]] const std::vector<WindHour>& hours() const { return hours_; }
  /// In some hour.
  [[nodiscard]] bool gives_pressure() const { return lowest_pressure_.has_value(); }
  /// Of all hours that give one; empty where none does.
  [[nodiscard]] std::optional<Pressure> lowest_pressure() const { return lowest_pressure_; }
  [[nodiscard]] std::optional<Pressure> highest_pressure() const { return highest_pressure_; }
  /// First to last hour given.
  [[nodiscard]] Span covers() const;

  /// The vector between the two hours around, linear in its east and north parts. Gust, pressure,
  /// visibility and thunder: linear between the hours, except that gust and wave take the greater
  /// and visibility the lesser of the two (a forecast hour stands for the hour, not for the
  /// minute). Not known (pressure: empty) outside the hours given, across a gap of more than 3 h (6
  /// h steps are allowed where the whole series has them), or where either hour lacks the figure.
  [[nodiscard]] Known<Wind> wind(Instant at) const;
  [[nodiscard]] Known<Speed> gust(Instant at) const;
  [[nodiscard]] std::optional<Pressure> pressure(Instant at) const;
  [[nodiscard]] Known<Length> visibility(Instant at) const;
  [[nodiscard]] Known<Length> wave(Instant at) const;
  [[nodiscard]] Known<double> thunder(Instant at) const;

 private:
  Source source_;
  std::optional<Position> position_;
  std::vector<WindHour> hours_;
  std::optional<Pressure> lowest_pressure_;
  std::optional<Pressure> highest_pressure_;
};

}  // namespace passage_brief
