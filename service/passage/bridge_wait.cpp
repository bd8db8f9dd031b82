#include "passage/bridge_wait.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>

#include "facts/facts.h"
#include "facts/waterway/opening_times.h"
#include "passage/clearances.h"
#include "passage/disabled_drift.h"
#include "passage/findings.h"
#include "passage/margins.h"
#include "passage/meetings.h"
#include "passage/route_survey.h"
#include "passage/timeline.h"
#include "passage/water_level.h"
#include "passage/weather_here.h"
#include "plan/plan.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"

namespace passage_brief {
namespace {

constexpr std::chrono::minutes kMissed{5};

BridgeUser user_of(VesselUse use) {
  switch (use) {
    case VesselUse::pleasure:
      return BridgeUser::pleasure;
    case VesselUse::commercial:
      return BridgeUser::commercial;
    case VesselUse::public_service:
      return BridgeUser::public_vessel;
  }
  return BridgeUser::pleasure;
}

class BridgeWait {
 public:
  BridgeWait(const RouteSurvey& survey, const Meeting& meeting, const Plan& plan,
             const Facts& facts, const Margins& margins)
      : survey_(survey),
        bridge_(survey.waterway().bridges[meeting.index]),
        along_(meeting.along),
        where_(survey.where(meeting)),
        plan_(plan),
        facts_(facts),
        margins_(margins) {}

  [[nodiscard]] BridgePassage passage(const Known<Instant>& reached) const {
    BridgePassage passage{along_, reached, reached, std::nullopt};
    if (!opens(bridge_.what)) return passage;
    OpeningFinding found{.reached = reached,
                         .fits_on_arrival = join([&](Instant at) { return fits(at); }, reached),
                         .passes = not_known("not worked out"),
                         .wait = not_known("not worked out"),
                         .through_opening = not_known("not worked out"),
                         .hold_off = {plan_.vessel.length, not_known("not worked out"),
                                      not_known("not worked out"), not_known("not worked out")},
                         .law = std::nullopt,
                         .as_of = std::nullopt};
    if (bridge_.openings) {
      found.law = bridge_.openings->law;
      found.as_of = bridge_.openings->as_of;
    }
    passage.passes_at = passes_at(found);
    found.passes_at_least = passes_at_least(found, passage.passes_at);
    found.hold_off = hold_off(reached, passage.passes_at);
    found.wait = join([](Instant from, Instant to) { return Interval(to - from); }, reached,
                      passage.passes_at);
    passage.opening = std::move(found);
    return passage;
  }

 private:
  /// `higher`: with the water so much higher.
  [[nodiscard]] Known<bool> fits(Instant at, Length higher = metres(0)) const {
    return mast_fits(bridge_, bridge_.clearance, at, plan_.vessel, facts_, margins_,
                     half_wave_at(survey_, facts_, margins_, along_, at), higher);
  }

  /// Under the open span.
  [[nodiscard]] Known<bool> fits_open(Instant at, Length higher = metres(0)) const {
    if (!opens_only_so_high(bridge_)) return true;
    return mast_fits(bridge_, bridge_.clearance_open, at, plan_.vessel, facts_, margins_,
                     half_wave_at(survey_, facts_, margins_, along_, at), higher);
  }

  /// As she passes, with the water as high as it could be then.
  [[nodiscard]] Known<bool> passes_at_least(const OpeningFinding& found,
                                            const Known<Instant>& passes_at) const {
    if (found.passes != Known<bool>(true)) return found.passes;
    return join(
        [&](Instant at, bool through_opening) {
          return join(
              [&](Length higher) {
                return through_opening ? fits_open(at, higher) : fits(at, higher);
              },
              less_by(bridge_, at, facts_, margins_));
        },
        passes_at, found.through_opening);
  }

  /// Fills in what follows from whether she fits on arrival.
  [[nodiscard]] Known<Instant> passes_at(OpeningFinding& found) const {
    if (!found.reached.has_value() || !found.fits_on_arrival.has_value()) {
      const auto why =
          found.reached.has_value()
              ? not_known("whether the mast fits under " + bridge_.name + " closed is not known")
              : not_known_as(found.reached);
      found.passes = why;
      found.through_opening = why;
      return why;
    }
    if (*found.fits_on_arrival) {
      found.passes = true;
      found.through_opening = false;
      return no_sooner_than_who_waits(*found.reached);
    }
    look_for_openings(found);
    const Known<Instant> at = found.next.has_value() && *found.next
                                  ? Known<Instant>((*found.next)->at)
                                  : not_known("it does not open within 7 days");
    return first_of_both(found, at);
  }

  /// Who came before in the same minute, when the mast did not fit yet, passes at the next full one
  /// and is not overtaken.
  [[nodiscard]] Instant no_sooner_than_who_waits(Instant reached) const {
    const auto minute = std::chrono::floor<std::chrono::minutes>(reached);
    return fits(minute) == Known<bool>(true) ? reached : minute + std::chrono::minutes(1);
  }

  void look_for_openings(OpeningFinding& found) const {
    if (!bridge_.openings) {
      const auto why = not_known("no opening rules are on file for " + bridge_.name +
                                 ": ask the bridge for its times");
      found.next = why;
      found.next_on_signal = why;
      return;
    }
    const DrawUse use{*bridge_.openings, survey_.waterway().zone, where_, facts_.holidays,
                      user_of(plan_.vessel.use)};
    found.next = next_opening(use, *found.reached, plan_.departure.notice_from);
    found.next_on_signal = next_opening_on_signal(use, *found.reached);
  }

  /// The opening, or a minute before it at which the mast fits.
  [[nodiscard]] Known<Instant> first_of_both(OpeningFinding& found,
                                             const Known<Instant>& opening) const {
    const Instant reached = *found.reached;
    const Instant until = opening.value_or(reached + kOpeningsAhead);
    if (const std::optional<Instant> low = first_fit(reached, until)) {
      found.passes = true;
      found.through_opening = false;
      return *low;
    }
    found.through_opening = true;
    if (!found.next.has_value()) {
      found.passes = not_known_as(found.next);
      return not_known_as(found.next);
    }
    if (!opening.has_value()) {
      found.passes = false;
      return not_known(bridge_.name + " does not open within 7 days of " + "her coming to it");
    }
    found.passes = fits_open(*opening);
    if (!found.passes.has_value()) return not_known_as(found.passes);
    if (!*found.passes) return not_known("the mast does not fit under " + bridge_.name + " open");
    return opening;
  }

  /// The first full minute after the arrival and before `until` at which the mast fits closed;
  /// hours in which the water is never low enough are stepped over.
  [[nodiscard]] std::optional<Instant> first_fit(Instant reached, Instant until) const {
    using std::chrono::minutes;
    Instant minute = std::chrono::floor<minutes>(reached) + minutes(1);
    while (minute < until) {
      const Instant end = std::min<Instant>(minute + std::chrono::hours(1), until);
      const bool may_fit = may_fit_within({minute, end});
      for (; minute < end; minute += minutes(1)) {
        if (!may_fit) continue;
        const Known<bool> now = fits(minute);
        if (!now.has_value()) return std::nullopt;
        if (*now) return minute;
      }
    }
    return std::nullopt;
  }

  /// By the lowest water of the span and no wave at all: errs toward yes.
  [[nodiscard]] bool may_fit_within(Span span) const {
    const Known<const TideStation*> station = facts_.tide(bridge_.stations.tide);
    const Known<bool> fits_lowest = join(
        [&](Length charted, const TideStation* s) {
          return join(
              [&](TideHeight datum, TideHeight lowest) {
                const Length mast =
                    std::ranges::min(plan_.vessel.air_draft, {}, &AirDraft::height).height;
                return charted + (datum - lowest) - mast >= margins_.under_bridge - metres(1e-5);
              },
              s->datum(bridge_.stations.clearance_datum),
              lowest_below_bridges(facts_, margins_, bridge_.stations.tide, span));
        },
        bridge_.clearance, station);
    return fits_lowest.value_or(true);
  }

  /// The worst from coming to it until she passes; of her coming alone where that is not known.
  [[nodiscard]] HoldOff hold_off(const Known<Instant>& reached,
                                 const Known<Instant>& passes_at) const {
    constexpr std::chrono::minutes kLookedAtEvery{10};  // streams turn in hours
    if (!reached.has_value()) return hold_off_at(reached);
    const Instant until = passes_at.value_or(*reached);
    HoldOff worst = hold_off_at(until);
    for (Instant at = *reached; at < until; at += kLookedAtEvery) {
      worst = the_worse(worst, hold_off_at(at));
    }
    return worst;
  }

  static HoldOff the_worse(const HoldOff& a, const HoldOff& b) {
    const auto greater = [](const auto& x, const auto& y) { return std::max(x, y); };
    return {greater(a.short_of_bridge, b.short_of_bridge), join(greater, a.drift, b.drift),
            join(greater, a.current_toward, b.current_toward),
            join(greater, a.wind_toward, b.wind_toward)};
  }

  [[nodiscard]] HoldOff hold_off_at(const Known<Instant>& when) const {
    const TrueBearing toward = survey_.track().stretch_at(along_).course();
    const Known<Velocity> current = current_under(bridge_, survey_, facts_, along_, when);
    const Known<Velocity> wind = join(
        [&](Instant at) {
          return join([](const Wind& w) { return velocity(w.from, w.speed); },
                      wind_here(facts_, where_, at));
        },
        when);
    const auto part = [&](const Velocity& v) { return component_toward(toward, v); };
    HoldOff off{plan_.vessel.length, not_known("not worked out"), join(part, current),
                join(part, wind)};
    off.drift = join(
        [&](const Velocity& blown, const Velocity& set) {
          const Speed closing = greatest_drift_toward(toward, plan_.vessel.hull, blown, set);
          return std::max(closing * Interval(kMissed), metres(0));
        },
        wind, current);
    if (off.drift.has_value()) off.short_of_bridge += *off.drift;
    return off;
  }

  const RouteSurvey& survey_;
  const Bridge& bridge_;
  Length along_;
  Position where_;
  const Plan& plan_;
  const Facts& facts_;
  const Margins& margins_;
};

}  // namespace

BridgePassage bridge_passage(const RouteSurvey& survey, const Meeting& meeting,
                             const Known<Instant>& reached, const Plan& plan, const Facts& facts,
                             const Margins& margins) {
  return BridgeWait(survey, meeting, plan, facts, margins).passage(reached);
}

}  // namespace passage_brief
