#include "facts/waterway/read_waterway.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <expected>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "facts/waterway/far_features.h"
#include "facts/waterway/feature.h"
#include "facts/waterway/feature_forms.h"
#include "facts/waterway/mark.h"
#include "facts/waterway/reach.h"
#include "facts/waterway/waterway.h"
#include "reading/form.h"
#include "reading/geojson.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

/// Problems of a reach that its properties and its shape make only together.
void check_reach(const Reach& reach, const Place& properties) {
  const bool line = std::holds_alternative<LineShape>(reach.shape);
  if (line && !reach.width) {
    properties.refuse("a reach drawn as a line needs its \"width\", for example \"60 ft\"");
  }
  if (!line && reach.width) {
    properties.inside("width").refuse("belongs to a reach drawn as a line; this one is a Polygon");
  }
  const bool part_of_width =
      reach.controlling_depth.has_value() && reach.applies_to != ChannelPart::full_width;
  if (!line && part_of_width) {
    properties.inside("applies_to")
        .refuse("an area has no quarters and no centerline; write \"full width\"");
  }
}

Form<AnyFeature> feature(const std::shared_ptr<FeatureCount>& count) {
  std::vector<Field> fields{
      always("type", "Feature"),
      must_be_given(
          "geometry", geometry(),
          "Where it is; which types, depends on the kind. A bridge or a cable drawn as a Point "
          "is passed where the track comes within 50 m of it, or the "
          "width of the reach it is drawn in (0.25 nm where that is a Polygon): draw a "
          "LineString where the track goes by it.",
          R"({"type": "Point", "coordinates": [-76.4, 38.5]})"),
      must_be_given("properties", feature_properties(count), "What it is, by `feature`.",
                    R"({"feature": "note", "text": "Crab pots from April on."})")};
  for (Field& field : members_passed_over()) fields.push_back(std::move(field));
  return object<AnyFeature>("feature", std::move(fields),
                            [](const Row& row) -> std::optional<AnyFeature> {
                              AnyFeature built = row.get<AnyFeature>("properties");
                              const std::expected<void, std::string> placed =
                                  put_shape(built, row.get<Geometry>("geometry"));
                              if (!placed) {
                                row.refuse("geometry", placed.error());
                                return std::nullopt;
                              }
                              if (const Reach* reach = std::get_if<Reach>(&built)) {
                                check_reach(*reach, row.place().inside("properties"));
                              }
                              return built;
                            });
}

/// Marks name the reach whose direction is theirs: it must be in the file, and be one.
void check_reach_names(const Row& row) {
  const auto* features = row.look_at<std::vector<AnyFeature>>("features");
  if (features == nullptr) return;
  const Place list = row.place().inside("features");
  std::vector<std::string> reaches;
  for (std::size_t i = 0; i < features->size(); ++i) {
    const Reach* reach = std::get_if<Reach>(&(*features)[i]);
    if (reach == nullptr) continue;
    if (std::find(reaches.begin(), reaches.end(), reach->name) != reaches.end()) {
      const Place in_list = list.inside(i);
      const Place properties = in_list.inside("properties");
      properties.inside("name").refuse(
          fmt::format("there is another reach \"{}\"; give each its own name", reach->name));
    }
    reaches.push_back(reach->name);
  }
  for (std::size_t i = 0; i < features->size(); ++i) {
    const Mark* mark = std::get_if<Mark>(&(*features)[i]);
    if (mark == nullptr || !mark->direction_of_buoyage) continue;
    const std::string* name = std::get_if<std::string>(&*mark->direction_of_buoyage);
    if (name == nullptr || std::find(reaches.begin(), reaches.end(), *name) != reaches.end()) {
      continue;
    }
    const Place in_list = list.inside(i);
    const Place properties = in_list.inside("properties");
    properties.inside("direction_of_buoyage")
        .refuse(fmt::format("there is no reach \"{}\" in this file{}", *name,
                            did_you_mean(*name, reaches)));
  }
}

void check_features_are_near(const Row& row) {
  const auto* features = row.look_at<std::vector<AnyFeature>>("features");
  if (features != nullptr) refuse_far_features(*features, row.place().inside("features"));
}

void fill_in(FeatureStations& own, const FeatureStations& of_file) {
  if (own.tide.empty()) own.tide = of_file.tide;
  if (own.chart_datum.empty()) own.chart_datum = of_file.chart_datum;
  if (own.clearance_datum.empty()) own.clearance_datum = of_file.clearance_datum;
}

/// Puts each feature into the list of its kind.
class Sorter {
 public:
  explicit Sorter(Waterway& waterway) : waterway_(waterway) {}
  void operator()(Reach feature) const {
    std::string& current = feature.stations.current;
    if (current.empty()) current = waterway_.stations.current;
    add(waterway_.reaches, std::move(feature));
  }
  void operator()(DepthArea feature) const { add(waterway_.depth_areas, std::move(feature)); }
  void operator()(Sounding feature) const { add(waterway_.soundings, std::move(feature)); }
  void operator()(Hazard feature) const { add(waterway_.hazards, std::move(feature)); }
  void operator()(Bar feature) const { add(waterway_.bars, std::move(feature)); }
  void operator()(Bridge feature) const { add(waterway_.bridges, std::move(feature)); }
  void operator()(OverheadCable feature) const { add(waterway_.cables, std::move(feature)); }
  void operator()(Mark feature) const { add(waterway_.marks, std::move(feature)); }
  void operator()(Berth feature) const { add(waterway_.berths, std::move(feature)); }
  void operator()(Refuge feature) const { add(waterway_.refuges, std::move(feature)); }
  void operator()(TurningPlace feature) const { add(waterway_.turning_places, std::move(feature)); }
  void operator()(Note feature) const { add(waterway_.notes, std::move(feature)); }

 private:
  template <class Kind>
  void add(std::vector<Kind>& list, Kind feature) const {
    fill_in(feature.stations, waterway_.stations);
    list.push_back(std::move(feature));
  }
  Waterway& waterway_;
};

Waterway build_waterway(const Row& row) {
  const auto name = row.get_or<std::string>("name", "the waterway");
  Waterway waterway{
      .name = name,
      .zone = row.get<Zone>("zone"),
      .source = {"waterway " + name, row.get_or<std::string>("source", "source not stated"),
                 row.maybe<Instant>("issued")},
      .notices_read = row.known<std::chrono::year_month_day>("notices_read", name),
      .stations = {row.get_or<std::string>("tide", ""), row.get_or<std::string>("current", ""),
                   row.get_or<std::string>("chart_datum", ""),
                   row.get_or<std::string>("clearance_datum", "")},
      .reaches = {},
      .depth_areas = {},
      .soundings = {},
      .hazards = {},
      .bars = {},
      .bridges = {},
      .cables = {},
      .marks = {},
      .berths = {},
      .refuges = {},
      .turning_places = {},
      .notes = {}};
  for (const AnyFeature& feature : row.get<std::vector<AnyFeature>>("features")) {
    std::visit(Sorter(waterway), feature);
  }
  return waterway;
}

}  // namespace

Form<Waterway> waterway_form() {
  std::vector<Field> fields{
      always("type", "FeatureCollection"),
      always("kind", "waterway"),
      may_be_unknown("name", text(60), "Of the cruising ground.", "\"Heron River\""),
      must_be_given("zone", time_zone(), "Wall times are in it.", "\"America/New_York\""),
      may_be_unknown("chart_datum", text(20),
                     "Plane of depths, by its name in the tide stations; not known: depths are not "
                     "known.",
                     "\"MLLW\""),
      may_be_unknown("clearance_datum", text(20),
                     "Plane of clearances; not known: clearances are not known.", "\"MHW\""),
      may_be_unknown("tide", text(60), "Tide station of features that name none.",
                     "\"Town Landing\""),
      may_be_unknown("current", text(60),
                     "Current station of reaches, and of water outside them, that name none; or "
                     "\"none\".",
                     "\"none\""),
      may_be_unknown("notices_read", date(), "Notices to mariners were read up to then.",
                     "\"2026-06-10\""),
      may_be_unknown("source", text(), "Chart, edition, who drew it.",
                     "\"drawn for practice, not for navigation\""),
      may_be_unknown("issued", instant(), "Of the source.", "\"2026-03-01T00:00:00Z\""),
      must_be_given("features",
                    list_of(feature(std::make_shared<FeatureCount>()), 0, kMostFeatures),
                    "Everything drawn.", "[]"),
      coordinate_system()};
  for (Field& field : members_passed_over()) fields.push_back(std::move(field));
  return object<Waterway>("waterway", std::move(fields), build_waterway,
                          {check_reach_names, check_features_are_near});
}

std::expected<Waterway, Problems> read_waterway(std::string_view file, std::string_view text) {
  // Made anew at each reading: it numbers the features that have no name.
  return read_json(file, text, "the waterway file", waterway_form());
}

}  // namespace passage_brief
