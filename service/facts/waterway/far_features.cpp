#include "facts/waterway/far_features.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <variant>
#include <vector>

#include "facts/waterway/feature.h"
#include "facts/waterway/feature_forms.h"
#include "reading/problem.h"
#include "units/direction.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

// No cruising ground of one file is as wide (our rule, no source).
constexpr Length kFurthest = nautical_miles(300);
// Within two degrees of both, less than 180 nm: most places need no more work than this.
constexpr double kSurelyNear_deg = 2;

using Places = std::vector<Position>;

Places places_of(const PointShape& point) { return {point}; }
Places places_of(const LineShape& line) { return line; }
Places places_of(const PolygonShape& polygon) {
  Places all;
  for (const Places& ring : polygon.rings) all.insert(all.end(), ring.begin(), ring.end());
  return all;
}
template <class... Shapes>
Places places_of(const std::variant<Shapes...>& shape) {
  return std::visit([](const auto& drawn) { return places_of(drawn); }, shape);
}
Places places_of(const AnyFeature& feature) {
  return std::visit([](const auto& kind) { return places_of(kind.shape); }, feature);
}

/// The middle value of the sorted list, and how far its middle half spreads.
struct Middle {
  double value;
  double spread;
};

Middle middle_of(std::vector<double> values) {
  std::ranges::sort(values);
  const std::size_t n = values.size();
  return {values[n / 2], values[3 * n / 4] - values[n / 4]};
}

/// Longitudes are lined up once from 180 W and once from Greenwich: one of the two cuts lies away
/// from where most features are.
Position middle_of(const Places& begins) {
  std::vector<double> latitudes;
  std::vector<double> from_180th;
  std::vector<double> from_greenwich;
  for (const Position& place : begins) {
    latitudes.push_back(place.latitude.in_degrees());
    from_180th.push_back(place.longitude.in_degrees());
    from_greenwich.push_back(folded_360(place.longitude.in_degrees()));
  }
  const Middle cut_at_180th = middle_of(std::move(from_180th));
  const Middle cut_at_greenwich = middle_of(std::move(from_greenwich));
  const Middle& longitude =
      cut_at_greenwich.spread < cut_at_180th.spread ? cut_at_greenwich : cut_at_180th;
  return position_at(middle_of(std::move(latitudes)).value, folded_180(longitude.value));
}

bool surely_near(const Position& a, const Position& b) {
  const auto apart = [](double x, double y) { return std::abs(folded_180(x - y)); };
  return apart(a.latitude.in_degrees(), b.latitude.in_degrees()) < kSurelyNear_deg &&
         apart(a.longitude.in_degrees(), b.longitude.in_degrees()) < kSurelyNear_deg;
}

}  // namespace

void refuse_far_features(const std::vector<AnyFeature>& features, const Place& list) {
  if (features.empty()) return;
  std::vector<Places> drawn;
  Places begins;
  for (const AnyFeature& feature : features) {
    drawn.push_back(places_of(feature));
    begins.push_back(drawn.back().front());
  }
  const Position middle = middle_of(begins);
  for (std::size_t i = 0; i < drawn.size(); ++i) {
    Length furthest = metres(0);
    for (const Position& place : drawn[i]) {
      if (surely_near(place, middle)) continue;
      furthest = std::max(furthest, geodesic_distance(place, middle));
    }
    if (furthest <= kFurthest) continue;
    const Place feature = list.inside(i);
    feature.inside("geometry")
        .refuse(fmt::format("lies {:.0f} nm from the rest of the drawing; are latitude and "
                            "longitude swapped, or a sign lost?",
                            in_nautical_miles(furthest)));
  }
}

}  // namespace passage_brief
