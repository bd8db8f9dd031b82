#include "passage/sweep.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "passage/plane_shape.h"

namespace passage_brief {
namespace {

// Boxes are taken this much wider, and times this much sooner.
constexpr double kRounding_s = 5e-4;
constexpr double kRounding_m = 1e-6;

/// Seconds for a point moving at v to reach the segment p-q; nothing when it never does.
std::optional<double> point_meets_segment(PlanePoint at, PlaneVelocity v, PlanePoint p,
                                          PlanePoint q) {
  const double dx = q.x_m - p.x_m;
  const double dy = q.y_m - p.y_m;
  const double cross = v.x_m_s * dy - v.y_m_s * dx;
  if (std::abs(cross) < 1e-12) return std::nullopt;  // parallel: the segment's ends are tried too
  const double ex = p.x_m - at.x_m;
  const double ey = p.y_m - at.y_m;
  const double t = (ex * dy - ey * dx) / cross;
  const double along = (ex * v.y_m_s - ey * v.x_m_s) / cross;
  if (t < 0 || along < 0 || along > 1) return std::nullopt;
  return t;
}

void keep_sooner(std::optional<double>& best, const std::optional<double>& next) {
  if (next && (!best || *next < *best)) best = next;
}

struct Times {
  double first;
  double last;
};

/// When an interval from `low` to `high`, moving at `v`, overlaps one that stands still.
std::optional<Times> overlaps(double low, double high, double v, double still_low,
                              double still_high) {
  if (v == 0) {
    if (high < still_low || low > still_high) return std::nullopt;
    return Times{0, INFINITY};
  }
  const double one = (still_low - high) / v;
  const double other = (still_high - low) / v;
  return Times{std::min(one, other), std::max(one, other)};
}

/// Until a gap between two intervals can be closed at a speed between two.
double seconds_to_close(double low, double high, double least_v, double most_v, double still_low,
                        double still_high) {
  if (still_low > high) return most_v > 0 ? (still_low - high) / most_v : INFINITY;
  if (still_high < low) return least_v < 0 ? (still_high - low) / least_v : INFINITY;
  return 0;
}

}  // namespace

std::optional<double> seconds_until_met(PlanePoint a, PlanePoint b, PlaneVelocity v,
                                        const std::vector<std::vector<PlanePoint>>& shape,
                                        double within_s) {
  std::optional<double> best;
  const PlaneVelocity back{-v.x_m_s, -v.y_m_s};
  const double low_m = std::min(a.y_m, b.y_m);
  const double high_m = std::max(a.y_m, b.y_m);
  const double per_m_s = v.y_m_s == 0 ? 0 : 1 / v.y_m_s;
  // Across the track the line reaches an edge no sooner, and has left it no later, than this.
  const auto out_of_reach = [&](PlanePoint p, PlanePoint q) {
    const double below_m = std::min(p.y_m, q.y_m) - high_m;
    const double above_m = std::max(p.y_m, q.y_m) - low_m;
    if (per_m_s == 0) return below_m > 0 || above_m < 0;
    const double one = below_m * per_m_s;
    const double other = above_m * per_m_s;
    constexpr double kSlack_s = 1e-6;
    return std::max(one, other) < -kSlack_s ||
           std::min(one, other) > best.value_or(within_s) + kSlack_s;
  };
  for (const std::vector<PlanePoint>& run : shape) {
    for (std::size_t i = 0; i < run.size(); ++i) {
      const bool last = i + 1 == run.size();
      if (out_of_reach(run[i], last ? run[i] : run[i + 1])) continue;
      // A corner of the shape met by the line is the line met by the corner, moving backward.
      keep_sooner(best, point_meets_segment(run[i], back, a, b));
      if (last) continue;
      keep_sooner(best, point_meets_segment(a, v, run[i], run[i + 1]));
      keep_sooner(best, point_meets_segment(b, v, run[i], run[i + 1]));
    }
  }
  return best;
}

PlaneBox box_round(const std::vector<std::vector<PlanePoint>>& shape) {
  PlaneBox box{{INFINITY, INFINITY}, {-INFINITY, -INFINITY}};
  for (const std::vector<PlanePoint>& run : shape) {
    for (const PlanePoint& point : run) {
      box.low = {std::min(box.low.x_m, point.x_m), std::min(box.low.y_m, point.y_m)};
      box.high = {std::max(box.high.x_m, point.x_m), std::max(box.high.y_m, point.y_m)};
    }
  }
  return box;
}

std::optional<double> seconds_until_near(PlanePoint a, PlanePoint b, PlaneVelocity v,
                                         const PlaneBox& box) {
  const auto in_x =
      overlaps(std::min(a.x_m, b.x_m) - kRounding_m, std::max(a.x_m, b.x_m) + kRounding_m, v.x_m_s,
               box.low.x_m, box.high.x_m);
  const auto in_y =
      overlaps(std::min(a.y_m, b.y_m) - kRounding_m, std::max(a.y_m, b.y_m) + kRounding_m, v.y_m_s,
               box.low.y_m, box.high.y_m);
  if (!in_x || !in_y) return std::nullopt;
  const double first = std::max({in_x->first, in_y->first, 0.0});
  if (first > std::min(in_x->last, in_y->last) + kRounding_s) return std::nullopt;
  return std::max(first - kRounding_s, 0.0);
}

double seconds_until_any_is_near(PlanePoint a, PlanePoint b, PlaneVelocity least,
                                 PlaneVelocity most, const PlaneBox& box) {
  const double in_x =
      seconds_to_close(std::min(a.x_m, b.x_m) - kRounding_m, std::max(a.x_m, b.x_m) + kRounding_m,
                       least.x_m_s, most.x_m_s, box.low.x_m, box.high.x_m);
  const double in_y =
      seconds_to_close(std::min(a.y_m, b.y_m) - kRounding_m, std::max(a.y_m, b.y_m) + kRounding_m,
                       least.y_m_s, most.y_m_s, box.low.y_m, box.high.y_m);
  return std::max(std::max(in_x, in_y) - kRounding_s, 0.0);
}

}  // namespace passage_brief
