#include "plan/read_route.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>

#include "given/csv_table.h"
#include "given/files.h"
#include "reading/xml_text.h"

namespace passage_brief {
namespace {

std::string gpx_problems(std::string_view old_part, std::string_view new_part) {
  const std::string text = given::replaced(given::file_text("route.gpx"), old_part, new_part);
  return given::problems_of_reading(read_route("route.gpx", text));
}

std::string geojson_problems(std::string_view patch) {
  const std::string text = given::patched(given::file_text("route.geojson"), patch);
  return given::problems_of_reading(read_route("route.geojson", text));
}

std::string gpx_of(const std::string& points) {
  return "<gpx version=\"1.1\"><rte>" + points + "</rte></gpx>";
}

std::string gpx_with(std::size_t points) {
  std::string text;
  for (std::size_t i = 0; i < points; ++i) {
    text += "<rtept lat=\"" + std::to_string(static_cast<double>(i) / 100) + "\" lon=\"0\"/>";
  }
  return gpx_of(text);
}

TEST(ReadRoute, GpxAndGeoJsonSayTheSame) {
  const auto gpx = read_route("route.gpx", given::file_text("route.gpx"));
  ASSERT_TRUE(gpx) << given::listed(gpx.error());
  EXPECT_EQ(gpx->name, "Quay to Bell");
  ASSERT_EQ(gpx->points.size(), 3U);
  EXPECT_EQ(gpx->points[0].name, "Quay");
  EXPECT_EQ(gpx->points[0].position, position_at(45.01, -40.02));
  EXPECT_EQ(gpx->points[1].name, "point 2");       // has none
  EXPECT_EQ(gpx->points[2].name, "Bell & Light");  // entity read, spaces folded
  const auto geojson = read_route("route.geojson", given::file_text("route.geojson"));
  ASSERT_TRUE(geojson) << given::listed(geojson.error());
  EXPECT_EQ(geojson->name, gpx->name);
  EXPECT_EQ(geojson->points[1].name, "Bend");
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(geojson->points[i].position, gpx->points[i].position);
  }
}

TEST(ReadRoute, TakesWhatPlottersWrite) {
  const std::string gpx = given::file_text("route.gpx");
  EXPECT_TRUE(read_route("r", "\xEF\xBB\xBF" + gpx));
  EXPECT_TRUE(read_route("r", given::replaced(gpx, "gpx version=\"1.1\"", "gpx version=\"1.0\"")));
  EXPECT_TRUE(read_route("r",
                         "<g:gpx xmlns:g='u'><g:rte><g:rtept lat='1' lon='2'/>"
                         "<g:rtept lon='+2.5' lat='-1.'/></g:rte></g:gpx>"));
  EXPECT_TRUE(
      read_route("r", gpx_of("<!-- <rtept/> --><rtept lat='1' lon='2'/>"
                             "<rtept lat='1' lon='3'><name><![CDATA[a>b]]></name></rtept>")));
}

// Recorded files of the reference folder: one has a track, routes and way points, one is GPX 1.0.
TEST(ReadRoute, ReadsARecordedGpx10) {
  const auto file = given::reference_file("formats/routes/gpx/route.gpx");
  if (!file) return;
  const auto route = read_route("route.gpx", given::contents_of(*file));
  ASSERT_TRUE(route) << given::listed(route.error());
  EXPECT_EQ(route->points.front().name, "#001");
  EXPECT_EQ(route->points.front().position, position_at(45.2787641494, 13.726695478));
}

TEST(ReadRoute, LatitudeAndLongitudeStayInRange) {
  EXPECT_EQ(gpx_problems("lat=\"45.01\"", "lat=\"90.01\""),
            "line 7: found lat=\"90.01\"; expected degrees from -90 to 90\n");
  EXPECT_EQ(gpx_problems("lon=\"-40.00\"", "lon=\"181\""),
            "line 9: found lon=\"181\"; expected degrees from -180 to 180\n");
  EXPECT_EQ(gpx_problems("lat=\"45.01\"", "lat=\"85\""), "");
  for (const char* polar : {"85.01", "-89", "90"}) {
    EXPECT_NE(gpx_problems("lat=\"45.01\"", "lat=\"" + std::string(polar) + "\"")
                  .find("line 7: found the latitude " + std::string(polar) +
                        "; nothing is worked out beyond 85 degrees"),
              std::string::npos)
        << polar;
  }
  for (const char* wrong : {"lat=\"nan\"", "lat=\"\"", "lat=\"45,01\"", "lat=\"45 N\"",
                            "lat=\"1e1\"", "lat=\" 45\"", "lat=\"--4\"", "lat=\"+-4\""}) {
    EXPECT_NE(gpx_problems("lat=\"45.01\"", wrong), "") << wrong;
  }
  EXPECT_EQ(gpx_problems("lat=\"45.01\" ", ""), "line 7: a <rtept> has no lat\n");
}

// U+202E turns what follows it round on the page: "27.0" would be read as "0.72" (UAX #9).
TEST(ReadRoute, NamesHoldNoMarksOfWritingDirection) {
  EXPECT_EQ(
      geojson_problems(
          R"([{"op": "replace", "path": "/properties/points/0", "value": "Quay\u202e 27.0"}])"),
      "/properties/points/0: found an unseen mark of writing direction, which turns the "
      "figures after it round, in the text\n");
  EXPECT_NE(given::problems_of_reading(
                read_route("r", gpx_of("<rtept lat='1' lon='2'><name>A&#x2066;B</name></rtept>"
                                       "<rtept lat='1' lon='3'/>")))
                .find("an unseen mark of writing direction"),
            std::string::npos);
}

TEST(ReadRoute, HoldsTwoToFiveHundredPoints) {
  EXPECT_FALSE(read_route("r", gpx_with(1)));
  EXPECT_TRUE(read_route("r", gpx_with(2)));
  EXPECT_TRUE(read_route("r", gpx_with(500)));
  EXPECT_EQ(given::problems_of_reading(read_route("r", gpx_with(501))),
            "line 1: found a route of 501 points; expected 2 to 500\n");
}

TEST(ReadRoute, TwoPointsAtOnePlaceAreAProblem) {
  EXPECT_EQ(
      gpx_problems("lat=\"45.02\"", "lat=\"45.01\""),
      "line 8: \"point 2\" lies at the same place as \"Quay\" before it; take one of them out\n");
  EXPECT_EQ(
      geojson_problems(
          R"([{"op": "replace", "path": "/geometry/coordinates/1", "value": [-40.02, 45.01]}])"),
      "/geometry/coordinates/1: \"Bend\" lies at the same place as \"Quay\" before it; take one "
      "of them out\n");
  // On WGS 84 a degree of latitude 45 is 111.13 km (Bowditch, table 7; from memory): 8e-6 and 1e-5
  // degrees are 0.89 and 1.11 m, and a double click leaves a centimetre.
  for (const char* near : {"45.01000001", "45.010008", "45.009992"}) {
    EXPECT_NE(gpx_problems("lat=\"45.02\"", fmt::format("lat=\"{}\"", near)).find("the same place"),
              std::string::npos)
        << near;
  }
  EXPECT_EQ(gpx_problems("lat=\"45.02\"", "lat=\"45.01001\""), "");
  // Coming back to a place later is a round trip.
  EXPECT_EQ(
      geojson_problems(
          R"([{"op": "replace", "path": "/geometry/coordinates/2", "value": [-40.02, 45.01]}])"),
      "");
}

TEST(ReadRoute, ATrackIsNotARoute) {
  EXPECT_EQ(
      given::problems_of_reading(
          read_route("r", "<gpx>\n<trk><trkseg><trkpt lat='1' lon='2'/></trkseg></trk></gpx>")),
      "line 2: holds a track (<trk>: where a boat has been) and no route (<rte>: where she is "
      "to go); draw a route and export that\n");
  EXPECT_FALSE(read_route("r", "<gpx/>"));
  EXPECT_FALSE(read_route("r", "<kml/>"));
  EXPECT_FALSE(read_route("r", "<gpx version='2.0'><rte/></gpx>"));
  EXPECT_FALSE(read_route("r", "<gpx><rte/><rte/></gpx>"));
}

TEST(ReadRoute, XmlIsLimitedBeforeATreeIsBuilt) {
  const auto nested = [](std::size_t levels) {
    std::string open = "<gpx>";
    std::string close = "</gpx>";
    for (std::size_t i = 1; i < levels; ++i) {
      open += "<a>";
      close = "</a>" + close;
    }
    return open + close;
  };
  const auto words = [](const std::string& text) {
    const auto xml = parse_xml("r", text);
    return xml ? "" : xml.error().front().words;
  };
  EXPECT_EQ(words(nested(kMostXmlDepth)), "");
  EXPECT_EQ(words(nested(kMostXmlDepth + 1)), "is nested deeper than 32 levels");
  std::string many = "<gpx>";
  for (std::size_t i = 1; i < kMostXmlElements; ++i) many += "<a/>";
  EXPECT_EQ(words(many + "</gpx>"), "");
  EXPECT_EQ(words(many + "<a/></gpx>"), "holds more than 100000 elements, the most that are read");
  EXPECT_EQ(words("<!DOCTYPE gpx [<!ENTITY a \"aaaa\">]>\n<gpx>&a;</gpx>"),
            "has a document type declaration; it is not read, so take it out");
  EXPECT_NE(words("<gpx><rte></gpx>"), "");
  EXPECT_NE(words("<gpx"), "");
  EXPECT_NE(words("<gpx><name>Caf\xE9</name></gpx>"), "");
  // A '>' inside an attribute or a comment is not the end of a tag.
  EXPECT_EQ(words("<gpx creator=\"a>b/>\"><!-- <a><a> --><![CDATA[<a>]]><?x <a> ?></gpx>"), "");
}

TEST(ReadRoute, GeoJsonMustBeOneLineWithItsNames) {
  EXPECT_EQ(geojson_problems(R"([{"op": "replace", "path": "/geometry/type", "value": "Point"},
    {"op": "replace", "path": "/geometry/coordinates", "value": [-40, 45]}])"),
            "/geometry: found a Point; expected a LineString\n");
  EXPECT_EQ(geojson_problems(R"([{"op": "remove", "path": "/properties/points/2"}])"),
            "/properties: names 2 points for a line of 3\n");
  EXPECT_EQ(
      geojson_problems(
          R"([{"op": "replace", "path": "/geometry/coordinates/0", "value": [45.01, -140.02]}])"),
      "/geometry/coordinates/0: found [45.01, -140.02]; expected [longitude, latitude] in "
      "degrees, for example [-76.4, 38.5]: the longitude comes first\n");
  EXPECT_EQ(geojson_problems(R"([{"op": "replace", "path": "/properties", "value": null}])"), "");
  EXPECT_EQ(geojson_problems(R"([{"op": "add", "path": "/kind", "value": "route"}])"), "");
}

}  // namespace
}  // namespace passage_brief
