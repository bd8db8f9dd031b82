// Where a smooth function passes through zero: every place, none twice, proved by bounds and not by
// sampling closely and hoping.
#pragma once

#include <cmath>
#include <vector>

namespace passage_brief {

/// A function's value and slope at one place.
struct ValueAndSlope {
  double value;
  double slope;
};

/// A place where a function changes sign; zero itself counts as positive.
struct Crossing {
  double at;
  bool downward;  // from positive to negative
};

/// How finely a crossing is found, in the unit of the function's argument (seconds here: 0.1 ms).
inline constexpr double kCrossingWidth = 1e-4;

namespace crossings_detail {

/// The one crossing in [a, b], whose ends have unlike signs: Newton's steps, held inside the
/// bracket.
template <class F>
double polished(const F& f, double a, bool a_negative, double b) {
  double x = (a + b) / 2;
  while (b - a > kCrossingWidth) {
    const ValueAndSlope fx = f(x);
    ((fx.value < 0) == a_negative ? a : b) = x;
    const double step = fx.value / fx.slope;
    if (std::abs(step) < kCrossingWidth / 2) return std::fmin(std::fmax(x - step, a), b);
    x -= step;
    if (!(x > a && x < b)) x = (a + b) / 2;
  }
  return x;
}

}  // namespace crossings_detail

/// Appends the crossings in [a, b] to `found`, in order. `slope_bound` and `curvature_bound` are
/// upper bounds of |f'| and |f''| there. A stretch is left when the value cannot reach zero in it,
/// solved when the slope cannot (then f is monotonic), and halved otherwise; two crossings nearer
/// than kCrossingWidth to each other cancel.
template <class F>
void append_crossings(const F& f, double slope_bound, double curvature_bound, double a,
                      ValueAndSlope fa, double b, ValueAndSlope fb, std::vector<Crossing>& found) {
  const double width = b - a;
  const bool signs_differ = (fa.value < 0) != (fb.value < 0);
  if (!signs_differ && std::abs(fa.value) + std::abs(fb.value) >= slope_bound * width) return;
  const bool monotonic = (fa.slope < 0) == (fb.slope < 0) &&
                         std::abs(fa.slope) + std::abs(fb.slope) >= curvature_bound * width;
  if (monotonic || width < kCrossingWidth) {
    if (signs_differ) {
      found.push_back({crossings_detail::polished(f, a, fa.value < 0, b), fa.value >= 0});
    }
    return;
  }
  const double middle = (a + b) / 2;
  const ValueAndSlope f_middle = f(middle);
  append_crossings(f, slope_bound, curvature_bound, a, fa, middle, f_middle, found);
  append_crossings(f, slope_bound, curvature_bound, middle, f_middle, b, fb, found);
}

template <class F>
[[nodiscard]] std::vector<Crossing> crossings(const F& f, double slope_bound,
                                              double curvature_bound, double a, double b) {
  std::vector<Crossing> found;
  append_crossings(f, slope_bound, curvature_bound, a, f(a), b, f(b), found);
  return found;
}

}  // namespace passage_brief
