// Every depth the drawing gives inside a corridor, and every part of it the drawing gives none for.
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "facts/waterway/waterway.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {

enum class DepthSourceKind { controlling_depth, depth_area, sounding, hazard, nothing };

/// One thing that charts a depth, or the lack of one.
struct DepthSource {
  DepthSourceKind kind;
  std::string name;  // "controlling depth of Mill Reach", "hazard Old Piles"
  Known<Length> charted;
  bool above_water;  // it never covers
  FeatureStations stations;
  Bottom bottom;
  Known<std::chrono::year_month_day> surveyed;
  SurveyQuality survey_quality;
  std::optional<std::size_t> reach = std::nullopt;  // of a controlling depth: into reaches
  bool operator==(const DepthSource&) const = default;
};

/// What a bar, or a berth, charts by itself.
[[nodiscard]] DepthSource source_of(const Bar& bar);
[[nodiscard]] DepthSource source_of(const Berth& berth);

/// A depth that holds between two places along the track (before the hull's length is added).
struct DepthOnTrack {
  DepthSource source;
  Length begin;
  Length end;
};

/// By rising begin. The corridor is in the plane of the stretch. Slivers under 5 cm wide between
/// areas that were meant to join are not holes.
[[nodiscard]] std::vector<DepthOnTrack> depths_in_corridor(const Waterway& waterway,
                                                           const Stretch& stretch,
                                                           const PlaneShape& corridor);

}  // namespace passage_brief
