// Stretches of water and the depths charted in them. Depths are below the chart datum, positive
// down.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "facts/waterway/feature.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {

/// The part of a channel's width a controlling depth is given for, named as seen entering from
/// seaward (the direction in which the reach's line is drawn).
enum class ChannelPart {
  full_width,
  middle_half,
  centerline,  // holds on the line only: covers no area
  left_outside_quarter,
  left_inside_quarter,
  right_inside_quarter,
  right_outside_quarter
};

enum class Channel { main, secondary, not_stated };

/// A named stretch: a line from seaward with a width, or an area.
struct Reach : Feature {
  std::variant<LineShape, PolygonShape> shape;
  std::optional<Length> width;  // of a line; always present there
  Known<Length> controlling_depth;
  std::optional<ChannelPart> applies_to;  // empty: not stated, and the depth is not known
  Known<std::chrono::year_month_day> surveyed;
  SurveyQuality survey_quality;
  Bottom bottom;
  Channel channel;
  std::optional<Speed> speed_limit;  // through the water; empty: none stated
  KeptBy kept_by;
  bool open_water;  // waves count here
  bool piled;       // pilings along both sides
};

/// An area with the least depth in it.
struct DepthArea : Feature {
  PolygonShape shape;
  Known<Length> least_depth;  // negative: dries
  Known<std::chrono::year_month_day> surveyed;
  SurveyQuality survey_quality;
  Bottom bottom;
};

/// One depth at one point; says nothing of the water round it.
struct Sounding : Feature {
  PointShape shape;
  Known<Length> depth;
  Known<std::chrono::year_month_day> surveyed;
  SurveyQuality survey_quality;
  Bottom bottom;
};

/// Something to keep off.
struct Hazard : Feature {
  Shape shape;
  std::string what;     // "oyster bank", "wreck"
  Known<Length> depth;  // of its top below chart datum; negative: dries by so much
  bool above_water;     // always: depth is then not known and not wanted
  std::optional<Length> position_within;  // radius in which it lies for certain; empty: as drawn
  Bottom bottom;
};

/// A line across which seas may break.
struct Bar : Feature {
  LineShape shape;
  Known<Length> depth;
  Known<std::chrono::year_month_day> surveyed;
  SurveyQuality survey_quality;
  Bottom bottom;
  /// Seas from these true directions reach it, clockwise from first to last; empty: not stated.
  std::optional<std::pair<TrueBearing, TrueBearing>> open_to_seas;
};

struct Berth : Feature {
  Shape shape;  // point or line
  Known<Length> depth;
  Known<std::chrono::year_month_day> surveyed;
  SurveyQuality survey_quality;
  Bottom bottom;
  std::optional<TrueBearing> heading;                               // bow of a boat lying in it
  std::optional<std::pair<TrueBearing, TrueBearing>> open_to_wind;  // clockwise
};

}  // namespace passage_brief
