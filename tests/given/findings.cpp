#include "given/findings.h"

#include <chrono>
#include <string>

#include "units/position.h"

namespace passage_brief::given {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

const Instant kDeparts = std::chrono::sys_days(std::chrono::year(2026) / 6 / 14) + hours(14);

Passing passing() { return {nautical_miles(1), after(10), position_at(38, -76), 0}; }

Working working(const std::string& figure) { return {figure, "by hand", {}, metres(0), ""}; }

Leg leg() {
  const TrueBearing course = TrueBearing::from_degrees(0);
  const Variation variation{degrees(-11)};
  return {.from = "Berth",
          .to = "Quay",
          .begin = position_at(38, -76),
          .end = position_at(38.05, -76),
          .course = course,
          .distance = nautical_miles(3),
          .starts = after(0),
          .ends = after(30),
          .reaches = {"Cut"},
          .piled = false,
          .open_water = false,
          .wind = Wind{WindFrom{TrueBearing::from_degrees(90)}, knots(8)},
          .gust = knots(12),
          .wind_is = RelativeDirection::starboard_beam,
          .falls_off_to = std::optional(Side::port),
          .leeway = degrees(4),
          .current = Current{SetToward{TrueBearing::from_degrees(0)}, knots(0.5)},
          .makes_headway = true,
          .holds_line = true,
          .current_from = RelativeDirection::astern,
          .set_to = std::optional<Side>(),
          .steer_true = course + degrees(4),
          .steer_magnetic = magnetic(course + degrees(4), variation),
          .steer_compass = compass(magnetic(course + degrees(4), variation), {degrees(2)}),
          .variation = variation,
          .light = Light::day,
          .wave = metres(0),
          .visibility = nautical_miles(8),
          .working = working("heading")};
}

TrackPiece piece() {
  return {.begin = metres(0),
          .end = nautical_miles(3),
          .begins = after(0),
          .ends = after(30),
          .leg = 0,
          .wind_aboard = {knots(0), degrees(0)},
          .blown_aside = metres(0),
          .blown_by_light_air = metres(0),
          .block = 0,
          .leeward_step = 0,
          .through_water = knots(5.5),
          .over_ground = knots(6),
          .over_ground_most = knots(6.5),
          .across = 0,
          .charted = feet(5),
          .height_of_tide = TideHeight::above(feet(3.6)),
          .reach = "Cut"};
}

}  // namespace

Instant after(int count) { return kDeparts + minutes(count); }

// 5 + 3.6 = 8.6 ft of water; 8.6 - 4 - 0.3 - 0.3 = 4.0 ft under the keel.
Depth depth(DepthPlace place, const std::string& name) {
  return {.place = place,
          .name = name,
          .passing = passing(),
          .controlled_by = "controlling depth",
          .bottom = Bottom::mud,
          .channel = Channel::secondary,
          .open_water = false,
          .surveyed = std::chrono::year(2026) / 3 / 1,
          .survey_quality = SurveyQuality::channel_survey,
          .blocked = false,
          .part = false,
          .charted = feet(5),
          .height_of_tide = TideHeight::above(feet(3.6)),
          .tide_is = Trend::rising,
          .water = feet(8.6),
          .draft = feet(4),
          .squat = feet(0.3),
          .squat_left_out = false,
          .through_water = knots(5.5),
          .slowed_because = std::nullopt,
          .wave = feet(0.3),
          .under_keel = feet(4),
          .under_keel_could_be = feet(3),
          .margin = feet(2),
          .sounder_reads = feet(4.3),
          .stop_at = feet(2.3),
          .channel_width = feet(60),
          .spare_width = feet(30),
          .speed_limit = std::nullopt,
          .wind = Wind{WindFrom{TrueBearing::from_degrees(90)}, knots(8)},
          .wind_at = after(10),
          .open_to_wind = false,
          .tide_station = "Landing",
          .errors = {},
          .working = working("under the keel")};
}

OpeningFinding opening() {
  const OpeningDue due{after(10), after(-50), "555 0100", false};
  return {.reached = after(10),
          .fits_on_arrival = true,
          .passes = true,
          .wait = Interval(0),
          .through_opening = false,
          .next = std::optional(due),
          .next_on_signal = std::optional(due),
          .hold_off = {feet(200), feet(160), knots(0.5), knots(-4)},
          .law = "33 CFR 117.5",
          .as_of = std::nullopt};
}

// Clearance 30 ft, half a wave 0.3 ft: 30 - 0.3 - 26.7 = 3.0 ft, 30 - 0.3 - 19.7 = 10.0 ft.
BridgeFinding bridge(const std::string& name) {
  return {.name = name,
          .what = BridgeKind::fixed,
          .passing = passing(),
          .charted = feet(28),
          .clearance_datum = TideHeight::above(feet(5)),
          .height_of_tide = TideHeight::above(feet(3)),
          .tide_is = Trend::rising,
          .clearance = feet(30),
          .clearance_could_be = feet(29.5),
          .wave = feet(0.3),
          .over_mast = {{Antennas::up, feet(26.7), feet(3), feet(2.5)},
                        {Antennas::down, feet(19.7), feet(10), feet(9.5)}},
          .fits_with = Antennas::up,
          .fits = true,
          .opening_needed = false,
          .gauge_reads = feet(30),
          .gauge_at_least = feet(29),
          .clearance_gauge = true,
          .width = feet(40),
          .beam = feet(13.5),
          .margin = feet(2),
          .wind = Wind{WindFrom{TrueBearing::from_degrees(90)}, knots(8)},
          .current = Current{SetToward{TrueBearing::from_degrees(0)}, knots(0.4)},
          .radio = "VHF 13",
          .sound_signal = "one prolonged, one short",
          .tide_station = "Landing",
          .errors = {},
          .working = working("over the mast"),
          .opening = opening()};
}

// Clearance 50 ft: 50 - 0.3 - 26.7 = 23 ft over the mast, less 20 ft.
CableFinding cable(const std::string& name) {
  return {.name = name,
          .passing = passing(),
          .carries = Carries::power,
          .voltage = kilovolts(115),
          .gap = feet(20),
          .charted = feet(48),
          .clearance_datum = TideHeight::above(feet(5)),
          .height_of_tide = TideHeight::above(feet(3)),
          .clearance = feet(50),
          .clearance_could_be = feet(49.5),
          .wave = feet(0.3),
          .over_mast = {{Antennas::up, feet(26.7), feet(23), feet(22.5)},
                        {Antennas::down, feet(19.7), feet(30), feet(29.5)}},
          .antennas = Antennas::up,
          .to_spare = feet(3),
          .to_spare_could_be = feet(2.5),
          .margin = feet(2),
          .tide_station = "Town Landing",
          .errors = {},
          .working = working("to spare")};
}

Danger danger(const std::string& name) {
  return {.name = name,
          .what = "ledge",
          .kind = DangerKind::hazard,
          .leg = 0,
          .passing = passing(),
          .side = Side::port,
          .to_leeward = true,
          .set_toward = false,
          .distance = feet(2000),
          .reached_in = minutes(40),
          .bottom = Bottom::rock,
          .anchor_holds_in = feet(35),
          .anchor_would_hold = true,
          .working = working("time to the danger")};
}

MarkFinding mark(const std::string& name) {
  return {.name = name,
          .passing = passing(),
          .colour = "red",
          .shape = "triangle",
          .light = "Fl R 4s",
          .structure = MarkStructure::daybeacon,
          .kept_by = KeptBy::authority,
          .lies_to = Side::starboard,
          .off = feet(60),
          .should_lie_to = std::optional(Side::starboard),
          .agrees = true};
}

Findings findings() {
  return {.margins = {.under_keel = feet(2),
                      .under_keel_hard = feet(3),
                      .under_bridge = feet(2),
                      .track = feet(30),
                      .position = metres(8),
                      .wash = feet(0.3),
                      .shoaling = feet(0.2),
                      .forecast_age = hours(6),
                      .forecasts_differ = knots(8)},
          .passage = {.departs = after(0),
                      .arrives = after(30),
                      .distance = nautical_miles(3),
                      .wind = knots(8),
                      .gust = knots(12),
                      .wave = metres(0),
                      .visibility = nautical_miles(8),
                      .thunder = 0.0,
                      .forecast_age = hours(2),
                      .forecast_covers = true,
                      .forecast_ends = after(24 * 60),
                      .design_category = DesignCategory::c,
                      .draft_is = Basis::measured,
                      .air_draft_is = Basis::measured,
                      .hull = Hull::motor_displacement,
                      .engines = 2,
                      .length = feet(40),
                      .beam = feet(13.5)},
          .light = {.sunrise = after(-240),
                    .sunset = after(600),
                    .civil_dawn = after(-270),
                    .civil_dusk = after(630),
                    .moon_illuminated = 0.5,
                    .moon_up = false,
                    .before_sunset = minutes(570),
                    .after_sunrise = true},
          .legs = {leg()},
          .track = {piece()},
          .depths = {depth(DepthPlace::berth, "Slip"), depth(DepthPlace::reach, "Cut")},
          .bridges = {bridge("Mill Bridge")},
          .cables = {cable("Mill Cable")},
          .dangers = {danger("Ledge")},
          .marks = {mark("12")},
          .turning_places = {{"Basin", nautical_miles(2), feet(200)}},
          .refuges = {{"Cove", nautical_miles(2), feet(8), true}},
          .estimated = {}};
}

Findings findings_with_bar() {
  Findings with = findings();
  with.depths.push_back(depth(DepthPlace::bar, "Bar"));
  with.depths.back().open_water = true;
  for (Depth& depth : with.depths) depth.speed_limit = knots(6);
  return with;
}

namespace {

using Visit = std::function<void(const std::string&, const std::function<void()>&)>;

/// Visits the Knowns of one thing found, whose name stands before each.
class Knowns {
 public:
  Knowns(std::string whose, const Visit& visit) : whose_(std::move(whose)), visit_(visit) {}

  template <class T>
  const Knowns& operator()(const char* name, Known<T>& known) const {
    const std::string full = whose_ + " " + name;
    visit_(full, [&known, full] { known = not_known("made not known: " + full); });
    return *this;
  }

 private:
  std::string whose_;
  const Visit& visit_;
};

void visit_passage(PassageFinding& p, const Visit& visit) {
  Knowns("passage", visit)("arrives", p.arrives)("wind", p.wind)("gust", p.gust)("wave", p.wave)(
      "visibility", p.visibility)("thunder", p.thunder)("forecast_age", p.forecast_age)(
      "forecast_covers", p.forecast_covers)("forecast_ends", p.forecast_ends);
}

void visit_leg(Leg& l, const Visit& visit) {
  Knowns("leg", visit)("starts", l.starts)("ends", l.ends)("wind", l.wind)("gust", l.gust)(
      "wind_is", l.wind_is)("falls_off_to", l.falls_off_to)("leeway", l.leeway)(
      "current", l.current)("makes_headway", l.makes_headway)("holds_line", l.holds_line)(
      "current_from", l.current_from)("set_to", l.set_to)("steer_true", l.steer_true)(
      "steer_magnetic", l.steer_magnetic)("steer_compass", l.steer_compass)(
      "variation", l.variation)("light", l.light)("wave", l.wave)("visibility", l.visibility);
}

void visit_depth(Depth& d, const Visit& visit) {
  Knowns(d.name, visit)("time", d.passing.at)("surveyed", d.surveyed)("charted", d.charted)(
      "height_of_tide", d.height_of_tide)("tide_is", d.tide_is)("water", d.water)("squat", d.squat)(
      "wave", d.wave)("under_keel", d.under_keel)("under_keel_could_be", d.under_keel_could_be)(
      "sounder_reads", d.sounder_reads)("channel_width", d.channel_width)(
      "spare_width", d.spare_width)("wind", d.wind)("open_to_wind", d.open_to_wind);
}

void visit_over_mast(std::vector<OverMast>& states, const std::string& name, const Visit& visit) {
  for (OverMast& state : states) {
    Knowns(name + " antennas " + in_words(state.antennas), visit)("over_mast", state.over_mast)(
        "over_mast_could_be", state.over_mast_could_be);
  }
}

void visit_bridge(BridgeFinding& b, const Visit& visit) {
  Knowns(b.name, visit)("time", b.passing.at)("charted", b.charted)(
      "clearance_datum", b.clearance_datum)("height_of_tide", b.height_of_tide)(
      "tide_is", b.tide_is)("clearance", b.clearance)("clearance_could_be", b.clearance_could_be)(
      "wave", b.wave)("fits_with", b.fits_with)("fits", b.fits)("opening_needed", b.opening_needed)(
      "gauge_reads", b.gauge_reads)("gauge_at_least", b.gauge_at_least)(
      "clearance_gauge", b.clearance_gauge)("width", b.width)("wind", b.wind)("current", b.current);
  visit_over_mast(b.over_mast, b.name, visit);
  if (!b.opening) return;
  OpeningFinding& o = *b.opening;
  Knowns(b.name, visit)("reached", o.reached)("fits_on_arrival", o.fits_on_arrival)(
      "passes", o.passes)("wait", o.wait)("through_opening", o.through_opening)("next", o.next)(
      "next_on_signal", o.next_on_signal)("drift", o.hold_off.drift)(
      "current_toward", o.hold_off.current_toward)("wind_toward", o.hold_off.wind_toward);
}

void visit_cable(CableFinding& c, const Visit& visit) {
  Knowns(c.name, visit)("time", c.passing.at)("voltage", c.voltage)("gap", c.gap)(
      "charted", c.charted)("clearance_datum", c.clearance_datum)(
      "height_of_tide", c.height_of_tide)("clearance", c.clearance)(
      "clearance_could_be", c.clearance_could_be)("wave", c.wave)("antennas", c.antennas)(
      "to_spare", c.to_spare)("to_spare_could_be", c.to_spare_could_be);
  visit_over_mast(c.over_mast, c.name, visit);
}

}  // namespace

void for_each_known(Findings& f, const Visit& visit) {
  visit_passage(f.passage, visit);
  Knowns("light", visit)("before_sunset", f.light.before_sunset)("after_sunrise",
                                                                 f.light.after_sunrise);
  for (Leg& leg : f.legs) visit_leg(leg, visit);
  for (TrackPiece& p : f.track) {
    Knowns("track", visit)("begins", p.begins)("ends", p.ends)("over_ground", p.over_ground)(
        "over_ground_most", p.over_ground_most)("charted", p.charted)("height_of_tide",
                                                                      p.height_of_tide);
  }
  for (Depth& depth : f.depths) visit_depth(depth, visit);
  for (BridgeFinding& bridge : f.bridges) visit_bridge(bridge, visit);
  for (CableFinding& cable : f.cables) visit_cable(cable, visit);
  for (Danger& d : f.dangers) {
    Knowns(d.name, visit)("time", d.passing.at)("reached_in", d.reached_in)(
        "anchor_holds_in", d.anchor_holds_in)("anchor_would_hold", d.anchor_would_hold);
  }
  for (TurningPlaceFinding& place : f.turning_places) {
    Knowns(place.name, visit)("width", place.width);
  }
  for (RefugeFinding& refuge : f.refuges) {
    Knowns(refuge.name, visit)("charted", refuge.charted)("floats_at_chart_datum",
                                                          refuge.floats_at_chart_datum);
  }
  for (MarkFinding& m : f.marks) {
    Knowns("mark " + m.name, visit)("time", m.passing.at)("should_lie_to", m.should_lie_to)(
        "agrees", m.agrees);
  }
}

}  // namespace passage_brief::given
