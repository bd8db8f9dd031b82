#include "brief/sure_between.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

#include "brief/alike.h"
#include "brief/danger_horizon.h"
#include "brief/dangers_between.h"
#include "brief/departure_judge.h"
#include "brief/swings.h"
#include "brief/truths.h"
#include "brief/truths_between.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "rules/fact_table.h"
#include "rules/kleene.h"
#include "rules/rule_set.h"
#include "rules/test_truth.h"
#include "rules/verdict.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

// Kinds of which one thing by itself may shut the way, the soonest told first.
constexpr SubjectKind kLeastWorkFirst[] = {
    SubjectKind::light,  SubjectKind::reach, SubjectKind::bar, SubjectKind::berth,
    SubjectKind::bridge, SubjectKind::cable, SubjectKind::leg, SubjectKind::passage};

/// The same danger in another departure: they are known by their names.
std::optional<std::size_t> same_danger(const Danger& danger, const Findings& there) {
  for (std::size_t i = 0; i < there.dangers.size(); ++i) {
    const Danger& other = there.dangers[i];
    if (other.leg == danger.leg && other.name == danger.name && other.what == danger.what) return i;
  }
  return std::nullopt;
}

const Truths kKept = Truths::of(Truth::no);  // a rule states the bad state

/// Whether every limit is kept in every departure between.
class AlwaysKept {
 public:
  AlwaysKept(const JudgedWay& earlier, const JudgedWay& later, const Facts& facts,
             const RuleSet& rules)
      : first_(earlier.departure->findings),
        second_(later.departure->findings),
        survey_(*later.survey),
        facts_(facts),
        rules_(rules),
        stay_(later.stay),
        between_(first_, second_, *later.survey, facts, stay_, rules.sure_95) {}

  [[nodiscard]] bool answer() const {
    return between_.times_are_between() &&
           std::ranges::all_of(places_of(first_, second_),
                               [this](const PlaceOfBoth& place) {
                                 return between_.alike_at(place) ? by_depths(place)
                                                                 : by_what_is_left(place);
                               }) &&
           std::ranges::all_of(rules_.rules, [this](const Rule& rule) {
             return !rule.limit || is_of_depth(rule.for_each) || by_subjects(rule);
           });
  }

 private:
  template <class Keeps>
  [[nodiscard]] bool all_limits_of(SubjectKind kind, const Keeps& keeps) const {
    return std::ranges::all_of(rules_.rules, [&](const Rule& rule) {
      return !rule.limit || rule.for_each != kind || keeps(rule);
    });
  }

  [[nodiscard]] bool by_depths(const PlaceOfBoth& place) const {
    return all_limits_of(place.kind, [&](const Rule& rule) {
      const bool of_parts = asks_of_parts(rule.when);
      for (std::size_t i = 0; i < place.earlier.size(); ++i) {
        if (first_.depths[place.earlier[i]].part && !of_parts) continue;
        if (between_.truths(rule.when, {place.earlier[i], place.later[i]}) != kKept) return false;
      }
      return true;
    });
  }

  [[nodiscard]] bool by_what_is_left(const PlaceOfBoth& place) const {
    if (place.kind != SubjectKind::reach) return false;
    const std::optional<LeastLeft> left = between_.swings().least_left(place);
    return left && all_limits_of(place.kind, [&](const Rule& rule) {
             const InBoth whole{place.earlier.front(), place.later.front()};
             return between_.truths(rule.when, whole, *left) == kKept;
           });
  }

  [[nodiscard]] bool by_subjects(const Rule& rule) const {
    if (rule.for_each == SubjectKind::danger) return by_dangers(rule);
    return std::ranges::all_of(subjects(first_, rule.for_each), [&](const Subject& subject) {
      return between_.truths(rule.when, {subject.index, subject.index}) == kKept;
    });
  }

  /// They come and go between.
  [[nodiscard]] bool by_dangers(const Rule& rule) const {
    for (std::size_t a = 0; a < first_.dangers.size(); ++a) {
      const std::optional<std::size_t> b = same_danger(first_.dangers[a], second_);
      const bool kept = b ? between_.truths(rule.when, {a, *b}) == kKept : kept_at(rule, first_, a);
      if (!kept) return false;
    }
    for (std::size_t b = 0; b < second_.dangers.size(); ++b) {
      if (!same_danger(second_.dangers[b], first_) && !kept_at(rule, second_, b)) return false;
    }
    return is_seen_at_both(rule) &&
           no_danger_between_alone(first_, second_, survey_, facts_, between_.swings().currents());
  }

  /// By as much as a danger strays that one end alone comes near.
  [[nodiscard]] bool kept_at(const Rule& rule, const Findings& end, std::size_t danger) const {
    const TruthsBetween alone(end, end, survey_, facts_, stay_, rules_.sure_95);
    return alone.truths(rule.when, {danger, danger}) == kKept;
  }

  const Findings& first_;
  const Findings& second_;
  const RouteSurvey& survey_;
  const Facts& facts_;
  const RuleSet& rules_;
  Interval stay_;
  TruthsBetween between_;
};

/// Whether one thing that both meet keeps some limit from being kept in every departure between.
bool never_kept(const JudgedWay& earlier, const JudgedWay& later, const Facts& facts,
                const RuleSet& rules) {
  const Findings& first = earlier.departure->findings;
  const TruthsBetween between(first, later.departure->findings, *later.survey, facts, later.stay,
                              rules.sure_95);
  const auto shuts = [&](const Subject& subject, const InBoth& thing) {
    return std::ranges::any_of(rules.rules, [&](const Rule& rule) {
      return rule.limit && rule.for_each == subject.kind &&
             (!is_part(subject, first) || asks_of_parts(rule.when)) &&
             !between.truths(rule.when, thing).may_be(Truth::no);
    });
  };
  for (const SubjectKind kind : kLeastWorkFirst) {
    for (const Subject& subject : subjects(first, kind)) {
      const std::optional<InBoth> thing = between.in_both(subject);
      if (!thing) continue;
      const std::vector<InBoth> cases = between.cases_of(kind, *thing);
      if (std::ranges::all_of(cases, [&](const InBoth& one) { return shuts(subject, one); })) {
        return true;
      }
    }
  }
  return false;
}

}  // namespace

std::optional<bool> good_throughout(const JudgedWay& earlier, const JudgedWay& later,
                                    const Facts& facts, const RuleSet& rules) {
  if (earlier.good != later.good) return std::nullopt;
  if (earlier.good) {
    const bool sure = AlwaysKept(earlier, later, facts, rules).answer();
    return sure ? std::optional<bool>(true) : std::nullopt;
  }
  return never_kept(earlier, later, facts, rules) ? std::optional<bool>(false) : std::nullopt;
}

std::optional<Length> most_to_spare_between(const JudgedWay& earlier, const JudgedWay& later,
                                            const Facts& facts, const RuleSet& rules) {
  const Findings& first = earlier.departure->findings;
  const Findings& second = later.departure->findings;
  const TruthsBetween between(first, second, *later.survey, facts, later.stay, rules.sure_95);
  if (earlier.judged_on != later.judged_on || !between.times_are_between()) return std::nullopt;
  const std::vector<ToSpare> to = all_to_spare(second);
  std::optional<Length> least;
  const auto take = [&](const ToSpare& from, std::size_t there) {
    const auto other = std::ranges::find_if(to, [&](const ToSpare& one) {
      return one.about.kind == from.about.kind && one.about.index == there;
    });
    if (other == to.end()) return;
    const Length most = std::max(from.left, other->left) +
                        between.swings().rise_of(from.about.kind, from.about.index, there);
    least = std::min(least.value_or(most), most);
  };
  const std::vector<PlaceOfBoth> places = places_of(first, second);
  for (const ToSpare& from : all_to_spare(first)) {
    const std::size_t index = from.about.index;
    // A bridge that opens for her is none to squeeze under.
    const bool overhead =
        from.about.kind == SubjectKind::cable || from.about.kind == SubjectKind::bridge;
    if (overhead && between.swings().antennas_stay(from.about.kind, index)) take(from, index);
    for (const PlaceOfBoth& place : places) {
      const bool of_it = place.kind == from.about.kind && place.earlier.front() == index;
      if (of_it && between.alike_at(place)) take(from, place.later.front());
    }
  }
  return least;
}

}  // namespace passage_brief
