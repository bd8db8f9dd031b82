// Waterway file (GeoJSON FeatureCollection with "kind": "waterway") -> Waterway.
//
// What a feature leaves out or gives as null is not known, with a reason that names it. Stations
// and planes a feature does not name are the file's. Whether the named stations are on file, and
// whether they have the planes, is for whoever uses them: their files are read apart.
#pragma once

#include <cstddef>
#include <expected>
#include <string_view>

#include "facts/waterway/waterway.h"
#include "reading/form.h"
#include "reading/problem.h"

namespace passage_brief {

inline constexpr std::size_t kMostFeatures = 20'000;

/// A form for one reading: it counts the features without a name.
[[nodiscard]] Form<Waterway> waterway_form();
[[nodiscard]] std::expected<Waterway, Problems> read_waterway(std::string_view file,
                                                              std::string_view text);

}  // namespace passage_brief
