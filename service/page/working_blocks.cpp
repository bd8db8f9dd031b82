#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/sheet_parts.h"
#include "page/working_steps.h"

namespace passage_brief {
namespace {

constexpr const char* kSteer = "what to steer";
constexpr const char* kTimeToDanger = "time to a danger";

// The balance of passage/leeway.h; 0.9 x 1.225 / 1025 = 0.001076.
constexpr const char* kHowLeeway = "Leeway, on each leg";
constexpr const char* kLeeway =
    "Its tangent is v / u, u the speed through the water, v that sideways: 0.9 x lateral plane x "
    "v\u00b2 + 3.14 x draft\u00b2 x u x v = 0.001076 x windage x W x its part on the beam, W the "
    "wind as she feels it; speeds in one unit, draft in m";

template <class... Ts>
bool all_known(const Known<Ts>&... figures) {
  return (figures.has_value() && ...);
}

std::string when(const Passing& passing, const Reader& reader) {
  return passing.at.has_value()
             ? ", " + reader.clock.with_zone(passing.at.value(), Rounding::nearest)
             : ", time not known";
}

/// From the keel up to where the sounder measures from.
Known<Length> keel_to_sounder(const Vessel& vessel) {
  if (!vessel.sounder) return not_known("the vessel file does not say where it measures from");
  switch (vessel.sounder->measures_from) {
    case SounderZero::keel:
      return metres(0);
    case SounderZero::waterline:
      return vessel.draft;
    case SounderZero::transducer:
      break;
  }
  if (!vessel.sounder->below_waterline) return not_known("the depth of the transducer");
  return vessel.draft - *vessel.sounder->below_waterline;
}

void say_sounder(Steps& steps, const Depth& depth, const Vessel& vessel, Carried under_keel) {
  const Known<Length> more = keel_to_sounder(vessel);
  if (!all_known(more, depth.wave)) return;
  std::vector<Term> rest = {{"half the wave or the wash", depth.wave.value()}};
  if (more.value() != metres(0)) rest.push_back({"keel to where it measures from", more.value()});
  const auto with = [&](Term first) {
    std::vector<Term> terms = {std::move(first)};
    terms.insert(terms.end(), rest.begin(), rest.end());
    return terms;
  };
  if (all_known(depth.under_keel, depth.sounder_reads)) {
    steps.sum("Sounder reads",
              with({"under the keel", depth.under_keel.value(), false, under_keel}),
              depth.sounder_reads, Rounding::nearest);
  }
  if (!depth.stop_at.has_value()) return;
  const Length limit = depth.stop_at.value() - depth.wave.value() - more.value();
  steps.sum("Stop at", with({"least allowed by the rules here", limit}), depth.stop_at,
            Rounding::up);
}

/// Of a tide that is not prediction alone, what of it is. The inputs name its parts
/// (passage/water_level.h).
Carried say_tide(Steps& steps, const Known<TideHeight>& tide, const Working& working,
                 Rounding way) {
  constexpr std::string_view kPart = "of it, ";
  if (!tide.has_value()) return std::nullopt;
  std::vector<Term> parts;
  Length predicted = tide->above_datum();
  for (const WorkingInput& input : working.inputs) {
    const Length* const part = std::get_if<Length>(&input.value);
    if (part == nullptr || !input.name.starts_with(kPart)) continue;
    parts.push_back({input.name.substr(kPart.size()), *part});
    predicted = predicted - *part;
  }
  if (parts.empty()) return std::nullopt;
  parts.insert(parts.begin(), {"predicted", predicted});
  return steps.sum("Tide", parts, tide->above_datum(), way);
}

Block depth_working(const Depth& depth, const Vessel& vessel, const Reader& reader,
                    const SharedSources& shared) {
  Steps steps("Under the keel, " + depth.name + when(depth.passing, reader), reader, shared);
  Carried water;
  Carried under_keel;
  const Carried tide = say_tide(steps, depth.height_of_tide, depth.working, Rounding::down);
  if (all_known(depth.charted, depth.height_of_tide)) {
    water = steps.sum("Water",
                      {{"charted", depth.charted.value()},
                       {"tide", depth.height_of_tide.value().above_datum(), false, tide}},
                      depth.water, Rounding::down);
  }
  if (all_known(depth.water, depth.squat, depth.wave)) {
    under_keel = steps.sum("Under the keel",
                           {{"water", depth.water.value(), false, water},
                            {"draft", depth.draft, true},
                            {"squat", depth.squat.value(), true},
                            {"half the wave or the wash", depth.wave.value(), true}},
                           depth.under_keel, Rounding::down);
  } else if (!depth.under_keel.has_value()) {
    steps.say("Under the keel: " + not_known_text(depth.under_keel.error()) + ".");
  }
  if (depth.under_keel.has_value()) {
    steps.could_be("Could be", {"figure", depth.under_keel.value(), false, under_keel},
                   depth.under_keel_could_be, depth.errors, depth.off_for_parts);
  }
  say_sounder(steps, depth, vessel, under_keel);
  steps.inputs(depth.working);
  return steps.take();
}

/// One span of a bridge.
struct SpanWorked {
  std::string span;  // "" or ", span open"
  const Known<Length>& charted;
  const Known<Length>& clearance;
  const Known<Length>& could_be;
  const std::vector<OverMast>& masts;
  Carried tide;
};

/// Taken away.
Carried minus(const Carried& figure) { return figure ? Carried(-*figure) : std::nullopt; }

void add_span(Steps& steps, const BridgeFinding& bridge, const SpanWorked& worked) {
  Carried clearance;
  if (all_known(worked.charted, bridge.clearance_datum, bridge.height_of_tide)) {
    clearance =
        steps.sum("Clearance" + worked.span,
                  {{"charted", worked.charted.value(), false},
                   {"datum of the clearance", bridge.clearance_datum.value().above_datum(), false},
                   {"tide", bridge.height_of_tide.value().above_datum(), true, minus(worked.tide)}},
                  worked.clearance, Rounding::down);
  } else if (!worked.clearance.has_value()) {
    steps.say("Clearance" + worked.span + ": " + not_known_text(worked.clearance.error()) + ".");
  }
  if (!worked.clearance.has_value()) return;
  steps.could_be("Clearance could be" + worked.span,
                 {"figure", worked.clearance.value(), false, clearance}, worked.could_be,
                 bridge.errors);
  for (const OverMast& mast : worked.masts) {
    if (!bridge.wave.has_value()) break;
    steps.sum("Over the mast" + worked.span + ", antennas " + in_words(mast.antennas),
              {{"clearance", worked.clearance.value(), false, clearance},
               {"air draft", mast.air_draft, true},
               {"half the wave or the wash", bridge.wave.value(), true}},
              mast.over_mast, Rounding::down);
  }
}

Block bridge_working(const BridgeFinding& bridge, const Reader& reader,
                     const SharedSources& shared) {
  Steps steps("Clearance, " + bridge.name + when(bridge.passing, reader), reader, shared);
  const Carried tide = say_tide(steps, bridge.height_of_tide, bridge.working, Rounding::up);
  add_span(
      steps, bridge,
      {"", bridge.charted, bridge.clearance, bridge.clearance_could_be, bridge.over_mast, tide});
  if (bridge.open_span) {
    const OpenSpan& open = *bridge.open_span;
    add_span(steps, bridge,
             {", span open", open.charted, open.clearance, open.clearance_could_be, open.over_mast,
              tide});
  }
  const OverMast* const mast = bridge.fits_with.has_value()
                                   ? in_state(bridge.over_mast, *bridge.fits_with)
                                   : most_room(bridge.over_mast);
  if (mast != nullptr && all_known(bridge.wave, bridge.gauge_at_least)) {
    steps.sum("Gauge at least",
              {{"air draft", mast->air_draft, false},
               {"margin", bridge.margin, false},
               {"half the wave or the wash", bridge.wave.value(), false}},
              bridge.gauge_at_least, Rounding::up);
  }
  steps.inputs(bridge.working);
  return steps.take();
}

Block cable_working(const CableFinding& cable, const Reader& reader, const SharedSources& shared) {
  Steps steps("To spare, cable " + cable.name + when(cable.passing, reader), reader, shared);
  Carried clearance;
  Carried to_spare;
  const Carried tide = say_tide(steps, cable.height_of_tide, cable.working, Rounding::up);
  if (all_known(cable.charted, cable.clearance_datum, cable.height_of_tide)) {
    clearance =
        steps.sum("Clearance",
                  {{"charted", cable.charted.value(), false},
                   {"datum of the clearance", cable.clearance_datum.value().above_datum(), false},
                   {"tide", cable.height_of_tide.value().above_datum(), true, minus(tide)}},
                  cable.clearance, Rounding::down);
  }
  const OverMast* const mast = as_passed(cable);
  if (mast != nullptr && all_known(cable.clearance, cable.wave, cable.gap)) {
    to_spare = steps.sum("To spare, antennas " + in_words(mast->antennas),
                         {{"clearance", cable.clearance.value(), false, clearance},
                          {"air draft", mast->air_draft, true},
                          {"half the wave or the wash", cable.wave.value(), true},
                          {"gap", cable.gap.value(), true}},
                         cable.to_spare, Rounding::down);
  } else if (!cable.to_spare.has_value()) {
    steps.say("To spare: " + not_known_text(cable.to_spare.error()) + ".");
  }
  if (cable.to_spare.has_value()) {
    steps.could_be("Could be", {"figure", cable.to_spare.value(), false, to_spare},
                   cable.to_spare_could_be, cable.errors);
  }
  steps.inputs(cable.working);
  return steps.take();
}

Block leg_working(const Leg& leg, std::size_t index, const Reader& reader,
                  const SharedSources& shared) {
  Steps steps(fmt::format("Steer on leg {}, {} to {}", index + 1, leg.from, leg.to), reader,
              shared);
  const auto degrees_text = [](double deg) { return rounded(deg, 1, Rounding::nearest); };
  if (leg.steer_true.has_value()) {
    steps.say(
        fmt::format("Course {}, pointed up to {} by the triangle of velocities and {} of "
                    "leeway{}",
                    bearing_text(leg.course), bearing_text(leg.steer_true.value()),
                    or_not_known(leg.leeway, [](Angle a) { return angle_text(a, Rounding::up); }),
                    leg.falls_off_to.has_value() && leg.falls_off_to.value().has_value()
                        ? " to " + in_words(*leg.falls_off_to.value())
                        : std::string()));
  } else {
    steps.say("Heading " + not_known_text(leg.steer_true.error()) + ".");
  }
  if (all_known(leg.steer_true, leg.variation, leg.steer_magnetic)) {
    const double east = leg.variation.value().east.in_degrees();
    steps.say(fmt::format("Magnetic: {} {} variation {} {} = {}",
                          degrees_text(leg.steer_true.value().in_degrees()), east < 0 ? "+" : "-",
                          degrees_text(std::abs(east)), east < 0 ? "W" : "E",
                          bearing_text(leg.steer_magnetic.value())));
  }
  if (leg.steer_compass.has_value()) {
    steps.say("By the deviation table: " + bearing_text(leg.steer_compass.value()));
  }
  steps.all_inputs({kSteer, &leg.working});
  return steps.take();
}

template <class T>
std::optional<T> input_of(const Working& working, std::string_view name) {
  for (const WorkingInput& input : working.inputs) {
    if (input.name == name && std::holds_alternative<T>(input.value))
      return std::get<T>(input.value);
  }
  return std::nullopt;
}

/// "0.71 kn toward 065 T".
std::string motion_text(const Working& working, const std::string& of) {
  const std::optional<Speed> speed = input_of<Speed>(working, of);
  const std::optional<Angle> toward = input_of<Angle>(working, of + " toward, true");
  if (!speed || !toward) return std::string(kNotKnown);
  return fmt::format("{} kn toward {}", rounded(in_knots(*speed), 2, Rounding::nearest),
                     bearing_text(TrueBearing::from_degrees(toward->in_degrees())));
}

Block danger_working(const Danger& danger, const Reader& reader, const SharedSources& shared) {
  Steps steps(fmt::format("Time to {}, {}, engines stopped, on leg {}", danger.name,
                          in_words(danger.side), danger.leg + 1),
              reader, shared);
  const auto way = input_of<Length>(danger.working, "way drifted");
  const std::string time =
      or_not_known(danger.reached_in, [](Interval t) { return interval_text(t, Rounding::down); });
  if (way) {
    steps.say("Drift: leeway " + motion_text(danger.working, "of it leeway") + " + current " +
              motion_text(danger.working, "of it current") + " = " +
              motion_text(danger.working, "drift") + ", of the fan what is soonest there");
    steps.say(fmt::format("{} off; {} on that drift = {}",
                          distance_text(danger.distance, Rounding::down, reader.units),
                          distance_text(*way, Rounding::nearest, reader.units), time));
  } else {
    steps.say(fmt::format("{} off the lee edge = {}",
                          distance_text(danger.distance, Rounding::down, reader.units), time));
  }
  steps.all_inputs({kTimeToDanger, &danger.working});
  return steps.take();
}

bool is_overhead(const BackUntil& back) {
  return back.what == BackPlace::bridge || back.what == BackPlace::cable;
}

/// The level from or to which the margin is kept, and how long the tide keeps it.
Block back_working(const BackUntil& back, const Reader& reader, const SharedSources& shared) {
  Steps steps("Back until, " + back.name, reader, shared);
  const bool overhead = is_overhead(back);
  const auto level = input_of<Length>(back.working, overhead ? "level allowed above chart datum"
                                                             : "level needed above chart datum");
  if (level) {
    std::vector<Term> terms;
    const auto term = [&](const std::string& input, bool taken_away) {
      const auto value = input_of<Length>(back.working, input);
      if (value && *value != metres(0)) terms.push_back({input, *value, taken_away});
    };
    term("draft", false);
    term("squat", false);
    term("clearance datum above chart datum", false);
    term("charted clearance", false);
    if (back.antennas) term("air draft, antennas " + in_words(*back.antennas), true);
    term("margin", overhead);
    term("gap to keep below the wire", true);
    term("half the wave, or the wash", overhead);
    term("charted depth", true);
    term("plane of the depths above chart datum", false);
    term("level beside its prediction", true);
    steps.sum(overhead ? "Predicted level at most" : "Predicted level at least", terms, *level,
              overhead ? Rounding::down : Rounding::up);
  }
  const auto at = [&](Rounding way) {
    return [&reader, way](Instant time) { return reader.clock.with_zone(time, way); };
  };
  const std::string ends = or_not_known(back.ends, [](BackEnds how) { return in_words(how); });
  if (back.ends == Known<BackEnds>(BackEnds::not_at_all)) {
    steps.say(capitalised(ends));
  } else {
    steps.say(fmt::format("From {} on kept until {}: {}",
                          or_not_known(back.at, at(Rounding::nearest)),
                          or_not_known(back.until, at(Rounding::down)), ends));
  }
  if (back.longer) {
    steps.say(fmt::format("With antennas {} until {}: {}", in_words(back.longer->antennas),
                          at(Rounding::down)(back.longer->until), in_words(back.longer->ends)));
  }
  steps.inputs(back.working);
  return steps.take();
}

/// What counts nothing comes from nowhere; what is worked out, the level among it, stays.
std::vector<BackUntil> without_zero_inputs(std::vector<BackUntil> all) {
  for (BackUntil& back : all) {
    std::erase_if(back.working.inputs, [](const WorkingInput& input) {
      const auto* const length = std::get_if<Length>(&input.value);
      return length != nullptr && *length == metres(0) && input.source != "worked out";
    });
  }
  return all;
}

/// What decides, by the lists of the findings.
struct Deciding {
  std::set<std::size_t> depths;
  std::set<std::size_t> bridges;
  std::set<std::size_t> cables;
  std::set<std::size_t> dangers;
  std::set<std::size_t> legs;
};

Deciding deciding(const Brief& brief) {
  Deciding all;
  if (brief.least_depth) all.depths.insert(*brief.least_depth);
  if (brief.nearest_margin) all.depths.insert(*brief.nearest_margin);
  if (brief.lowest_bridge) {
    all.bridges.insert(*brief.lowest_bridge);
  } else if (brief.nearest_danger) {
    all.dangers.insert(*brief.nearest_danger);
  }
  for (const LimitResult& limit : brief.judgement.limits) {
    if (limit.state == LimitState::kept) continue;
    switch (limit.about.kind) {
      case SubjectKind::berth:
      case SubjectKind::reach:
      case SubjectKind::bar:
        all.depths.insert(limit.about.index);
        break;
      case SubjectKind::bridge:
        all.bridges.insert(limit.about.index);
        break;
      case SubjectKind::cable:
        all.cables.insert(limit.about.index);
        break;
      case SubjectKind::danger:
        all.dangers.insert(limit.about.index);
        break;
      case SubjectKind::leg:
        all.legs.insert(limit.about.index);
        break;
      case SubjectKind::passage:
      case SubjectKind::light:
      case SubjectKind::mark:
        break;
    }
  }
  return all;
}

}  // namespace

std::vector<Block> working_blocks(const Brief& brief, const Reader& reader) {
  const Findings& found = brief.findings;
  const Deciding decides = deciding(brief);
  const auto blank = [&](LessonFigure figure) {
    return std::ranges::find(brief.left_blank, figure) != brief.left_blank.end();
  };
  std::vector<Worked> shown;
  std::vector<std::function<Block(const SharedSources&)>> makes;
  const auto add = [&](const auto& list, const std::set<std::size_t>& chosen, bool all,
                       const char* what, const auto& working) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      if (!all && !chosen.contains(i)) continue;
      shown.push_back({what, &list[i].working});
      makes.emplace_back([&item = list[i], i, working](const SharedSources& shared) {
        return working(item, i, shared);
      });
    }
  };
  const bool overhead = blank(LessonFigure::clearance) || blank(LessonFigure::over_mast);
  add(found.depths, decides.depths, blank(LessonFigure::under_keel) || blank(LessonFigure::stop_at),
      "under the keel", [&](const Depth& depth, std::size_t, const SharedSources& shared) {
        return depth_working(depth, brief.vessel, reader, shared);
      });
  add(found.bridges, decides.bridges, overhead || blank(LessonFigure::gauge_at_least), "clearance",
      [&](const BridgeFinding& bridge, std::size_t, const SharedSources& shared) {
        return bridge_working(bridge, reader, shared);
      });
  add(found.cables, decides.cables, overhead, "clearance",
      [&](const CableFinding& cable, std::size_t, const SharedSources& shared) {
        return cable_working(cable, reader, shared);
      });
  add(found.legs, decides.legs, blank(LessonFigure::steer) || blank(LessonFigure::leeway), kSteer,
      [&](const Leg& leg, std::size_t i, const SharedSources& shared) {
        return leg_working(leg, i, reader, shared);
      });
  add(found.dangers, decides.dangers, blank(LessonFigure::reached_in), kTimeToDanger,
      [&](const Danger& danger, std::size_t, const SharedSources& shared) {
        return danger_working(danger, reader, shared);
      });
  const std::vector<BackUntil> back_until = without_zero_inputs(found.back_until);
  for (const BackUntil& back : back_until) {
    if (is_overhead(back) ? !overhead : !blank(LessonFigure::under_keel)) continue;
    shown.push_back({"back until", &back.working});
    makes.emplace_back(
        [&](const SharedSources& shared) { return back_working(back, reader, shared); });
  }
  const SharedSources shared(shown);
  std::vector<Block> blocks;
  for (const auto& make : makes) blocks.push_back(make(shared));
  const bool of_legs = std::ranges::any_of(shown, [](const Worked& w) { return w.what == kSteer; });
  if (of_legs)
    blocks.push_back({.kind = BlockKind::working, .lead = kHowLeeway, .more = {kLeeway}});
  if (auto sources = shared.block()) blocks.push_back(*std::move(sources));
  return blocks;
}

}  // namespace passage_brief
