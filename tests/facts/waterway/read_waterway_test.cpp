#include "facts/waterway/read_waterway.h"

#include <gtest/gtest.h>

#include <chrono>
#include <string>
#include <variant>
#include <vector>

#include "given/files.h"
#include "given/units.h"
#include "reading/geojson.h"
#include "reading/table.h"
#include "units/geodesy.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using given::why;

Waterway whole() {
  const auto waterway = read_waterway("waterway.json", given::file_text("waterway.json"));
  if (!waterway) throw std::runtime_error(given::listed(waterway.error()));
  return *waterway;
}

Waterway after(std::string_view patch) {
  const auto waterway =
      read_waterway("waterway.json", given::patched(given::file_text("waterway.json"), patch));
  if (!waterway) throw std::runtime_error(given::listed(waterway.error()));
  return *waterway;
}

std::string problems_of_waterway(std::string_view patch) {
  const std::string text = given::patched(given::file_text("waterway.json"), patch);
  return given::problems_of_reading(read_waterway("waterway.json", text));
}

TEST(ReadWaterway, TheFileSpeaksForFeaturesThatDoNot) {
  const Waterway waterway = whole();
  EXPECT_EQ(waterway.name, "Invented water");
  EXPECT_EQ(waterway.zone.name(), "America/New_York");
  EXPECT_EQ(waterway.source.from, "drawn for tests");
  EXPECT_EQ(waterway.notices_read, std::chrono::year_month_day(std::chrono::June / 10 / 2026));
  EXPECT_EQ(waterway.soundings.at(0).stations, (FeatureStations{"Quay", "", "MLLW", "MHW"}));
  EXPECT_EQ(waterway.reaches.at(0).stations, (FeatureStations{"Bell", "Narrows", "MLLW", "MHW"}));
  EXPECT_EQ(waterway.bridges.at(0).stations, (FeatureStations{"Bell", "", "MLLW", "MHWS"}));
}

TEST(ReadWaterway, OnlyWaterAndBridgesNameACurrentStation) {
  const auto in_race = [](int index) {
    return R"([{"op": "add", "path": "/features/)" + std::to_string(index) +
           R"(/properties/current", "value": "Race"}])";
  };
  EXPECT_EQ(after(in_race(1)).depth_areas.at(0).stations.current, "Race");
  EXPECT_EQ(after(in_race(6)).bridges.at(0).stations.current, "Race");
  const Waterway waterway = whole();
  EXPECT_EQ(waterway.depth_areas.at(0).stations.current, "");  // then the file's, "none"
  // Of a bar it would change nothing.
  EXPECT_NE(problems_of_waterway(in_race(5)), "");
}

TEST(ReadWaterway, AnUnnamedFeatureIsCalledByKindAndNumber) {
  const Waterway waterway = whole();
  EXPECT_EQ(waterway.hazards.at(0).name, "hazard 1");
  EXPECT_EQ(waterway.hazards.at(1).name, "hazard 2");
  EXPECT_EQ(waterway.turning_places.at(0).name, "turning place 1");
}

TEST(ReadWaterway, AReachGoesToItsPlace) {
  const Reach reach = whole().reaches.at(0);
  EXPECT_EQ(std::get<LineShape>(reach.shape),
            (LineShape{position_at(45, -40), position_at(45.05, -40)}));
  EXPECT_EQ(reach.width, feet(60));
  EXPECT_EQ(reach.controlling_depth, feet(5) + inches(6));
  EXPECT_EQ(reach.applies_to, ChannelPart::middle_half);
  EXPECT_EQ(reach.surveyed, std::chrono::year_month_day(std::chrono::October / 2 / 2025));
  EXPECT_EQ(reach.survey_quality, SurveyQuality::channel_survey);
  EXPECT_EQ(reach.bottom, Bottom::mud);
  EXPECT_EQ(reach.channel, Channel::main);
  EXPECT_EQ(reach.speed_limit, knots(6));
  EXPECT_EQ(reach.kept_by, KeptBy::authority);
  EXPECT_TRUE(reach.open_water && reach.piled);
}

TEST(ReadWaterway, DepthsAndHazardsGoToTheirPlaces) {
  const Waterway waterway = whole();
  const DepthArea& flats = waterway.depth_areas.at(0);
  EXPECT_EQ(flats.shape.rings.at(0).size(), 4U);
  EXPECT_EQ(flats.least_depth, feet(-0.5));
  EXPECT_EQ(waterway.soundings.at(0).shape, position_at(45.01, -40.01));  // elevation passed over
  EXPECT_EQ(waterway.soundings.at(0).depth, feet(4));
  const Hazard& rock = waterway.hazards.at(0);
  EXPECT_EQ(rock.what, "rock");
  EXPECT_EQ(rock.depth, feet(-1));  // dries 1 ft
  EXPECT_EQ(rock.position_within, feet(50));
  EXPECT_EQ(rock.bottom, Bottom::rock);
  const Hazard& shore = waterway.hazards.at(1);
  EXPECT_TRUE(shore.above_water);
  EXPECT_FALSE(shore.depth);
  const Bar& bar = waterway.bars.at(0);
  EXPECT_EQ(bar.depth, feet(6));
  EXPECT_EQ(bar.open_to_seas->first.in_degrees(), 300);
  EXPECT_EQ(bar.open_to_seas->second.in_degrees(), 60);
}

TEST(ReadWaterway, BridgesAndCablesGoToTheirPlaces) {
  const Waterway waterway = whole();
  const Bridge& fixed = waterway.bridges.at(0);
  EXPECT_EQ(fixed.what, BridgeKind::fixed);
  EXPECT_EQ(fixed.clearance, feet(20));
  EXPECT_EQ(fixed.clearance_of, ClearanceOf::low_steel);
  EXPECT_EQ(fixed.width, feet(38));
  EXPECT_EQ(fixed.clearance_gauge, true);
  EXPECT_FALSE(fixed.opens_clear || fixed.openings);
  const Bridge& draw = waterway.bridges.at(1);
  EXPECT_EQ(why(draw.clearance), "the waterway file gives no clearance for Draw");
  EXPECT_TRUE(draw.opens_clear);
  EXPECT_FALSE(draw.clearance_open);
  EXPECT_EQ(draw.openings->rules.front().opens, Opens::at_times);
  EXPECT_EQ(draw.openings->rules.front().minutes,
            (std::vector{std::chrono::minutes(0), std::chrono::minutes(30)}));
  EXPECT_EQ(draw.radio, "VHF 13");
  const OverheadCable& cable = waterway.cables.at(0);
  EXPECT_EQ(cable.clearance, feet(60));
  EXPECT_EQ(why(cable.safe_clearance), "the waterway file gives no safe clearance for Ferry cable");
  EXPECT_EQ(cable.carries, Carries::power);
  EXPECT_EQ(cable.voltage, kilovolts(115));
}

TEST(ReadWaterway, MarksAndPlacesGoToTheirPlaces) {
  const Waterway waterway = whole();
  const Mark& red = waterway.marks.at(0);
  EXPECT_EQ(red.colour, "red");
  EXPECT_EQ(red.mark_shape, "triangle");
  EXPECT_EQ(red.hand, MarkHand::starboard);
  EXPECT_EQ(red.region, BuoyageRegion::b);
  EXPECT_EQ(std::get<std::string>(*red.direction_of_buoyage), "Long Reach");
  EXPECT_EQ(red.light, "Fl R 4s");
  EXPECT_EQ(red.kept_by, KeptBy::private_with_permit);
  EXPECT_EQ(red.structure, MarkStructure::piling);
  const Mark& stake = waterway.marks.at(1);
  EXPECT_EQ(std::get<TrueBearing>(*stake.direction_of_buoyage).in_degrees(), 10.5);
  EXPECT_EQ(stake.waterway_symbol, WaterwaySymbol::yellow_square);
  EXPECT_EQ(stake.region, BuoyageRegion::not_stated);
  const Berth& berth = waterway.berths.at(0);
  EXPECT_EQ(berth.depth, feet(6));
  EXPECT_EQ(berth.heading->in_degrees(), 205);
  EXPECT_EQ(berth.open_to_wind->second.in_degrees(), 270);
  EXPECT_EQ(waterway.refuges.at(0).what, "anchor in 6 ft, mud");
  EXPECT_EQ(waterway.turning_places.at(0).width, feet(120));
  EXPECT_EQ(waterway.notes.at(0).text, "Crab pots from April on.");
}

TEST(ReadWaterway, LeftOutOrNullIsNotKnownWithAReason) {
  EXPECT_EQ(why(after(R"([{"op": "remove", "path": "/features/0/properties/controlling_depth"}])")
                    .reaches.at(0)
                    .controlling_depth),
            "the waterway file gives no controlling depth for Long Reach");
  EXPECT_EQ(why(after(R"([{"op": "remove", "path": "/features/0/properties/surveyed"}])")
                    .reaches.at(0)
                    .surveyed),
            "the waterway file gives no date of survey for Long Reach");
  EXPECT_EQ(
      why(after(R"([{"op": "replace", "path": "/features/2/properties/depth", "value": null}])")
              .soundings.at(0)
              .depth),
      "the waterway file gives no depth for sounding 1");
  EXPECT_EQ(why(after(R"([{"op": "remove", "path": "/notices_read"}])").notices_read),
            "the waterway file gives no notices read for Invented water");
  EXPECT_EQ(
      after(R"([{"op": "remove", "path": "/chart_datum"}])").soundings.at(0).stations.chart_datum,
      "");
}

TEST(ReadWaterway, ADepthOfNoStatedPartIsNotKnown) {
  const Waterway waterway =
      after(R"([{"op": "remove", "path": "/features/0/properties/applies_to"}])");
  EXPECT_EQ(why(waterway.reaches.at(0).controlling_depth),
            "the waterway file does not say which part of Long Reach its controlling depth applies "
            "to");
}

TEST(ReadWaterway, TheKindSaysHowItMayBeDrawn) {
  const auto drawn_as_point = [](int index) {
    return problems_of_waterway(
        R"([{"op": "replace", "path": "/features/)" + std::to_string(index) +
        R"(/geometry", "value": {"type": "Point", "coordinates": [-40, 45]}}])");
  };
  EXPECT_EQ(drawn_as_point(0),
            "/features/0/geometry: found a Point; expected a LineString or a Polygon\n");
  EXPECT_EQ(drawn_as_point(1), "/features/1/geometry: found a Point; expected a Polygon\n");
  EXPECT_EQ(drawn_as_point(5), "/features/5/geometry: found a Point; expected a LineString\n");
  EXPECT_EQ(drawn_as_point(3), "");
}

TEST(ReadWaterway, AReachHasAWidthExactlyWhereItIsALine) {
  EXPECT_EQ(problems_of_waterway(R"([{"op": "remove", "path": "/features/0/properties/width"}])"),
            "/features/0/properties: a reach drawn as a line needs its \"width\", for example \"60 "
            "ft\"\n");
  EXPECT_EQ(
      problems_of_waterway(R"([{"op": "replace", "path": "/features/0/geometry", "value":
    {"type": "Polygon", "coordinates": [[[-40.1, 45], [-40, 45], [-40, 45.1], [-40.1, 45]]]}}])"),
      "/features/0/properties/width: belongs to a reach drawn as a line; this one is a "
      "Polygon\n/features/0/properties/applies_to: an area has no quarters and no centerline; "
      "write \"full width\"\n");
}

TEST(ReadWaterway, RingsAndLinesAreWhole) {
  const auto ring = [](const std::string& coordinates) {
    return problems_of_waterway(
        R"([{"op": "replace", "path": "/features/1/geometry/coordinates/0", "value": )" +
        coordinates + "}]");
  };
  EXPECT_EQ(
      ring("[[0, 0], [1, 0], [1, 1], [0, 1]]"),
      "/features/1/geometry/coordinates/0: the ring is not closed; its last place must be its "
      "first again\n");
  EXPECT_EQ(ring("[[0, 0], [1, 0], [1, 0], [0, 0]]"),
            "/features/1/geometry/coordinates/0: the ring has fewer than 3 corners\n");
  EXPECT_NE(ring("[[0, 0], [1, 0], [0, 0]]"), "");
  EXPECT_EQ(ring("[[179, 0], [-179, 0], [179, 1], [179, 0]]"),
            "/features/1/geometry/coordinates/0/1: the edge to here crosses the 180th meridian; "
            "end it there, at 180 or -180\n");
  EXPECT_EQ(
      problems_of_waterway(
          R"([{"op": "replace", "path": "/features/5/geometry/coordinates", "value":
    [[1, 2], [1, 2]]}])"),
      "/features/5/geometry/coordinates: all places of the line are one; a line needs two that "
      "differ\n");
  EXPECT_EQ(problems_of_waterway(R"([{"op": "replace", "path": "/features/1/geometry/type", "value":
    "MultiPolygon"}])"),
            "/features/1/geometry/type: found the text \"MultiPolygon\"; expected \"Point\", "
            "\"LineString\" or \"Polygon\"; split it into features of one part each\n");
}

// RFC 7946, 3.1.9: a thing cut at the meridian ends there at 180 on one side, at -180 on the other.
TEST(ReadWaterway, ADrawingMayBeCutAtThe180thMeridian) {
  const auto drawn = [](const std::string& coordinates) {
    return read_json("f", R"({"type": "LineString", "coordinates": )" + coordinates + "}",
                     "the geometry", geometry());
  };
  for (const char* side : {"[[179.98, -17], [180, -17]]", "[[-180, -17], [-179.98, -17]]",
                           "[[180, -17], [180, -16]]", "[[179.98, -17], [-180, -17]]"}) {
    const auto line = drawn(side);
    ASSERT_TRUE(line) << side << given::listed(line.error());
    EXPECT_LT(in_metres(geodesic_distance(line->parts[0][0], line->parts[0][1])), 111'000) << side;
  }
  EXPECT_FALSE(drawn("[[179.98, -17], [-179.98, -17]]"));
}

TEST(ReadWaterway, AFeatureFarFromTheRestIsRefused) {
  const auto moved = [](const std::string& place) {
    return problems_of_waterway(
        R"([{"op": "replace", "path": "/features/3/geometry/coordinates", "value": )" + place +
        "}]");
  };
  // The rock at 45.01 N 40.02 W with its numbers swapped.
  const std::string swapped = moved("[45.01, -40.02]");
  EXPECT_EQ(swapped.rfind("/features/3/geometry: lies ", 0), 0u) << swapped;
  EXPECT_NE(swapped.find("are latitude and longitude swapped, or a sign lost?"), std::string::npos);
  EXPECT_NE(moved("[40.02, 45.01]"), "");
  EXPECT_EQ(moved("[-40.0, 49.9]"), "");  // 4.9 degrees: 294 nm
  EXPECT_NE(moved("[-40.0, 50.2]"), "");  // 5.2 degrees: 312 nm
  // One corner of an area is enough.
  EXPECT_NE(
      problems_of_waterway(R"([{"op": "replace", "path": "/features/1/geometry/coordinates/0/2",
      "value": [45.1, -40.0]}])"),
      "");
}

TEST(ReadWaterway, TheMiddleOfADrawingIsFoundAcrossThe180thMeridian) {
  const auto water = [](const std::vector<double>& longitudes) {
    std::string features;
    for (const double longitude : longitudes) {
      features += std::string(features.empty() ? "" : ",") +
                  R"({"type": "Feature", "geometry": {"type": "Point", "coordinates": [)" +
                  std::to_string(longitude) +
                  R"(, -17]}, "properties": {"feature": "note", "text": "here"}})";
    }
    return given::problems_of_reading(read_waterway(
        "w", R"({"type": "FeatureCollection", "kind": "waterway", "zone": "UTC", "features": [)" +
                 features + "]}"));
  };
  EXPECT_EQ(water({179.9, -179.9, 179.8, -179.8, 180}), "");
  EXPECT_EQ(water({-0.1, 0.1, 0.2, -0.2}), "");
  EXPECT_EQ(water({17}), "");
  const std::string far = water({0, 179.9, -179.9, 179.8, -179.8});
  EXPECT_EQ(far.rfind("/features/0/geometry: lies 87", 0), 0u)
      << far;  // over the pole: 180 - 2 x 17 degrees, some 8760 nm
  EXPECT_EQ(far.find("/features/1"), std::string::npos) << far;
}

TEST(ReadWaterway, AMarkNamesAReachOfTheFile) {
  EXPECT_EQ(problems_of_waterway(
                R"([{"op": "replace", "path": "/features/9/properties/direction_of_buoyage",
    "value": "Long Raech"}])"),
            "/features/9/properties/direction_of_buoyage: there is no reach \"Long Raech\" in this "
            "file; did you mean \"Long Reach\"?\n");
  EXPECT_EQ(
      problems_of_waterway(R"([{"op": "copy", "from": "/features/0", "path": "/features/-"}])"),
      "/features/15/properties/name: there is another reach \"Long Reach\"; give each its own "
      "name\n");
}

TEST(ReadWaterway, FeaturesDoNotContradictThemselves) {
  EXPECT_EQ(problems_of_waterway(
                R"([{"op": "add", "path": "/features/3/properties/depth", "value": "1 ft"}])"),
            "/features/3/properties: give one of \"depth\", \"dries\" and \"above_water\"\n");
  EXPECT_EQ(
      problems_of_waterway(
          R"([{"op": "add", "path": "/features/6/properties/clearance_open", "value": "60 ft"}])"),
      "/features/6/properties/clearance_open: belongs to a bridge that opens; this one is fixed\n");
  EXPECT_EQ(problems_of_waterway(
                R"([{"op": "replace", "path": "/features/7/properties/clearance", "value":
    "20 ft"}, {"op": "replace", "path": "/features/7/properties/clearance_open", "value": "19 ft"}])"),
            "/features/7/properties/clearance_open: is less than the clearance\n");
  EXPECT_EQ(
      problems_of_waterway(R"([{"op": "replace", "path": "/features/8/properties/carries", "value":
    "telephone"}])"),
      "/features/8/properties/voltage: belongs to a power cable; this one carries telephone\n");
}

TEST(ReadWaterway, OpeningRulesAreLookedThrough) {
  const auto rule = [](const std::string& value) {
    return problems_of_waterway(
        R"([{"op": "replace", "path": "/features/7/properties/openings/rules", "value": [)" +
        value + "]}]");
  };
  const std::string place = "/features/7/properties/openings/rules/0";
  EXPECT_EQ(rule(R"({"opens": "at"})"),
            place +
                ": \"opens\": \"at\" needs \"times\", like [\"07:30\"], or \"minutes\", like [0, "
                "30]\n");
  EXPECT_EQ(rule(R"({"opens": "notice"})"),
            place + ": \"opens\": \"notice\" needs \"notice\", for example \"4 h\"\n");
  EXPECT_EQ(rule(R"({"opens": "closed", "from": "06:30"})"),
            place + ": from and to belong together\n");
  EXPECT_EQ(rule(R"({"opens": "closed", "from": "6:30", "to": "24:30"})"),
            place +
                "/from: \"6:30\" is not a time of day like \"06:30\", \"sunrise\" or \"sunset\"\n" +
                place +
                "/to: \"24:30\" is not a time of day like \"06:30\", \"sunrise\" or "
                "\"sunset\"\n");
  EXPECT_EQ(rule(R"({"opens": "closed", "season": ["02-29", "02-30"]})"),
            place + "/season/1: \"02-30\" is not a month and day like \"04-16\"\n");
  EXPECT_EQ(rule(R"({"opens": "closed", "holiday_set": ["US federal"]})"),
            place + "/holiday_set: needs \"holidays\": \"except\", \"only\" or \"same\"\n");
}

TEST(ReadWaterway, AnotherCoordinateSystemIsRefused) {
  EXPECT_EQ(
      problems_of_waterway(R"([{"op": "add", "path": "/crs", "value": {"type": "name", "properties":
    {"name": "urn:ogc:def:crs:OGC:1.3:CRS84"}}}])"),
      "");
  const std::string words = problems_of_waterway(
      R"([{"op": "add", "path": "/crs", "value": {"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::3857"}}}])");
  EXPECT_EQ(words.rfind("/crs: found the text \"urn:ogc:def:crs:EPSG::3857\"; expected", 0), 0U)
      << words;
}

}  // namespace
}  // namespace passage_brief
