#include "passage/timeline.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/facts.h"
#include "passage/bridge_wait.h"
#include "passage/crossed_piece.h"
#include "passage/findings.h"
#include "passage/hull.h"
#include "passage/leeway.h"
#include "passage/margins.h"
#include "passage/relative_wind.h"
#include "passage/route_survey.h"
#include "passage/squat.h"
#include "passage/triangle.h"
#include "passage/water_level.h"
#include "passage/weather_here.h"
#include "plan/plan.h"
#include "units/check.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

// The helm sees that she is off the line, and mends it, within this time (our rule, no source).
constexpr double kSteeredBlind_s = 120;

struct ChosenSpeed {
  Speed speed;
  std::optional<std::string> because;
};

/// The wind aboard, and how far it may blow her off the line.
struct Blown {
  RelativeWind aboard;
  Length aside;
  Length by_light_air;
};

/// The least water in the corridor at one place and time.
struct LeastWater {
  Known<Length> charted;
  Known<Length> water;
  Known<TideHeight> tide;
};

Known<Velocity> current_of(const std::string& name, const Facts& facts, const Known<Instant>& at) {
  if (name == "none") return Velocity{metres_per_second(0), metres_per_second(0)};
  if (name.empty()) return not_known("the waterway names no current station here");
  return join(
      [](const CurrentStation* station, Instant instant) {
        return join([](const Current& c) { return velocity(c.toward, c.speed); },
                    station->at(instant));
      },
      facts.current(name), at);
}

/// Runs the track piece by piece.
class Runner {
 public:
  Runner(const RouteSurvey& survey, const Plan& plan, const HullForm& hull, const Facts& facts,
         const Margins& margins)
      : survey_(survey),
        plan_(plan),
        hull_(hull),
        facts_(facts),
        margins_(margins),
        now_(plan.departure.at) {}

  Timeline run() {
    for (std::size_t block = 0; block < survey_.blocks().size(); ++block) run_block(block);
    come_to_bridges(survey_.track().length + metres(1));  // of the end, whatever the rounding
    return {plan_.departure.at, std::move(pieces_), std::move(passages_), now_};
  }

 private:
  void run_block(std::size_t index) {
    const TrackBlock& block = survey_.blocks()[index];
    const Stretch& stretch = survey_.track().stretches[block.stretch];
    const Known<Wind> wind =
        join([&](Instant at) { return wind_here(facts_, block.where, at); }, now_);
    const Speed likely = chosen_for(survey_.runs()[block.run]);
    const Known<RelativeWind> aboard = join(
        [&](const Wind& w) {
          return wind_aboard(stretch.course(), likely, w,
                             current_here(survey_, facts_, block.begin, now_));
        },
        wind);
    const Known<Leeway> leeway =
        join([&](const RelativeWind& w) { return leeway_under_way(hull_, likely, w); }, aboard);
    const RelativeWind w = aboard.value_or(RelativeWind{knots(0), degrees(0)});
    const Blown blown{w, blown_aside(leeway), blown_by_light_air(likely, w.speed)};
    const int step = survey_.as_narrow_as(index, step_for(leeway, blown.aside));
    for (const SurveyedPiece& piece : survey_.pieces(index, step)) run_piece(index, piece, blown);
  }

  /// Leeway beyond what is steered for widens the corridor on the lee side. Without a forecast
  /// there is nothing to widen it by; the wind limits are then not known, and no departure is
  /// within limits.
  static Length blown_aside(const Known<Leeway>& leeway) {
    if (!leeway.has_value()) return metres(0);
    const Speed unsure = leeway->sideways_could_be - leeway->sideways;
    return metres(in_metres_per_second(unsure) * kSteeredBlind_s);
  }

  /// By a wind aboard as strong, with no more of it on the beam.
  [[nodiscard]] Length blown_by_light_air(Speed through_water, Speed aboard) const {
    const Speed strength = std::max(aboard, kLightAir);
    const Angle from = radians(std::asin(kLightAir / strength));
    return blown_aside(leeway_under_way(hull_, through_water, {strength, from}));
  }

  static int step_for(const Known<Leeway>& leeway, Length aside) {
    if (!leeway.has_value() || !leeway->falls_off_to) return 0;
    return RouteSurvey::leeward_step(*leeway->falls_off_to, aside);
  }

  /// Pointed up to the current, where it is known and she can hold the line.
  static RelativeWind wind_aboard(TrueBearing course, Speed speed, const Wind& wind,
                                  const Known<Velocity>& current) {
    const Velocity blows = velocity(wind.from, wind.speed);
    if (!current.has_value()) return relative_wind(blows, velocity(course, speed), course);
    const auto held =
        course_to_steer(course, speed, SetToward{bearing_of(*current)}, speed_of(*current));
    if (!held) return relative_wind(blows, velocity(course, speed) + *current, course);
    return relative_wind(blows, velocity(course, held->over_ground), held->steer);
  }

  Leeway leeway_at(TrueBearing course, Speed speed, const Wind& wind,
                   const Known<Velocity>& current) const {
    return leeway_under_way(hull_, speed, wind_aboard(course, speed, wind, current));
  }

  LeastWater least_water(const SurveyedPiece& piece) const {
    if (piece.least.empty()) {
      const auto none = not_known("no depth on file");
      return {none, none, none};
    }
    std::optional<LeastWater> least;
    for (const DepthOnTrack* depth : piece.least) {
      const Known<TideHeight> tide = level_at(facts_, margins_, depth->source.stations, now_);
      const Known<Length> water =
          join([](Length charted, TideHeight height) { return charted + height.above_datum(); },
               depth->source.charted, tide);
      if (!least || !water.has_value() || *water < *least->water) {
        least = {depth->source.charted, water, tide};
      }
      if (!water.has_value()) break;
    }
    return *least;
  }

  Speed chosen_for(const Run& run) const {
    if (!run.reach) return plan_.vessel.slow;
    const Reach& reach = survey_.waterway().reaches[*run.reach];
    const Speed by_channel =
        reach.channel == Channel::main ? plan_.vessel.cruise : plan_.vessel.slow;
    return reach.speed_limit ? std::min(by_channel, *reach.speed_limit) : by_channel;
  }

  ChosenSpeed speed_over(const Run& run, const Known<Length>& water) const {
    ChosenSpeed chosen{chosen_for(run), std::nullopt};
    if (!water.has_value()) {
      if (plan_.vessel.slow < chosen.speed) chosen = {plan_.vessel.slow, "the depth is not known"};
      return chosen;
    }
    const Length draft = hull_.draft;
    const Length counted = std::max(*water, draft);  // aground the figures below end
    const auto no_faster = [&chosen](Speed limit, const char* because) {
      if (limit < chosen.speed) chosen = {limit, because};
    };
    if (counted < draft * 2) no_faster(half_wave_speed(counted), "shoal water");
    if (counted < draft * 3) {
      no_faster(greatest_speed_with_a_squat_figure(hull_, counted), "squat not predictable faster");
    }
    if (counted >= draft * 2 && counted < draft * 3) {
      no_faster(as_much_under_keel_as_at_twice_the_draft(run, counted), "shoal water");
    }
    return chosen;
  }

  Speed as_much_under_keel_as_at_twice_the_draft(const Run& run, Length water) const {
    const Length twice = hull_.draft * 2;
    const ChannelSection section = section_of(survey_, run);
    const Speed there = std::min(chosen_for(run), half_wave_speed(twice));
    const Known<Squat> squat = squat_of(hull_, there, twice, section);
    if (!squat.has_value()) return there;
    return greatest_speed_squatting(hull_, squat->sinkage + (water - twice), water, section);
  }

  void run_piece(std::size_t block, const SurveyedPiece& surveyed, const Blown& blown) {
    const Length begin = surveyed.begin;
    const Length end = surveyed.end;
    come_to_bridges(begin);
    const Stretch& stretch = survey_.track().stretches[surveyed.stretch];
    const Run& run = survey_.runs()[surveyed.run];
    const LeastWater least = least_water(surveyed);
    const ChosenSpeed chosen = speed_over(run, least.water);
    const Known<std::string> station = survey_.current_station_at((begin + end) / 2);
    const CrossedPiece over = crossed_piece(
        stretch.course(), chosen.speed, end - begin, now_, [&](const Known<Instant>& at) {
          return join([&](const std::string& name) { return current_of(name, facts_, at); },
                      station);
        });
    const Known<Wind> wind =
        join([&](Instant at) { return wind_here(facts_, surveyed.middle, at); }, now_);
    const Known<Leeway> leeway = join(
        [&](const Wind& w) { return leeway_at(stretch.course(), chosen.speed, w, over.current); },
        wind);
    const std::string reach =
        run.reach ? survey_.waterway().reaches[*run.reach].name : std::string();
    pieces_.push_back(
        {&surveyed,
         {begin, end, now_, over.ends, stretch.leg(), blown.aboard, blown.aside, blown.by_light_air,
          block, surveyed.leeward_step, chosen.speed, over.over_ground, over.over_ground_most,
          over.across, least.charted, least.tide, reach},
         surveyed.stretch,
         surveyed.run,
         chosen.because,
         over.current,
         over.makes_headway,
         over.holds_line,
         wind,
         leeway});
    now_ = over.ends;
  }

  /// Every bridge up to there; waits move the time.
  void come_to_bridges(Length along) {
    const std::vector<Meeting>& bridges = survey_.bridges();
    while (passages_.size() < bridges.size() && bridges[passages_.size()].along <= along) {
      passages_.push_back(
          bridge_passage(survey_, bridges[passages_.size()], now_, plan_, facts_, margins_));
      now_ = passages_.back().passes_at;
    }
  }

  const RouteSurvey& survey_;
  const Plan& plan_;
  const HullForm& hull_;
  const Facts& facts_;
  const Margins& margins_;
  Known<Instant> now_;
  std::vector<TimedPiece> pieces_;
  std::vector<BridgePassage> passages_;
};

}  // namespace

Timeline::Timeline(Instant departs, std::vector<TimedPiece> pieces,
                   std::vector<BridgePassage> bridges, Known<Instant> arrives)
    : departs_(departs),
      pieces_(std::move(pieces)),
      bridges_(std::move(bridges)),
      arrives_(std::move(arrives)) {
  check(!pieces_.empty(), "a track has pieces");
  const auto unsure = std::ranges::find_if(
      pieces_, [](const TimedPiece& timed) { return !timed.current.has_value(); });
  if (unsure != pieces_.end()) first_unsure_ = static_cast<std::size_t>(unsure - pieces_.begin());
}

const TimedPiece& Timeline::piece_at(Length along) const {
  const auto after = std::ranges::upper_bound(
      pieces_, along, {}, [](const TimedPiece& timed) { return timed.piece.begin; });
  return after == pieces_.begin() ? pieces_.front() : *(after - 1);
}

Known<Instant> Timeline::at(Length along) const {
  constexpr Length kRounding = metres(1e-6);
  const bool at_the_end = along >= pieces_.back().piece.end - kRounding;
  return at_the_end ? arrives_ : comes_to(along);
}

Known<Instant> Timeline::comes_to(Length along) const {
  if (along <= metres(0)) return departs_;
  const auto next = std::ranges::lower_bound(
      pieces_, along, {}, [](const TimedPiece& timed) { return timed.piece.begin; });
  const TrackPiece& piece = (next - 1)->piece;  // at a joint the earlier one: before any wait
  const double part = std::clamp((along - piece.begin) / (piece.end - piece.begin), 0.0, 1.0);
  return join(
      [part](Instant begins, Instant ends) {
        return begins + seconds_long(in_seconds(ends - begins) * part);
      },
      piece.begins, piece.ends);
}

Known<Span> Timeline::between(Length begin, Length end) const {
  Known<Span> span =
      join([](Instant from, Instant to) { return Span{from, to}; }, comes_to(begin), comes_to(end));
  for (const BridgePassage& bridge : bridges_) {
    if (!span.has_value() || !bridge.opening || !bridge.passes_at.has_value()) continue;
    const Length lies_from = bridge.along - may_lie_within(bridge.opening->hold_off);
    if (end < lies_from || begin > bridge.along) continue;
    span->end = std::max(span->end, *bridge.passes_at);
  }
  return span;
}

Known<bool> Timeline::time_is_sure(Length along) const {
  if (!first_unsure_ || pieces_[*first_unsure_].piece.begin >= along) return true;
  return not_known_as(pieces_[*first_unsure_].current);
}

Timeline timeline_of(const RouteSurvey& survey, const Plan& plan, const HullForm& hull,
                     const Facts& facts, const Margins& margins) {
  return Runner(survey, plan, hull, facts, margins).run();
}

Known<Span> while_in(const TrackPiece& piece) {
  return join([&piece](Instant begins) { return Span{begins, piece.ends.value_or(begins)}; },
              piece.begins);
}

ChannelSection section_of(const RouteSurvey& survey, const Run& run) {
  if (!run.reach) return {false, std::nullopt};
  const Reach& reach = survey.waterway().reaches[*run.reach];
  return {run.clipped || reach.channel == Channel::secondary, reach.width};
}

Known<Velocity> current_here(const RouteSurvey& survey, const Facts& facts, Length along,
                             const Known<Instant>& at) {
  return join([&](const std::string& name) { return current_of(name, facts, at); },
              survey.current_station_at(along));
}

Known<Velocity> current_under(const Bridge& bridge, const RouteSurvey& survey, const Facts& facts,
                              Length along, const Known<Instant>& at) {
  const std::string& own = bridge.stations.current;
  return own.empty() ? current_here(survey, facts, along, at) : current_of(own, facts, at);
}

bool open_water_at(const RouteSurvey& survey, Length along) {
  const Run& run = survey.run_at(along);
  if (!run.reach || survey.waterway().reaches[*run.reach].open_water) return true;
  return std::ranges::any_of(survey.bars(), [&](const Meeting& bar) {
    return bar.begin - along <= survey.half_length() && along - bar.end <= survey.half_length();
  });
}

Known<Length> half_wave_at(const RouteSurvey& survey, const Facts& facts, const Margins& margins,
                           Length along, const Known<Instant>& at) {
  return half_wave_in(survey, facts, margins, along,
                      join([](Instant t) { return Span{t, t}; }, at));
}

Known<Length> half_wave_in(const RouteSurvey& survey, const Facts& facts, const Margins& margins,
                           Length along, const Known<Span>& span) {
  if (!open_water_at(survey, along)) return margins.wash;
  const Position where = survey.position_at(along);
  return join(
      [&](Span while_there) {
        return join([&](Length wave) { return std::max(wave / 2, margins.wash); },
                    wave_here(facts, where, while_there));
      },
      span);
}

}  // namespace passage_brief
