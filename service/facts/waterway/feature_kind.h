// What the field tables of all kinds of feature share.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "facts/waterway/feature.h"
#include "facts/waterway/feature_forms.h"
#include "reading/form.h"
#include "reading/table.h"
#include "units/direction.h"

namespace passage_brief {

using Kind = std::pair<std::string, Form<AnyFeature>>;
using FeatureCounter = std::shared_ptr<FeatureCount>;
using Build = std::function<AnyFeature(const Row&, const Feature& common)>;

/// The table of one kind: the common fields, then its own. build gets the common part read.
[[nodiscard]] Kind kind_of_feature(const std::string& kind, const char* example_name,
                                   std::vector<Field> own, const FeatureCounter& count, Build build,
                                   std::vector<RowCheck> checks = {});

/// Overwritten by put_shape(); no feature leaves the reader with it.
[[nodiscard]] PointShape not_yet_placed();

/// Of a kind that may name a current station: the field, and the common part with it.
[[nodiscard]] Field current_field(std::string words);
[[nodiscard]] Feature with_current(const Row& row, Feature common);

[[nodiscard]] Field bottom_field();
[[nodiscard]] Field kept_by_field();

// depth_forms.cpp: what says how deep the water is.
[[nodiscard]] Kind reach_kind(const FeatureCounter& count);
[[nodiscard]] Kind depth_area_kind(const FeatureCounter& count);
[[nodiscard]] Kind sounding_kind(const FeatureCounter& count);
[[nodiscard]] Kind hazard_kind(const FeatureCounter& count);
[[nodiscard]] Kind bar_kind(const FeatureCounter& count);
[[nodiscard]] Kind berth_kind(const FeatureCounter& count);

// structure_forms.cpp: what stands in it or over it, and the rest.
[[nodiscard]] Kind bridge_kind(const FeatureCounter& count);
[[nodiscard]] Kind overhead_cable_kind(const FeatureCounter& count);
[[nodiscard]] Kind mark_kind(const FeatureCounter& count);
[[nodiscard]] Kind refuge_kind(const FeatureCounter& count);
[[nodiscard]] Kind turning_place_kind(const FeatureCounter& count);
[[nodiscard]] Kind note_kind(const FeatureCounter& count);

}  // namespace passage_brief
