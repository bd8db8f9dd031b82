// The three files that ship: every caution fires on its hazard, is silent without it, and no fact
// taken away ever makes the verdict better.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <set>
#include <string>
#include <vector>

#include "given/findings.h"
#include "given/rules.h"
#include "rules/judge.h"
#include "rules/rule_set.h"

namespace passage_brief {
namespace {

using Change = std::function<void(Findings&)>;

/// A caution, what makes it fire, and what makes its test unknown (empty: it never is).
struct TriedCaution {
  const char* rules;
  const char* id;
  Verdict verdict;
  Change fires;
  Change unknown;
};

NotKnown nobody_knows() { return NotKnown{{"nobody knows"}}; }
std::unexpected<NotKnown> nobody() { return std::unexpected(nobody_knows()); }

Depth& reach(Findings& f) { return f.depths[1]; }
Depth& bar(Findings& f) { return f.depths[2]; }

void set_under_keel(Depth& depth, double feet_left, double could_be) {
  depth.under_keel = feet(feet_left);
  depth.under_keel_could_be = feet(could_be);
}

void lower_the_bridge(Findings& f, double less) {
  BridgeFinding& bridge = f.bridges[0];
  for (OverMast& state : bridge.over_mast) {
    state.over_mast = state.over_mast.value() - feet(less);
    state.over_mast_could_be = state.over_mast_could_be.value() - feet(less);
  }
}

/// A drawbridge too low for her, which wants notice (given/findings.cpp).
void ask_for_it(Findings& f) {
  BridgeFinding& bridge = f.bridges[0];
  bridge.what = BridgeKind::bascule;
  bridge.opening_needed = true;
  bridge.fits = false;
  bridge.opening->hold_off.current_toward = knots(0.4);
  lower_the_bridge(f, 15);
}

/// So that she passes with antennas down, if at all.
void antennas_down(Findings& f) { f.bridges[0].fits_with = Antennas::down; }

void spare_under_cable(Findings& f, double spare) {
  CableFinding& cable = f.cables[0];
  cable.to_spare = feet(spare);
  cable.to_spare_could_be = feet(spare - 0.5);
}

/// The leg runs north.
Current astern(double kn) { return {SetToward{TrueBearing::from_degrees(0)}, knots(kn)}; }

std::vector<TriedCaution> under_the_keel() {
  using enum Verdict;
  const Change not_known = [](Findings& f) { reach(f).under_keel = nobody(); };
  return {{"small_craft", "aground where it hurts", outside_limits,
           [](Findings& f) {
             reach(f).bottom = Bottom::shell;
             set_under_keel(reach(f), -0.1, -1);
           },
           // It could touch: over hard ground that is not a pass.
           [](Findings& f) {
             reach(f).bottom = Bottom::shell;
             set_under_keel(reach(f), 3.5, -0.1);
           }},
          {"small_craft", "aground", outside_limits,
           [](Findings& f) { set_under_keel(reach(f), -0.1, -1); },
           [](Findings& f) {
             reach(f).tide_is = Trend::falling;
             set_under_keel(reach(f), 2.5, -0.1);
           }},
          {"small_craft", "under the margin where it hurts", outside_limits,
           [](Findings& f) {
             reach(f).bottom = Bottom::not_stated;
             set_under_keel(reach(f), 1.9, 1);
           },
           [&](Findings& f) {
             reach(f).bottom = Bottom::rock;
             reach(f).under_keel = nobody();
           }},
          {"small_craft", "under the margin, not rising", outside_limits,
           [](Findings& f) {
             reach(f).tide_is = Trend::standing;
             set_under_keel(reach(f), 1.9, 1);
           },
           [](Findings& f) {
             reach(f).tide_is = nobody();
             set_under_keel(reach(f), 1.9, 1);
           }},
          {"small_craft", "could touch where it hurts", cannot_tell,
           [](Findings& f) {
             reach(f).tide_is = Trend::falling;
             set_under_keel(reach(f), 2.5, -0.1);
           },
           [](Findings& f) {
             reach(f).tide_is = nobody();
             set_under_keel(reach(f), 2.5, -0.1);
           }},
          {"small_craft", "could touch soft ground", cautions,
           [](Findings& f) { set_under_keel(reach(f), 1.5, -0.1); },
           [](Findings& f) {
             reach(f).tide_is = nobody();
             set_under_keel(reach(f), 1.5, -0.1);
           }},
          {"small_craft", "thin water", cautions,
           [](Findings& f) { set_under_keel(reach(f), 1.9, 0.1); },
           [](Findings& f) {
             reach(f).tide_is = nobody();
             set_under_keel(reach(f), 1.9, 0.1);
           }},
          {"small_craft", "aground in the berth", outside_limits,
           [](Findings& f) { f.depths[0].under_keel = feet(-0.1); },
           [](Findings& f) { f.depths[0].under_keel = nobody(); }},
          {"small_craft",
           "could touch in the berth",
           cautions,
           [](Findings& f) { f.depths[0].under_keel_could_be = feet(-0.1); },
           {}},
          {"small_craft",
           "could touch in the berth",
           cautions,
           [](Findings& f) { f.depths[0].under_keel_could_be = nobody(); },
           {}},
          {"small_craft", "aground where it hurts", outside_limits,
           [](Findings& f) {
             f.depths[0].bottom = Bottom::rock;
             f.depths[0].under_keel = feet(-0.1);
           },
           [](Findings& f) {
             f.depths[0].bottom = Bottom::rock;
             f.depths[0].under_keel_could_be = feet(-0.1);
           }},
          {"small_craft",
           "thin water in the berth",
           cautions,
           [](Findings& f) { f.depths[0].under_keel = feet(1.9); },
           {}},
          {"small_craft", "depth not known", cannot_tell, not_known, {}},
          {"small_craft",
           "something in the way",
           outside_limits,
           [](Findings& f) { reach(f).blocked = true; },
           {}},
          {"small_craft",
           "measure the draft",
           cannot_tell,
           [](Findings& f) { f.passage.draft_is = Basis::told; },
           {}},
          {"small_craft",
           "squat left out",
           within_limits,
           [](Findings& f) { reach(f).squat_left_out = true; },
           {}},
          {"small_craft", "breaking seas", outside_limits,
           // Twice 2.5 m against 0.78 of 6 m: 5.0 > 4.7.
           [](Findings& f) {
             f.depths.push_back(given::depth(DepthPlace::bar, "Bar"));
             bar(f).open_water = true;
             bar(f).wave = metres(1.25);
             bar(f).water = metres(6);
           },
           [](Findings& f) {
             f.depths.push_back(given::depth(DepthPlace::bar, "Bar"));
             bar(f).open_water = true;
             bar(f).wave = nobody();
           }},
          {"small_craft",
           "falling tide at a shoal",
           cautions,
           [](Findings& f) {
             reach(f).tide_is = Trend::falling;
             set_under_keel(reach(f), 3.9, 2);
           },
           {}},
          {"small_craft", "old survey", cautions,
           [](Findings& f) { reach(f).surveyed = std::chrono::year(2023) / 6 / 1; },
           [](Findings& f) { reach(f).surveyed = nobody(); }},
          {"small_craft", "channel too narrow for her", outside_limits,
           [](Findings& f) { reach(f).spare_width = feet(-0.1); },
           [](Findings& f) { reach(f).spare_width = nobody(); }},
          {"small_craft", "narrow channel with wind or current across", cautions,
           [](Findings& f) { reach(f).spare_width = feet(19.9); },
           [](Findings& f) { reach(f).spare_width = nobody(); }},
          {"small_craft",
           "narrow channel with wind or current across",
           cautions,
           [](Findings& f) {
             reach(f).channel = Channel::not_stated;
             reach(f).spare_width = feet(19.9);
           },
           {}},
          {"renters", "narrow channel with wind or current across", outside_limits,
           // 60 ft less 13.5 of beam is 46.5; half of it gone.
           [](Findings& f) { reach(f).spare_width = feet(23.2); },
           [](Findings& f) { reach(f).spare_width = nobody(); }},
          {"small_craft",
           "no turning place ahead",
           cautions,
           [](Findings& f) { f.turning_places.clear(); },
           {}},
          {"small_craft",
           "speed limit",
           within_limits,
           [](Findings& f) { reach(f).speed_limit = knots(6); },
           {}},
          {"small_craft", "seas on a bar", cautions,
           [](Findings& f) {
             f = given::findings_with_bar();
             bar(f).wave = feet(1.5);
             bar(f).water = metres(6);
           },
           [](Findings& f) {
             f = given::findings_with_bar();
             bar(f).wave = nobody();
           }},
          {"renters", "seas on a bar", outside_limits,
           [](Findings& f) {
             f = given::findings_with_bar();
             bar(f).wave = feet(1);
             bar(f).water = metres(6);
           },
           [](Findings& f) {
             f = given::findings_with_bar();
             bar(f).wave = nobody();
           }},
          {"small_craft",
           "life jackets at a bar",
           cautions,
           [](Findings& f) { f.depths.push_back(given::depth(DepthPlace::bar, "Bar")); },
           {}}};
}

std::vector<TriedCaution> overhead() {
  using enum Verdict;
  return {{"small_craft", "mast under a bridge", outside_limits,
           [](Findings& f) {
             lower_the_bridge(f, 8.1);  // 1.9 ft left, antennas down
             f.bridges[0].fits = false;
             f.bridges[0].fits_with = nobody();
           },
           [](Findings& f) { f.passage.air_draft_is = Basis::estimated; }},
          {"small_craft",
           "little over the mast",
           cautions,
           [](Findings& f) {
             lower_the_bridge(f, 7.9);  // 2.1 ft left, 1.6 at worst
             antennas_down(f);
           },
           {}},
          {"small_craft", "bridge too narrow for her", outside_limits,
           [](Findings& f) { f.bridges[0].width = feet(13.4); },
           [](Findings& f) { f.bridges[0].width = nobody(); }},
          {"small_craft", "narrow bridge", cautions,
           [](Findings& f) { f.bridges[0].width = feet(33.4); },
           [](Findings& f) { f.bridges[0].width = nobody(); }},
          {"small_craft",
           "bridge width not known",
           cannot_tell,
           [](Findings& f) { f.bridges[0].width = nobody(); },
           {}},
          {"small_craft", "turn close to a bridge", cautions,
           // The leg begins with a turn just before the bridge; current 0.5 kn astern.
           [](Findings& f) {
             f.bridges[0].passing.along = nautical_miles(0.09);
             f.bridges[0].current = astern(0.5);
           },
           [](Findings& f) {
             f.bridges[0].passing.along = nautical_miles(0.09);
             f.bridges[0].current = nobody();
           }},
          {"small_craft",
           "carried at a shut bridge",
           cautions,
           [](Findings& f) {
             f.bridges[0].what = BridgeKind::swing;
             f.bridges[0].opening_needed = true;
             f.bridges[0].opening->hold_off.current_toward = knots(0.5);
           },
           {}},
          {"small_craft",
           "carried at a shut bridge",
           cautions,
           [](Findings& f) {
             f.bridges[0].what = BridgeKind::swing;
             f.bridges[0].opening_needed = true;
             f.bridges[0].opening->hold_off.current_toward = knots(0);
             f.bridges[0].opening->hold_off.wind_toward = nobody();
           },
           {}},
          {"small_craft",
           "little over the mast, span open",
           cautions,
           [](Findings& f) {
             f.bridges[0].what = BridgeKind::lift;
             f.bridges[0].open_span = OpenSpan{feet(60), feet(60), feet(59), f.bridges[0].over_mast,
                                               f.bridges[0].fits_with};
             for (OverMast& state : f.bridges[0].open_span->over_mast) {
               state.over_mast_could_be = f.bridges[0].margin - feet(0.1);
             }
           },
           {}},
          {"small_craft",
           "clearance of the middle only",
           cautions,
           [](Findings& f) { f.bridges[0].gauge_reads = nobody(); },
           {}},
          {"small_craft",
           "clearance not known",
           cannot_tell,
           [](Findings& f) {
             f.bridges[0].clearance = nobody();
             for (OverMast& state : f.bridges[0].over_mast) state.over_mast = nobody();
           },
           {}},
          {"small_craft",
           "measure the air draft",
           cannot_tell,
           [](Findings& f) { f.passage.air_draft_is = Basis::told; },
           {}},
          {"small_craft",
           "antennas down",
           within_limits,
           [](Findings& f) { f.bridges[0].fits_with = Antennas::down; },
           {}},
          {"small_craft",
           "opening needed",
           within_limits,
           [](Findings& f) {
             f.bridges[0].what = BridgeKind::bascule;
             f.bridges[0].opening_needed = true;
             f.bridges[0].fits = false;
             f.bridges[0].opening->hold_off.current_toward = knots(0.4);
             f.bridges[0].opening->next =
                 std::optional(OpeningDue{given::after(10), std::nullopt, std::nullopt, false});
             lower_the_bridge(f, 15);
           },
           {}},
          {"small_craft", "opening to be asked for", cautions, [](Findings& f) { ask_for_it(f); },
           [](Findings& f) {
             ask_for_it(f);
             f.bridges[0].opening_needed = nobody();
           }},
          {"small_craft",
           "antennas down at a cable",
           cautions,
           [](Findings& f) { f.cables[0].antennas = Antennas::down; },
           {}},
          {"small_craft", "inside the gap of a power cable", outside_limits,
           [](Findings& f) { spare_under_cable(f, -0.1); },
           [](Findings& f) { f.cables[0].to_spare_could_be = feet(-0.1); }},
          {"small_craft", "under the margin at a cable", outside_limits,
           [](Findings& f) { spare_under_cable(f, 1.9); },
           [](Findings& f) { f.cables[0].to_spare = nobody(); }},
          {"small_craft",
           "little to spare at a cable",
           cautions,
           [](Findings& f) { spare_under_cable(f, 2.4); },  // 1.9 ft at worst, 2 wanted
           {}},
          {"small_craft",
           "little to spare at a cable",
           cannot_tell,  // whether she comes inside the gap
           [](Findings& f) { f.cables[0].to_spare_could_be = nobody(); },
           {}},
          {"small_craft",
           "voltage not known",
           cannot_tell,
           [](Findings& f) {
             f.cables[0].gap = nobody();
             f.cables[0].to_spare = nobody();
             f.cables[0].to_spare_could_be = nobody();
           },
           {}}};
}

std::vector<TriedCaution> weather() {
  using enum Verdict;
  return {
      {"small_craft",
       "fog",
       cautions,
       [](Findings& f) { f.passage.visibility = nautical_miles(0.9); },
       {}},
      {"small_craft", "thunder", cautions, [](Findings& f) { f.passage.thunder = 0.2; }, {}},
      {"small_craft", "thunder", cautions, [](Findings& f) { f.passage.thunder = nobody(); }, {}},
      {"small_craft", "gale", outside_limits,
       [](Findings& f) {
         f.passage.design_category = DesignCategory::a;
         f.passage.wind = knots(34);
       },
       [](Findings& f) { f.passage.wind = nobody(); }},
      {"small_craft", "wind over the design category", outside_limits,
       [](Findings& f) { f.passage.wind = knots(28); },  // C: 27 kn
       [](Findings& f) {
         f.passage.design_category = std::nullopt;
         f.passage.wind = knots(17);  // over D's 16 kn: another category might allow it
       }},
      {"small_craft", "waves over the design category", outside_limits,
       [](Findings& f) { f.passage.wave = metres(2.1); },  // C: 2 m
       [](Findings& f) {
         f.passage.design_category = std::nullopt;
         f.passage.wave = metres(0.4);  // over D's 0.3 m
       }},
      {"small_craft",
       "wind not known",
       cannot_tell,
       [](Findings& f) { f.passage.wind = nobody(); },
       {}},
      {"small_craft",
       "old forecast",
       cautions,
       [](Findings& f) { f.passage.forecast_age = std::chrono::hours(7); },
       {}},
      {"small_craft",
       "forecast ends too soon",
       cautions,
       [](Findings& f) { f.passage.forecast_covers = false; },
       {}},
      {"small_craft", "gusts", cautions, [](Findings& f) { f.passage.gust = knots(20); },
       [](Findings& f) { f.passage.gust = nobody(); }},
      {"small_craft", "waves in open reaches", cautions,
       [](Findings& f) { f.passage.wave = feet(3); },
       [](Findings& f) { f.passage.wave = nobody(); }},
      {"small_craft", "wind against current", cautions,
       [](Findings& f) {
         f.legs[0].open_water = true;
         f.legs[0].wind = Wind{WindFrom{TrueBearing::from_degrees(0)}, knots(12)};
         f.legs[0].current = Current{SetToward{TrueBearing::from_degrees(0)}, knots(1)};
       },
       [](Findings& f) {
         f.legs[0].open_water = true;
         f.legs[0].wind = Wind{WindFrom{TrueBearing::from_degrees(0)}, knots(12)};
         f.legs[0].current = nobody();
       }},
      {"small_craft",
       "wind on the berth",
       cautions,
       [](Findings& f) {
         f.depths[0].open_to_wind = true;
         f.depths[0].wind = Wind{WindFrom{TrueBearing::from_degrees(0)}, knots(15)};
       },
       {}},
      {"small_craft",
       "refuge lost with the tide",
       cautions,
       [](Findings& f) { f.refuges[0].floats_at_chart_datum = false; },
       {}},
      {"small_craft",
       "gusts not known",
       cautions,
       [](Findings& f) { f.passage.gust = nobody(); },
       {}},
      {"learners", "pointing far up in a channel", outside_limits,
       [](Findings& f) { f.legs[0].steer_true = f.legs[0].course + degrees(16); },
       [](Findings& f) { f.legs[0].steer_true = nobody(); }},
      {"renters",
       "wind to plan for",
       cautions,
       [](Findings& f) { f.passage.wind = knots(15.5); },
       {}},
      {"renters", "wind over the renters' limit", outside_limits,
       [](Findings& f) { f.passage.gust = knots(25.5); },
       [](Findings& f) { f.passage.gust = nobody(); }},
      {"renters", "old forecast", outside_limits,
       [](Findings& f) { f.passage.forecast_age = std::chrono::hours(7); },
       [](Findings& f) { f.passage.forecast_age = nobody(); }},
      {"learners", "wind on the beam in a channel", outside_limits,
       [](Findings& f) {
         f.legs[0].wind = Wind{WindFrom{TrueBearing::from_degrees(90)}, knots(15.5)};
       },
       [](Findings& f) { f.legs[0].wind = nobody(); }}};
}

std::vector<TriedCaution> on_the_way() {
  using enum Verdict;
  return {{"small_craft",
           "current not known",
           cautions,
           [](Findings& f) { f.legs[0].current = nobody(); },
           {}},
          {"small_craft",
           "no headway",
           outside_limits,
           [](Findings& f) { f.legs[0].makes_headway = false; },
           {}},
          {"small_craft",
           "cannot hold the line",
           outside_limits,
           [](Findings& f) { f.legs[0].holds_line = false; },
           {}},
          {"small_craft",
           "danger to leeward",
           cautions,
           [](Findings& f) { f.dangers[0].reached_in = std::chrono::minutes(9); },
           {}},
          {"small_craft", "too deep to anchor before a danger", cautions,
           [](Findings& f) {
             f.dangers[0].reached_in = std::chrono::minutes(9);
             f.dangers[0].anchor_would_hold = false;
           },
           [](Findings& f) {
             f.dangers[0].reached_in = std::chrono::minutes(9);
             f.dangers[0].anchor_would_hold = nobody();
           }},
          {"small_craft",
           "danger in the way",
           cautions,
           [](Findings& f) {
             f.dangers[0].distance = metres(0);
             f.dangers[0].reached_in = Interval(0);
           },
           {}},
          {"small_craft",
           "drift not known",
           cautions,
           [](Findings& f) { f.dangers[0].reached_in = nobody(); },
           {}},
          {"renters", "danger close to leeward", outside_limits,
           [](Findings& f) {
             f.dangers[0].reached_in = std::chrono::minutes(4);
             f.dangers[0].anchor_would_hold = false;
           },
           [](Findings& f) {
             f.dangers[0].reached_in = std::chrono::minutes(4);
             f.dangers[0].anchor_would_hold = nobody();
           }},
          {"small_craft",
           "mark on the wrong hand",
           cautions,
           [](Findings& f) { f.marks[0].agrees = false; },
           {}},
          {"small_craft",
           "side not known",
           cautions,
           [](Findings& f) {
             f.marks[0].should_lie_to = nobody();
             f.marks[0].agrees = nobody();
           },
           {}},
          {"small_craft",
           "private marks",
           within_limits,
           [](Findings& f) { f.marks[0].kept_by = KeptBy::unofficial; },
           {}},
          {"small_craft",
           "in the dark",
           cautions,
           [](Findings& f) { f.legs[0].light = Light::dark; },
           {}},
          {"renters", "out of daylight", outside_limits,
           [](Findings& f) { f.light.before_sunset = std::chrono::minutes(59); },
           [](Findings& f) { f.light.before_sunset = nobody(); }}};
}

std::vector<TriedCaution> all_hazards() {
  std::vector<TriedCaution> all;
  for (const auto& some : {under_the_keel(), overhead(), weather(), on_the_way()}) {
    all.insert(all.end(), some.begin(), some.end());
  }
  return all;
}

/// Its test can never hold, only be unknown; "measure the draft" says it instead.
const std::set<std::string> kNeverFires = {"draft not measured"};

std::set<std::string> fired(const Judgement& judgement) {
  std::set<std::string> ids;
  for (const Caution& caution : judgement.cautions) ids.insert(caution.id);
  return ids;
}

std::set<std::string> left_open(const Judgement& judgement) {
  std::set<std::string> ids;
  for (const NotChecked& unchecked : judgement.not_checked) ids.insert(unchecked.id);
  return ids;
}

Findings changed(const Change& change) {
  Findings found = given::findings();
  change(found);
  return found;
}

TEST(ShippedRules, AllIsWellWithinLimits) {
  for (const char* name : {"small_craft", "renters", "learners"}) {
    const Judgement judgement = judge(given::shipped_rules(name), given::findings());
    EXPECT_EQ(judgement.verdict, Verdict::within_limits) << name;
    EXPECT_EQ(fired(judgement), std::set<std::string>{}) << name;
    EXPECT_EQ(left_open(judgement), std::set<std::string>{}) << name;
  }
}

TEST(ShippedRules, EachCautionFiresOnItsHazard) {
  for (const TriedCaution& hazard : all_hazards()) {
    const Judgement judgement = judge(given::shipped_rules(hazard.rules), changed(hazard.fires));
    EXPECT_TRUE(fired(judgement).contains(hazard.id)) << hazard.id;
    EXPECT_EQ(judgement.verdict, hazard.verdict) << hazard.id;
  }
}

TEST(ShippedRules, EachCautionIsLeftOpenWhereItsFactsAreNotKnown) {
  for (const TriedCaution& hazard : all_hazards()) {
    if (!hazard.unknown) continue;
    const Judgement judgement = judge(given::shipped_rules(hazard.rules), changed(hazard.unknown));
    EXPECT_TRUE(left_open(judgement).contains(hazard.id)) << hazard.id;
    for (const NotChecked& unchecked : judgement.not_checked) {
      if (unchecked.id != hazard.id || !unchecked.limit) continue;
      EXPECT_EQ(judgement.verdict, Verdict::cannot_tell) << hazard.id;
    }
  }
}

TEST(ShippedRules, EveryCautionHasItsHazardHere) {
  std::set<std::string> tried = kNeverFires;
  for (const TriedCaution& hazard : all_hazards()) tried.insert(hazard.id);
  for (const char* name : {"small_craft", "renters", "learners"}) {
    for (const Rule& rule : given::shipped_rules(name).rules) {
      EXPECT_TRUE(tried.contains(rule.id)) << rule.id;
    }
  }
}

TEST(ShippedRules, ToldDraftIsNoDraft) {
  const Judgement judgement =
      judge(given::shipped_rules("small_craft"),
            changed([](Findings& f) { f.passage.draft_is = Basis::not_stated; }));
  EXPECT_TRUE(left_open(judgement).contains("draft not measured"));
  EXPECT_EQ(judgement.verdict, Verdict::cannot_tell);
}

TEST(ShippedRules, ToldAirDraftBreaksTheLimitWhereItBreaksAnyway) {
  // As told there is room: cannot tell. As told there is none: outside limits.
  const RuleSet rules = given::shipped_rules("small_craft");
  Findings found = given::findings();
  found.passage.air_draft_is = Basis::told;
  EXPECT_EQ(judge(rules, found).verdict, Verdict::cannot_tell);
  lower_the_bridge(found, 8.1);
  found.bridges[0].fits_with = nobody();
  EXPECT_EQ(judge(rules, found).verdict, Verdict::outside_limits);
}

TEST(ShippedRules, ABerthOfWhichTheErrorIsNotKnownClosesNothing) {
  Findings found = given::findings();
  found.depths[0].under_keel_could_be = nobody();
  found.depths[0].tide_is = Trend::falling;
  EXPECT_EQ(judge(given::shipped_rules("small_craft"), found).verdict, Verdict::cautions);
}

TEST(ShippedRules, AShutDrawbridgeIsNoLimitByItself) {
  Findings found = given::findings();
  BridgeFinding& bridge = found.bridges[0];
  bridge.what = BridgeKind::bascule;
  bridge.opening_needed = true;
  bridge.fits = false;
  bridge.fits_with = nobody();
  lower_the_bridge(found, 20);
  found.passage.air_draft_is = Basis::told;
  found.cables.clear();
  const Judgement judgement = judge(given::shipped_rules("small_craft"), found);
  EXPECT_FALSE(left_open(judgement).contains("mast under a bridge"));
}

TEST(ShippedRules, AMastThatFitsAShutDrawbridgeByHearsayIsNotKnownToFit) {
  Findings found = given::findings();
  found.bridges[0].what = BridgeKind::swing;
  found.passage.air_draft_is = Basis::told;
  const Judgement judgement = judge(given::shipped_rules("small_craft"), found);
  EXPECT_TRUE(left_open(judgement).contains("mast under a bridge"));
}

/// Better is less: both "cannot tell" and "outside limits" say "do not leave".
int rank(Verdict verdict) {
  switch (verdict) {
    case Verdict::within_limits:
      return 0;
    case Verdict::cautions:
      return 1;
    case Verdict::cannot_tell:
    case Verdict::outside_limits:
      return 2;
  }
  return 2;
}

// A waterway that names no current station anywhere is common, and is a caution, not "cannot tell":
// so a leg known to be beyond the boat may become a leg whose current nobody stated.
const std::set<std::string> kCurrentMayBeUnstated = {"no headway", "cannot hold the line"};

/// From files some facts are never unknown alone: what they come from is unknown with them.
void make_its_cause_not_known(Findings& f, const std::string& what) {
  const auto is = [&what](const char* name) { return what.ends_with(std::string(" ") + name); };
  if (is("surveyed")) {  // how much may have shoaled since, and so the error
    for (Depth& depth : f.depths) depth.under_keel_could_be = nobody();
  }
  if (is("wind")) f.passage.wind = nobody();
  if (is("current") || is("spare_width")) f.legs[0].current = nobody();
  if (is("opening_needed")) {  // whether she fits
    for (OverMast& state : f.bridges[0].over_mast) state.over_mast = nobody();
  }
}

/// A channel drawn as a line has its width; only areas have none.
bool is_drawn(const std::string& what) { return what.ends_with(" channel_width"); }

TEST(ShippedRules, NoFactMadeNotKnownEverRaisesTheVerdict) {
  std::size_t tried = 0;
  for (const char* name : {"small_craft", "renters", "learners"}) {
    const RuleSet rules = given::shipped_rules(name);
    std::vector<std::pair<std::string, Findings>> starts = {
        {"all well", given::findings()}, {"with a bar", given::findings_with_bar()}};
    for (const TriedCaution& hazard : all_hazards()) {
      if (kCurrentMayBeUnstated.contains(hazard.id)) continue;
      starts.emplace_back(hazard.id, changed(hazard.fires));
      if (hazard.unknown) starts.emplace_back(hazard.id, changed(hazard.unknown));
    }
    for (auto& [start, found] : starts) {
      const int before = rank(judge(rules, found).verdict);
      const Findings untouched = found;
      given::for_each_known(found, [&](const std::string& what, const auto& make_not_known) {
        if (is_drawn(what)) return;
        make_not_known();
        make_its_cause_not_known(found, what);
        EXPECT_GE(rank(judge(rules, found).verdict), before)
            << name << ": " << start << ": " << what;
        ++tried;
        found = untouched;
      });
    }
  }
  EXPECT_GT(tried, 3000U);
}

}  // namespace
}  // namespace passage_brief
