#include "given/open_water.h"

#include <chrono>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "units/check.h"

namespace passage_brief::given {
namespace {

const ChartPlane& plane() {
  static const ChartPlane plane(position_at(30, -45));
  return plane;
}

const Source kSource{"test water", "invented", std::nullopt};

FeatureStations plain_stations() { return {"Gauge", "none", "CD", "MHW"}; }

}  // namespace

Position at(double east_m, double north_m) {
  return plane().position({metres(east_m), metres(north_m)});
}

PolygonShape oblong(double west_m, double south_m, double east_m, double north_m) {
  return {{{at(west_m, south_m), at(east_m, south_m), at(east_m, north_m), at(west_m, north_m),
            at(west_m, south_m)}}};
}

TideStation still_tide(const std::string& name, Length height) {
  const std::map<std::string, Height<StationZero>> datums{
      {"CD", Height<StationZero>::above(metres(0))},
      {"MHW", Height<StationZero>::above(metres(1))}};
  return TideStation({name, at(0, 0), Zone::utc(), kSource, metres(0.1), std::string("CD"), datums,
                      "", TideCurve(HarmonicCurve(in_metres(height), {}))});
}

Vessel plain_vessel() {
  return {.name = "Test Boat",
          .hull = Hull::motor_displacement,
          .engines = 1,
          .length = metres(10),
          .waterline = metres(9),
          .beam = metres(4),
          .draft = metres(1.2),
          .draft_is = {Basis::measured, std::chrono::year(2026) / 5 / 1},
          .deepest_part = std::nullopt,
          .block_coefficient = 0.5,
          .air_draft = {{Antennas::up, metres(6)}, {Antennas::down, metres(4)}},
          .air_draft_is = {Basis::measured, std::chrono::year(2026) / 5 / 1},
          .windage_area = square_metres(20),
          .lateral_plane = square_metres(9),
          .slow = knots(4),
          .cruise = knots(6),
          .sounder = Sounder{SounderZero::keel, std::nullopt},
          .anchor = Anchor{metres(40), RodeOf::chain, metres(1)},
          .deviation = {},
          .design_category = std::nullopt,
          .base = std::nullopt};
}

Margins plain_margins() {
  return {.under_keel = metres(0.5),
          .under_keel_hard = metres(1),
          .under_bridge = metres(0.6),
          .track = metres(5),
          .position = metres(3),
          .wash = metres(0),
          .shoaling = metres(0),
          .forecast_age = std::chrono::hours(12),
          .forecasts_differ = knots(8)};
}

Reach plain_reach(const std::string& name, const LineShape& line, Length width, Length depth) {
  return {{name, plain_stations()},
          line,
          width,
          depth,
          ChannelPart::full_width,
          std::chrono::year(2026) / 4 / 1,
          SurveyQuality::channel_survey,
          Bottom::mud,
          Channel::main,
          std::nullopt,
          KeptBy::authority,
          false,
          false};
}

DepthArea plain_area(const std::string& name, const PolygonShape& shape, Known<Length> depth) {
  return {
      {name, plain_stations()},      shape,      std::move(depth), std::chrono::year(2026) / 4 / 1,
      SurveyQuality::channel_survey, Bottom::mud};
}

Waterway empty_waterway() {
  return {.name = "test water",
          .zone = Zone::utc(),
          .source = kSource,
          .notices_read = std::chrono::year(2026) / 6 / 1,
          .stations = plain_stations(),
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
}

Facts facts_over(Waterway waterway, Length height_of_tide) {
  return {std::move(waterway), {still_tide("Gauge", height_of_tide)}, {}, {}};
}

Plan plan_along(const std::vector<Position>& points) {
  Plan plan{
      plain_vessel(),
      {"test route", {}},
      {Instant(std::chrono::sys_days(std::chrono::year(2026) / 6 / 14)) + std::chrono::hours(12)}};
  for (std::size_t i = 0; i < points.size(); ++i) {
    plan.route.points.push_back({"point " + std::to_string(i + 1), points[i]});
  }
  return plan;
}

Waterway north_channel(Length depth) {
  Waterway water = empty_waterway();
  water.reaches.push_back(plain_reach("Reach", {at(0, -100), at(0, 2100)}, metres(200), depth));
  return water;
}

const Plan& plan_north() {
  static const Plan plan = plan_along({at(0, 0), at(0, 2000)});
  return plan;
}

WindSeries steady_wind(double from_deg, Speed speed) {
  std::vector<WindHour> hours;
  const Instant first = std::chrono::sys_days(std::chrono::year(2026) / 6 / 13);
  for (int h = 0; h < 72; ++h) {
    hours.push_back({first + std::chrono::hours(h), WindFrom{TrueBearing::from_degrees(from_deg)},
                     speed, speed * 1.3, hectopascals(1013.25), nautical_miles(10), metres(0),
                     0.0});
  }
  return {{"wind forecast", "invented", first}, std::nullopt, std::move(hours)};
}

}  // namespace passage_brief::given
