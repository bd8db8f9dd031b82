#include "passage/find.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <utility>
#include <vector>

#include "facts/daylight/moon.h"
#include "facts/daylight/sun.h"
#include "facts/facts.h"
#include "passage/bridge_wait.h"
#include "passage/clearances.h"
#include "passage/depths.h"
#include "passage/findings.h"
#include "passage/hull.h"
#include "passage/legs.h"
#include "passage/margins.h"
#include "passage/marks.h"
#include "passage/route_survey.h"
#include "passage/timeline.h"
#include "passage/water_level.h"
#include "passage/weather_here.h"
#include "plan/plan.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

/// What she comes under and out of at once lasts no time.
Interval time_from(Instant begin, Instant end) {
  constexpr std::chrono::seconds kAtOnce{1};
  return end - begin < kAtOnce ? Interval(0) : Interval(end - begin);
}

/// At the end of the track, too, from when she comes to it: the arrival is after any wait there.
Passing passing_of(const RouteSurvey& survey, const Timeline& timeline, const Meeting& meeting) {
  const Known<Span> span = timeline.between(meeting.begin, meeting.end);
  return {meeting.along,
          span.has_value() ? Known<Instant>(span->begin) : timeline.at(meeting.along),
          survey.position_at(meeting.along),
          survey.track().stretch_at(meeting.along).leg(),
          timeline.time_is_sure(meeting.end),
          join([](Span s) { return time_from(s.begin, s.end); }, span),
          meeting.end - meeting.begin};
}

/// When she passes a bridge; where that is not known, when she comes to it, for its clearance then.
Passing passing_of(const RouteSurvey& survey, const Timeline& timeline, const Meeting& meeting,
                   const BridgePassage& passage) {
  Passing passing = passing_of(survey, timeline, meeting);
  if (!passage.passes_at.has_value()) {
    passing.at = passage.reached;
    passing.lasts = Interval(0);
    return passing;
  }
  const Known<Span> from_coming = while_under(passing);
  passing.at = passage.passes_at;
  passing.lasts =
      join([](Span span, Instant at) { return time_from(at, span.end); }, from_coming, passing.at);
  return passing;
}

/// Of both ends of what lies along the track.
Known<Length> half_wave_under(const RouteSurvey& survey, const Facts& facts, const Margins& margins,
                              const Meeting& meeting, const Passing& passing) {
  const auto at = [&](Length along) {
    return half_wave_in(survey, facts, margins, along, while_under(passing));
  };
  if (meeting.begin == meeting.end) return at(meeting.along);
  return join([](Length a, Length b) { return std::max(a, b); }, at(meeting.begin),
              at(meeting.end));
}

/// She may lie short of it until a bridge beyond opens: then too she must fit under it.
void fit_till_then(BridgeFinding& bridge) {
  OpeningFinding& opening = *bridge.opening;
  if (opening.through_opening == Known<bool>(true) && !bridge.open_span) return;
  const std::string why = "she may lie short of " + bridge.name +
                          " until a bridge beyond opens, and no longer fit under it then";
  const auto fit = [&](Known<bool>& passes, const std::vector<OverMast>& states) {
    if (passes != Known<bool>(true)) return;
    passes = join([](Antennas) { return true; }, fitting(kept_in(states, bridge.margin), why));
  };
  std::vector<OverMast> states = passed_under(bridge);
  fit(opening.passes, states);
  for (OverMast& state : states) state.over_mast = state.over_mast_could_be;
  fit(opening.passes_at_least, states);
}

std::vector<BridgeFinding> bridges_on(const RouteSurvey& survey, const Timeline& timeline,
                                      const Plan& plan, const Facts& facts,
                                      const Margins& margins) {
  std::vector<BridgeFinding> bridges;
  for (std::size_t i = 0; i < survey.bridges().size(); ++i) {
    const Meeting& meeting = survey.bridges()[i];
    const BridgePassage& passage = timeline.bridges()[i];
    const Passing passing = passing_of(survey, timeline, meeting, passage);
    bridges.push_back(bridge_finding(survey.waterway().bridges[meeting.index], passing, plan.vessel,
                                     facts, margins,
                                     half_wave_under(survey, facts, margins, meeting, passing)));
    bridges.back().current =
        join([](const Velocity& v) { return Current{SetToward{bearing_of(v)}, speed_of(v)}; },
             current_under(survey.waterway().bridges[meeting.index], survey, facts, meeting.along,
                           passing.at));
    bridges.back().opening = passage.opening;
    if (passage.opening && passage.opening->through_opening == Known<bool>(true) &&
        opens_only_so_high(survey.waterway().bridges[meeting.index])) {
      bridges.back().open_span = open_span(survey.waterway().bridges[meeting.index], passing,
                                           plan.vessel, facts, margins, bridges.back().wave);
    }
    if (passage.opening && passing.lasts != Known<Interval>(Interval(0))) {
      fit_till_then(bridges.back());
    }
    if (passage.opening && !passing.time_is_sure.has_value()) {
      bridges.back().opening->passes_at_least = not_known_as(passing.time_is_sure);
    }
  }
  return bridges;
}

std::vector<CableFinding> cables_on(const RouteSurvey& survey, const Timeline& timeline,
                                    const Plan& plan, const Facts& facts, const Margins& margins) {
  std::vector<CableFinding> cables;
  for (const Meeting& meeting : survey.cables()) {
    const Passing passing = passing_of(survey, timeline, meeting);
    cables.push_back(cable_finding(survey.waterway().cables[meeting.index], passing, plan.vessel,
                                   facts, margins,
                                   half_wave_under(survey, facts, margins, meeting, passing)));
  }
  return cables;
}

LightFinding light_on(const RouteSurvey& survey, const Plan& plan, const Known<Instant>& arrives) {
  const Zone& zone = survey.waterway().zone;
  const Instant departs = plan.departure.at;
  // Of the day she leaves: who leaves after it, or comes in past midnight, has no daylight left.
  const SunOfDay& day = survey.sun_on(zone.local_day(zone.day_of(departs)));
  const SunTimes& sun = day.at_start;
  const std::optional<Instant>& sunset = day.at_end.sunset;
  const auto until_sunset = [&](Instant at) -> Known<Interval> {
    if (!sunset) return not_known("the sun does not set on the day of departure");
    return *sunset - at;
  };
  Known<bool> after_sunrise = not_known("the sun does not rise on the day of departure");
  if (sun.sunrise) after_sunrise = departs >= *sun.sunrise;
  return {.sunrise = sun.sunrise,
          .sunset = sun.sunset,
          .civil_dawn = sun.civil_dawn,
          .civil_dusk = sun.civil_dusk,
          .moon_illuminated = moon_illuminated(departs),
          .moon_up = moon_is_up(plan.route.points.front().position, departs),
          .before_sunset = join(until_sunset, arrives),
          .after_sunrise = after_sunrise};
}

/// The greatest (or by another order the worst) of one figure over the passage; not known, with
/// every reason, when it is not known anywhere.
template <class T, class Order>
Known<T> worst_over(const std::vector<Known<T>>& all, const Order& worse) {
  Known<T> worst = all.front();
  for (const Known<T>& next : all) {
    worst = join([&worse](const T& a, const T& b) { return worse(b, a) ? b : a; }, worst, next);
  }
  return worst;
}

/// figure(where, along, span) of every piece, every wait, and on arrival.
template <class Figure>
auto along_the_way(const RouteSurvey& survey, const Plan& plan, const Timeline& timeline,
                   const Figure& figure) {
  using Result = std::decay_t<decltype(figure(plan.route.points.front().position, Length(metres(0)),
                                              Known<Span>(Span{})))>;
  std::vector<Result> all;
  for (const TimedPiece& timed : timeline.pieces()) {
    all.push_back(figure(timed.surveyed->begins_at, timed.piece.begin, while_in(timed.piece)));
  }
  for (std::size_t i = 0; i < timeline.bridges().size(); ++i) {
    const BridgePassage& bridge = timeline.bridges()[i];
    if (!bridge.opening || !bridge.opening->wait.has_value()) continue;
    all.push_back(
        figure(survey.where(survey.bridges()[i]), bridge.along,
               Known<Span>(Span{*bridge.reached, *bridge.reached + *bridge.opening->wait})));
  }
  all.push_back(figure(plan.route.points.back().position, survey.track().length,
                       join([](Instant at) { return Span{at, at}; }, timeline.arrives())));
  return all;
}

struct Forecast {
  Known<Interval> age;
  Known<bool> covers;
  Known<Instant> ends;
};

Forecast forecast_of(const Facts& facts, const Plan& plan, const Known<Instant>& arrives) {
  const auto none = not_known(facts.why_no_wind());
  Forecast forecast{none, none, none};
  for (const WindSeries& series : facts.winds) {
    const bool first = &series == &facts.winds.front();
    const Known<Interval> age =
        series.source().issued ? Known<Interval>(plan.departure.at - *series.source().issued)
                               : not_known("the wind forecast does not say when it was issued");
    const Span covered = series.covers();
    const Known<bool> covers =
        join([&](Instant at) { return covered.begin <= plan.departure.at && at <= covered.end; },
             arrives);
    const auto older = [](Interval a, Interval b) { return std::max(a, b); };
    forecast.age = first ? age : join(older, forecast.age, age);
    forecast.covers =
        first ? covers : join([](bool a, bool b) { return a && b; }, forecast.covers, covers);
    forecast.ends = first ? covered.end : std::min(forecast.ends.value(), covered.end);
  }
  return forecast;
}

PassageFinding passage_of(const RouteSurvey& survey, const Timeline& timeline, const Plan& plan,
                          const Facts& facts) {
  const auto here = [&](const auto& figure) {
    return along_the_way(survey, plan, timeline,
                         [&](Position where, Length, const Known<Span>& span) {
                           return join([&](Span s) { return figure(facts, where, s); }, span);
                         });
  };
  const auto wave_on = [&](Position where, Length along, const Known<Span>& span) -> Known<Length> {
    if (!open_water_at(survey, along)) return metres(0);
    return join([&](Span s) { return wave_here(facts, where, s); }, span);
  };
  std::vector<Known<Length>> waves = along_the_way(survey, plan, timeline, wave_on);
  for (const Meeting& bar : survey.bars()) {
    waves.push_back(wave_on(
        survey.where(bar), bar.along,
        timeline.between(bar.begin - survey.half_length(), bar.end + survey.half_length())));
  }
  const Known<Instant> arrives = timeline.arrives();
  const Forecast forecast = forecast_of(facts, plan, arrives);
  return {.departs = plan.departure.at,
          .arrives = arrives,
          .distance = survey.track().length,
          .wind = worst_over(here(wind_speed_here), std::greater{}),
          .gust = worst_over(here(gust_here), std::greater{}),
          .wave = worst_over(waves, std::greater{}),
          .visibility = worst_over(here(visibility_here), std::less{}),
          .thunder = worst_over(here(thunder_here), std::greater{}),
          .forecast_age = forecast.age,
          .forecast_covers = forecast.covers,
          .forecast_ends = forecast.ends,
          .design_category = plan.vessel.design_category,
          .draft_is = plan.vessel.draft_is.basis,
          .air_draft_is = plan.vessel.air_draft_is.basis,
          .hull = plan.vessel.hull,
          .engines = plan.vessel.engines,
          .length = plan.vessel.length,
          .beam = plan.vessel.beam};
}

std::vector<TurningPlaceFinding> turning_places_near(const RouteSurvey& survey) {
  std::vector<TurningPlaceFinding> places;
  for (const Meeting& meeting : survey.turning_places()) {
    const TurningPlace& place = survey.waterway().turning_places[meeting.index];
    places.push_back({place.name, meeting.along, place.width});
  }
  return places;
}

std::vector<RefugeFinding> refuges_near(const RouteSurvey& survey, const Plan& plan,
                                        const Margins& margins) {
  std::vector<RefugeFinding> refuges;
  for (std::size_t i = 0; i < survey.refuges().size(); ++i) {
    const Meeting& meeting = survey.refuges()[i];
    const DepthSource& source = survey.refuge_depths()[i];
    const Length needed =
        plan.vessel.draft + (is_hard(source.bottom) ? margins.under_keel_hard : margins.under_keel);
    const auto floats = [&](Length charted) { return charted >= needed; };
    refuges.push_back({survey.waterway().refuges[meeting.index].name, meeting.along, source.charted,
                       join(floats, source.charted)});
  }
  return refuges;
}

LevelShift level_shift_of(const std::vector<Depth>& depths,
                          const std::vector<BridgeFinding>& bridges, const Facts& facts,
                          const Margins& margins) {
  LevelShift shift;
  const auto look = [&](LevelFor what, const std::string& station, const Known<Instant>& at) {
    if (station.empty() || !at.has_value()) return;
    const Length pressed = beside_prediction(what, facts, margins, station, *at).pressure;
    shift.off_depths = std::max(shift.off_depths, -pressed);
    shift.off_clearances = std::max(shift.off_clearances, pressed);
    shift.wind_may_shift = shift.wind_may_shift || wind_may_shift(facts, margins, station, *at);
  };
  for (const Depth& d : depths) look(LevelFor::depths, d.tide_station, d.passing.at);
  for (const BridgeFinding& b : bridges) look(LevelFor::clearances, b.tide_station, b.passing.at);
  return shift;
}

Findings all_but_dangers(const RouteSurvey& survey, const Timeline& timeline, const Plan& plan,
                         const HullForm& hull, const Facts& facts, const Margins& margins) {
  std::vector<TrackPiece> track;
  track.reserve(timeline.pieces().size());
  for (const TimedPiece& timed : timeline.pieces()) track.push_back(timed.piece);
  std::vector<Depth> depths = depths_on(survey, timeline, plan, hull, facts, margins);
  std::vector<BridgeFinding> bridges = bridges_on(survey, timeline, plan, facts, margins);
  const LevelShift shift = level_shift_of(depths, bridges, facts, margins);
  return {.margins = margins,
          .passage = passage_of(survey, timeline, plan, facts),
          .light = light_on(survey, plan, timeline.arrives()),
          .legs = legs_on(survey, timeline, plan, facts),
          .track = std::move(track),
          .depths = std::move(depths),
          .bridges = std::move(bridges),
          .cables = cables_on(survey, timeline, plan, facts, margins),
          .dangers = {},
          .marks = marks_on(survey, timeline),
          .turning_places = turning_places_near(survey),
          .refuges = refuges_near(survey, plan, margins),
          .estimated = hull.estimated,
          .level_shift = shift};
}

}  // namespace

Finding::Finding(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
                 const Margins& margins)
    : survey_(survey),
      plan_(plan),
      facts_(facts),
      timeline_(timeline_of(survey, plan, hull_form(plan.vessel), facts, margins)),
      findings_(all_but_dangers(survey, timeline_, plan, hull_form(plan.vessel), facts, margins)) {}

void Finding::add_dangers(Interval within) {
  findings_.dangers = dangers_on(survey_, timeline_, plan_, facts_, findings_.margins, within);
}

Findings find(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
              const Margins& margins) {
  Finding finding(survey, plan, facts, margins);
  finding.add_dangers();
  return finding.take();
}

}  // namespace passage_brief
