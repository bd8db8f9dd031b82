#include "rules/fact_table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "given/csv_table.h"
#include "given/findings.h"
#include "given/rules.h"
#include "rules/judge.h"
#include "rules/rule_set.h"

namespace passage_brief {
namespace {

std::string label(const Fact& fact) { return std::string(in_words(fact.of)) + " " + fact.name; }

/// Findings with one of every kind of subject.
Findings one_of_each() { return given::findings_with_bar(); }

TEST(FactTable, NamesAreOncePerKindAndFreeForTheLanguage) {
  std::set<std::string> seen;
  for (const Fact& fact : fact_table()) {
    EXPECT_TRUE(seen.insert(label(fact)).second) << label(fact);
    EXPECT_FALSE(fact.meaning.empty()) << label(fact);
    for (const char* taken : {"all", "any", "not", "why"}) EXPECT_NE(fact.name, taken);
    EXPECT_EQ(fact.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz_"), std::string::npos)
        << label(fact);
  }
}

/// Toward caution: who leaves at the minute printed leaves after sunrise, who is in by it is in
/// before sunset, and who asks by it asks in time.
TEST(FactTable, TimesToKeepRoundInward) {
  EXPECT_EQ(find_fact(SubjectKind::light, "sunrise")->rounding, Rounding::up);
  EXPECT_EQ(find_fact(SubjectKind::light, "sunset")->rounding, Rounding::down);
  EXPECT_EQ(find_fact(SubjectKind::bridge, "ask_by")->rounding, Rounding::down);
}

TEST(FactTable, EveryKindHasANameAndOneSubjectEach) {
  for (const SubjectKind kind : all_subject_kinds()) {
    EXPECT_NE(find_fact(kind, "name"), nullptr);
    const std::vector<Subject> found = subjects(one_of_each(), kind);
    ASSERT_EQ(found.size(), 1U) << in_words(kind);
    const auto name = find_fact(kind, "name")->value(one_of_each(), found[0].index);
    EXPECT_EQ(std::get<std::string>(name.value()), found[0].name) << in_words(kind);
  }
}

TEST(FactTable, EveryValueIsOfItsTypeAndAmongItsWords) {
  const Findings findings = one_of_each();
  for (const Fact& fact : fact_table()) {
    const std::size_t index = subjects(findings, fact.of).at(0).index;
    const Known<FactValue> value = fact.value(findings, index);
    ASSERT_TRUE(value.has_value()) << label(fact) << ": " << in_words(value.error());
    EXPECT_EQ(value->index(), static_cast<std::size_t>(fact.type)) << label(fact);
    if (!fact.words.empty()) {
      EXPECT_EQ(std::ranges::count(fact.words, std::get<std::string>(*value)), 1) << label(fact);
    }
    if (fact.margin) {
      EXPECT_EQ(fact.margin(findings, index).index(), value->index()) << label(fact);
    }
  }
}

// One for a boat that is too slow, one for a limit on speed; each not known where any piece is not.
TEST(FactTable, OverTheGroundHasALeastAndAGreatest) {
  Findings findings = one_of_each();
  findings.track.push_back(findings.track.front());
  findings.track.front().over_ground = knots(3);
  findings.track.back().over_ground_most = knots(9);
  const auto value = [&](const char* name) {
    const Known<FactValue> found = find_fact(SubjectKind::leg, name)->value(findings, 0);
    return found.has_value() ? in_knots(std::get<Speed>(*found)) : -1;
  };
  EXPECT_NEAR(value("over_ground"), 3, 1e-9);
  EXPECT_NEAR(value("over_ground_most"), 9, 1e-9);
  findings.track.front().over_ground = not_known("no current station");
  findings.track.front().over_ground_most = not_known("no current station");
  EXPECT_EQ(value("over_ground"), -1);
  EXPECT_EQ(value("over_ground_most"), -1);
}

/// What the tests in a set of rules ask, and of which facts.
struct AskedByRules {
  std::set<std::string> facts;
  std::set<Comparison::Operator> operators;
  std::set<Joined::By> joins;
  bool margin = false;
};

void collect(AskedByRules& asked, const Test& test) {
  if (const auto* comparison = std::get_if<Comparison>(&test.what)) {
    asked.facts.insert(label(*comparison->fact));
    asked.operators.insert(comparison->op);
    asked.margin = asked.margin || comparison->against_margin;
    return;
  }
  const Joined& joined = std::get<Joined>(test.what);
  asked.joins.insert(joined.by);
  for (const Test& part : joined.parts) collect(asked, part);
}

RuleSet every_fact() {
  const std::string file = std::string(TESTS_DIR) + "/rules/every_fact.json";
  auto rules = read_rules({file, given::contents_of(file)},
                          [](std::string_view) { return std::unexpected("none"); });
  if (!rules) {
    for (const Problem& problem : rules.error()) ADD_FAILURE() << in_words(problem);
    return {"", "", given::findings().margins, {}};
  }
  return *rules;
}

TEST(EveryFact, FileAsksForAndSaysEveryFactWithEveryOperator) {
  AskedByRules asked;
  std::set<std::string> said;
  for (const Rule& rule : every_fact().rules) {
    collect(asked, rule.when);
    for (const SayPiece& piece : rule.say) {
      if (piece.fact != nullptr) said.insert(label(*piece.fact));
    }
  }
  for (const Fact& fact : fact_table()) {
    EXPECT_TRUE(asked.facts.contains(label(fact))) << label(fact);
    EXPECT_TRUE(said.contains(label(fact))) << label(fact);
  }
  EXPECT_EQ(asked.operators.size(), 7U);
  EXPECT_EQ(asked.joins.size(), 3U);
  EXPECT_TRUE(asked.margin);
}

TEST(EveryFact, EachOfItsCautionsFiresWhateverIsKnown) {
  const RuleSet rules = every_fact();
  const Findings known = one_of_each();
  Findings unknown = known;
  given::for_each_known(unknown,
                        [](const std::string&, const auto& make_not_known) { make_not_known(); });
  for (const Findings& findings : {known, unknown}) {
    const Judgement judgement = judge(rules, findings);
    EXPECT_EQ(judgement.cautions.size(), rules.rules.size());
    EXPECT_TRUE(judgement.not_checked.empty());
  }
}

// Hand arithmetic on the given findings.
TEST(FactTable, DerivedFiguresAreWhatTheyClaim) {
  Findings f = one_of_each();
  const auto value = [&](SubjectKind kind, const char* name) {
    return find_fact(kind, name)->value(f, subjects(f, kind).at(0).index).value();
  };
  const auto as_feet = [&](SubjectKind kind, const char* name) {
    return in_feet(std::get<Length>(value(kind, name)));
  };
  EXPECT_NEAR(as_feet(SubjectKind::reach, "needed"), 4 + 0.3 + 0.3, 1e-9);
  EXPECT_NEAR(as_feet(SubjectKind::reach, "short_by"), 2 - 4, 1e-9);
  EXPECT_NEAR(as_feet(SubjectKind::bridge, "over_mast"), 3, 1e-9);  // antennas up, as she passes
  EXPECT_NEAR(as_feet(SubjectKind::bridge, "over_mast_up"), 3, 1e-9);
  EXPECT_NEAR(as_feet(SubjectKind::bridge, "air_draft"), 26.7, 1e-9);
  EXPECT_NEAR(as_feet(SubjectKind::bridge, "over_mast_down"), 10, 1e-9);
  EXPECT_NEAR(as_feet(SubjectKind::bridge, "width_to_spare"), 40 - 13.5, 1e-9);
  EXPECT_NEAR(as_feet(SubjectKind::bar, "wave_height"), 0.6, 1e-9);  // 0.3 is half of it
  EXPECT_NEAR(as_feet(SubjectKind::reach, "wave_height"), 0, 1e-9);  // sheltered
  EXPECT_NEAR(as_feet(SubjectKind::passage, "least_under_keel"), 4, 1e-9);
  // Wind from east across a course of north is all on the beam; 8 kn less category C's 27 kn.
  EXPECT_NEAR(in_knots(std::get<Speed>(value(SubjectKind::leg, "wind_on_beam"))), 8, 1e-9);
  EXPECT_NEAR(in_knots(std::get<Speed>(value(SubjectKind::passage, "wind_over_category"))), -19,
              1e-9);
  EXPECT_NEAR(std::get<Angle>(value(SubjectKind::leg, "crabbing")).in_degrees(), 4, 1e-9);
  // 1 March to 14 June 14:00 is 105.58 days.
  EXPECT_NEAR(std::get<double>(value(SubjectKind::reach, "survey_age_years")), 105.58 / 365.2425,
              1e-4);
  f.legs[0].wind = Wind{WindFrom{TrueBearing::from_degrees(30)}, knots(8)};
  EXPECT_NEAR(in_knots(std::get<Speed>(value(SubjectKind::leg, "wind_on_beam"))), 4, 1e-9);
}

TEST(FactTable, WavesBreakWhereTwiceTheirHeightIsMoreThanThreeQuartersOfTheDepth) {
  // McCowan (1894): 0.78 of the depth. In 5 m of water 2 x 1.95 m = 3.9 m = 0.78 x 5 m.
  Findings f = one_of_each();
  Depth& bar = f.depths[2];
  bar.water = metres(5);
  const auto could_break = [&](double significant_m) {
    bar.wave = metres(significant_m / 2);
    return std::get<bool>(find_fact(SubjectKind::bar, "seas_could_break")->value(f, 2).value());
  };
  EXPECT_FALSE(could_break(1.94));
  EXPECT_TRUE(could_break(1.96));
  bar.open_water = false;
  EXPECT_FALSE(could_break(1.96));
}

TEST(FactTable, WithoutACategoryOnlyWhatTheLowestAllowsIsSettled) {
  Findings f = one_of_each();
  const auto passes = [&](double wind_kn) {
    f.passage.wind = knots(wind_kn);
    return find_fact(SubjectKind::passage, "wind_passes_category")->value(f, 0);
  };
  f.passage.design_category = std::nullopt;  // D: 16 kn
  EXPECT_FALSE(std::get<bool>(passes(16).value()));
  EXPECT_FALSE(passes(16.1).has_value());
  f.passage.design_category = DesignCategory::a;  // no ceiling
  EXPECT_FALSE(std::get<bool>(passes(80).value()));
  f.passage.design_category = DesignCategory::b;
  EXPECT_FALSE(std::get<bool>(passes(40).value()));
  EXPECT_TRUE(std::get<bool>(passes(40.1).value()));
}

}  // namespace
}  // namespace passage_brief
