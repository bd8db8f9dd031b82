#include "given/brief.h"

#include <chrono>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

namespace passage_brief::given {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

constexpr double kDraftFt = 4.0;

Zone zone() { return Zone::named("America/New_York").value(); }

Passing passing(double along_nm, std::string_view wall, std::size_t leg) {
  return {nautical_miles(along_nm), estuary_time(wall), position_at(38.0 + along_nm / 60, -76.0),
          leg};
}

struct LegGiven {
  const char* from;
  const char* to;
  double begins_nm;
  double ends_nm;
  const char* starts;
  const char* ends;
  double course_deg;
  double wind_kn;
  RelativeDirection wind_is;
  std::optional<Side> falls_off_to;
  double leeway_deg;
  bool piled;
};

Leg leg(const LegGiven& g) {
  const TrueBearing course = TrueBearing::from_degrees(g.course_deg);
  const Variation variation{degrees(-11)};
  const double up = g.falls_off_to == Side::port ? g.leeway_deg : -g.leeway_deg;
  const TrueBearing steer = course + degrees(g.falls_off_to ? up : 0);
  return Leg{.from = g.from,
             .to = g.to,
             .begin = position_at(38.0 + g.begins_nm / 60, -76.0),
             .end = position_at(38.0 + g.ends_nm / 60, -76.0),
             .course = course,
             .distance = nautical_miles(g.ends_nm - g.begins_nm),
             .starts = estuary_time(g.starts),
             .ends = estuary_time(g.ends),
             .reaches = {},
             .piled = g.piled,
             .open_water = false,
             .wind = Wind{WindFrom{TrueBearing::from_degrees(215)}, knots(g.wind_kn)},
             .gust = knots(g.wind_kn + 7),
             .wind_is = g.wind_is,
             .falls_off_to = g.falls_off_to,
             .leeway = degrees(g.leeway_deg),
             .current = Current{SetToward{TrueBearing::from_degrees(170)}, knots(0.6)},
             .makes_headway = true,
             .holds_line = true,
             .current_from = RelativeDirection::astern,
             .set_to = std::optional<Side>(),
             .steer_true = steer,
             .steer_magnetic = magnetic(steer, variation),
             .steer_compass = compass(magnetic(steer, variation), Deviation{degrees(2)}),
             .variation = variation,
             .light = Light::day,
             .wave = feet(0.5),
             .visibility = nautical_miles(5),
             .working = {"heading to steer, leg to " + std::string(g.to),
                         "course, leeway toward the wind",
                         {{"leeway", degrees(g.leeway_deg), "leeway formula"}},
                         degrees(steer.in_degrees()),
                         "triangle of velocities"}};
}

struct DepthGiven {
  DepthPlace place;
  const char* name;
  double along_nm;
  const char* wall;
  std::size_t leg;
  double charted_ft;
  double tide_ft;
  double squat_ft;
  double wave_ft;
  double error_ft;  // taken off for the could-be figure
};

Depth depth(const DepthGiven& g) {
  const double water_ft = g.charted_ft + g.tide_ft;
  const double keel_ft = water_ft - kDraftFt - g.squat_ft - g.wave_ft;
  const double sounder_ft = water_ft - kDraftFt - g.squat_ft;
  return Depth{
      .place = g.place,
      .name = g.name,
      .passing = passing(g.along_nm, g.wall, g.leg),
      .controlled_by = g.place == DepthPlace::berth ? g.name : "controlling depth",
      .bottom = Bottom::mud,
      .channel = Channel::secondary,
      .open_water = false,
      .surveyed = std::chrono::year_month_day{std::chrono::year(2025), std::chrono::month(4),
                                              std::chrono::day(2)},
      .survey_quality = SurveyQuality::channel_survey,
      .blocked = false,
      .part = false,
      .charted = feet(g.charted_ft),
      .height_of_tide = TideHeight::above(feet(g.tide_ft)),
      .tide_is = Trend::falling,
      .water = feet(water_ft),
      .draft = feet(kDraftFt),
      .squat = feet(g.squat_ft),
      .squat_left_out = false,
      .through_water = knots(4.5),
      .slowed_because = std::nullopt,
      .wave = feet(g.wave_ft),
      .under_keel = feet(keel_ft),
      .under_keel_could_be = feet(keel_ft - g.error_ft),
      .margin = feet(1),
      .sounder_reads = feet(sounder_ft),
      .stop_at = feet(1 + g.wave_ft),
      .channel_width =
          g.place == DepthPlace::reach ? Known<Length>(feet(60)) : not_known("it has no width"),
      .spare_width =
          g.place == DepthPlace::reach ? Known<Length>(feet(26.5)) : not_known("it has no width"),
      .speed_limit = std::nullopt,
      .wind = not_known("given without"),
      .wind_at = not_known("given without"),
      .open_to_wind = not_known("given without"),
      .tide_station = "Reedmouth",
      .errors = {{"tide", feet(0.3), "station file"}, {"survey", feet(0.4), "survey quality"}},
      .working = {"under the keel, " + std::string(g.name),
                  "charted depth + height of tide - draft - squat - half the wave height",
                  {{"charted depth", feet(g.charted_ft), "waterway file"},
                   {"height of tide", feet(g.tide_ft), "tide at Reedmouth"},
                   {"draft", feet(kDraftFt), "vessel file"},
                   {"squat", feet(g.squat_ft), "squat formula"},
                   {"wash", feet(g.wave_ft), "rules"}},
                  feet(keel_ft),
                  "arithmetic"}};
}

/// Charted 25 ft above a datum 2.1 ft above chart datum; tide 1.9 ft; air draft 27 up, 19.5 down.
BridgeFinding fixed_bridge() {
  const auto over = [](Antennas antennas, double air_ft) {
    return OverMast{antennas, feet(air_ft), feet(25 + 2.1 - 1.9 - air_ft - 0.3),
                    feet(25 + 2.1 - 1.9 - air_ft - 0.3 - 0.5)};
  };
  return {.name = "Mill Bridge",
          .what = BridgeKind::fixed,
          .passing = passing(4.1, "2026-06-14T10:21", 4),
          .charted = feet(25),
          .clearance_datum = TideHeight::above(feet(2.1)),
          .height_of_tide = TideHeight::above(feet(1.9)),
          .tide_is = Trend::falling,
          .clearance = feet(25.2),
          .clearance_could_be = feet(24.7),
          .wave = feet(0.3),
          .over_mast = {over(Antennas::up, 27), over(Antennas::down, 19.5)},
          .fits_with = Antennas::down,
          .fits = true,
          .opening_needed = false,
          .gauge_reads = feet(25.2),
          .gauge_at_least = feet(19.5 + 2 + 0.3),
          .clearance_gauge = true,
          .width = feet(41),
          .beam = feet(13.5),
          .margin = feet(2),
          .wind = not_known("given without"),
          .current = not_known("given without"),
          .radio = std::nullopt,
          .sound_signal = std::nullopt,
          .tide_station = "Reedmouth",
          .errors = {{"tide", feet(0.3), "station file"}},
          .working = {"over the mast, Mill Bridge",
                      "charted + (clearance datum - height of tide) - air draft - half a wave",
                      {{"charted", feet(25), "waterway file"}},
                      feet(5.4),
                      "arithmetic"}};
}

CableFinding cable() {
  return {
      .name = "at Mill Bridge",
      .passing = passing(4.2, "2026-06-14T10:22", 4),
      .carries = Carries::power,
      .voltage = kilovolts(69),
      .gap = feet(20),
      .charted = feet(52),
      .clearance_datum = TideHeight::above(feet(2.1)),
      .height_of_tide = TideHeight::above(feet(1.9)),
      .clearance = feet(52.2),
      .clearance_could_be = feet(51.7),
      .wave = feet(0.3),
      .over_mast = {{Antennas::down, feet(19.5), feet(32.4), feet(31.9)}},
      .antennas = Antennas::down,
      .to_spare = feet(12.4),
      .to_spare_could_be = feet(11.9),
      .margin = feet(2),
      .tide_station = "Town Landing",
      .errors = {},
      .working = {"to spare under the cable", "clearance - air draft - gap", {}, feet(12.4), ""}};
}

Danger danger(std::string name, std::string what, double along_nm, std::string_view wall,
              std::size_t leg, Side side, double distance_ft, std::chrono::seconds time) {
  return {.name = std::move(name),
          .what = std::move(what),
          .kind = DangerKind::hazard,
          .leg = leg,
          .passing = passing(along_nm, wall, leg),
          .side = side,
          .to_leeward = true,
          .set_toward = false,
          .distance = feet(distance_ft),
          .reached_in = Interval(time),
          .bottom = Bottom::shell,
          .anchor_holds_in = feet(38),
          .anchor_would_hold = true,
          .working = {"time to the danger", "distance / drift", {}, Interval(time), ""}};
}

MarkFinding mark(std::string name, double along_nm, std::string_view wall, std::size_t leg,
                 Side side, std::optional<std::string> colour, KeptBy kept_by = KeptBy::authority) {
  return {.name = std::move(name),
          .passing = passing(along_nm, wall, leg),
          .colour = std::move(colour),
          .shape = std::nullopt,
          .light = std::nullopt,
          .structure = MarkStructure::daybeacon,
          .kept_by = kept_by,
          .lies_to = side,
          .off = feet(40),
          .should_lie_to = std::optional<Side>(side),
          .agrees = true};
}

std::vector<Leg> legs() {
  using enum RelativeDirection;
  return {leg({"Reedmouth Marina", "Fairway end", 0, 0.35, "2026-06-14T09:30", "2026-06-14T09:35",
               125, 14, starboard_beam, Side::port, 6, true}),
          leg({"Fairway end", "Stake Point", 0.35, 1.2, "2026-06-14T09:35", "2026-06-14T09:46", 92,
               14, starboard_quarter, Side::port, 4, false}),
          leg({"Stake Point", "Oyster Cut", 1.2, 2.0, "2026-06-14T09:46", "2026-06-14T09:57", 170,
               15, starboard_bow, Side::port, 4, false}),
          leg({"Oyster Cut", "Long Reach", 2.0, 3.2, "2026-06-14T09:57", "2026-06-14T10:10", 205,
               15, ahead, std::nullopt, 0, false}),
          leg({"Long Reach", "Mill Pool", 3.2, 4.6, "2026-06-14T10:10", "2026-06-14T10:26", 262, 16,
               port_bow, Side::starboard, 3, false}),
          leg({"Mill Pool", "Hallow Quay", 4.6, 5.05, "2026-06-14T10:26", "2026-06-14T10:33", 301,
               16, port_beam, Side::starboard, 5, true})};
}

std::vector<Depth> depths() {
  using enum DepthPlace;
  return {
      depth({berth, "Reedmouth slip", 0, "2026-06-14T09:30", 0, 4.5, 2.9, 0, 0.2, 0.7}),
      depth({reach, "Marina Fairway", 0.2, "2026-06-14T09:33", 0, 4.0, 2.84, 0.11, 0.2, 0.8}),
      depth({reach, "Stake Reach", 0.9, "2026-06-14T09:42", 1, 7.0, 2.71, 0.08, 0.2, 0.9}),
      depth({reach, "Oyster Cut", 1.7, "2026-06-14T09:53", 2, 3.0, 2.48, 0.12, 0.16, 0.93}),
      depth({reach, "Long Reach", 2.9, "2026-06-14T10:06", 3, 12.0, 2.21, 0.06, 0.5, 1.1}),
      depth({unnamed_water, "Open water", 3.6, "2026-06-14T10:15", 4, 8.0, 2.0, 0.06, 0.5, 1.4}),
      depth({berth, "Hallow Quay", 5.05, "2026-06-14T10:33", 5, 6.0, 1.75, 0, 0.2, 0.8})};
}

std::vector<MarkFinding> marks() {
  return {mark("pilings", 0.1, "2026-06-14T09:31", 0, Side::port, std::nullopt,
               KeptBy::private_with_permit),
          mark("1", 0.35, "2026-06-14T09:35", 0, Side::port, "green"),
          mark("2", 0.36, "2026-06-14T09:35", 0, Side::starboard, "red"),
          mark("4", 0.8, "2026-06-14T09:41", 1, Side::starboard, "red"),
          mark("5", 1.5, "2026-06-14T09:50", 2, Side::port, "green"),
          mark("6", 1.8, "2026-06-14T09:54", 2, Side::starboard, "red"),
          mark("7", 2.6, "2026-06-14T10:03", 3, Side::port, "green"),
          mark("8", 3.1, "2026-06-14T10:09", 3, Side::starboard, "red"),
          mark("9", 4.4, "2026-06-14T10:24", 4, Side::port, "green")};
}

std::vector<TrackPiece> track() {
  const auto piece = [](double begin_nm, double end_nm, std::string_view begins,
                        std::string_view ends, std::size_t leg, double charted_ft, double tide_ft,
                        const char* reach) {
    return TrackPiece{nautical_miles(begin_nm),
                      nautical_miles(end_nm),
                      estuary_time(begins),
                      estuary_time(ends),
                      leg,
                      {knots(0), degrees(0)},
                      metres(0),
                      metres(0),
                      0,
                      0,
                      knots(4.5),
                      knots(4.8),
                      knots(4.8),
                      0,
                      feet(charted_ft),
                      TideHeight::above(feet(tide_ft)),
                      reach};
  };
  return {piece(0, 0.35, "2026-06-14T09:30", "2026-06-14T09:35", 0, 4.0, 2.9, "Marina Fairway"),
          piece(0.35, 1.2, "2026-06-14T09:35", "2026-06-14T09:46", 1, 7.0, 2.8, "Stake Reach"),
          piece(1.2, 1.5, "2026-06-14T09:46", "2026-06-14T09:50", 2, 5.5, 2.6, ""),
          piece(1.5, 2.0, "2026-06-14T09:50", "2026-06-14T09:57", 2, 3.0, 2.5, "Oyster Cut"),
          piece(2.0, 3.2, "2026-06-14T09:57", "2026-06-14T10:10", 3, 12.0, 2.4, "Long Reach"),
          piece(3.2, 4.6, "2026-06-14T10:10", "2026-06-14T10:26", 4, 8.0, 2.1, ""),
          piece(4.6, 5.05, "2026-06-14T10:26", "2026-06-14T10:33", 5, 6.0, 1.8, "")};
}

/// A semidiurnal tide, range 3 ft, high water 08:12.
DayOfTide day_of_tide() {
  DayOfTide day{"Reedmouth", "MLLW", {}, {}};
  const Instant midnight = estuary_time("2026-06-14T00:00");
  const Instant high = estuary_time("2026-06-14T08:12");
  const auto height = [&](Instant t) {
    const double turn = 2 * std::numbers::pi * in_hours(t - high) / 12.42;
    return TideHeight::above(feet(1.5 + 1.5 * std::cos(turn)));
  };
  for (int i = 0; i <= 144; ++i) {
    const Instant t = midnight + minutes(10 * i);
    day.samples.push_back({t, height(t)});
  }
  const Interval half = seconds_long(6.21 * 3600);
  for (const int i : {-1, 0, 1, 2}) {
    const Instant t = high + i * half;
    if (t >= midnight) day.high_low->push_back({t, height(t), i % 2 == 0});
  }
  return day;
}

Vessel vessel() {
  return {.name = "Sandpiper",
          .hull = Hull::motor_displacement,
          .engines = 2,
          .length = feet(40),
          .waterline = feet(36.5),
          .beam = feet(13.5),
          .draft = feet(kDraftFt),
          .draft_is = {Basis::measured, std::nullopt},
          .deepest_part = "skegs",
          .block_coefficient = 0.5,
          .air_draft = {{Antennas::up, feet(27)}, {Antennas::down, feet(19.5)}},
          .air_draft_is = {Basis::measured, std::chrono::year_month_day{std::chrono::year(2026),
                                                                        std::chrono::month(3),
                                                                        std::chrono::day(21)}},
          .windage_area = square_metres(34),
          .lateral_plane = std::nullopt,
          .slow = knots(4.5),
          .cruise = knots(7.5),
          .sounder = Sounder{SounderZero::keel, std::nullopt},
          .anchor = Anchor{feet(150), RodeOf::chain, feet(5)},
          .deviation = {{CompassBearing::from_degrees(0), Deviation{degrees(2)}}},
          .design_category = DesignCategory::c,
          .base = Base{"Reedmouth charter desk", "555 0100", "VHF 68"}};
}

Findings estuary_findings() {
  const Instant departs = estuary_time("2026-06-14T09:30");
  return {.margins = {feet(2), feet(3), feet(2), feet(30), feet(15), feet(0.2), feet(0.3),
                      hours(12), knots(8)},
          .passage = {.departs = departs,
                      .arrives = estuary_time("2026-06-14T10:33"),
                      .distance = nautical_miles(5.05),
                      .wind = knots(16),
                      .gust = knots(23),
                      .wave = feet(1),
                      .visibility = nautical_miles(5),
                      .thunder = 0.1,
                      .forecast_age = hours(3),
                      .forecast_covers = true,
                      .forecast_ends = estuary_time("2026-06-15T06:00"),
                      .design_category = DesignCategory::c,
                      .draft_is = Basis::measured,
                      .air_draft_is = Basis::measured,
                      .hull = Hull::motor_displacement,
                      .engines = 2,
                      .length = feet(40),
                      .beam = feet(13.5)},
          .light = {.sunrise = estuary_time("2026-06-14T05:41"),
                    .sunset = estuary_time("2026-06-14T20:27"),
                    .civil_dawn = estuary_time("2026-06-14T05:10"),
                    .civil_dusk = estuary_time("2026-06-14T20:58"),
                    .moon_illuminated = 0.012,
                    .moon_up = true,
                    .before_sunset = hours(9) + minutes(54),
                    .after_sunrise = true},
          .legs = legs(),
          .track = track(),
          .depths = depths(),
          .bridges = {fixed_bridge()},
          .cables = {cable()},
          .dangers = {danger("marina pilings", "pilings", 0.2, "2026-06-14T09:33", 0, Side::port,
                             38, std::chrono::seconds(55)),
                      danger("Old Ground", "oyster bank", 1.0, "2026-06-14T09:43", 1, Side::port,
                             640, std::chrono::seconds(570)),
                      danger("Old Ground", "oyster bank", 1.3, "2026-06-14T09:48", 2, Side::port,
                             310, std::chrono::seconds(270)),
                      danger("Cut edge", "shoal water", 1.7, "2026-06-14T09:53", 2, Side::port, 52,
                             std::chrono::seconds(100)),
                      danger("North shore", "shoal water", 4.0, "2026-06-14T10:20", 4,
                             Side::starboard, 900, std::chrono::seconds(760))},
          .marks = marks(),
          .turning_places = {},
          .refuges = {},
          .estimated = {"lateral plane 11.2 m2, 0.85 of waterline times draft for this hull"}};
}

FactInText fact(std::string name, FactValue value, Rounding way) {
  return {std::move(name), Known<FactValue>(std::move(value)), way, PrintedAs::usual};
}

Judgement judgement() {
  const Subject cut{SubjectKind::reach, 3, "Oyster Cut", nautical_miles(1.7)};
  const Subject lee{SubjectKind::danger, 3, "Cut edge", nautical_miles(1.7)};
  const Subject whole{SubjectKind::passage, 0, "the passage", std::nullopt};
  return {
      .verdict = Verdict::cautions,
      .cautions =
          {{"danger near to leeward",
            Grade::warning,
            {"Cut edge lies to leeward, reached in ",
             fact("reached_in", Interval(std::chrono::seconds(100)), Rounding::down),
             " with engines stopped. Have the anchor ready to let go."},
            lee,
            "common practice",
            false},
           {"thin water",
            Grade::caution,
            {"Oyster Cut: ", fact("under_keel", feet(1.2), Rounding::down), " under the keel at ",
             fact("time", estuary_time("2026-06-14T09:53"), Rounding::nearest),
             ". Dead slow, and watch astern for mud."},
            cut,
            "common practice",
            false},
           {"falling over a shoal",
            Grade::caution,
            {"Oyster Cut is crossed on a falling tide: aground there means waiting for the next "
             "rise. Turn back if the sounder disagrees."},
            cut,
            "common practice",
            false},
           {"antennas",
            Grade::notice,
            {"Mill Bridge is passed with the antennas down. Lower them before Long Reach."},
            {SubjectKind::bridge, 0, "Mill Bridge", nautical_miles(4.1)},
            "common practice",
            false}},
      .not_checked = {{"thunder", whole, {{"the forecast gives no thunder for 10:00"}}, false}},
      .limits = {{"aground", cut, LimitState::kept}}};
}

}  // namespace

Instant estuary_time(std::string_view wall) {
  return zone().instant_of(parse_wall_time(wall).value()).value();
}

Caution caution(Grade grade, std::string words) {
  return {"made for a test",  grade,
          {std::move(words)}, {SubjectKind::passage, 0, "the passage", std::nullopt},
          "common practice",  false};
}

Brief brief() {
  const Instant made_at = estuary_time("2026-06-14T07:10");
  const DayOfTide day = day_of_tide();
  std::vector<HighLow> high_low;
  for (const TideEvent& event : day.high_low.value()) high_low.push_back({day.station, event});
  return {.made_at = made_at,
          .waterway = "Heron Sound, an invented estuary",
          .zone = zone(),
          .vessel = vessel(),
          .route = "Reedmouth to Hallow Quay",
          .rules = "renters 2026-05 on small craft 2026-05",
          .findings = estuary_findings(),
          .judgement = judgement(),
          .window = std::nullopt,
          .windows = {},
          .void_after = estuary_time("2026-06-14T10:30"),
          .high_low = std::move(high_low),
          .tide_curve = day,
          .refuges = {{"Mill Pool", "mooring buoys, soft mud", nautical_miles(4.5), feet(300),
                       estuary_time("2026-06-14T10:25")}},
          .turning_places = {{"Stake Point basin", "120 ft wide", nautical_miles(1.1), feet(0),
                              estuary_time("2026-06-14T09:45")},
                             {"Long Reach", "300 ft wide", nautical_miles(3.0), feet(0),
                              estuary_time("2026-06-14T10:08")}},
          .notices_read = std::chrono::year_month_day{std::chrono::year(2026),
                                                      std::chrono::month(6), std::chrono::day(12)},
          .notes = {"Invented water: not for navigation."},
          .sources =
              {{{"tide at Reedmouth", "invented constants", estuary_time("2026-01-01T00:00")},
                made_at - estuary_time("2026-01-01T00:00"),
                SourceState::current},
               {{"wind forecast", "invented office", estuary_time("2026-06-14T04:00")},
                hours(3) + minutes(10),
                SourceState::current},
               {{"waterway", "drawn for tests", std::nullopt}, std::nullopt, SourceState::undated}},
          .least_depth = 3,
          .lowest_bridge = 0,
          .nearest_danger = 0,
          .working = {}};
}

Brief crowded_brief() {
  Brief brief = given::brief();
  Findings& found = brief.findings;
  found.marks.clear();
  for (int i = 0; i < 40; ++i) {
    std::size_t leg = 0;
    for (const double ends_nm : {0.35, 1.2, 2.0, 3.2, 4.6}) leg += 0.125 * i >= ends_nm ? 1 : 0;
    MarkFinding one = mark("N" + std::to_string(10 + i), 0.125 * i, "2026-06-14T09:40", leg,
                           i % 2 == 0 ? Side::port : Side::starboard, i % 2 == 0 ? "green" : "red");
    found.marks.push_back(std::move(one));
  }
  const BridgeFinding first = found.bridges.front();
  found.bridges.clear();
  for (int i = 0; i < 12; ++i) {
    BridgeFinding one = first;
    one.name = "Span " + std::to_string(i + 1);
    one.passing = passing(3.3 + 0.1 * i, "2026-06-14T10:20", 4);
    found.bridges.push_back(std::move(one));
  }
  brief.judgement.cautions.clear();
  const auto add = [&](Grade grade, const std::string& id, const std::string& words) {
    Caution one = caution(grade, words);
    one.id = id;
    brief.judgement.cautions.push_back(std::move(one));
  };
  for (int i = 1; i <= 25; ++i) {
    const std::string n = std::to_string(i);
    if (i <= 2) add(Grade::warning, "w" + n, "Grave thing " + n + " ahead. Keep well clear of it.");
    if (i > 2 && i <= 8) add(Grade::caution, "c" + n, "Hazard " + n + " here. Go slow past it.");
    if (i > 8) add(Grade::notice, "n" + n, "Small matter " + n + ". Good to know.");
  }
  brief.notes = {"First note.", "Second note.", "Third note."};
  return brief;
}

void open_if_asked(BridgeFinding& bridge) {
  bridge.what = BridgeKind::bascule;
  bridge.fits = false;
  bridge.opening_needed = true;
  const OpeningDue due{estuary_time("2026-06-14T10:21"), estuary_time("2026-06-14T08:21"),
                       "555 0100", false};
  bridge.opening = OpeningFinding{.reached = bridge.passing.at,
                                  .fits_on_arrival = false,
                                  .passes = true,
                                  .wait = Interval(0),
                                  .through_opening = true,
                                  .next = std::optional(due),
                                  .next_on_signal = std::optional<OpeningDue>(),
                                  .hold_off = {feet(500), feet(400), knots(1), knots(2)},
                                  .law = std::nullopt,
                                  .as_of = std::nullopt};
}

Brief brief_with_window(Length over_mast_then, Length most_to_spare) {
  Brief made = brief();
  const Subject bridge{SubjectKind::bridge, 0, "Mill Bridge", nautical_miles(4.1)};
  const Sentence say{
      std::string("Mast too high: "),
      FactInText{"over_mast", Known<FactValue>(over_mast_then), Rounding::down, PrintedAs::usual},
      std::string(" over it.")};
  const Window window{
      .opens = estuary_time("2026-06-14T08:17"),
      .closes = estuary_time("2026-06-14T10:43"),
      .opened_by = std::nullopt,
      .closed_by = WindowEdge{"mast under a fixed span", bridge, LimitState::broken, say, {}},
      .best = estuary_time("2026-06-14T09:05"),
      .most_to_spare = ToSpare{most_to_spare, bridge, estuary_time("2026-06-14T09:50")},
      .judged_on = JudgedOn::everything};
  made.window = window;
  made.windows = {window};
  made.windows_in = Span{estuary_time("2026-06-14T00:00"), estuary_time("2026-06-15T23:59")};
  made.otherwise = {{.how = "30 minutes late",
                     .verdict = Verdict::cautions,
                     .tightest = bridge,
                     .costs = most_to_spare,
                     .closed_by = std::nullopt}};
  return made;
}

}  // namespace passage_brief::given
