#include "facts/waterway/feature_forms.h"

#include <chrono>
#include <cstddef>
#include <expected>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "facts/waterway/bridge.h"
#include "facts/waterway/feature.h"
#include "facts/waterway/feature_kind.h"
#include "facts/waterway/mark.h"
#include "facts/waterway/reach.h"
#include "facts/waterway/read_openings.h"
#include "facts/waterway/waterway.h"
#include "reading/form.h"
#include "reading/geojson.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using Fields = std::vector<Field>;

std::string in_plain_words(std::string kind) {
  for (char& c : kind) c = c == '_' ? ' ' : c;
  return kind;
}

/// The fields of every kind, before its own.
Fields with_common(const std::string& kind, const char* example_name, Fields own) {
  Fields fields{
      always("feature", kind),
      may_be_unknown("name", text(60), "As it is to stand on the page; left out: kind and number.",
                     example_name),
      may_be_left_out("tide", text(60), "Its tide station; left out: the file's.",
                      "\"Town Landing\""),
      may_be_left_out("chart_datum", text(20), "Plane of its depths; left out: the file's.",
                      "\"MLLW\""),
      may_be_left_out("clearance_datum", text(20), "Plane of its clearances; left out: the file's.",
                      "\"MHW\"")};
  for (Field& field : own) fields.push_back(std::move(field));
  return fields;
}

Feature common_part(const Row& row, const std::string& kind, FeatureCount& count) {
  const std::string numbered = count.next_name(in_plain_words(kind));
  return {row.get_or("name", numbered),
          {row.get_or<std::string>("tide", ""), "", row.get_or<std::string>("chart_datum", ""),
           row.get_or<std::string>("clearance_datum", "")}};
}

template <class Wanted, class Shape>
struct Takes : std::is_same<Wanted, Shape> {};
template <class Wanted, class... Shapes>
struct Takes<Wanted, std::variant<Shapes...>> : std::disjunction<std::is_same<Wanted, Shapes>...> {
};

/// The types of GeoJSON that a feature's shape can hold are those its value type can hold.
template <class Shape>
std::expected<void, std::string> put(Shape& shape, const Geometry& drawn) {
  constexpr bool point = Takes<PointShape, Shape>::value;
  constexpr bool line = Takes<LineShape, Shape>::value;
  constexpr bool polygon = Takes<PolygonShape, Shape>::value;
  if constexpr (point) {
    if (drawn.type == GeometryType::point) {
      shape = drawn.parts.front().front();
      return {};
    }
  }
  if constexpr (line) {
    if (drawn.type == GeometryType::line_string) {
      shape = drawn.parts.front();
      return {};
    }
  }
  if constexpr (polygon) {
    if (drawn.type == GeometryType::polygon) {
      shape = PolygonShape{drawn.parts};
      return {};
    }
  }
  std::string types = point ? "a Point" : "";
  if (line) types += types.empty() ? "a LineString" : " or a LineString";
  if (polygon) types += types.empty() ? "a Polygon" : " or a Polygon";
  return std::unexpected("found a " + in_words(drawn.type) + "; expected " + types);
}

}  // namespace

PointShape not_yet_placed() { return position_at(0, 0); }

Kind kind_of_feature(const std::string& kind, const char* example_name, std::vector<Field> own,
                     const FeatureCounter& count, Build build, std::vector<RowCheck> checks) {
  return {kind, object<AnyFeature>(
                    in_plain_words(kind), with_common(kind, example_name, std::move(own)),
                    [kind, count, build = std::move(build)](const Row& row) {
                      return build(row, common_part(row, kind, *count));
                    },
                    std::move(checks))};
}

Field current_field(std::string words) {
  return may_be_left_out("current", text(60), std::move(words), "\"none\"");
}

Feature with_current(const Row& row, Feature common) {
  common.stations.current = row.get_or<std::string>("current", "");
  return common;
}

Field bottom_field() {
  return may_be_unknown("bottom",
                        words_for({Bottom::mud, Bottom::sand, Bottom::hard_sand, Bottom::shell,
                                   Bottom::gravel, Bottom::rock, Bottom::coral}),
                        "What it is made of; not known counts as hard.", "\"mud\"");
}

Field kept_by_field() {
  return may_be_unknown(
      "kept_by", words_for({KeptBy::authority, KeptBy::private_with_permit, KeptBy::unofficial}),
      "Who keeps the marks; unofficial ones prove nothing.", "\"private with permit\"");
}

Form<AnyFeature> feature_properties(std::shared_ptr<FeatureCount> count) {
  return one_of_kinds<AnyFeature>(
      "feature",
      {reach_kind(count), depth_area_kind(count), sounding_kind(count), hazard_kind(count),
       bar_kind(count), bridge_kind(count), overhead_cable_kind(count), mark_kind(count),
       berth_kind(count), refuge_kind(count), turning_place_kind(count), note_kind(count)});
}

std::expected<void, std::string> put_shape(AnyFeature& feature, const Geometry& drawn) {
  return std::visit([&](auto& kind) { return put(kind.shape, drawn); }, feature);
}

}  // namespace passage_brief
