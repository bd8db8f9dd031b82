#include "passage/corridor_depths.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/waterway/waterway.h"
#include "passage/channel_strip.h"
#include "passage/plane_shape.h"
#include "passage/stretch.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

constexpr Length kSliver = metres(0.05);

std::string words_of(ChannelPart part) {
  switch (part) {
    case ChannelPart::full_width:
      return "full width";
    case ChannelPart::middle_half:
      return "middle half";
    case ChannelPart::centerline:
      return "centerline";
    case ChannelPart::left_outside_quarter:
      return "left outside quarter";
    case ChannelPart::left_inside_quarter:
      return "left inside quarter";
    case ChannelPart::right_inside_quarter:
      return "right inside quarter";
    case ChannelPart::right_outside_quarter:
      return "right outside quarter";
  }
  return {};
}

DepthSource source_of(const Reach& reach, const Waterway& waterway) {
  return {DepthSourceKind::controlling_depth,
          "controlling depth of " + reach.name,
          reach.controlling_depth,
          false,
          reach.stations,
          reach.bottom,
          reach.surveyed,
          reach.survey_quality,
          static_cast<std::size_t>(&reach - waterway.reaches.data())};
}

DepthSource source_of(const DepthArea& area) {
  return {DepthSourceKind::depth_area,
          area.name,
          area.least_depth,
          false,
          area.stations,
          area.bottom,
          area.surveyed,
          area.survey_quality};
}

DepthSource source_of(const Sounding& sounding) {
  return {DepthSourceKind::sounding, sounding.name,   sounding.depth,    false,
          sounding.stations,         sounding.bottom, sounding.surveyed, sounding.survey_quality};
}

DepthSource source_of(const Hazard& hazard) {
  return {DepthSourceKind::hazard,
          hazard.name,
          hazard.above_water
              ? Known<Length>(not_known(hazard.name + " stands above water in the corridor"))
              : hazard.depth,
          hazard.above_water,
          hazard.stations,
          hazard.bottom,
          not_known("a hazard has no survey date"),
          SurveyQuality::not_stated};
}

/// Collects what one corridor meets.
class Collector {
 public:
  Collector(const Stretch& stretch, const PlaneShape& corridor)
      : stretch_(stretch), corridor_(corridor) {
    const PlanePoint low = corridor.low();
    const PlanePoint high = corridor.high();
    const double length_m = in_metres(stretch.length());
    reach_ = metres(std::max({-low.y_m, high.y_m, -low.x_m, high.x_m - length_m}));
  }

  [[nodiscard]] bool near(const Shape& shape, Length extra) const {
    return stretch_.may_come_within(shape, reach_ + extra);
  }

  /// Covers, and counts where it meets the corridor. A reach may be drawn for its name alone: one
  /// without a depth counts where nothing else covers.
  void add_area(const DepthSource& source, PlaneShape area) {
    if (!area.touches(corridor_)) return;
    if (!source.charted.has_value() && source.kind == DepthSourceKind::controlling_depth) {
      without_depth_.emplace_back(source, std::move(area));
      return;
    }
    add_pieces(source, area.common_with(corridor_));
    cover_.push_back(std::move(area));
  }

  /// A thing that says nothing of the water round it, wherever it meets the corridor.
  void add_thing(const DepthSource& source, const PlaneShape& thing) {
    if (thing.touches(corridor_)) add_pieces(source, thing.common_with(corridor_));
  }

  /// A reach whose depth holds for a stated part of its width: remembered to explain holes.
  void add_partial(const Reach& reach, PlaneShape water) {
    partial_.emplace_back(&reach, std::move(water));
  }

  [[nodiscard]] std::vector<DepthOnTrack> finish(const Waterway& waterway) {
    PlaneShape bare = corridor_.without(PlaneShape::joined(cover_)).shrunk(kSliver);
    if (!bare.empty()) add_holes(std::move(bare), waterway);
    std::ranges::stable_sort(found_, {}, [](const DepthOnTrack& d) { return d.begin; });
    return std::move(found_);
  }

 private:
  void add_pieces(const DepthSource& source, const PlaneShape& shape) {
    const Length begin = stretch_.begins_along();
    const Length end = stretch_.ends_along();
    for (const Reaches& piece : shape.pieces()) {
      found_.push_back({source, std::clamp(begin + piece.begin, begin, end),
                        std::clamp(begin + piece.end, begin, end)});
    }
  }

  /// Each hole belongs to whatever reach without a depth it lies in, and the rest to nothing at
  /// all.
  void add_holes(PlaneShape rest, const Waterway& waterway) {
    for (const auto& [source, area] : without_depth_) {
      if (!area.touches(rest)) continue;
      add_pieces(source, rest.common_with(area));
      rest = rest.without(area).shrunk(kSliver);
      if (rest.empty()) return;
    }
    for (const auto& [reach, water] : partial_) {
      if (!water.touches(rest)) continue;
      DepthSource source = source_of(*reach, waterway);
      source.kind = DepthSourceKind::nothing;
      const std::string part = words_of(*reach->applies_to);
      source.name = reach->name + " outside its " + part;
      source.charted = not_known("the controlling depth of " + reach->name + " holds in its " +
                                 part + " only, and the corridor is wider");
      add_pieces(source, rest.common_with(water));
      rest = rest.without(water).shrunk(kSliver);
      if (rest.empty()) return;
    }
    add_pieces({DepthSourceKind::nothing, "no depth on file",
                not_known("no depth on file for part of the corridor"), false, waterway.stations,
                Bottom::not_stated, not_known("no depth on file"), SurveyQuality::not_stated},
               rest);
  }

  const Stretch& stretch_;
  const PlaneShape& corridor_;
  Length reach_ = metres(0);
  std::vector<DepthOnTrack> found_;
  std::vector<PlaneShape> cover_;
  std::vector<std::pair<DepthSource, PlaneShape>> without_depth_;
  std::vector<std::pair<const Reach*, PlaneShape>> partial_;
};

void add_reach(Collector& collector, const Reach& reach, const Waterway& waterway,
               const Stretch& stretch) {
  const Length half = reach.width ? *reach.width / 2 : metres(0);
  const Shape shape = std::visit([](const auto& s) { return Shape(s); }, reach.shape);
  if (!collector.near(shape, half)) return;
  std::optional<PlaneShape> part = part_with_depth(reach, waterway, stretch);
  if (part) {
    collector.add_area(source_of(reach, waterway), std::move(*part));
  } else if (const auto* line = std::get_if<LineShape>(&reach.shape)) {
    collector.add_thing(source_of(reach, waterway), PlaneShape::line(stretch.project(*line)));
  }
  if (!reach.applies_to) {  // the depth is not known, and so named in its water
    collector.add_area(source_of(reach, waterway), water_of(reach, waterway, stretch));
  } else if (*reach.applies_to != ChannelPart::full_width) {
    collector.add_partial(reach, water_of(reach, waterway, stretch));
  }
}

}  // namespace

DepthSource source_of(const Bar& bar) {
  return {DepthSourceKind::hazard,
          "depth of " + bar.name,
          bar.depth,
          false,
          bar.stations,
          bar.bottom,
          bar.surveyed,
          bar.survey_quality};
}

DepthSource source_of(const Berth& berth) {
  return {DepthSourceKind::controlling_depth,
          "depth of " + berth.name,
          berth.depth,
          false,
          berth.stations,
          berth.bottom,
          berth.surveyed,
          berth.survey_quality};
}

std::vector<DepthOnTrack> depths_in_corridor(const Waterway& waterway, const Stretch& stretch,
                                             const PlaneShape& corridor) {
  Collector collector(stretch, corridor);
  for (const Reach& reach : waterway.reaches) add_reach(collector, reach, waterway, stretch);
  for (const DepthArea& area : waterway.depth_areas) {
    if (!collector.near(area.shape, metres(0))) continue;
    collector.add_area(source_of(area), stretch.project(area.shape));
  }
  for (const Sounding& sounding : waterway.soundings) {
    if (!collector.near(sounding.shape, metres(0))) continue;
    collector.add_thing(source_of(sounding), stretch.project(Shape(sounding.shape)));
  }
  for (const Hazard& hazard : waterway.hazards) {
    const Length within = hazard.position_within.value_or(metres(0));
    if (!collector.near(hazard.shape, within)) continue;
    PlaneShape drawn = stretch.project(hazard.shape);
    collector.add_thing(source_of(hazard),
                        within > metres(0) ? drawn.grown(within) : std::move(drawn));
  }
  return collector.finish(waterway);
}

}  // namespace passage_brief
