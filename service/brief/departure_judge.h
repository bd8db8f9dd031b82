// One departure after another along the same route, through judge_departure.
//
// Past the forecast (a part of the way beyond its hours, or older at departure than the rules
// allow) a departure is judged by the hours the forecast has, however old, and as if calm and clear
// past them, which leaves the limits that need no forecast: tide, bridges, current and light. It is
// then no more than that: JudgedOn says so.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "brief/judge_departure.h"
#include "brief/window.h"
#include "facts/facts.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "rules/rule_set.h"
#include "units/time.h"

namespace passage_brief {

/// Where the rules are asked to be sure the findings are at_their_least().
struct JudgedMinute {
  JudgedDeparture departure;
  JudgedOn judged_on;
  bool good;  // every limit is kept, through the stay and on the way back too
  // Of a departure with a way back: the way out by itself, and the way back where it is known when
  // she leaves again.
  bool good_out = good;
  JudgedOn out_judged_on = judged_on;
  Interval stay = Interval(0);
  std::optional<JudgedDeparture> back = std::nullopt;
  bool lacks_way_back = false;  // it is not known when she leaves again
  bool good_back = true;
  JudgedOn back_judged_on = judged_on;
};

/// One way of a judged minute.
struct JudgedWay {
  const RouteSurvey* survey;
  const JudgedDeparture* departure;
  JudgedOn judged_on;
  bool good;
  Interval stay;  // in the berth it ends in
};

class DepartureJudge {
 public:
  /// Departures are asked for within `span`. All arguments must outlive the judge.
  DepartureJudge(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                 const RuleSet& rules, Span span);

  [[nodiscard]] JudgedMinute at(Instant departs) const;
  /// By judge_limits(): for who asks only whether it is good, and what is left.
  [[nodiscard]] JudgedMinute limits_at(Instant departs) const;
  /// As if calm and clear past the hours of the forecast, which is never old.
  [[nodiscard]] const Facts& calm_facts() const { return calm_; }
  [[nodiscard]] const Facts& facts() const { return facts_; }
  [[nodiscard]] const RuleSet& rules() const { return rules_; }
  /// The way out, and the way back where there is one. The minute must outlive them.
  [[nodiscard]] std::vector<JudgedWay> ways_of(const JudgedMinute& minute) const;

 private:
  struct Judged {
    JudgedDeparture departure;
    JudgedOn judged_on;
    bool good;
  };
  using Way = JudgedDeparture (*)(const RouteSurvey&, const Plan&, const Facts&, const RuleSet&);
  [[nodiscard]] JudgedMinute judged_at(Instant departs, Way judge_way, const RuleSet& rules) const;
  [[nodiscard]] Judged one_way(const RouteSurvey& survey, const Plan& plan, Way judge_way,
                               const RuleSet& rules) const;

  const RouteSurvey& survey_;
  const Plan& plan_;
  const Facts& facts_;
  const RuleSet& rules_;
  RuleSet limits_;  // the rules that are one
  Facts calm_;
  std::unique_ptr<const RouteSurvey> back_survey_;  // where the plan has a way back
};

/// What is left beyond its margin at every place where something is measured against one, in order
/// of kind and passing. A bridge that opens for the boat is none.
[[nodiscard]] std::vector<ToSpare> all_to_spare(const Findings& findings);
/// The least of them, the first of equals; empty where there is none.
[[nodiscard]] std::optional<ToSpare> tightest(const Findings& findings);
/// Of both ways; what is met on the way back is called so.
[[nodiscard]] std::optional<ToSpare> tightest(const JudgedMinute& minute);

/// The limits that are not kept: broken ones by grade and in order of passing, then those that
/// cannot tell.
[[nodiscard]] std::vector<WindowEdge> limits_not_kept(const Judgement& judgement);
/// Of both ways, those broken on the way out first.
[[nodiscard]] std::vector<WindowEdge> limits_not_kept(const JudgedMinute& minute);

}  // namespace passage_brief
