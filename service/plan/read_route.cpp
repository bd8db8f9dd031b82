#include "plan/read_route.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstddef>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "plan/route.h"
#include "reading/file_text.h"
#include "reading/form.h"
#include "reading/geojson.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "reading/xml_text.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

std::string numbered(std::size_t index) { return fmt::format("point {}", index + 1); }

/// The whole text as a number; GPX takes xsd:decimal, so no exponent and no "nan".
std::optional<double> decimal(std::string_view text) {
  if (text.starts_with("+") && !text.starts_with("+-")) text.remove_prefix(1);
  double value = 0;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

/// Runs of spaces and new lines as one space; longer than the page has room for: a problem.
std::string point_name(const XmlElement& point, Ledger& ledger) {
  constexpr std::size_t most = 60;
  std::string name;
  for (const char c : point.text_of("name")) {
    const bool space = c == ' ' || c == '\n' || c == '\r' || c == '\t';
    if (!space) {
      name += c;
    } else if (!name.ends_with(' ')) {
      name += ' ';
    }
  }
  if (const std::string wrong = unseen_character(name); !wrong.empty()) {
    ledger.add(point.line, fmt::format("found {} in its name", wrong));
  }
  if (name.size() > most) {
    ledger.add(point.line,
               fmt::format("its name has {} bytes; expected at most {}", name.size(), most));
  }
  return name;
}

/// Reads an attribute of a point; adds a problem and gives nothing when it is not right.
template <class Coordinate>
std::optional<Coordinate> coordinate(const XmlElement& point, const std::string& key, int most,
                                     Ledger& ledger) {
  const auto attribute = point.attributes.find(key);
  if (attribute == point.attributes.end()) {
    ledger.add(point.line, fmt::format("a <{}> has no {}", point.name, key));
    return std::nullopt;
  }
  const std::optional<double> deg = decimal(attribute->second);
  const auto value = deg ? Coordinate::from_degrees(*deg) : std::nullopt;
  if (!value) {
    ledger.add(point.line, fmt::format("found {}=\"{}\"; expected degrees from -{} to {}", key,
                                       attribute->second.substr(0, 40), most, most));
  }
  return value;
}

void check_latitude(const XmlElement& point, Latitude latitude, Ledger& ledger) {
  if (std::abs(latitude.in_degrees()) <= kMostLatitude_deg) return;
  ledger.add(point.line,
             fmt::format("found the latitude {}; nothing is worked out beyond {} degrees",
                         latitude.in_degrees(), kMostLatitude_deg));
}

struct PlacedPoint {
  std::string place;  // where in the file
  RoutePoint point;
};

/// A double click: a leg this short has no course that a helm could hold (our rule, no source).
constexpr Length kShortestLeg = metres(1);

/// What GPX and GeoJSON have in common: how many points, and none twice in a row.
void check_points(const std::vector<PlacedPoint>& points, const std::string& whole,
                  Ledger& ledger) {
  if (points.size() < 2 || points.size() > kMostRoutePoints) {
    ledger.add(whole, fmt::format("found a route of {} points; expected 2 to {}", points.size(),
                                  kMostRoutePoints));
    return;
  }
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (geodesic_distance(points[i - 1].point.position, points[i].point.position) >= kShortestLeg) {
      continue;
    }
    ledger.add(points[i].place,
               fmt::format("\"{}\" lies at the same place as \"{}\" before it; take "
                           "one of them out",
                           points[i].point.name, points[i - 1].point.name));
  }
}

/// The one <rte>, or nothing and a problem.
const XmlElement* the_route_in(const XmlElement& gpx, Ledger& ledger) {
  if (gpx.name != "gpx") {
    ledger.add(gpx.line, fmt::format("found <{}>; expected <gpx> with a <rte> in it", gpx.name));
    return nullptr;
  }
  const auto version = gpx.attributes.find("version");
  if (version != gpx.attributes.end() && version->second != "1.1" && version->second != "1.0") {
    ledger.add(gpx.line, fmt::format("is GPX version {}; expected 1.1", version->second));
    return nullptr;
  }
  const std::vector<const XmlElement*> routes = gpx.children_named("rte");
  if (routes.size() == 1) return routes.front();
  if (routes.size() > 1) {
    ledger.add(routes[1]->line,
               fmt::format("holds {} routes; keep one <rte> in the file", routes.size()));
  } else if (!gpx.children_named("trk").empty()) {
    ledger.add(gpx.children_named("trk").front()->line,
               "holds a track (<trk>: where a boat has been) and no route (<rte>: where she is to "
               "go); draw a route and export that");
  } else {
    ledger.add("",
               "holds no route; expected a <rte> with <rtept lat=\"38.5\" lon=\"-76.4\"> in it");
  }
  return nullptr;
}

std::expected<Route, Problems> read_gpx(std::string_view file, std::string_view text) {
  const std::expected<XmlElement, Problems> gpx = parse_xml(file, text);
  if (!gpx) return std::unexpected(gpx.error());
  Ledger ledger(file, "the route file");
  const XmlElement* route = the_route_in(*gpx, ledger);
  if (route == nullptr) return std::unexpected(ledger.problems());
  std::vector<PlacedPoint> points;
  const std::vector<const XmlElement*> elements = route->children_named("rtept");
  for (std::size_t i = 0; i < elements.size(); ++i) {
    const XmlElement& element = *elements[i];
    const auto latitude = coordinate<Latitude>(element, "lat", 90, ledger);
    const auto longitude = coordinate<Longitude>(element, "lon", 180, ledger);
    if (latitude) check_latitude(element, *latitude, ledger);
    const std::string name = point_name(element, ledger);
    if (!latitude || !longitude) continue;
    points.push_back(
        {element.line, {name.empty() ? numbered(i) : name, Position{*latitude, *longitude}}});
  }
  if (ledger.clean()) check_points(points, route->line, ledger);
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  Route read{point_name(*route, ledger), {}};
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  for (PlacedPoint& point : points) read.points.push_back(std::move(point.point));
  return read;
}

using Names = std::vector<std::string>;

struct RouteProperties {
  std::string name;
  std::optional<Names> points;
};

Form<RouteProperties> route_properties() {
  return object<RouteProperties>(
      "properties of a route",
      {may_be_unknown("name", text(60), "Of the route.", "\"Mill Cove to Town\""),
       may_be_unknown("points", list_of(text(60), 2, kMostRoutePoints),
                      "The names of the vertices, as many as there are.",
                      R"(["Fuel dock", "red 2"])")},
      [](const Row& row) {
        return RouteProperties{row.get_or<std::string>("name", ""), row.maybe<Names>("points")};
      });
}

std::optional<Route> build_route(const Row& row) {
  const auto line = row.get<Geometry>("geometry");
  const auto properties = row.maybe<RouteProperties>("properties");
  Route route{properties ? properties->name : "", {}};
  if (line.type != GeometryType::line_string) {
    row.refuse("geometry", "found a " + in_words(line.type) + "; expected a LineString");
    return std::nullopt;
  }
  const std::vector<Position>& vertices = line.parts.front();
  const bool named = properties && properties->points;
  if (named && properties->points->size() != vertices.size()) {
    row.refuse("properties", fmt::format("names {} points for a line of {}",
                                         properties->points->size(), vertices.size()));
    return std::nullopt;
  }
  for (std::size_t i = 0; i < vertices.size(); ++i) {
    route.points.push_back({named ? (*properties->points)[i] : numbered(i), vertices[i]});
  }
  return route;
}

}  // namespace

Form<Route> route_form() {
  std::vector<Field> fields{
      always("type", "Feature"), always_if_given("kind", "route"),
      must_be_given("geometry", geometry(), "A LineString, from departure to arrival.",
                    R"({"type": "LineString", "coordinates": [[-76.40, 38.50], [-76.41, 38.52]]})"),
      may_be_unknown("properties", route_properties(), "Name of the route and of its points.",
                     R"({"name": "Mill Cove to Town", "points": ["Fuel dock", "red 2"]})"),
      coordinate_system()};
  for (Field& field : members_passed_over()) fields.push_back(std::move(field));
  return object<Route>("route", std::move(fields), build_route);
}

std::expected<Route, Problems> read_route(std::string_view file, std::string_view text) {
  const std::string_view inside = without_byte_order_mark(text);
  const std::size_t first = inside.find_first_not_of(" \t\r\n");
  if (first != std::string_view::npos && inside[first] == '<') return read_gpx(file, text);
  static const auto form = route_form();  // made once
  std::expected<Route, Problems> route = read_json(file, text, "the route file", form);
  if (!route) return route;
  Ledger ledger(file, "the route file");
  std::vector<PlacedPoint> points;
  for (std::size_t i = 0; i < route->points.size(); ++i) {
    points.push_back({fmt::format("/geometry/coordinates/{}", i), route->points[i]});
  }
  check_points(points, "/geometry/coordinates", ledger);
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  return route;
}

}  // namespace passage_brief
