#include "passage/depths.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

#include "facts/facts.h"
#include "passage/controlling_depth.h"
#include "passage/corridor_depths.h"
#include "passage/figure.h"
#include "passage/findings.h"
#include "passage/hull.h"
#include "passage/margins.h"
#include "passage/parts_told.h"
#include "passage/route_survey.h"
#include "passage/squat.h"
#include "passage/timeline.h"
#include "passage/under_keel.h"
#include "passage/weather_here.h"
#include "plan/plan.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

/// A place the hull goes over, with the figure it is compared by.
struct Candidate {
  const DepthSource* source;
  Length along;   // where the hull first comes to it
  Length middle;  // of the way over it
  Known<Span> while_over;
  Known<Length> half_wave;
  const TimedPiece* piece;  // null in a berth
  Known<Length> under_keel;
};

/// The reach, bar or berth that depths are told of.
struct Whole {
  DepthPlace place;
  std::size_t number;
  std::optional<std::size_t> reach;  // into Waterway::reaches
};

/// Works out the Depth of every place on one passage.
class DepthFinder {
 public:
  DepthFinder(const RouteSurvey& survey, const Timeline& timeline, const Plan& plan,
              const HullForm& hull, const Facts& facts, const Margins& margins)
      : survey_(survey),
        timeline_(timeline),
        plan_(plan),
        hull_(hull),
        facts_(facts),
        margins_(margins),
        half_length_(plan.vessel.length / 2) {}

  std::vector<Depth> find() {
    std::vector<Depth> depths;
    if (survey_.berth_left()) {
      depths.push_back(berth(0, *survey_.berth_left(), metres(0), Interval(0)));
    }
    for (std::size_t i = 0; i < survey_.runs().size(); ++i) add_run(i, depths);
    for (std::size_t i = 0; i < survey_.bars().size(); ++i) add_bar(i, depths);
    if (survey_.berth_reached()) {
      const Length end = survey_.track().length;
      depths.push_back(berth(1, *survey_.berth_reached(), end, Interval(0)));
      if (plan_.back && plan_.back->stay > Interval(0)) {
        depths.push_back(berth(2, *survey_.berth_reached(), end, plan_.back->stay));
      }
    }
    std::ranges::stable_sort(depths, {}, [](const Depth& d) { return d.passing.along; });
    return depths;
  }

 private:
  /// `middle`: of the part of the track from which any of the hull is over it.
  KeelQuestion question(const DepthSource& source, const Known<Span>& span, const TimedPiece* timed,
                        Length middle, const Known<Length>& half_wave) const {
    const bool open_water = open_water_at(survey_, middle);
    if (timed == nullptr) {
      return {
          source,     span,     timeline_.time_is_sure(middle), std::nullopt, {false, std::nullopt},
          open_water, half_wave};
    }
    return {source,
            span,
            timeline_.time_is_sure(middle),
            timed->piece.through_water,
            section_of(survey_, survey_.runs()[timed->run]),
            open_water,
            half_wave};
  }

  /// Of a source met between two places along the track. It must outlive the candidate.
  Candidate candidate(const TimedPiece& timed, const DepthSource& source, Length from,
                      Length to) const {
    const Length begin = std::max(timed.piece.begin, from - half_length_);
    const Length end = std::min(timed.piece.end, to + half_length_);
    const Known<Span> span = timeline_.between(begin, end);
    const Length middle = (begin + end) / 2;
    const Known<Length> half_wave = half_wave_in(survey_, facts_, margins_, middle, span);
    return {&source,
            begin,
            middle,
            span,
            half_wave,
            &timed,
            under_keel_figure(question(source, span, &timed, middle, half_wave), plan_.vessel,
                              hull_, facts_, margins_)};
  }

  ControllingDepth controlling(const Candidate& c) const {
    return {*c.source,
            c.along,
            c.while_over,
            timeline_.time_is_sure(c.middle),
            c.half_wave,
            c.piece,
            under_keel(question(*c.source, c.while_over, c.piece, c.middle, c.half_wave),
                       plan_.vessel, hull_, facts_, margins_),
            open_water_at(survey_, c.middle)};
  }

  /// Everything charted in one piece of the track.
  template <class Visit>
  void visit_piece(const TimedPiece& timed, const Run& run, const Visit& visit) const {
    for (const DepthOnTrack* met : timed.surveyed->depths) {
      if (belongs_to(run, *met)) visit(candidate(timed, met->source, met->begin, met->end));
    }
  }

  /// Places alike in all that makes margin and error, and passed within ten minutes: of those the
  /// least figure stands for all.
  using Ground =
      std::tuple<std::int64_t, bool, bool, Bottom, SurveyQuality,
                 std::optional<std::chrono::year_month_day>, std::string_view, std::string_view>;

  Ground ground_of(const Candidate& c) const {
    const DepthSource& source = *c.source;
    return {c.while_over->begin.time_since_epoch() / std::chrono::minutes(10),
            timeline_.time_is_sure(c.middle).has_value(),
            open_water_at(survey_, c.middle),
            source.bottom,
            source.survey_quality,
            source.surveyed.has_value() ? std::optional(source.surveyed.value()) : std::nullopt,
            source.stations.tide,
            source.stations.chart_datum};
  }

  void add_run(std::size_t index, std::vector<Depth>& depths) const {
    const Run& run = survey_.runs()[index];
    std::map<Ground, Candidate> least;
    std::optional<Candidate> dark;  // the first whose figure is not known
    NotKnown why;
    bool blocked = false;
    for (const TimedPiece& timed : timeline_.pieces()) {
      if (timed.run != index) continue;
      visit_piece(timed, run, [&](Candidate c) {
        blocked = blocked || c.source->above_water;
        if (c.under_keel.has_value()) {
          const auto [held, first] = least.try_emplace(ground_of(c), c);
          if (!first && *c.under_keel < *held->second.under_keel) held->second = std::move(c);
          return;
        }
        known_detail::add_reasons(why, c.under_keel);
        if (!dark || sooner_or_shoaler(c, *dark)) dark = std::move(c);
      });
    }
    const std::string name = survey_.name_of(run);
    const Whole whole{run.reach ? DepthPlace::reach : DepthPlace::unnamed_water, index, run.reach};
    std::vector<ControllingDepth> parts;
    for (const auto& [ground, candidate] : least) parts.push_back(controlling(candidate));
    std::ranges::stable_sort(parts, {}, &ControllingDepth::along);
    const std::vector<ToldPart> all_told = parts_told_of(parts);
    const bool several_least_sure =
        std::ranges::count(all_told, ToldAs::least_sure, &ToldPart::as) > 1;
    for (const ToldPart& told : all_told) {
      ControllingDepth& part = parts[told.part];
      take_could_be(told, part);
      const bool open = told.as == ToldAs::hard_ground && !is_hard(part.source.bottom);
      std::string its_name = open ? "Open water in " + name : name_of_part(told.as, name);
      // Two of one name with two readings to stop at: the lower would be taken.
      if (told.as == ToldAs::least_sure && several_least_sure) {
        its_name += " (" + ground_in_words(part) + ")";
      }
      depths.push_back(depth_of(whole, its_name, part));
      depths.back().part = told.as != ToldAs::least;
      if (!depths.back().part) depths.back().spare_width = least_spare_width(index, run);
    }
    if (dark) {
      ControllingDepth unknown = controlling(*dark);
      unknown.answer.under_keel = std::unexpected(why);
      depths.push_back(depth_of(whole, parts.empty() ? name : "Part of " + name, unknown));
      depths.back().blocked = blocked;
      depths.back().part = !parts.empty();
    }
  }

  /// Of two places whose figure is not known: a charted depth that is missing comes before one
  /// whose time or tide is, then the shoaler, then the sooner.
  static bool sooner_or_shoaler(const Candidate& a, const Candidate& b) {
    if (a.source->above_water != b.source->above_water) return a.source->above_water;
    if (a.source->charted.has_value() != b.source->charted.has_value()) {
      return !a.source->charted.has_value();
    }
    return a.source->charted.has_value() && *a.source->charted < *b.source->charted;
  }

  Depth depth_of(const Whole& whole, const std::string& name, const ControllingDepth& c) const {
    const Vessel& vessel = plan_.vessel;
    const Known<Length> offset = sounder_offset(vessel);
    const Reach* reach = whole.reach ? &survey_.waterway().reaches[*whole.reach] : nullptr;
    const Known<Instant> at = join([](Span s) { return s.begin; }, c.while_over);
    return {
        .place = whole.place,
        .number = whole.number,
        .name = name,
        .passing = {c.along, at, survey_.position_at(c.along),
                    survey_.track().stretch_at(c.along).leg(), c.time_is_sure},
        .controlled_by = c.source.name,
        .bottom = c.source.bottom,
        .channel = reach != nullptr ? reach->channel : Channel::not_stated,
        .open_water = open_water_at(survey_, c.along),
        .surveyed = c.source.surveyed,
        .survey_quality = c.source.survey_quality,
        .blocked = false,
        .part = false,
        .charted = c.source.charted,
        .height_of_tide = c.answer.height_of_tide,
        .tide_is = c.answer.tide_is,
        .water = c.answer.water,
        .draft = vessel.draft,
        .squat = c.answer.squat,
        .squat_left_out = c.answer.squat_left_out,
        .through_water = c.piece != nullptr ? c.piece->piece.through_water : metres_per_second(0),
        .slowed_because = c.piece != nullptr ? c.piece->slowed_because : std::nullopt,
        .wave = c.half_wave,
        .under_keel = c.answer.under_keel,
        .under_keel_could_be = c.answer.could_be,
        .off_for_parts = c.off_for_parts,
        .margin = c.answer.margin,
        .sounder_reads = sounder_shows(c, offset),
        .stop_at = not_known("it is for the rules to say"),
        .channel_width = channel_width(reach),
        .spare_width = spare_width(reach, c.piece),
        .speed_limit = reach != nullptr ? reach->speed_limit : std::nullopt,
        .wind = wind_at(c.along, at),
        .wind_at = at,
        .open_to_wind = not_known("no berth or bar is drawn here that is open to some winds"),
        .tide_station = c.source.stations.tide,
        .errors = c.answer.errors,
        .working = working_of(name, c, vessel)};
  }

  Known<Wind> wind_at(Length along, const Known<Instant>& at) const {
    const Position where = survey_.position_at(along);
    return join([&](Instant t) { return wind_here(facts_, where, t); }, at);
  }

  static Known<Length> channel_width(const Reach* reach) {
    if (reach == nullptr || !reach->width) return not_known("no channel width is on file here");
    return *reach->width;
  }

  /// Whether the wind comes from a sector, clockwise from its first to its last bearing.
  static Known<bool> comes_from(const std::optional<std::pair<TrueBearing, TrueBearing>>& sector,
                                const Known<Wind>& wind, const std::string& place) {
    if (!sector) return not_known("the winds that " + place + " is open to are not on file");
    return join(
        [&](const Wind& w) {
          const auto [first, last] = *sector;
          return folded_360((w.from.bearing - first).in_degrees()) <=
                 folded_360((last - first).in_degrees());
        },
        wind);
  }

  /// In all of a reach: she may point up more elsewhere than where it is shoalest.
  Known<Length> least_spare_width(std::size_t index, const Run& run) const {
    const Reach* reach = run.reach ? &survey_.waterway().reaches[*run.reach] : nullptr;
    std::optional<Known<Length>> least;
    for (const TimedPiece& timed : timeline_.pieces()) {
      if (timed.run != index) continue;
      const Known<Length> here = spare_width(reach, &timed);
      least = least ? join([](Length a, Length b) { return std::min(a, b); }, *least, here) : here;
    }
    return least.value_or(spare_width(reach, nullptr));
  }

  /// Channel width less the width the hull takes up when she crabs along it, at one place.
  Known<Length> spare_width(const Reach* reach, const TimedPiece* timed) const {
    if (reach == nullptr || timed == nullptr || !reach->width) {
      return not_known_as(channel_width(nullptr));
    }
    const TrueBearing course = survey_.track().stretches[timed->stretch].course();
    return join(
        [&](const Leeway& leeway, const Velocity& current) {
          const double across =
              in_metres_per_second(component_toward(course + degrees(90), current));
          const double crab_rad =
              in_radians(leeway.angle) +
              std::abs(std::asin(std::clamp(
                  across / in_metres_per_second(timed->piece.through_water), -1.0, 1.0)));
          const double bounded = std::min(crab_rad, 1.5707963);
          return *reach->width - plan_.vessel.beam * std::cos(bounded) -
                 plan_.vessel.length * std::sin(bounded);
        },
        timed->leeway, timed->current);
  }

  void add_bar(std::size_t number, std::vector<Depth>& depths) const {
    const Meeting& meeting = survey_.bars()[number];
    const Bar& bar = survey_.waterway().bars[meeting.index];
    const DepthSource own = source_of(bar);
    std::vector<ControllingDepth> known;
    std::optional<ControllingDepth> dark;
    const auto take = [&](const TimedPiece& timed, const DepthSource& source, Length from,
                          Length to) {
      ControllingDepth found = controlling(candidate(timed, source, from, to));
      if (bar.bottom != Bottom::not_stated) found.source.bottom = bar.bottom;
      found.open_water = true;
      if (found.answer.under_keel.has_value()) {
        known.push_back(std::move(found));
      } else if (!dark) {
        dark = std::move(found);
      }
    };
    const bool lies_along = meeting.begin < meeting.end;
    for (const TimedPiece& timed : timeline_.pieces()) {
      if (timed.piece.end <= meeting.begin - half_length_ ||
          timed.piece.begin >= meeting.end + half_length_) {
        continue;
      }
      take(timed, own, meeting.begin, meeting.end);
      for (const DepthOnTrack* depth : timed.surveyed->depths) {
        const Length begin = std::max(depth->begin, meeting.begin);
        const Length end = std::min(depth->end, meeting.end);
        if (lies_along && begin <= end) take(timed, depth->source, begin, end);
      }
    }
    const TimedPiece& there = timeline_.piece_at(meeting.along);
    for (const DepthOnTrack* depth :
         survey_.depths_under(there.stretch, there.piece.leeward_step, meeting.along)) {
      take(there, depth->source, meeting.along, meeting.along);
    }
    Known<Interval> lasts = Interval(0);
    if (lies_along) {
      lasts = join([](Span span) { return Interval(span.end - span.begin); },
                   timeline_.between(meeting.begin - half_length_, meeting.end + half_length_));
    }
    const Run& run = survey_.run_at(meeting.along);
    const auto add = [&](const ControllingDepth& found, const std::string& name) {
      Depth depth = depth_of({DepthPlace::bar, number, run.reach}, name, found);
      depth.open_water = true;
      depth.passing.lasts = lasts;
      depth.open_to_wind = comes_from(bar.open_to_seas, depth.wind, bar.name);
      depth.part = name != bar.name;
      depths.push_back(std::move(depth));
    };
    for (const ToldPart& told : parts_told_of(known)) {
      take_could_be(told, known[told.part]);
      add(known[told.part], name_of_part(told.as, bar.name));
    }
    if (dark) add(*dark, known.empty() ? bar.name : "Part of " + bar.name);
  }

  /// Of a stay, as far as the forecast tells: the strongest that the berth is open to, else, or
  /// where that is not on file, the strongest.
  void take_worst_wind(Depth& depth, const Known<Span>& span, const Berth& berth) const {
    if (!span.has_value() || !depth.wind.has_value()) return;
    const auto rank = [&berth](const Known<Wind>& wind) {
      const bool open = comes_from(berth.open_to_wind, wind, berth.name).value_or(true);
      return std::pair(open, wind->speed);
    };
    const auto take = [&](Instant at) {
      const Known<Wind> wind = wind_at(depth.passing.along, at);
      if (!wind.has_value() || rank(wind) <= rank(depth.wind)) return;
      depth.wind = wind;
      depth.wind_at = at;
    };
    // It may turn through where the berth is open between two hours of the forecast.
    constexpr std::chrono::minutes kLookedAtEvery{20};
    for (Instant at = span->begin; at < span->end; at += kLookedAtEvery) take(at);
    for (const Instant at : forecast_times(facts_, *span)) take(at);
  }

  /// As she comes there or leaves; with a stay at the lowest water of the time she lies there,
  /// which is no moment to read the sounder at.
  Depth berth(std::size_t number, std::size_t index, Length along, Interval stay) const {
    const Berth& berth = survey_.waterway().berths[index];
    const std::string name = stay > Interval(0) ? berth.name + ", lowest of the stay" : berth.name;
    const DepthSource source = source_of(berth);
    const Known<Span> span =
        join([stay](Instant at) { return Span{at, at + stay}; }, timeline_.at(along));
    const Known<Length> half_wave = half_wave_in(survey_, facts_, margins_, along, span);
    const ControllingDepth c{source,
                             along,
                             span,
                             timeline_.time_is_sure(along),
                             half_wave,
                             nullptr,
                             under_keel(question(source, span, nullptr, along, half_wave),
                                        plan_.vessel, hull_, facts_, margins_),
                             open_water_at(survey_, along)};
    Depth depth = depth_of({DepthPlace::berth, number, std::nullopt}, name, c);
    take_worst_wind(depth, span, berth);
    depth.open_to_wind = comes_from(berth.open_to_wind, depth.wind, berth.name);
    if (stay > Interval(0)) {
      const NotKnown later{{"it is the lowest of the whole stay"}};
      depth.sounder_reads = std::unexpected(later);
      depth.tide_is = std::unexpected(later);
    }
    return depth;
  }

  const RouteSurvey& survey_;
  const Timeline& timeline_;
  const Plan& plan_;
  const HullForm& hull_;
  const Facts& facts_;
  const Margins& margins_;
  Length half_length_;
};

}  // namespace

std::vector<Depth> depths_on(const RouteSurvey& survey, const Timeline& timeline, const Plan& plan,
                             const HullForm& hull, const Facts& facts, const Margins& margins) {
  return DepthFinder(survey, timeline, plan, hull, facts, margins).find();
}

}  // namespace passage_brief
