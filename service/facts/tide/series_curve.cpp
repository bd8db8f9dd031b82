#include "facts/tide/series_curve.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "facts/crossings.h"
#include "facts/tide/curve.h"
#include "units/check.h"
#include "units/known.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// One cubic, a polynomial in seconds from its first row.
struct Cubic {
  Instant begin;
  double width;  // seconds
  double c0, c1, c2, c3;
  double end_value, end_rate;  // the next cubic's own first ones, so that both see one sign there

  [[nodiscard]] double value(double t) const {
    return t >= width ? end_value : c0 + t * (c1 + t * (c2 + t * c3));
  }
  [[nodiscard]] double rate(double t) const {
    return t >= width ? end_rate : c1 + t * (2 * c2 + t * 3 * c3);
  }
  [[nodiscard]] double curvature(double t) const { return 2 * c2 + 6 * c3 * t; }
  [[nodiscard]] double rate_bound() const {
    return std::abs(c1) + width * (2 * std::abs(c2) + width * 3 * std::abs(c3));
  }
  [[nodiscard]] double curvature_bound() const {
    return 2 * std::abs(c2) + 6 * std::abs(c3) * width;
  }
  [[nodiscard]] double seconds(Instant instant) const {
    return std::clamp(in_seconds(instant - begin), 0.0, width);
  }
};

template <class Knot>
Cubic cubic(const Knot& a, const Knot& b) {
  const double width = in_seconds(b.at - a.at);
  const double chord = (b.value - a.value) / width;
  return {a.at,
          width,
          a.value,
          a.slope_per_s,
          (3 * chord - 2 * a.slope_per_s - b.slope_per_s) / width,
          (a.slope_per_s + b.slope_per_s - 2 * chord) / (width * width),
          b.value,
          b.slope_per_s};
}

std::vector<Crossing> turns_of(const Cubic& c, double from, double to) {
  return crossings([&](double t) { return ValueAndSlope{c.rate(t), c.curvature(t)}; },
                   c.curvature_bound(), 6 * std::abs(c.c3), from, to);
}

std::vector<Crossing> zeros_of(const Cubic& c, double from, double to) {
  return crossings([&](double t) { return ValueAndSlope{c.value(t), c.rate(t)}; }, c.rate_bound(),
                   c.curvature_bound(), from, to);
}

constexpr std::chrono::hours kNeighboursApart{2};

/// How far a row stands off the line between its neighbours; 0 where it has none near enough.
double off_line(const std::vector<SeriesRow>& rows, std::size_t i) {
  if (i == 0 || i + 1 >= rows.size()) return 0;
  const SeriesRow& before = rows[i - 1];
  const SeriesRow& after = rows[i + 1];
  if (after.at - before.at > kNeighboursApart) return 0;
  const double part = in_seconds(rows[i].at - before.at) / in_seconds(after.at - before.at);
  return std::abs(rows[i].value - (before.value + part * (after.value - before.value)));
}

}  // namespace

std::vector<SeriesSpike> spikes(const std::vector<SeriesRow>& rows, double most_off_line) {
  std::vector<SeriesSpike> found;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const SeriesSpike spike{i, off_line(rows, i)};
    if (spike.off_line <= most_off_line) continue;
    const bool beside_last = !found.empty() && found.back().row + 1 == i;
    if (!beside_last) {
      found.push_back(spike);
    } else if (spike.off_line > found.back().off_line) {
      found.back() = spike;
    }
  }
  return found;
}

std::string height_spike_in_words(const std::vector<SeriesRow>& rows, const SeriesSpike& spike) {
  return fmt::format(
      "the height at {} lies {:.1f} m off the line between the heights before and after it; no "
      "tide rises or falls like that",
      to_rfc3339(rows[spike.row].at), spike.off_line);
}

SeriesCurve::SeriesCurve(const std::vector<SeriesRow>& rows, double rounding)
    : rounding_(rounding) {
  check(!rows.empty(), "a series has a row");
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const bool last = i + 1 == rows.size();
    check(last || rows[i].at < rows[i + 1].at, "rows by rising time");
    knots_.push_back(
        {rows[i].at, rows[i].value, 0, !last && rows[i + 1].at - rows[i].at <= kWidestStep});
  }
  const auto chord = [&](std::size_t i) {
    return (rows[i + 1].value - rows[i].value) / in_seconds(rows[i + 1].at - rows[i].at);
  };
  const auto width = [&](std::size_t i) { return in_seconds(rows[i + 1].at - rows[i].at); };
  // The slope at row i of the parabola through rows k, k + 1, k + 2.
  const auto parabola_slope = [&](std::size_t k, std::size_t i) {
    const double bend = (chord(k + 1) - chord(k)) / (width(k) + width(k + 1));
    if (i == k) return chord(k) - bend * width(k);
    if (i == k + 1) return chord(k) + bend * width(k);
    return chord(k + 1) + bend * width(k + 1);
  };
  for (std::size_t i = 0; i < knots_.size(); ++i) {
    const bool before = i > 0 && knots_[i - 1].joined;
    const bool after = knots_[i].joined;
    if (before && after) {
      knots_[i].slope_per_s = parabola_slope(i - 1, i);
    } else if (after) {
      knots_[i].slope_per_s = knots_[i + 1].joined ? parabola_slope(i, i) : chord(i);
    } else if (before) {
      const bool two_before = i > 1 && knots_[i - 2].joined;
      knots_[i].slope_per_s = two_before ? parabola_slope(i - 2, i) : chord(i - 1);
    }
  }
}

Known<std::size_t> SeriesCurve::piece_at(Instant instant) const {
  if (instant < knots_.front().at || instant > knots_.back().at) {
    return not_known(fmt::format("its published series runs from {} to {}, which leaves out {}",
                                 to_rfc3339(knots_.front().at), to_rfc3339(knots_.back().at),
                                 to_rfc3339(instant)));
  }
  const auto after = std::ranges::upper_bound(knots_, instant, {}, &Knot::at);
  const auto i = static_cast<std::size_t>(after - knots_.begin()) - 1;
  if (knots_[i].joined) return i;
  if (knots_[i].at == instant && i > 0 && knots_[i - 1].joined) return i - 1;
  const std::size_t next = std::min(i + 1, knots_.size() - 1);
  return not_known(fmt::format("its published series has no rows between {} and {}",
                               to_rfc3339(knots_[i].at), to_rfc3339(knots_[next].at)));
}

/// The pieces that make up a span; not known when one of them is missing.
Known<std::vector<std::size_t>> SeriesCurve::pieces_of(Span span) const {
  check(span.begin <= span.end, "a span that runs forward");
  const Known<std::size_t> first = piece_at(span.begin);
  if (!first) return not_known_as(first);
  std::vector<std::size_t> pieces{*first};
  while (knots_[pieces.back() + 1].at < span.end) {
    const Known<std::size_t> next = piece_at(knots_[pieces.back() + 1].at);
    if (!next) return not_known_as(next);
    if (*next == pieces.back()) return not_known_as(piece_at(knots_[*next + 1].at + Interval(1)));
    pieces.push_back(*next);
  }
  return pieces;
}

Known<CurvePoint> SeriesCurve::at(Instant instant) const {
  return join(
      [&](std::size_t i) {
        const Cubic c = cubic(knots_[i], knots_[i + 1]);
        const double t = c.seconds(instant);
        return CurvePoint{c.value(t), c.rate(t)};
      },
      piece_at(instant));
}

Known<std::vector<Turn>> SeriesCurve::turns(Span span) const {
  return join(
      [&](const std::vector<std::size_t>& pieces) {
        std::vector<Turn> turns;
        for (const std::size_t i : pieces) {
          const Cubic c = cubic(knots_[i], knots_[i + 1]);
          for (const Crossing& turn : turns_of(c, c.seconds(span.begin), c.seconds(span.end))) {
            const double value = c.value(turn.at);
            if (!turns.empty() && std::abs(value - turns.back().value) < rounding_) {
              turns.pop_back();
            } else {
              turns.push_back({c.begin + seconds_long(turn.at), value, turn.downward});
            }
          }
        }
        return turns;
      },
      pieces_of(span));
}

Known<std::vector<ZeroCrossing>> SeriesCurve::zeros(Span span) const {
  return join(
      [&](const std::vector<std::size_t>& pieces) {
        std::vector<ZeroCrossing> zeros;
        for (const std::size_t i : pieces) {
          const Cubic c = cubic(knots_[i], knots_[i + 1]);
          for (const Crossing& zero : zeros_of(c, c.seconds(span.begin), c.seconds(span.end))) {
            zeros.push_back({c.begin + seconds_long(zero.at), !zero.downward});
          }
        }
        return zeros;
      },
      pieces_of(span));
}

}  // namespace passage_brief
