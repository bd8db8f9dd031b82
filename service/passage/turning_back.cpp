#include "passage/turning_back.h"

#include <algorithm>
#include <chrono>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "facts/facts.h"
#include "passage/clearances.h"
#include "passage/corridor_depths.h"
#include "passage/findings.h"
#include "passage/hull.h"
#include "passage/level_until.h"
#include "passage/margins.h"
#include "passage/route_survey.h"
#include "passage/squat.h"
#include "passage/timeline.h"
#include "passage/under_keel.h"
#include "passage/water_level.h"
#include "plan/plan.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr std::chrono::hours kLookedAhead{24};

/// One thing that the level must not pass: `level` gives the limit with a half wave.
struct Hold {
  std::string station;
  LostBy lost_by;
  bool waves_count;
  Length along;
  std::function<TideHeight(Length half_wave)> level;
  std::vector<WorkingInput> inputs;
  std::function<Length(Length half_wave)> squat = nullptr;  // over a depth
  std::string named = {};  // what charts the depth, where it has a name of its own
};

/// The answer of one Hold, or of the worst of several.
struct BackAnswer {
  Known<Instant> until = not_known("nothing is charted here");
  Known<BackEnds> ends = not_known("nothing is charted here");
  std::string station;
  std::vector<WorkingInput> inputs;
  std::string named = {};  // as Hold has it
};

class BackFinder {
 public:
  BackFinder(const RouteSurvey& survey, const Plan& plan, const Facts& facts,
             const Margins& margins)
      : survey_(survey),
        plan_(plan),
        facts_(facts),
        margins_(margins),
        hull_(hull_form(plan.vessel)),
        timeline_(timeline_of(survey, plan, hull_, facts, margins)) {}

  std::vector<BackUntil> find() const {
    std::vector<BackUntil> all;
    if (survey_.berth_left()) all.push_back(berth(*survey_.berth_left()));
    for (std::size_t i = 0; i < survey_.runs().size(); ++i) all.push_back(run(i));
    for (const Meeting& meeting : survey_.bars()) all.push_back(bar(meeting));
    for (std::size_t i = 0; i < survey_.bridges().size(); ++i) all.push_back(bridge(i));
    for (const Meeting& meeting : survey_.cables()) all.push_back(cable(meeting));
    for (std::size_t i = 0; i < survey_.refuges().size(); ++i) {
      const Meeting& meeting = survey_.refuges()[i];
      all.push_back(ahead(BackPlace::refuge, survey_.waterway().refuges[meeting.index].name,
                          meeting.along, survey_.refuge_depths()[i]));
    }
    for (std::size_t i = 0; i < survey_.turning_places().size(); ++i) {
      const Meeting& meeting = survey_.turning_places()[i];
      all.push_back(ahead(BackPlace::turning_place,
                          survey_.waterway().turning_places[meeting.index].name, meeting.along,
                          survey_.turning_depths()[i]));
    }
    std::ranges::stable_sort(all, {}, &BackUntil::along);
    return all;
  }

 private:
  /// What a place needs of the water, by what charts it.
  Known<Hold> keel_hold(const DepthSource& source, Length along, const std::optional<Speed>& speed,
                        const ChannelSection& section, bool open_water) const {
    if (source.above_water) return not_known(source.name + " never covers");
    const FeatureStations& stations = source.stations;
    if (stations.chart_datum.empty()) return not_known("no chart datum is stated for the depths");
    const Known<TideHeight> plane =
        join([&](const TideStation* s) { return s->datum(stations.chart_datum); },
             facts_.tide(stations.tide));
    return join(
        [&](Length charted, TideHeight zero) {
          const Length margin = keel_margin(margins_, source.bottom, open_water);
          const auto needed = [this, margin, speed, section](Length half_wave) {
            return water_needed(speed, section, hull_, margin + half_wave);
          };
          const auto level = [charted, zero, needed](Length half_wave) {
            return zero + (needed(half_wave) - charted);
          };
          const auto squat = [this, margin, needed](Length half_wave) {
            return needed(half_wave) - plan_.vessel.draft - margin - half_wave;
          };
          return Hold{stations.tide,
                      LostBy::falling,
                      open_water,
                      along,
                      level,
                      {{"charted depth", charted, source.name},
                       {"plane of the depths above chart datum", zero.above_datum(), stations.tide},
                       {"draft", plan_.vessel.draft, "vessel"},
                       {"margin", margin, "rules"},
                       {"speed through the water", speed.value_or(knots(0)), "as she passes"}},
                      squat,
                      source.kind == DepthSourceKind::controlling_depth ? "" : source.name};
        },
        source.charted, plane);
  }

  /// What is over the mast, the antennas in one state.
  Known<Hold> mast_hold(const Feature& feature, const Known<Length>& charted,
                        const Known<Length>& gap, const AirDraft& mast, Length along) const {
    const std::string& name = feature.stations.clearance_datum;
    if (name.empty()) return not_known("no clearance datum is stated for " + feature.name);
    const Known<TideHeight> datum = join([&](const TideStation* s) { return s->datum(name); },
                                         facts_.tide(feature.stations.tide));
    return join(
        [&](Length clearance, TideHeight zero, Length keep) {
          const TideHeight highest =
              zero + (clearance - mast.height - margins_.under_bridge - keep);
          const auto level = [highest](Length half_wave) { return highest - half_wave; };
          return Hold{
              feature.stations.tide,
              LostBy::rising,
              open_water_at(survey_, along),
              along,
              level,
              {{"charted clearance", clearance, "waterway"},
               {"clearance datum above chart datum", zero.above_datum(), feature.stations.tide},
               {"air draft, antennas " + in_words(mast.antennas), mast.height, "vessel"},
               {"margin", margins_.under_bridge, "rules"},
               {"gap to keep below the wire", keep, "waterway"}}};
        },
        charted, datum, gap);
  }

  /// The spans through which a half wave, and so a limit, holds; the forecast may end them early.
  struct Limits {
    std::vector<LevelLimit> all;
    std::vector<Length> half_waves;
    std::optional<NotKnown> then;  // why they end before the 24 h do
  };
  Limits limits(const Hold& hold, Span span) const {
    const std::vector<Instant> cuts = even_cuts(hold, span);
    const LevelFor what = hold.lost_by == LostBy::falling ? LevelFor::depths : LevelFor::clearances;
    Limits found;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      const Instant middle = cuts[i] + (cuts[i + 1] - cuts[i]) / 2;
      const Known<Length> half_wave =
          hold.waves_count ? half_wave_at(survey_, facts_, margins_, hold.along, middle)
                           : Known<Length>(margins_.wash);
      if (!half_wave.has_value()) {
        found.then = half_wave.error();
        return found;
      }
      const Span part{cuts[i], cuts[i + 1]};
      const BesideRange beside = beside_range(what, facts_, margins_, hold.station, part);
      // Of the prediction so much is wanted; what is put to it is taken at its worst in the part.
      found.all.push_back({part, hold.level(*half_wave) -
                                     (what == LevelFor::depths ? beside.least : beside.greatest)});
      found.half_waves.push_back(*half_wave);
    }
    return found;
  }

  /// Where the limit of the prediction may change: hour by hour where waves or pressure count, and
  /// every ten minutes while what was observed does.
  std::vector<Instant> even_cuts(const Hold& hold, Span span) const {
    std::vector<Instant> cuts{span.begin, span.end};
    const auto add = [&](Instant at) {
      if (at > span.begin && at < span.end) cuts.push_back(at);
    };
    for (const WindSeries& series : facts_.winds) {
      if (!hold.waves_count && !series.gives_pressure()) continue;
      for (const WindHour& hour : series.hours()) add(hour.at);
    }
    if (!facts_.observed.empty()) {
      constexpr std::chrono::minutes kStep{10};
      for (Instant at = span.begin; at < span.end; at += kStep) add(at);
    }
    for (const SeenLevel& seen : facts_.observed) {
      add(seen.at);
      add(seen.at + margins_.observed_gain);
      if (seen.wind_over) add(*seen.wind_over);
    }
    std::ranges::sort(cuts);
    cuts.erase(std::ranges::unique(cuts).begin(), cuts.end());
    return cuts;
  }

  BackAnswer answer(const Hold& hold, Instant from) const {
    BackAnswer found{not_known("not worked out"), not_known("not worked out"), hold.station,
                     hold.inputs, hold.named};
    const Limits held_to = limits(hold, {from, from + kLookedAhead});
    const auto unknown = [&found](const NotKnown& why) {
      found.until = std::unexpected(why);
      found.ends = std::unexpected(why);
      return found;
    };
    if (held_to.all.empty()) return unknown(*held_to.then);
    const TideStation& station = *facts_.tide(hold.station).value();
    if (const auto now = station.height(from); !now.has_value()) return unknown(now.error());
    const LevelHeld held = level_held(station, held_to.all, hold.lost_by);
    found.until = std::chrono::floor<std::chrono::minutes>(held.until);
    const auto last = std::ranges::find_if(
        held_to.all, [&](const LevelLimit& limit) { return held.until <= limit.span.end; });
    const auto index = static_cast<std::size_t>(last - held_to.all.begin());
    const Length half_wave = held_to.half_waves[index];
    found.inputs.push_back({"half the wave, or the wash", half_wave, "forecast or rules"});
    if (hold.squat) found.inputs.push_back({"squat", hold.squat(half_wave), "worked out"});
    const Length beside = hold.level(half_wave) - last->level;
    if (beside != metres(0)) {
      found.inputs.push_back({"level beside its prediction", beside, "observed or forecast"});
    }
    found.inputs.push_back({hold.lost_by == LostBy::falling ? "level needed above chart datum"
                                                            : "level allowed above chart datum",
                            last->level.above_datum(), "worked out"});
    switch (held.end) {
      case LevelHeld::End::lost:
        found.ends = held.until <= from                ? BackEnds::not_at_all
                     : hold.lost_by == LostBy::falling ? BackEnds::water_falls
                                                       : BackEnds::water_rises;
        break;
      case LevelHeld::End::all_through:
        found.ends = held_to.then ? BackEnds::forecast_ends : BackEnds::all_day;
        break;
      case LevelHeld::End::prediction_ends:
        found.ends = BackEnds::prediction_ends;
        break;
    }
    return found;
  }

  /// The soonest end of all; not known, with every reason, where one of them is not.
  BackAnswer soonest(const std::vector<Known<Hold>>& holds, const Passing& passing) const {
    BackAnswer worst;
    NotKnown why;
    known_detail::add_reasons(why, passing.at);
    known_detail::add_reasons(why, passing.time_is_sure);
    for (const Known<Hold>& hold : holds) known_detail::add_reasons(why, hold);
    if (why.reasons.empty()) {
      std::optional<BackAnswer> first;
      for (const Known<Hold>& hold : holds) {
        BackAnswer next = answer(*hold, *passing.at);
        known_detail::add_reasons(why, next.until);
        if (next.until.has_value() && (!first || *next.until < *first->until)) {
          first = std::move(next);
        }
      }
      if (first && why.reasons.empty()) return *first;
    }
    if (!why.reasons.empty()) {
      worst.until = std::unexpected(why);
      worst.ends = std::unexpected(why);
    }
    return worst;
  }

  BackUntil found(BackPlace what, const std::string& name, const Passing& passing,
                  const std::vector<Known<Hold>>& holds, bool opens = false) const {
    const BackAnswer worst = soonest(holds, passing);
    Working working{
        "back until, " + name,
        "first crossing of the station's curve, within 24 h, with: draft + squat + half the wave "
        "or the wash + margin - charted depth; under a bridge or cable: clearance datum + charted "
        "clearance - air draft - half the wave or the wash - margin - gap",
        worst.inputs, std::string("not known"), "definition; " + worst.station};
    if (passing.at.has_value()) working.inputs.push_back({"looked from", *passing.at, "timeline"});
    if (worst.ends.has_value()) {
      working.inputs.push_back({"what ends it", in_words(*worst.ends), worst.station});
    }
    if (worst.until.has_value()) working.result = *worst.until;
    return {what,       name,  passing.along, passing.at,         worst.until,
            worst.ends, opens, worst.station, std::move(working), worst.named};
  }

  Passing passing_at(Length along) const {
    return {along, timeline_.at(along), survey_.position_at(along),
            survey_.track().stretch_at(along).leg(), timeline_.time_is_sure(along)};
  }

  /// What the hull came over; of what is alike but for its depth, the shoalest.
  class CameOver {
   public:
    explicit CameOver(const BackFinder& finder) : finder_(finder) {}

    void add(const TimedPiece& timed, const DepthSource& source, Length along, bool open_water) {
      names_.insert(source.name);
      const Speed speed = timed.piece.through_water;
      const Kind kind{source.stations.tide,
                      source.stations.chart_datum,
                      open_water,
                      open_water_at(finder_.survey_, along),
                      is_hard(source.bottom),
                      timed.run,
                      speed.si()};
      const auto held = shoalest_.find(kind);
      if (held != shoalest_.end() && !shoaler(source.charted, held->second.charted)) return;
      const ChannelSection section = section_of(finder_.survey_, finder_.survey_.runs()[timed.run]);
      shoalest_.insert_or_assign(
          kind,
          Shoalest{source.charted, finder_.keel_hold(source, along, speed, section, open_water)});
    }

    [[nodiscard]] std::vector<Known<Hold>> holds() const {
      std::vector<Known<Hold>> all;
      for (const auto& [kind, held] : shoalest_) all.push_back(held.hold);
      return all;
    }

    [[nodiscard]] bool one_thing_only() const { return names_.size() < 2; }

   private:
    using Kind = std::tuple<std::string, std::string, bool, bool, bool, std::size_t, double>;
    struct Shoalest {
      Known<Length> charted;
      Known<Hold> hold;
    };

    /// What is not known comes before every depth.
    static bool shoaler(const Known<Length>& a, const Known<Length>& b) {
      if (!b.has_value()) return false;
      return !a.has_value() || *a < *b;
    }

    const BackFinder& finder_;
    std::map<Kind, Shoalest> shoalest_;
    std::set<std::string> names_;
  };

  BackUntil run(std::size_t index) const {
    const Run& run = survey_.runs()[index];
    CameOver over(*this);
    for (const TimedPiece& timed : timeline_.pieces()) {
      if (timed.run != index) continue;
      const Length middle = (timed.piece.begin + timed.piece.end) / 2;
      const bool open = open_water_at(survey_, middle);
      for (const DepthOnTrack* depth : timed.surveyed->depths) {
        if (belongs_to(run, *depth)) over.add(timed, depth->source, middle, open);
      }
    }
    BackUntil back = found(run.reach ? BackPlace::reach : BackPlace::unnamed_water,
                           survey_.name_of(run), passing_at(run.begin), over.holds());
    // What is all there is needs no second name.
    if (over.one_thing_only()) back.over.clear();
    return back;
  }

  /// Its own depth and that of the water it lies in: where it is crossed, or all along it.
  BackUntil bar(const Meeting& meeting) const {
    const Bar& bar = survey_.waterway().bars[meeting.index];
    const DepthSource own = source_of(bar);
    CameOver over(*this);
    if (meeting.begin == meeting.end) {
      const TimedPiece& timed = timeline_.piece_at(meeting.along);
      over.add(timed, own, meeting.along, true);
      for (const DepthOnTrack* depth :
           survey_.depths_under(timed.stretch, timed.piece.leeward_step, meeting.along)) {
        over.add(timed, depth->source, meeting.along, true);
      }
    }
    for (const TimedPiece& timed : timeline_.pieces()) {
      if (meeting.begin == meeting.end ||
          timed.piece.end <= meeting.begin - survey_.half_length() ||
          timed.piece.begin >= meeting.end + survey_.half_length()) {
        continue;
      }
      const Length along =
          std::clamp((timed.piece.begin + timed.piece.end) / 2, meeting.begin, meeting.end);
      over.add(timed, own, along, true);
      for (const DepthOnTrack* depth : timed.surveyed->depths) {
        const bool on_the_bar = depth->begin <= meeting.end && depth->end >= meeting.begin;
        if (on_the_bar) over.add(timed, depth->source, along, true);
      }
    }
    BackUntil back = found(BackPlace::bar, bar.name, passing_at(meeting.along), over.holds());
    if (back.over == own.name) back.over.clear();
    return back;
  }

  BackUntil berth(std::size_t index) const {
    const Berth& berth = survey_.waterway().berths[index];
    const DepthSource source = source_of(berth);
    return found(BackPlace::berth, berth.name, passing_at(metres(0)),
                 {keel_hold(source, metres(0), std::nullopt, {false, std::nullopt},
                            open_water_at(survey_, metres(0)))});
  }

  /// As she passes it: with the antennas up, where the margin is kept so.
  BackUntil overhead(BackPlace what, const Feature& feature, const Passing& passing,
                     const Known<Length>& charted, const Known<Length>& gap,
                     bool opens = false) const {
    const std::vector<AirDraft>& masts = plan_.vessel.air_draft;
    if (masts.empty()) {
      return found(what, feature.name, passing, {not_known("the vessel file gives no air draft")},
                   opens);
    }
    const auto with = [&](const AirDraft& mast) {
      BackUntil back = found(what, feature.name, passing,
                             {mast_hold(feature, charted, gap, mast, passing.along)}, opens);
      back.antennas = mast.antennas;
      return back;
    };
    BackUntil lowest = with(std::ranges::min(masts, {}, &AirDraft::height));
    BackUntil highest = with(std::ranges::max(masts, {}, &AirDraft::height));
    if (highest.ends == Known<BackEnds>(BackEnds::not_at_all)) return lowest;
    if (highest.until.has_value() && lowest.until.has_value() && lowest.ends.has_value() &&
        *lowest.until > *highest.until) {
      highest.longer = {*lowest.antennas, *lowest.until, *lowest.ends};
    }
    return highest;
  }

  BackUntil bridge(std::size_t index) const {
    const Meeting& meeting = survey_.bridges()[index];
    const Bridge& bridge = survey_.waterway().bridges[meeting.index];
    Passing passing = passing_at(meeting.along);
    passing.at = timeline_.bridges()[index].passes_at;
    return overhead(BackPlace::bridge, bridge, passing, bridge.clearance, metres(0),
                    opens(bridge.what));
  }

  BackUntil cable(const Meeting& meeting) const {
    const OverheadCable& cable = survey_.waterway().cables[meeting.index];
    const bool safe = cable.safe_clearance.has_value();
    return overhead(BackPlace::cable, cable, passing_at(meeting.along),
                    safe ? cable.safe_clearance : cable.clearance,
                    safe ? Known<Length>(metres(0)) : cable_gap(cable));
  }

  BackUntil ahead(BackPlace what, const std::string& name, Length along,
                  const DepthSource& source) const {
    BackUntil back = found(what, name, passing_at(along),
                           {keel_hold(source, along, plan_.vessel.slow, {false, std::nullopt},
                                      open_water_at(survey_, along))});
    if (source.kind != DepthSourceKind::hazard) back.over.clear();
    return back;
  }

  const RouteSurvey& survey_;
  const Plan& plan_;
  const Facts& facts_;
  const Margins& margins_;
  HullForm hull_;
  Timeline timeline_;
};

}  // namespace

std::vector<BackUntil> back_until_on(const RouteSurvey& survey, const Plan& plan,
                                     const Facts& facts, const Margins& margins) {
  return BackFinder(survey, plan, facts, margins).find();
}

}  // namespace passage_brief
