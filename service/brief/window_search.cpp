#include "brief/window_search.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "brief/alert_cautions.h"
#include "brief/departure_judge.h"
#include "brief/departure_windows.h"
#include "brief/judge_departure.h"
#include "brief/minute_scan.h"
#include "brief/out_and_back.h"
#include "brief/window.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "rules/rule_set.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr std::chrono::minutes kLate{30};
constexpr double kSlow = 0.8;  // of every speed
constexpr std::chrono::days kAnotherTide{7};

std::vector<Window> only_windows(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                                 const RuleSet& rules, Span span) {
  const DepartureJudge judge(survey, plan, facts, rules, span);
  const Minutes minutes = minutes_of(span);
  return windows_among(judge, minutes, scan_minutes(judge, minutes));
}

/// The first window in a span, looked for in its first day, then two, and so on: most often the
/// next tide has it. A window that runs to the end of what was looked over is looked at again, with
/// more.
std::optional<Window> first_window(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                                   const RuleSet& rules, Span span) {
  for (std::chrono::days over{1};; over *= 2) {
    const Instant end = std::min<Instant>(span.begin + over, span.end);
    const std::vector<Window> windows = only_windows(survey, plan, facts, rules, {span.begin, end});
    if (end == span.end) return windows.empty() ? std::nullopt : std::optional(windows.front());
    if (!windows.empty() && windows.front().closes + std::chrono::minutes(1) < end) {
      return windows.front();
    }
  }
}

Plan slowed(Plan plan, double share) {
  plan.vessel.cruise = plan.vessel.cruise * share;
  plan.vessel.slow = plan.vessel.slow * share;
  return plan;
}

std::vector<AnotherWay> other_ways(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                                   const RuleSet& rules, Span span) {
  std::vector<AnotherWay> ways;
  const auto add_first = [&](const std::string& how, const Plan& other, Span in) {
    const std::optional<Window> window = first_window(survey, other, facts, rules, in);
    if (window) ways.push_back({how, *window});
  };
  Plan slow = plan;
  slow.vessel.cruise = plan.vessel.slow;
  add_first("at slow speed all the way", slow, span);
  const Span later{span.end + std::chrono::minutes(1), span.end + kAnotherTide};
  if (Zone::covers(later.end)) {
    add_first("on another tide", plan, later);
  }
  return ways;
}

/// What is left at the same place on another passage.
Known<Length> left_at(const ToSpare& place, const Findings& findings) {
  for (const ToSpare& other : all_to_spare(findings)) {
    if (other.about.kind == place.about.kind && other.about.name == place.about.name) {
      return other.left;
    }
  }
  return not_known("the figure at " + place.about.name + " is not known then");
}

/// The same passage by another plan, both ways.
Otherwise compared(const std::string& how, const RouteSurvey& survey, const Plan& plan,
                   const Facts& facts, const RuleSet& rules, const std::optional<ToSpare>& here) {
  const JudgedDeparture other = judge_departure(survey, plan, facts, rules);
  JudgedMinute both{other, JudgedOn::everything, true};
  Verdict verdict = other.judgement.verdict;
  if (plan.back) {
    Verdict back = Verdict::cannot_tell;
    if (const auto leaves = leaves_again(other.findings, plan.back->stay)) {
      const Plan again = plan_of_way_back(plan, *leaves);
      const RouteSurvey way(again, facts.waterway, rules.margins);
      both.back = judge_departure(way, again, facts, rules);
      back = both.back->judgement.verdict;
    } else {
      both.lacks_way_back = true;
    }
    verdict = worse_of(verdict, back);
  }
  Otherwise result{.how = how,
                   .verdict = verdict,
                   .tightest = std::nullopt,
                   .costs = not_known("nothing is measured against a margin"),
                   .closed_by = std::nullopt};
  std::vector<WindowEdge> broken = limits_not_kept(both);
  if (!broken.empty()) result.closed_by = std::move(broken.front());
  if (here) {
    result.tightest = here->about;
    result.costs =
        join([&here](Length left) { return here->left - left; }, left_at(*here, other.findings));
  }
  return result;
}

}  // namespace

WindowList windows_in(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                      const RuleSet& rules, Span span) {
  const DepartureJudge judge(survey, plan, facts, rules, span);
  const Minutes minutes = minutes_of(span);
  const std::vector<MinuteFound> found = scan_minutes(judge, minutes);
  const Span all_ways{span.begin, span.end + kPassageOfUnknownLength};
  WindowList list{span, windows_among(judge, minutes, found), std::nullopt, rules.sure_95,
                  alert_cautions(facts, all_ways)};
  if (list.windows.empty() && minutes.count > 0) {
    list.none = no_window_among(judge, minutes, found);
    list.none->would_open = other_ways(survey, plan, facts, rules, span);
  }
  return list;
}

std::vector<Otherwise> late_and_slow(const RouteSurvey& survey, const Plan& plan,
                                     const Facts& facts, const RuleSet& rules,
                                     const Findings& found) {
  const std::optional<ToSpare> here = tightest(found);
  Plan late = plan;
  late.departure.at += kLate;
  return {compared("30 minutes late", survey, late, facts, rules, here),
          compared("20 % slow", survey, slowed(plan, kSlow), facts, rules, here)};
}

}  // namespace passage_brief
