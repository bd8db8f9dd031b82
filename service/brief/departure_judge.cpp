#include "brief/departure_judge.h"

#include <algorithm>
#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "brief/judge_departure.h"
#include "brief/out_and_back.h"
#include "brief/window.h"
#include "facts/facts.h"
#include "facts/weather/wind_series.h"
#include "passage/findings.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "rules/at_their_least.h"
#include "rules/fact_table.h"
#include "rules/rule_set.h"
#include "rules/verdict.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr std::chrono::hours kCalmStep{3};
// Longer than any passage whose end is known: 12 nm/h against the longest route, with waits.
constexpr std::chrono::days kLongestPassage{60};

constexpr std::chrono::seconds kJoint{1};  // between the forecast and the calm beside it

WindHour calm_hour(Instant at) {
  return {at,
          WindFrom{TrueBearing::from_degrees(0)},
          knots(0),
          knots(0),
          std::nullopt,  // no pressure: it moves no level
          nautical_miles(50),
          metres(0),
          0.0};
}

/// The hours given, and calm and clear before and after them from the begin of the span on.
WindSeries filled(const std::vector<WindHour>& given, Source source,
                  std::optional<Position> position, Span span) {
  std::vector<WindHour> hours;
  const Instant begin = span.begin - kCalmStep;
  const Instant end = span.end + kLongestPassage + kCalmStep;
  if (given.empty()) {
    for (Instant at = begin; at < end; at += kCalmStep) hours.push_back(calm_hour(at));
    return {std::move(source), position, std::move(hours)};
  }
  const Instant before = given.front().at - kJoint;
  for (Instant at = begin; at < before; at += kCalmStep) hours.push_back(calm_hour(at));
  if (begin < before) hours.push_back(calm_hour(before));
  hours.insert(hours.end(), given.begin(), given.end());
  for (Instant at = given.back().at + kJoint; at < end; at += kCalmStep) {
    hours.push_back(calm_hour(at));
  }
  return {std::move(source), position, std::move(hours)};
}

/// The forecasts with calm past their hours, issued after the span: never old. What they do say
/// still counts: a gale in an old forecast is a gale.
std::vector<WindSeries> calm_past_the_hours(const std::vector<WindSeries>& winds, Span span) {
  const Source source{"the forecast, calm past its hours", "assumed", span.end};
  std::vector<WindSeries> all;
  for (const WindSeries& series : winds) {
    all.push_back(filled(series.hours(), source, series.position(), span));
  }
  if (all.empty()) all.push_back(filled({}, source, std::nullopt, span));
  return all;
}

/// Whether past_the_forecast() will find it so whatever is met on the way: then it need not be
/// asked.
bool leaves_past_the_forecast(const Facts& facts, const Margins& margins, Instant departs) {
  Interval oldest = Interval::min();
  for (const WindSeries& series : facts.winds) {
    if (series.covers().end < departs) return true;
    if (!series.source().issued) return false;
    oldest = std::max(oldest, departs - *series.source().issued);
  }
  return oldest > margins.forecast_age;
}

/// Where the arrival is not known the forecast cannot be said to reach to it.
bool past_the_forecast(const Findings& findings) {
  const PassageFinding& passage = findings.passage;
  if (passage.forecast_covers != Known<bool>(true)) return true;
  return passage.forecast_age.has_value() && *passage.forecast_age > findings.margins.forecast_age;
}

void add_left(std::vector<ToSpare>& all, const Known<Length>& figure, Length margin,
              SubjectKind kind, std::size_t index, const std::string& name,
              const Passing& passing) {
  if (!figure.has_value()) return;
  all.push_back({*figure - margin, {kind, index, name, passing.along}, passing.at});
}

}  // namespace

std::string in_words(JudgedOn judged_on) {
  switch (judged_on) {
    case JudgedOn::everything:
      return "everything";
    case JudgedOn::tide_and_light:
      return "tide and light";
  }
  return {};
}

DepartureJudge::DepartureJudge(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                               const RuleSet& rules, Span span)
    : survey_(survey), plan_(plan), facts_(facts), rules_(rules), limits_(rules), calm_(facts) {
  std::erase_if(limits_.rules, [](const Rule& rule) { return !rule.limit; });
  calm_.winds = calm_past_the_hours(facts.winds, span);
  if (plan.back) {
    back_survey_ = std::make_unique<const RouteSurvey>(plan_of_way_back(plan, span.begin),
                                                       facts.waterway, rules.margins);
  }
}

DepartureJudge::Judged DepartureJudge::one_way(const RouteSurvey& survey, const Plan& plan,
                                               Way judge_way, const RuleSet& rules) const {
  const auto as_judged = [this](JudgedDeparture judged, JudgedOn on) {
    // What is left, and what can stray between two minutes, is then told of what limits are put to.
    if (rules_.sure_95) judged.findings = at_their_least(std::move(judged.findings));
    const bool good = keeps_every_limit(judged.judgement);
    return Judged{std::move(judged), on, good};
  };
  if (!leaves_past_the_forecast(facts_, rules_.margins, plan.departure.at)) {
    JudgedDeparture judged = judge_way(survey, plan, facts_, rules);
    if (!past_the_forecast(judged.findings)) {
      return as_judged(std::move(judged), JudgedOn::everything);
    }
  }
  return as_judged(judge_way(survey, plan, calm_, rules), JudgedOn::tide_and_light);
}

JudgedMinute DepartureJudge::at(Instant departs) const {
  return judged_at(departs, judge_departure, rules_);
}

JudgedMinute DepartureJudge::limits_at(Instant departs) const {
  return judged_at(departs, judge_limits, limits_);
}

JudgedMinute DepartureJudge::judged_at(Instant departs, Way judge_way, const RuleSet& rules) const {
  Plan plan = plan_;
  plan.departure.at = departs;
  Judged out = one_way(survey_, plan, judge_way, rules);
  JudgedMinute minute{std::move(out.departure), out.judged_on, out.good};
  if (!plan.back) return minute;
  minute.stay = plan.back->stay;
  const Known<Instant> leaves = leaves_again(minute.departure.findings, minute.stay);
  if (!leaves.has_value()) {
    minute.good = false;
    minute.lacks_way_back = true;
    return minute;
  }
  Judged back = one_way(*back_survey_, plan_of_way_back(plan, *leaves), judge_way, rules);
  minute.back = std::move(back.departure);
  minute.good_back = back.good;
  minute.back_judged_on = back.judged_on;
  minute.good = out.good && back.good;
  minute.judged_on = std::max(out.judged_on, back.judged_on);
  return minute;
}

std::vector<JudgedWay> DepartureJudge::ways_of(const JudgedMinute& minute) const {
  std::vector<JudgedWay> ways{
      {&survey_, &minute.departure, minute.out_judged_on, minute.good_out, minute.stay}};
  if (minute.back) {
    ways.push_back(
        {back_survey_.get(), &*minute.back, minute.back_judged_on, minute.good_back, Interval(0)});
  }
  return ways;
}

std::vector<ToSpare> all_to_spare(const Findings& findings) {
  std::vector<ToSpare> all;
  for (std::size_t i = 0; i < findings.depths.size(); ++i) {
    const Depth& depth = findings.depths[i];
    add_left(all, depth.under_keel, depth.margin, subject_kind_of(depth.place), i, depth.name,
             depth.passing);
  }
  for (std::size_t i = 0; i < findings.bridges.size(); ++i) {
    const BridgeFinding& bridge = findings.bridges[i];
    const bool opens_for_her =
        bridge.opening && bridge.opening->through_opening == Known<bool>(true);
    const OverMast* mast = as_passed(bridge);
    if ((opens_for_her && !bridge.open_span) || mast == nullptr) continue;
    add_left(all, mast->over_mast, bridge.margin, SubjectKind::bridge, i, bridge.name,
             bridge.passing);
  }
  for (std::size_t i = 0; i < findings.cables.size(); ++i) {
    const CableFinding& cable = findings.cables[i];
    add_left(all, cable.to_spare, cable.margin, SubjectKind::cable, i, cable.name, cable.passing);
  }
  return all;
}

std::optional<ToSpare> tightest(const Findings& findings) {
  const std::vector<ToSpare> all = all_to_spare(findings);
  const auto least = std::ranges::min_element(all, {}, &ToSpare::left);
  if (least == all.end()) return std::nullopt;
  return *least;
}

std::optional<ToSpare> tightest(const JudgedMinute& minute) {
  std::optional<ToSpare> least = tightest(minute.departure.findings);
  if (!minute.back) return least;
  std::optional<ToSpare> back = tightest(minute.back->findings);
  if (!back || (least && least->left <= back->left)) return least;
  back->about.name += " (way back)";
  return back;
}

std::vector<WindowEdge> limits_not_kept(const JudgedMinute& minute) {
  std::vector<WindowEdge> all = limits_not_kept(minute.departure.judgement);
  if (minute.back) {
    for (WindowEdge& edge : limits_not_kept(minute.back->judgement)) {
      all.push_back(std::move(edge));
      all.back().on_the_way_back = true;
    }
  }
  if (minute.lacks_way_back) {
    all.push_back({.limit = "time of the way back",
                   .about = {SubjectKind::passage, 0, "the passage", std::nullopt},
                   .state = LimitState::cannot_tell,
                   .say = {},
                   .because = minute.departure.findings.passage.arrives.error(),
                   .on_the_way_back = true});
  }
  std::ranges::stable_partition(
      all, [](const WindowEdge& edge) { return edge.state == LimitState::broken; });
  return all;
}

std::vector<WindowEdge> limits_not_kept(const Judgement& judgement) {
  std::vector<WindowEdge> all;
  for (const Caution& caution : judgement.cautions) {
    if (!caution.limit) continue;
    all.push_back({caution.id, caution.about, LimitState::broken, caution.say, {}});
  }
  for (const NotChecked& unchecked : judgement.not_checked) {
    if (!unchecked.limit) continue;
    all.push_back({unchecked.id, unchecked.about, LimitState::cannot_tell, {}, unchecked.because});
  }
  return all;
}

}  // namespace passage_brief
