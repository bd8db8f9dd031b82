// What every thing drawn in a waterway file has: a shape, a name, the stations and planes it uses.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "units/position.h"

namespace passage_brief {

using PointShape = Position;
using LineShape = std::vector<Position>;  // 2 or more
struct PolygonShape {
  std::vector<std::vector<Position>> rings;  // closed; the first is the outside
  bool operator==(const PolygonShape&) const = default;
};
/// GeoJSON Point, LineString or Polygon. Edges are straight in longitude and latitude.
using Shape = std::variant<PointShape, LineShape, PolygonShape>;

/// Names of the stations and planes of a feature: its own where it states them, else the file's;
/// the current station of a depth area or a bridge only its own. An empty name was never stated:
/// whatever needs it is not known.
struct FeatureStations {
  std::string tide;         // tide station
  std::string current;      // current station, of what may name one; "none": none worth counting
  std::string chart_datum;  // plane of depths
  std::string clearance_datum;  // plane of clearances
  bool operator==(const FeatureStations&) const = default;
};

/// In every feature. `name` is never empty: an unnamed one is called by kind and number ("hazard
/// 3").
struct Feature {
  std::string name;
  FeatureStations stations;
};

/// What the bottom is made of. `not_stated` counts as hard for caution.
enum class Bottom { mud, sand, hard_sand, shell, gravel, rock, coral, not_stated };

/// CATZOC of S-57: figures at 95 %.
enum class SurveyQuality { a1, a2, b, c, d, channel_survey, captains_sounding, not_stated };

enum class KeptBy { authority, private_with_permit, unofficial, not_stated };

/// Whether the bottom hurts a keel: anything but mud and sand.
[[nodiscard]] bool is_hard(Bottom bottom);

[[nodiscard]] std::string in_words(Bottom bottom);
[[nodiscard]] std::string in_words(SurveyQuality quality);
[[nodiscard]] std::string in_words(KeptBy kept_by);

}  // namespace passage_brief
