#include "passage/sweep.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "passage/plane_shape.h"

namespace passage_brief {
namespace {

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

}  // namespace

std::optional<double> seconds_until_met(PlanePoint a, PlanePoint b, PlaneVelocity v,
                                        const std::vector<std::vector<PlanePoint>>& shape) {
  std::optional<double> best;
  const PlaneVelocity back{-v.x_m_s, -v.y_m_s};
  for (const std::vector<PlanePoint>& run : shape) {
    for (std::size_t i = 0; i < run.size(); ++i) {
      // A corner of the shape met by the line is the line met by the corner, moving backward.
      keep_sooner(best, point_meets_segment(run[i], back, a, b));
      if (i + 1 == run.size()) continue;
      keep_sooner(best, point_meets_segment(a, v, run[i], run[i + 1]));
      keep_sooner(best, point_meets_segment(b, v, run[i], run[i + 1]));
    }
  }
  return best;
}

}  // namespace passage_brief
