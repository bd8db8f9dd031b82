// What holds of every passage, tried on drawn ones: more water is never less, less margin never
// stricter, what is not known never safe, and the way back has the hands changed.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <chrono>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "brief/judge_departure.h"
#include "given/findings.h"
#include "given/open_water.h"
#include "given/rules.h"
#include "passage/clearances.h"
#include "passage/find.h"
#include "passage/hull.h"
#include "passage/leeway.h"
#include "passage/relative_wind.h"
#include "passage/route_survey.h"
#include "passage/under_keel.h"
#include "rules/judge.h"
#include "rules/rule_set.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

using given::at;
using given::permission;

int drawn(int low, int high, const char* what) { return *rc::gen::inRange(low, high + 1).as(what); }
Length drawn_cm(int low, int high, const char* what) { return centimetres(drawn(low, high, what)); }
bool drawn_yes(const char* what) { return *rc::gen::arbitrary<bool>().as(what); }

/// Evenly, so that most cases are not the extreme ones rapidcheck likes to begin with.
bool one_in(int count, const char* what) {
  return *rc::gen::noShrink(rc::gen::resize(100, rc::gen::inRange(0, count))).as(what) == 0;
}

template <class T>
T one_of(std::initializer_list<T> all, const char* what) {
  return *rc::gen::elementOf(std::vector<T>(all)).as(what);
}

Bottom drawn_bottom() {
  return one_of({Bottom::mud, Bottom::sand, Bottom::rock, Bottom::not_stated}, "bottom");
}
SurveyQuality drawn_quality() {
  return one_of({SurveyQuality::a1, SurveyQuality::b, SurveyQuality::c, SurveyQuality::d,
                 SurveyQuality::channel_survey, SurveyQuality::not_stated},
                "survey quality");
}
TrueBearing drawn_bearing(const char* what) {
  return TrueBearing::from_degrees(drawn(0, 3599, what) / 10.0);
}

const FeatureStations kStations{"Gauge", "none", "CD", "MHW"};

Bridge plain_bridge(const std::variant<PointShape, LineShape>& shape, Length clearance) {
  return {{"Bridge", kStations}, shape,       BridgeKind::fixed, clearance, ClearanceOf::low_steel,
          not_known("fixed"),    false,       metres(20),        true,      std::nullopt,
          std::nullopt,          std::nullopt};
}

/// What a hull of six kinds and her sizes make of a keel's worth of water.
Vessel drawn_vessel() {
  Vessel vessel = given::plain_vessel();
  vessel.hull = one_of({Hull::motor_displacement, Hull::motor_planing, Hull::sail_fin_keel,
                        Hull::sail_long_keel, Hull::catamaran, Hull::open_boat},
                       "hull");
  vessel.length = drawn_cm(400, 2000, "length");
  vessel.waterline = vessel.length * 0.9;
  vessel.beam = vessel.length * (drawn(25, 40, "beam, % of length") / 100.0);
  vessel.draft = drawn_cm(30, 250, "draft");
  vessel.block_coefficient = drawn(30, 80, "block coefficient, %") / 100.0;
  return vessel;
}

/// The figure rises, stays, or is as little known as before. Rounding: 1e-9 m.
void expect_no_less(const Known<Length>& more, const Known<Length>& less) {
  RC_ASSERT(more.has_value() == less.has_value());
  if (more.has_value()) RC_ASSERT(in_metres(*more - *less) >= -1e-9);
}

// At one speed; at those the passage chooses: the next property.
RC_GTEST_PROP(Property, MoreTideNeverLessensDepth, ()) {
  const Vessel vessel = drawn_vessel();
  const Waterway water = given::empty_waterway();
  const DepthSource source{DepthSourceKind::controlling_depth,
                           "Cut",
                           drawn_cm(-200, 1500, "charted"),
                           false,
                           kStations,
                           drawn_bottom(),
                           std::chrono::year(2020) / 4 / 1,
                           drawn_quality()};
  const Instant when = given::plan_along({}).departure.at;
  const ChannelSection section{drawn_yes("narrow"), metres(drawn(4, 80, "width of channel"))};
  const KeelQuestion question{source,
                              Span{when, when + std::chrono::minutes(5)},
                              true,
                              knots(drawn(0, 150, "speed, 0.1 kn") / 10.0),
                              section,
                              drawn_yes("open water"),
                              drawn_cm(0, 150, "half wave")};
  const Length tide = drawn_cm(-150, 500, "tide");
  const Length more = drawn_cm(0, 400, "more tide");
  const auto answer = [&](Length height) {
    return under_keel(question, vessel, hull_form(vessel), given::facts_over(water, height),
                      given::plain_margins());
  };
  const KeelAnswer before = answer(tide);
  const KeelAnswer after = answer(tide + more);
  RC_ASSERT(in_metres(*after.water - *before.water - more) < 1e-9);
  expect_no_less(after.under_keel, before.under_keel);
  expect_no_less(after.could_be, before.could_be);
}

// In deeper water she may go faster and squats more: never by more than the water that let her.
// Left aside: squat left out before, which deeper water puts in.
RC_GTEST_PROP(Property, MoreTideNeverLessensWhatAPassageLeavesUnderTheKeel, ()) {
  Plan plan = given::plan_along({at(0, 0), at(0, 1000)});
  plan.vessel = drawn_vessel();
  plan.vessel.cruise = knots(drawn(40, 90, "cruise, 0.1 kn") / 10.0);
  plan.vessel.slow = plan.vessel.cruise * 0.6;
  Waterway water = given::empty_waterway();
  const Length charted = plan.vessel.draft * (drawn(150, 260, "charted, % of draft") / 100.0);
  water.reaches.push_back(given::plain_reach("Cut", LineShape{at(0, -500), at(0, 1500)},
                                             metres(drawn(20, 400, "width")), charted));
  const Margins margins = given::plain_margins();
  const RouteSurvey survey(plan, water, margins);
  const auto depth = [&](Length height) {
    return find(survey, plan, given::facts_over(water, height), margins).depths.at(0);
  };
  const Length tide = drawn_cm(-20, 60, "tide");
  const Depth before = depth(tide);
  const Depth after = depth(tide + drawn_cm(1, 60, "more tide"));
  if (!before.squat_left_out) expect_no_less(after.under_keel, before.under_keel);
}

RC_GTEST_PROP(Property, MoreTideNeverRaisesABridge, ()) {
  const Bridge bridge = plain_bridge(at(0, 500), drawn_cm(100, 3000, "clearance"));
  const Length tide = drawn_cm(-150, 500, "tide");
  const Length more = drawn_cm(0, 400, "more tide");
  const auto found = [&](Length height) {
    const Passing passing{metres(500), given::plan_along({}).departure.at, at(0, 500), 0};
    return bridge_finding(bridge, passing, given::plain_vessel(),
                          given::facts_over(given::empty_waterway(), height),
                          given::plain_margins(), metres(0.1));
  };
  const BridgeFinding before = found(tide);
  const BridgeFinding after = found(tide + more);
  expect_no_less(before.clearance, after.clearance);
  expect_no_less(before.clearance_could_be, after.clearance_could_be);
  for (std::size_t i = 0; i < before.over_mast.size(); ++i) {
    expect_no_less(before.over_mast[i].over_mast, after.over_mast[i].over_mast);
    expect_no_less(before.over_mast[i].over_mast_could_be, after.over_mast[i].over_mast_could_be);
  }
}

/// Due north through five areas, 200 m each, with a hazard, a bridge and a wind.
Waterway drawn_waterway() {
  Waterway water = given::empty_waterway();
  for (int i = 0; i < 5; ++i) {
    const double south_m = 200.0 * i - (i == 0 ? 200 : 0);
    const double north_m = 200.0 * (i + 1) + (i == 4 ? 200 : 0);
    const Known<Length> depth = one_in(60, "not sounded")
                                    ? Known<Length>(not_known("not sounded"))
                                    : Known<Length>(drawn_cm(170, 600, "charted"));
    DepthArea area = given::plain_area("area " + std::to_string(i),
                                       given::oblong(-300, south_m, 300, north_m), depth);
    area.bottom = drawn_bottom();
    if (one_in(20, "survey of any quality")) area.survey_quality = drawn_quality();
    water.depth_areas.push_back(std::move(area));
  }
  water.hazards.push_back(
      {{"snag", kStations},
       Shape(at(drawn(-60, 60, "east of the line, m"), drawn(0, 1000, "along the line, m"))),
       "snag",
       drawn_cm(120, 400, "depth over the snag"),
       false,
       std::nullopt,
       drawn_bottom()});
  water.bridges.push_back(
      plain_bridge(LineShape{at(-100, 700), at(100, 700)}, drawn_cm(550, 1200, "clearance")));
  return water;
}

RuleSet drawn_rules() {
  static const std::vector<RuleSet> shipped{given::shipped_rules("small_craft"),
                                            given::shipped_rules("renters"),
                                            given::shipped_rules("learners")};
  return shipped.at(static_cast<std::size_t>(drawn(0, 2, "small craft, renters or learners")));
}

// The age at which a forecast is old works the other way and is left alone.
RC_GTEST_PROP(Property, ALowerMarginNeverWorsensAVerdict, ()) {
  const Plan plan = given::plan_along({at(0, 0), at(0, 1000)});
  Facts facts = given::facts_over(drawn_waterway(), drawn_cm(0, 200, "tide"));
  facts.winds.push_back(
      given::steady_wind(drawn(0, 359, "wind from"), knots(drawn(0, 16, "wind, kn"))));
  RuleSet rules = drawn_rules();
  const auto verdict = [&] {
    const RouteSurvey survey(plan, facts.waterway, rules.margins);
    return judge_departure(survey, plan, facts, rules).judgement.verdict;
  };
  const Verdict before = verdict();
  RC_TAG(in_words(before));
  Margins& margins = rules.margins;
  for (Length* margin : {&margins.under_keel, &margins.under_keel_hard, &margins.under_bridge,
                         &margins.track, &margins.position, &margins.wash, &margins.shoaling}) {
    *margin = *margin * (drawn(0, 100, "% of the margin left") / 100.0);
  }
  const Verdict after = verdict();
  RC_LOG() << in_words(before) << " became " << in_words(after) << '\n';
  RC_ASSERT(after <= before);
}

/// Changes to a passage within all limits, each to what the rules look at.
const std::vector<std::function<void(Findings&)>> kChanges{
    [](Findings& f) {
      Depth& depth = f.depths.at(static_cast<std::size_t>(drawn(0, 2, "berth, reach or bar")));
      depth.under_keel = drawn_cm(-20, 200, "under keel");
      depth.under_keel_could_be = *depth.under_keel - drawn_cm(0, 100, "less at worst");
      depth.bottom = drawn_bottom();
      depth.tide_is = one_of({Trend::rising, Trend::standing, Trend::falling}, "tide");
    },
    [](Findings& f) { f.depths.back().wave = drawn_cm(0, 150, "half wave on the bar"); },
    [](Findings& f) {
      BridgeFinding& bridge = f.bridges[0];
      const Length lower = drawn_cm(-100, 400, "lower bridge");
      for (OverMast& state : bridge.over_mast) {
        state.over_mast = *state.over_mast - lower;
        state.over_mast_could_be = *state.over_mast_could_be - lower;
      }
      // As the passage finds it: up where the margin is kept so, else down, else in neither.
      const auto keeps = [&bridge](Antennas antennas) {
        return in_state(bridge.over_mast, antennas)->over_mast.value() >= bridge.margin;
      };
      bridge.fits = keeps(Antennas::down);
      bridge.fits_with = not_known("she does not fit");
      if (keeps(Antennas::down)) bridge.fits_with = Antennas::down;
      if (keeps(Antennas::up)) bridge.fits_with = Antennas::up;
    },
    [](Findings& f) {
      f.cables[0].to_spare = drawn_cm(-20, 400, "to spare under the wire");
      f.cables[0].to_spare_could_be = *f.cables[0].to_spare - metres(0.2);
    },
    [](Findings& f) {
      f.passage.wind = knots(drawn(0, 40, "wind, kn"));
      f.passage.gust = *f.passage.wind * 1.4;
    },
    [](Findings& f) { f.passage.wave = drawn_cm(0, 300, "wave"); },
    [](Findings& f) {
      f.passage.design_category = one_of<std::optional<DesignCategory>>(
          {DesignCategory::a, DesignCategory::c, DesignCategory::d, std::nullopt}, "category");
    },
    [](Findings& f) {
      f.passage.forecast_age = std::chrono::hours(drawn(0, 20, "age of forecast, h"));
    },
    [](Findings& f) { f.passage.forecast_covers = drawn_yes("forecast covers the way"); },
    [](Findings& f) {
      f.dangers[0].reached_in = std::chrono::minutes(drawn(0, 40, "danger reached in, min"));
      f.dangers[0].anchor_would_hold = drawn_yes("anchor would hold");
    },
    [](Findings& f) { f.marks[0].agrees = drawn_yes("mark on its side"); },
    [](Findings& f) {
      f.legs[0].light = one_of({Light::day, Light::twilight, Light::dark}, "light");
    }};

Findings drawn_findings() {
  Findings found = one_in(2, "without a bar") ? given::findings() : given::findings_with_bar();
  found.depths.resize(3, given::depth(DepthPlace::reach, "Bend"));
  for (int n = drawn(0, 3, "changes"); n > 0; --n) {
    kChanges[*rc::gen::inRange<std::size_t>(0, kChanges.size()).as("which change")](found);
  }
  return found;
}

RC_GTEST_PROP(Property, AFactTakenAwayNeverRaisesTheVerdict, ()) {
  const RuleSet rules = drawn_rules();
  Findings found = drawn_findings();
  const Verdict before = judge(rules, found).verdict;
  RC_TAG(in_words(before));
  std::vector<std::pair<std::string, std::function<void()>>> facts;
  given::for_each_known(found, [&](const std::string& name, const std::function<void()>& away) {
    facts.emplace_back(name, away);
  });
  for (int n = drawn(1, 4, "facts taken away"); n > 0; --n) {
    const auto& [name, away] = facts[*rc::gen::inRange<std::size_t>(0, facts.size())];
    away();
    const Verdict after = judge(rules, found).verdict;
    RC_LOG() << "without " << name << ": " << in_words(before) << " became " << in_words(after)
             << '\n';
    RC_ASSERT(permission(after) <= permission(before));
  }
}

/// The side by geometry, the side by the buoyage, and whether they agree.
struct Hands {
  Side lies;
  Known<std::optional<Side>> should;
  Known<bool> agrees;
};

std::map<std::string, Hands> hands_on(const Plan& plan, const Facts& facts) {
  const Margins margins = given::plain_margins();
  const RouteSurvey survey(plan, facts.waterway, margins);
  std::map<std::string, Hands> hands;
  for (const MarkFinding& mark : find(survey, plan, facts, margins).marks) {
    hands.emplace(mark.name, Hands{mark.lies_to, mark.should_lie_to, mark.agrees});
  }
  return hands;
}

Mark drawn_mark(const std::string& name) {
  const int off_m = drawn(12, 60, "off the line, m") * (drawn_yes("to the east") ? 1 : -1);
  const MarkHand hand =
      one_of({MarkHand::port, MarkHand::starboard, MarkHand::preferred_channel_to_port,
              MarkHand::preferred_channel_to_starboard, MarkHand::none, MarkHand::not_stated},
             "hand");
  const bool stated = drawn_yes("direction of buoyage stated");
  return {{name, kStations},
          at(off_m, drawn(50, 950, "along the line, m")),
          std::nullopt,
          std::nullopt,
          hand,
          BuoyageRegion::b,
          stated ? std::optional<DirectionOfBuoyage>("Cut") : std::nullopt,
          std::nullopt,
          std::nullopt,
          one_of({KeptBy::authority, KeptBy::unofficial}, "kept by"),
          MarkStructure::piling};
}

// Going the other way every mark lies, and should lie, on the other side; what agreed still does.
RC_GTEST_PROP(Property, SwappingDirectionSwapsHands, ()) {
  Waterway water = given::empty_waterway();
  const Position bend = at(drawn(-80, 80, "bend, m to the east"), 500);
  water.reaches.push_back(
      given::plain_reach("Cut", {at(0, 0), bend, at(0, 1000)}, metres(200), metres(5)));
  for (int i = 0; i < 4; ++i) water.marks.push_back(drawn_mark(std::to_string(i)));
  const Facts facts = given::facts_over(std::move(water), metres(1));
  const auto in = hands_on(given::plan_along({at(0, 0), bend, at(0, 1000)}), facts);
  const auto out = hands_on(given::plan_along({at(0, 1000), bend, at(0, 0)}), facts);
  RC_ASSERT(in.size() == 4U);
  RC_ASSERT(out.size() == 4U);
  for (const auto& [name, inbound] : in) {
    const Hands& outbound = out.at(name);
    RC_ASSERT(outbound.lies == other(inbound.lies));
    RC_ASSERT(outbound.should.has_value() == inbound.should.has_value());
    RC_ASSERT(outbound.agrees.has_value() == inbound.agrees.has_value());
    if (!inbound.should.has_value()) continue;
    RC_ASSERT(outbound.agrees.value() == inbound.agrees.value());
    RC_ASSERT(outbound.should->has_value() == inbound.should->has_value());
    if (*inbound.should) RC_ASSERT(**outbound.should == other(**inbound.should));
  }
}

// In one wind a boat going the other way falls off to her other side, which is the same water.
RC_GTEST_PROP(Property, SwappingDirectionSwapsTheSideSheFallsOffTo, ()) {
  const TrueBearing heading = drawn_bearing("heading");
  const Velocity wind =
      velocity(WindFrom{drawn_bearing("wind from")}, knots(drawn(1, 40, "wind, kn")));
  const Speed speed = knots(drawn(0, 80, "speed, 0.1 kn") / 10.0);
  const HullForm hull = hull_form(given::plain_vessel());
  const auto leeway = [&](TrueBearing on) {
    return leeway_under_way(hull, speed, relative_wind(wind, velocity(on, speed), on));
  };
  // Nearer than that to dead ahead or astern the side is a matter of rounding.
  RC_PRE(std::abs(component_toward(heading + degrees(90), wind).si()) > 1e-6);
  RC_ASSERT(leeway(heading).falls_off_to.has_value());
  RC_ASSERT(leeway(heading.reversed()).falls_off_to == other(*leeway(heading).falls_off_to));
}

}  // namespace
}  // namespace passage_brief
