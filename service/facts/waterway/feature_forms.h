// The field tables of the kinds of feature in a waterway file (GeoJSON `properties`).
//
// A feature is built without its shape, which stands beside the properties: put_shape() sets it.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "facts/waterway/waterway.h"
#include "reading/form.h"
#include "reading/geojson.h"

namespace passage_brief {

using AnyFeature = std::variant<Reach, DepthArea, Sounding, Hazard, Bar, Bridge, OverheadCable,
                                Mark, Berth, Refuge, TurningPlace, Note>;

/// Gives features without a name the name of their kind and a number from 1 ("hazard 3": the third
/// hazard of the file). One for each reading of a file.
class FeatureCount {
 public:
  [[nodiscard]] std::string next_name(const std::string& kind) {
    return kind + " " + std::to_string(++counts_[kind]);
  }

 private:
  std::map<std::string, int> counts_;
};

/// Any of the kinds, told apart by `feature`.
[[nodiscard]] Form<AnyFeature> feature_properties(std::shared_ptr<FeatureCount> count);

/// Gives the feature the shape drawn; or says which types the kind may be drawn as.
[[nodiscard]] std::expected<void, std::string> put_shape(AnyFeature& feature,
                                                         const Geometry& drawn);

}  // namespace passage_brief
