#include "facts/tide/harmonic.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>
#include <vector>

#include "facts/crossings.h"
#include "facts/tide/constituent.h"
#include "facts/tide/curve.h"
#include "units/check.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {
namespace {

int year_of(Instant instant) {
  const std::chrono::year_month_day day(std::chrono::floor<std::chrono::days>(instant));
  return static_cast<int>(day.year());
}

Instant begin_of_year(int year) { return std::chrono::sys_days(std::chrono::year(year) / 1 / 1); }

/// Value and first two derivatives, by seconds.
struct Derivatives {
  double value, rate, curvature;
};

/// The curve of one calendar year, in which f and u hold still; t in seconds from its first
/// instant. Beyond the year it runs on smoothly.
class YearCurve {
 public:
  YearCurve(double mean, const std::vector<HarmonicTerm>& terms, int year)
      : begin_(begin_of_year(year)), mean_(mean) {
    const YearlyArguments& arguments = yearly_arguments(year);
    for (const HarmonicTerm& term : terms) {
      const YearlyArgument& argument = arguments[term.constituent.index()];
      amplitude_[count_] = argument.factor * term.amplitude;
      phase_[count_] = (argument.equilibrium + argument.nodal_phase - term.phase).in_degrees() *
                       kRadiansInDegree;
      speed_[count_] = term.constituent.speed_deg_per_h() * kRadiansInDegree / 3600;
      ++count_;
    }
    for (int n = 1; n <= 3; ++n) {
      for (std::size_t i = 0; i < count_; ++i) {
        double term = amplitude_[i];
        for (int k = 0; k < n; ++k) term *= speed_[i];
        bounds_[static_cast<std::size_t>(n) - 1] += term;
      }
    }
  }

  [[nodiscard]] double seconds(Instant instant) const { return in_seconds(instant - begin_); }
  [[nodiscard]] Instant instant(double t) const { return begin_ + seconds_long(t); }

  [[nodiscard]] Derivatives at(double t) const {
    Derivatives sum{mean_, 0, 0};
    for (std::size_t i = 0; i < count_; ++i) {
      const double angle = speed_[i] * t + phase_[i];
      const double term = amplitude_[i] * std::cos(angle);
      sum.value += term;
      sum.rate -= amplitude_[i] * speed_[i] * std::sin(angle);
      sum.curvature -= term * speed_[i] * speed_[i];
    }
    return sum;
  }

  /// Upper bound of the size of the n-th derivative, n = 1, 2 or 3.
  [[nodiscard]] double bound(int n) const { return bounds_[static_cast<std::size_t>(n) - 1]; }

  /// Appends `count` values from t on, `step` seconds apart. cos(a + d) = 2 cos d cos a - cos(a -
  /// d): one product and one difference a term. Its rounding error grows with the square of the
  /// number of steps, so it starts afresh every kRun steps (error below 1e-11 of the amplitude).
  /// Four sums side by side, so that no addition waits for the one before; terms past the last are
  /// zero.
  void append_values(double t, double step, std::size_t count, std::vector<double>& values) const {
    constexpr std::size_t kRun = 256;
    constexpr std::size_t kLanes = 4;
    constexpr std::size_t kRoom = (kConstituents + kLanes - 1) / kLanes * kLanes;
    std::array<double, kRoom> before{};
    std::array<double, kRoom> now{};
    std::array<double, kRoom> twice_cos{};
    for (std::size_t i = 0; i < count_; ++i) twice_cos[i] = 2 * std::cos(speed_[i] * step);
    for (std::size_t done = 0; done < count; done += kRun) {
      const double t_run = t + static_cast<double>(done) * step;
      for (std::size_t i = 0; i < count_; ++i) {
        now[i] = amplitude_[i] * std::cos(speed_[i] * t_run + phase_[i]);
        before[i] = amplitude_[i] * std::cos(speed_[i] * (t_run - step) + phase_[i]);
      }
      const auto turned_on = [&](std::size_t i) {
        const double value = now[i];
        now[i] = twice_cos[i] * value - before[i];
        return before[i] = value;
      };
      for (std::size_t k = std::min(kRun, count - done); k > 0; --k) {
        double a = 0, b = 0, c = 0, d = 0;
        for (std::size_t i = 0; i < count_; i += kLanes) {
          a += turned_on(i);
          b += turned_on(i + 1);
          c += turned_on(i + 2);
          d += turned_on(i + 3);
        }
        values.push_back(mean_ + ((a + b) + (c + d)));
      }
    }
  }

 private:
  Instant begin_;
  double mean_;
  std::size_t count_ = 0;
  std::array<double, kConstituents> amplitude_{};
  std::array<double, kConstituents> phase_{};  // radians
  std::array<double, kConstituents> speed_{};  // radians a second
  std::array<double, 3> bounds_{};
};

}  // namespace

struct HarmonicCurve::Years {
  std::vector<YearCurve> curves;  // from kFirstTidalYear on

  [[nodiscard]] const YearCurve& of(int year) const {
    return curves[static_cast<std::size_t>(year - kFirstTidalYear)];
  }
};

namespace {

/// One year's part of a span, ends included.
struct YearPart {
  const YearCurve& curve;
  double from, to;  // seconds from the year's first instant
};

/// Nothing where nodal corrections are not at hand for all of the span.
Known<bool> covered(Span span) {
  check(span.begin <= span.end, "a span that runs forward");
  if (span.begin < begin_of_year(kFirstTidalYear) ||
      span.end >= begin_of_year(kLastTidalYear + 1)) {
    return not_known("harmonic constants are worked out for the years 1900 to 2037 only");
  }
  return true;
}

/// The span year by year; not known where nodal corrections are not at hand.
template <class Years>
Known<std::vector<YearPart>> parts_of(Span span, const Years& years) {
  if (const Known<bool> answers = covered(span); !answers) return not_known_as(answers);
  std::vector<YearPart> parts;
  for (int year = year_of(span.begin); year <= year_of(span.end); ++year) {
    const YearCurve& curve = years.of(year);
    parts.push_back({curve, curve.seconds(std::max(span.begin, begin_of_year(year))),
                     curve.seconds(std::min(span.end, begin_of_year(year + 1)))});
  }
  return parts;
}

/// Value with rate, for zeros of the curve; or rate with curvature, for its turns.
ValueAndSlope value_and_rate(const Derivatives& d) { return {d.value, d.rate}; }
ValueAndSlope rate_and_curvature(const Derivatives& d) { return {d.rate, d.curvature}; }

struct InstantCrossing {
  Instant at;
  bool downward;
};

/// Takes out a crossing made by the step at New Year between two real ones, with the first of
/// these.
void drop_artefact(std::vector<InstantCrossing>& crossings, Instant step) {
  constexpr std::chrono::hours near{1};
  for (std::size_t i = 1; i + 1 < crossings.size(); ++i) {
    if (crossings[i].at == step && step - crossings[i - 1].at < near &&
        crossings[i + 1].at - step < near) {
      crossings.erase(crossings.begin() + static_cast<std::ptrdiff_t>(i) - 1,
                      crossings.begin() + static_cast<std::ptrdiff_t>(i) + 1);
      return;
    }
  }
}

/// The sign changes of one derivative over the parts of a span. `order` of the function: 0 for the
/// curve itself, 1 for its rate.
template <class Read>
std::vector<InstantCrossing> crossings_over(const std::vector<YearPart>& parts, int order,
                                            const Read& read) {
  std::vector<InstantCrossing> all;
  for (std::size_t k = 0; k < parts.size(); ++k) {
    const YearPart& part = parts[k];
    const auto f = [&](double t) { return read(part.curve.at(t)); };
    for (const Crossing& c : crossings(f, part.curve.bound(order + 1), part.curve.bound(order + 2),
                                       part.from, part.to)) {
      all.push_back({part.curve.instant(c.at), c.downward});
    }
    if (k + 1 == parts.size()) continue;
    const bool negative_before = f(part.to).value < 0;
    const bool negative_after = read(parts[k + 1].curve.at(parts[k + 1].from)).value < 0;
    if (negative_before != negative_after) {
      all.push_back({part.curve.instant(part.to), negative_after});
    }
  }
  for (std::size_t k = 1; k < parts.size(); ++k) {
    drop_artefact(all, parts[k].curve.instant(parts[k].from));
  }
  return all;
}

}  // namespace

HarmonicCurve::HarmonicCurve(double mean, std::vector<HarmonicTerm> terms) {
  std::array<bool, kConstituents> seen{};
  for (const HarmonicTerm& term : terms) {
    check(!seen[term.constituent.index()], "no constituent twice");
    check(term.amplitude >= 0, "no negative amplitude");
    seen[term.constituent.index()] = true;
  }
  std::erase_if(terms, [](const HarmonicTerm& term) { return term.amplitude == 0; });
  auto years = std::make_shared<Years>();
  for (int year = kFirstTidalYear; year <= kLastTidalYear; ++year) {
    years->curves.emplace_back(mean, terms, year);
  }
  years_ = std::move(years);
}

Known<CurvePoint> HarmonicCurve::at(Instant instant) const {
  if (const Known<bool> answers = covered({instant, instant}); !answers) {
    return not_known_as(answers);
  }
  const YearCurve& curve = years_->of(year_of(instant));
  const Derivatives d = curve.at(curve.seconds(instant));
  return CurvePoint{d.value, d.rate};
}

Known<std::vector<double>> HarmonicCurve::values(Instant begin, Interval step,
                                                 std::size_t count) const {
  check(step.count() > 0, "a step forward");
  std::vector<double> values;
  if (count == 0) return values;
  values.reserve(count);
  const Instant last = begin + step * static_cast<Interval::rep>(count - 1);
  if (const Known<bool> answers = covered({begin, last}); !answers) return not_known_as(answers);
  while (values.size() < count) {
    const Instant from = begin + step * static_cast<Interval::rep>(values.size());
    const Instant next_year = begin_of_year(year_of(from) + 1);
    const auto in_this_year = static_cast<std::size_t>((next_year - from - Interval(1)) / step + 1);
    const YearCurve& curve = years_->of(year_of(from));
    curve.append_values(curve.seconds(from), in_seconds(step),
                        std::min(in_this_year, count - values.size()), values);
  }
  return values;
}

Known<std::vector<Turn>> HarmonicCurve::turns(Span span) const {
  return join(
      [this](const std::vector<YearPart>& parts) {
        std::vector<Turn> turns;
        for (const InstantCrossing& c : crossings_over(parts, 1, rate_and_curvature)) {
          turns.push_back({c.at, at(c.at).value().value, c.downward});
        }
        return turns;
      },
      parts_of(span, *years_));
}

Known<std::vector<ZeroCrossing>> HarmonicCurve::zeros(Span span) const {
  return join(
      [](const std::vector<YearPart>& parts) {
        std::vector<ZeroCrossing> zeros;
        for (const InstantCrossing& c : crossings_over(parts, 0, value_and_rate)) {
          zeros.push_back({c.at, !c.downward});
        }
        return zeros;
      },
      parts_of(span, *years_));
}

Known<Extremes> HarmonicCurve::extremes(Span span) const {
  return join(
      [](const std::vector<YearPart>& parts) {
        Extremes extremes{INFINITY, -INFINITY};
        for (const YearPart& part : parts) {
          const Derivatives a = part.curve.at(part.from);
          const Derivatives b = part.to == part.from ? a : part.curve.at(part.to);
          extremes = extremes.with(a.value).with(b.value);
          std::vector<Crossing> turns;
          append_crossings([&](double t) { return rate_and_curvature(part.curve.at(t)); },
                           part.curve.bound(2), part.curve.bound(3), part.from,
                           rate_and_curvature(a), part.to, rate_and_curvature(b), turns);
          for (const Crossing& turn : turns) {
            extremes = extremes.with(part.curve.at(turn.at).value);
          }
        }
        return extremes;
      },
      parts_of(span, *years_));
}

}  // namespace passage_brief
