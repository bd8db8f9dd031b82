// Features drawn far from all others: latitude and longitude swapped, or a sign lost.
#pragma once

#include <vector>

#include "facts/waterway/feature_forms.h"
#include "reading/problem.h"

namespace passage_brief {

/// Adds a problem for each feature a part of which lies more than 300 nm from the middle of the
/// drawing: the median latitude and longitude of where the features begin. Such a hazard would
/// never be met on the route, and nobody would miss it.
void refuse_far_features(const std::vector<AnyFeature>& features, const Place& list);

}  // namespace passage_brief
