#include "brief/prepare_brief.h"

#include <algorithm>
#include <chrono>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "brief/brief.h"
#include "brief/departure_windows.h"
#include "brief/judge_departure.h"
#include "brief/out_and_back.h"
#include "brief/window_search.h"
#include "facts/facts.h"
#include "passage/findings.h"
#include "passage/meetings.h"
#include "passage/observed_reading.h"
#include "passage/route_survey.h"
#include "passage/turning_back.h"
#include "passage/under_keel.h"
#include "plan/plan.h"
#include "rules/limit_under_keel.h"
#include "rules/rule_set.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

// A boat that has not left an hour after the time the brief is for needs another brief (our rule).
constexpr std::chrono::hours kVoidWhenNotLeftBy{1};
constexpr std::chrono::minutes kTideStep{10};

/// Index of the item with the least known figure; where none is known, of the first; nothing in an
/// empty list.
template <class Item, class Figure>
std::optional<std::size_t> least(const std::vector<Item>& items, const Figure& figure) {
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const auto next = figure(items[i]);
    if (!best) {
      best = i;
    } else if (const auto held = figure(items[*best]);
               next.has_value() && (!held.has_value() || *next < *held)) {
      best = i;
    }
  }
  return best;
}

std::optional<std::size_t> nearest_margin(const std::vector<Depth>& depths,
                                          const std::optional<std::size_t>& least_depth) {
  constexpr Length kAsNear = centimetres(1);  // our rule
  const auto left = [](const Depth& d) {
    return join([&d](Length under_keel) { return under_keel - d.margin; }, d.under_keel);
  };
  const std::optional<std::size_t> nearest = least(depths, left);
  if (!nearest || nearest == least_depth) return std::nullopt;
  const Known<Length> here = left(depths[*nearest]);
  const Known<Length> there = left(depths[*least_depth]);
  if (!here.has_value() || (there.has_value() && *there - *here < kAsNear)) return std::nullopt;
  return nearest;
}

/// Of them all with the antennas as low as they go: a low bridge passed with them down is lower
/// than a high one passed with them up, however little room is left there.
Known<Length> most_over_mast(const BridgeFinding& bridge) {
  const OverMast* mast = most_room(passed_under(bridge));
  return mast != nullptr ? mast->over_mast : not_known("the vessel has no air draft");
}

/// By the windows, where they were looked for: the end of the one she leaves in, by now if the hour
/// of departure is past; outside every one she leaves then or not by this brief.
std::optional<Instant> window_shuts(const Brief& brief) {
  if (!brief.windows_in) return std::nullopt;
  const Instant departs = brief.findings.passage.departs;
  const Instant first = std::chrono::ceil<std::chrono::minutes>(brief.windows_in->begin);
  const std::optional<Window> window = window_at(brief.windows, std::max(departs, first));
  return window ? window->closes : departs;
}

Known<Instant> void_after(const Brief& brief) {
  if (brief.judgement.verdict > Verdict::cautions) {
    return not_known("the verdict is not to leave at all");
  }
  const PassageFinding& passage = brief.findings.passage;
  const Instant late = passage.departs + kVoidWhenNotLeftBy;
  return join(
      [&](Instant forecast_ends, Interval age) {
        const Instant grown_old = passage.departs - age + brief.findings.margins.forecast_age;
        return std::min({late, forecast_ends, grown_old, window_shuts(brief).value_or(late)});
      },
      passage.forecast_ends, passage.forecast_age);
}

std::optional<DayOfTide> day_of_tide(const Facts& facts, const std::string& name, Span day) {
  const Known<const TideStation*> station = facts.tide(name);
  if (!station.has_value()) return std::nullopt;
  const auto count = static_cast<std::size_t>((day.end - day.begin) / kTideStep) + 1;
  DayOfTide curve{name, station.value()->chart_datum().value_or("datum not stated"), {}, {}};
  for (std::size_t i = 0; i < count; ++i) {
    const Instant at = day.begin + kTideStep * static_cast<int>(i);
    curve.samples.push_back({at, station.value()->height(at)});
  }
  curve.high_low = station.value()->high_low(day);
  return curve;
}

/// When the track comes to a place, by the pieces that were found.
Known<Instant> time_at(const Findings& findings, Length along) {
  for (const TrackPiece& piece : findings.track) {
    if (along > piece.end) continue;
    const double part = std::clamp((along - piece.begin) / (piece.end - piece.begin), 0.0, 1.0);
    return join(
        [part](Instant begins, Instant ends) {
          return begins + seconds_long(in_seconds(ends - begins) * part);
        },
        piece.begins, piece.ends);
  }
  return findings.passage.arrives;
}

template <class Item, class What>
std::vector<PlaceOnTheWay> places_on(const std::vector<Meeting>& meetings,
                                     const std::vector<Item>& items, const Findings& findings,
                                     const What& what) {
  std::vector<PlaceOnTheWay> all;
  for (const Meeting& meeting : meetings) {
    const Item& item = items[meeting.index];
    all.push_back(
        {item.name, what(item), meeting.along, meeting.off, time_at(findings, meeting.along)});
  }
  return all;
}

/// Names of the stations that the findings rest on.
std::set<std::string> tide_stations_used(const Findings& findings) {
  std::set<std::string> names;
  for (const Depth& depth : findings.depths) names.insert(depth.tide_station);
  for (const BridgeFinding& bridge : findings.bridges) names.insert(bridge.tide_station);
  for (const CableFinding& cable : findings.cables) names.insert(cable.tide_station);
  names.erase("");
  return names;
}

SourceUsed used(const Source& source, Instant now) {
  const std::optional<Interval> age =
      source.issued ? std::optional<Interval>(now - *source.issued) : std::nullopt;
  return {source, age, age ? SourceState::current : SourceState::undated};
}

SourceUsed used_wind(const WindSeries& series, const Findings& findings, Instant now) {
  SourceUsed wind = used(series.source(), now);
  if (!wind.age) return wind;
  const Instant departs = findings.passage.departs;
  if (departs - *series.source().issued > findings.margins.forecast_age) {
    wind.state = SourceState::old;
  }
  if (departs > series.covers().end) wind.state = SourceState::expired;
  return wind;
}

std::vector<SourceUsed> sources_of(const Facts& facts, const Findings& findings, Instant now) {
  std::vector<SourceUsed> sources{used(facts.waterway.source, now)};
  for (const std::string& name : tide_stations_used(findings)) {
    const Known<const TideStation*> station = facts.tide(name);
    if (station.has_value()) sources.push_back(used(station.value()->source(), now));
  }
  for (const CurrentStation& station : facts.currents) {
    sources.push_back(used(station.source(), now));
  }
  for (const WindSeries& series : facts.winds) {
    sources.push_back(used_wind(series, findings, now));
  }
  return sources;
}

std::vector<Working> workings_of(const Findings& findings, const Facts& facts) {
  std::vector<Working> all;
  for (const SeenLevel& seen : facts.observed) all.push_back(working_of(seen));
  for (const Leg& leg : findings.legs) all.push_back(leg.working);
  for (const Depth& depth : findings.depths) all.push_back(depth.working);
  for (const BridgeFinding& bridge : findings.bridges) all.push_back(bridge.working);
  for (const CableFinding& cable : findings.cables) all.push_back(cable.working);
  for (const Danger& danger : findings.dangers) all.push_back(danger.working);
  for (const BackUntil& back : findings.back_until) all.push_back(back.working);
  return all;
}

std::vector<HighLow> high_low_of(const Facts& facts, const Findings& findings, Span day) {
  std::vector<HighLow> all;
  for (const std::string& name : tide_stations_used(findings)) {
    const Known<const TideStation*> station = facts.tide(name);
    if (!station.has_value()) continue;
    for (const TideEvent& event :
         station.value()->high_low(day).value_or(std::vector<TideEvent>{})) {
      all.push_back({name, event});
    }
  }
  return all;
}

/// Where to stop by the sounder: at the limit in force over that ground and tide.
void put_stop_at(Findings& findings, const RuleSet& rules, const Vessel& vessel) {
  for (std::size_t i = 0; i < findings.depths.size(); ++i) {
    const Length limit = limit_under_keel(rules, findings, i);
    findings.depths[i].stop_at =
        join([limit](Length wave, Length more) { return limit + wave + more; },
             findings.depths[i].wave, sounder_offset(vessel));
  }
}

/// Of some local days, the first the one given, what is not past; nothing where all of it is.
std::optional<WindowList> windows_of_days(const RouteSurvey& survey, const Plan& plan,
                                          const Facts& facts, const RuleSet& rules, Instant now,
                                          Span day, std::chrono::days count) {
  const Zone& zone = facts.waterway.zone;
  Span last = day;
  for (int more = 1; more < count.count(); ++more) last = zone.local_day(zone.day_of(last.end));
  // A week in which clocks go back is an hour longer than seven days.
  const Instant end =
      std::min<Instant>(last.end - std::chrono::minutes(1), day.begin + kLongestSpan);
  const Span span{std::max(day.begin, now), end};
  if (span.end < span.begin || minutes_of(span).count == 0) return std::nullopt;
  return windows_in(survey, plan, facts, rules, span);
}

/// What the brief says of leaving at another time or slower.
void put_windows(Brief& brief, const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                 const RuleSet& rules, Instant now, Span day, std::chrono::days count) {
  if (count.count() == 0 || !Zone::covers(day.end + 2 * kLongestSpan)) return;
  brief.otherwise = late_and_slow(survey, plan, facts, rules, brief.findings);
  std::optional<WindowList> list = windows_of_days(survey, plan, facts, rules, now, day, count);
  if (!list) return;
  brief.window = window_at(list->windows, plan.departure.at);
  brief.windows = std::move(list->windows);
  brief.windows_in = list->span;
  brief.no_window = std::move(list->none);
}

bool is_less(const Known<Length>& figure, const Known<Length>& held) {
  return figure.has_value() && (!held.has_value() || *figure < *held);
}

/// Which way has the figures that the head of the page shows.
void put_least_of_both(WayBack& back, const Brief& out) {
  const Brief& way = *back.brief;
  const auto under_keel = [](const Brief& brief) {
    return brief.findings.depths[*brief.least_depth].under_keel;
  };
  const auto over_mast = [](const Brief& brief) {
    return most_over_mast(brief.findings.bridges[*brief.lowest_bridge]);
  };
  back.has_least_depth =
      way.least_depth && (!out.least_depth || is_less(under_keel(way), under_keel(out)));
  back.has_lowest_bridge =
      way.lowest_bridge && (!out.lowest_bridge || is_less(over_mast(way), over_mast(out)));
}

void put_way_back(Brief& brief, const Plan& plan, const Facts& facts, const RuleSet& rules,
                  Instant now) {
  auto back = std::make_shared<WayBack>(way_back_of(plan, facts, rules, now, brief.findings));
  brief.judgement.verdict = worse_of(brief.judgement.verdict, back->verdict);
  if (back->brief) {
    put_least_of_both(*back, brief);
    for (Working working : back->brief->working) {
      working.figure = "way back: " + working.figure;
      brief.working.push_back(std::move(working));
    }
  }
  brief.back = std::move(back);
}

}  // namespace

Brief prepare_brief(const Plan& drawn_up, const Facts& facts, const RuleSet& rules, Instant now,
                    std::chrono::days windows_over) {
  Plan plan = drawn_up;
  if (!plan.departure.notice_from) plan.departure.notice_from = now;
  const RouteSurvey survey(plan, facts.waterway, rules.margins);
  JudgedDeparture judged = judge_departure(survey, plan, facts, rules);
  put_stop_at(judged.findings, rules, plan.vessel);
  judged.findings.back_until = back_until_on(survey, plan, facts, rules.margins);
  const Findings& found = judged.findings;
  const Waterway& waterway = facts.waterway;
  const Span day = waterway.zone.local_day(waterway.zone.day_of(plan.departure.at));

  const std::optional<std::size_t> least_depth =
      least(found.depths, [](const Depth& d) { return d.under_keel; });
  std::optional<DayOfTide> tide_curve;
  if (least_depth) tide_curve = day_of_tide(facts, found.depths[*least_depth].tide_station, day);
  std::vector<std::string> notes;
  for (const Meeting& meeting : survey.notes()) notes.push_back(waterway.notes[meeting.index].text);

  Brief brief{
      .made_at = now,
      .waterway = waterway.name,
      .zone = waterway.zone,
      .vessel = plan.vessel,
      .route = plan.route.name,
      .rules = rules.editions,
      .limits_changed = rules.limits_changed,
      .findings = found,
      .judgement = std::move(judged.judgement),
      .window = std::nullopt,
      .windows = {},
      .void_after = not_known("not worked out"),
      .high_low = high_low_of(facts, found, day),
      .tide_curve = std::move(tide_curve),
      .refuges = places_on(survey.refuges(), waterway.refuges, found,
                           [](const Refuge& r) { return r.what; }),
      .turning_places = places_on(survey.turning_places(), waterway.turning_places, found,
                                  [](const TurningPlace&) { return std::string("turning place"); }),
      .notices_read = waterway.notices_read,
      .notes = std::move(notes),
      .sources = sources_of(facts, found, now),
      .least_depth = least_depth,
      .nearest_margin = nearest_margin(found.depths, least_depth),
      .lowest_bridge = least(found.bridges, most_over_mast),
      .nearest_danger = least(found.dangers, [](const Danger& d) { return d.reached_in; }),
      .working = workings_of(found, facts),
      .copy = Copy::skipper,
      .left_blank = rules.left_blank,
      .observed = facts.observed,
      .sure_95 = rules.sure_95};
  put_windows(brief, survey, plan, facts, rules, now, day, windows_over);
  if (plan.back) put_way_back(brief, plan, facts, rules, now);
  brief.void_after = void_after(brief);
  return brief;
}

}  // namespace passage_brief
