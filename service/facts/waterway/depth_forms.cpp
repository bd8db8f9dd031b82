// Field tables of what says how deep the water is.
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
#include "facts/waterway/feature_forms.h"
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

using Date = std::chrono::year_month_day;
using Fields = std::vector<Field>;

Form<Length> depth_form() { return length("-10 m", "1000 m"); }
/// Date and quality of the survey, and the bottom: beside every depth.
void add_survey(Fields& fields) {
  fields.push_back(
      may_be_unknown("surveyed", date(), "When the depth was found.", "\"2025-10-02\""));
  fields.push_back(
      may_be_unknown("survey_quality",
                     words_for({SurveyQuality::a1, SurveyQuality::a2, SurveyQuality::b,
                                SurveyQuality::c, SurveyQuality::d, SurveyQuality::channel_survey,
                                SurveyQuality::captains_sounding}),
                     "CATZOC of S-57, or who sounded it.", "\"channel survey\""));
  fields.push_back(bottom_field());
}

Fields with_survey(Fields fields) {
  add_survey(fields);
  return fields;
}

Known<Date> surveyed_in(const Row& row, const std::string& whose) {
  if (const auto date = row.maybe<Date>("surveyed")) return *date;
  return not_known(row.place().document() + " gives no date of survey for " + whose);
}
SurveyQuality quality_in(const Row& row) {
  return row.get_or("survey_quality", SurveyQuality::not_stated);
}
Bottom bottom_in(const Row& row) { return row.get_or("bottom", Bottom::not_stated); }

/// From the first bearing clockwise to the second.
using Sector = std::pair<TrueBearing, TrueBearing>;

Form<Sector> sector() {
  Form<Sector> form = turned<Sector, std::vector<TrueBearing>>(
      list_of(bearing(), 2, 2),
      [](const std::vector<TrueBearing>& ends) -> std::expected<Sector, std::string> {
        return Sector{ends.front(), ends.back()};
      });
  form.must_be = "a sector: two bearings in degrees true, clockwise from the first to the second";
  return form;
}

/// A depth is a depth of some part of the channel: without saying which it is not known.
Known<Length> controlling_depth_in(const Row& row, const std::string& whose) {
  const auto depth = row.known<Length>("controlling_depth", whose);
  if (depth && !row.given("applies_to")) {
    return not_known(row.place().document() + " does not say which part of " + whose +
                     " its controlling depth applies to");
  }
  return depth;
}
Known<Length> depth_of_hazard(const Row& row, const std::string& whose) {
  const Known<Length> depth = row.known<Length>("depth", whose);
  const auto dries = row.maybe<Length>("dries");
  if (row.get_or("above_water", false)) return not_known(whose + " stands above water");
  return dries ? Known<Length>(-*dries) : depth;
}

void check_one_depth(const Row& row) {
  const int said = int{row.given("depth")} + int{row.given("dries")} +
                   int{row.maybe<bool>("above_water").value_or(false)};
  if (said > 1) row.refuse("give one of \"depth\", \"dries\" and \"above_water\"");
}

}  // namespace

Kind reach_kind(const FeatureCounter& count) {
  return kind_of_feature(
      "reach", "\"Town Reach\"",
      with_survey(
          {current_field("Its current station, or \"none\"; left out: the file's."),
           may_be_left_out("width", length("1 m", "20 km"),
                           "Of a reach drawn as a line: given there and only there.", "\"60 ft\""),
           may_be_unknown("controlling_depth", depth_form(),
                          "Least depth in the part it applies to; never a project depth.",
                          "\"5 ft 6 in\""),
           may_be_unknown(
               "applies_to",
               choice<ChannelPart>({{"full width", ChannelPart::full_width},
                                    {"middle half", ChannelPart::middle_half},
                                    {"centerline", ChannelPart::centerline},
                                    {"left outside quarter", ChannelPart::left_outside_quarter},
                                    {"left inside quarter", ChannelPart::left_inside_quarter},
                                    {"right inside quarter", ChannelPart::right_inside_quarter},
                                    {"right outside quarter", ChannelPart::right_outside_quarter}}),
               "Part of the width, as seen entering from seaward; left out: the "
               "controlling depth is not known.",
               "\"full width\""),
           may_be_unknown(
               "channel",
               choice<Channel>({{"main", Channel::main}, {"secondary", Channel::secondary}}),
               "Slow speed is kept in a secondary one.", "\"main\""),
           may_be_unknown("speed_limit", speed("0.5 kn", "60 kn"), "Through the water.",
                          "\"6 kn\""),
           kept_by_field(),
           may_be_left_out("open_water", yes_or_no(),
                           "false: sheltered, only the wash counts; left out: waves count, and "
                           "the margin of open water.",
                           "false"),
           may_be_left_out("piled", yes_or_no(), "true: pilings along both sides.", "true")}),
      count, [](const Row& row, const Feature& common) -> AnyFeature {
        const std::string& whose = common.name;
        return Reach{with_current(row, common),
                     LineShape{},
                     row.maybe<Length>("width"),
                     controlling_depth_in(row, whose),
                     row.maybe<ChannelPart>("applies_to"),
                     surveyed_in(row, whose),
                     quality_in(row),
                     bottom_in(row),
                     row.get_or("channel", Channel::not_stated),
                     row.maybe<Speed>("speed_limit"),
                     row.get_or("kept_by", KeptBy::not_stated),
                     row.get_or("open_water", true),
                     row.get_or("piled", false)};
      });
}

Kind depth_area_kind(const FeatureCounter& count) {
  return kind_of_feature("depth_area", "\"Town flats\"",
                         with_survey({current_field("Current station of its water outside every "
                                                    "reach, or \"none\"; left out: the file's."),
                                      may_be_unknown("least_depth", depth_form(),
                                                     "In it; negative: dries.", "\"2 ft\"")}),
                         count, [](const Row& row, const Feature& common) -> AnyFeature {
                           return DepthArea{with_current(row, common),
                                            PolygonShape{},
                                            row.known<Length>("least_depth", common.name),
                                            surveyed_in(row, common.name),
                                            quality_in(row),
                                            bottom_in(row)};
                         });
}

Kind sounding_kind(const FeatureCounter& count) {
  return kind_of_feature("sounding", "\"off the fuel dock\"",
                         with_survey({may_be_unknown(
                             "depth", depth_form(), "At the point; negative: dries.", "\"4 ft\"")}),
                         count, [](const Row& row, const Feature& common) -> AnyFeature {
                           return Sounding{common,
                                           not_yet_placed(),
                                           row.known<Length>("depth", common.name),
                                           surveyed_in(row, common.name),
                                           quality_in(row),
                                           bottom_in(row)};
                         });
}

Kind hazard_kind(const FeatureCounter& count) {
  return kind_of_feature(
      "hazard", "\"Long Bar oysters\"",
      {may_be_unknown("what", text(60), "In words; left out: \"hazard\".", "\"oyster bank\""),
       may_be_unknown("depth", depth_form(), "Of its top below chart datum.", "\"1 ft\""),
       may_be_unknown("dries", length("0 m", "20 m"), "How far its top stands above chart datum.",
                      "\"1 ft\""),
       may_be_left_out("above_water", yes_or_no(), "true: at every state of the tide.", "true"),
       may_be_left_out("position_within", length("0 m", "5 nm"),
                       "It lies for certain no farther from where it is drawn. Left out: as drawn, "
                       "which is for what the chart marks neither PA (approximate) nor PD "
                       "(doubtful) (IHO S-4, from memory).",
                       "\"50 ft\""),
       bottom_field()},
      count,
      [](const Row& row, const Feature& common) -> AnyFeature {
        return Hazard{common,
                      not_yet_placed(),
                      row.get_or<std::string>("what", "hazard"),
                      depth_of_hazard(row, common.name),
                      row.get_or("above_water", false),
                      row.maybe<Length>("position_within"),
                      bottom_in(row)};
      },
      {check_one_depth});
}

Kind bar_kind(const FeatureCounter& count) {
  return kind_of_feature(
      "bar", "\"Outer Bar\"",
      with_survey(
          {may_be_unknown("depth", depth_form(), "Least along it; negative: dries.", "\"6 ft\""),
           may_be_unknown("open_to_seas", sector(), "Seas from there reach it.", "[120, 200]")}),
      count, [](const Row& row, const Feature& common) -> AnyFeature {
        return Bar{common,
                   LineShape{},
                   row.known<Length>("depth", common.name),
                   surveyed_in(row, common.name),
                   quality_in(row),
                   bottom_in(row),
                   row.maybe<Sector>("open_to_seas")};
      });
}

Kind berth_kind(const FeatureCounter& count) {
  return kind_of_feature(
      "berth", "\"Fuel dock\"",
      with_survey(
          {may_be_unknown("depth", depth_form(), "Alongside.", "\"6 ft\""),
           may_be_unknown("heading", bearing(), "Of a boat lying in it, bow first.", "205"),
           may_be_unknown("open_to_wind", sector(), "Wind from there reaches it.", "[180, 270]")}),
      count, [](const Row& row, const Feature& common) -> AnyFeature {
        return Berth{common,
                     not_yet_placed(),
                     row.known<Length>("depth", common.name),
                     surveyed_in(row, common.name),
                     quality_in(row),
                     bottom_in(row),
                     row.maybe<TrueBearing>("heading"),
                     row.maybe<Sector>("open_to_wind")};
      });
}

}  // namespace passage_brief
