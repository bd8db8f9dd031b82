#include <algorithm>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

#include "rules/fact_rows.h"

namespace passage_brief {
namespace {

const std::string kMastCouldTouch = "within the error of the figures the mast could touch";
const std::string kWireCouldBeNear =
    "within the error of the figures the mast could come inside the gap";

const BridgeFinding& bridge_at(const Findings& findings, std::size_t index) {
  return findings.bridges[index];
}

const CableFinding& cable_at(const Findings& findings, std::size_t index) {
  return findings.cables[index];
}

Known<Length> figure_of(const OverMast* state, Known<Length> OverMast::* figure) {
  if (state == nullptr) return not_known("the vessel file gives no air draft for that state");
  return state->*figure;
}

Known<bool> fits_antennas_up(const BridgeFinding& bridge) {
  return join([&](Length over_mast) { return over_mast >= bridge.margin; },
              figure_of(in_state(bridge.over_mast, Antennas::up), &OverMast::over_mast));
}

Known<Length> above_datum(const Known<TideHeight>& height) {
  return join([](TideHeight known) { return known.above_datum(); }, height);
}

// A turn sharper than this takes a boat's whole attention (our rule, no source).
constexpr Angle kSharpTurn = degrees(20);

/// From the bridge to the nearest turn, or to either end of the track: there too she is being
/// turned.
Length turn_within(const BridgeFinding& bridge, const Findings& findings) {
  const Length here = bridge.passing.along;
  Length nearest = std::min(here, findings.passage.distance - here);
  Length joint = metres(0);
  for (std::size_t i = 0; i + 1 < findings.legs.size(); ++i) {
    joint += findings.legs[i].distance;
    const Angle turn = findings.legs[i + 1].course - findings.legs[i].course;
    if (turn < kSharpTurn && turn > -kSharpTurn) continue;
    nearest = std::min(nearest, joint > here ? joint - here : here - joint);
  }
  return std::max(nearest, metres(0));
}

/// What a bridge and a cable have in common.
template <class Item>
void add_overhead(FactRows<Item>& rows,
                  const std::function<FactValue(const Findings&, std::size_t)>& margin) {
  rows.add("charted", Rounding::down, "charted clearance", [](const Item& i) { return i.charted; });
  rows.add("clearance_datum", Rounding::down, "of the clearance, above chart datum",
           [](const Item& i) { return above_datum(i.clearance_datum); });
  rows.add(
      "height_of_tide", Rounding::up,
      "above chart datum, on arrival; the highest while she is under it, or may lie short of it",
      [](const Item& i) { return above_datum(i.height_of_tide); });
  rows.add("clearance", Rounding::down, "above the water on arrival; the least, likewise",
           [](const Item& i) { return clearance_passed(i); });
  rows.add("clearance_could_be", Rounding::down, "the same, as little as it could be (95 %)",
           [](const Item& i) { return clearance_could_be_passed(i); });
  rows.add("wave", Rounding::up,
           "what waves take off: half their height in open water, else the wash",
           [](const Item& i) { return i.wave; });
  rows.add("air_draft", Rounding::up, "of the boat as she passes",
           [](const Item& i) -> Known<Length> {
             const OverMast* state = as_passed(i);
             if (state == nullptr) return not_known("the vessel file gives no air draft");
             return state->air_draft;
           });
  rows.add_words("air_draft_is", "how the air draft came to be known",
                 {"measured", "told", "estimated", "not stated"},
                 [](const Item&, const Findings& f) { return in_words(f.passage.air_draft_is); });
  rows.add("air_draft_measured", Rounding::nearest,
           "yes where the air draft was measured, else not known",
           [](const Item&, const Findings& f) {
             return was_measured(f.passage.air_draft_is, "air draft");
           });
  rows.add("over_mast", Rounding::down,
           "room over the mast as she passes: antennas up where the margin is kept so, else down",
           [](const Item& i) { return figure_of(as_passed(i), &OverMast::over_mast); })
      .margin = margin;
  rows.add("over_mast_could_be", Rounding::down, "the same, as little as it could be (95 %)",
           [](const Item& i) { return figure_of(as_passed(i), &OverMast::over_mast_could_be); })
      .margin = margin;
  rows.add("over_mast_up", Rounding::down, "room over the mast, antennas up",
           [](const Item& i) {
             return figure_of(in_state(passed_under(i), Antennas::up), &OverMast::over_mast);
           })
      .margin = margin;
  rows.add("over_mast_down", Rounding::down, "room over the mast, antennas down",
           [](const Item& i) {
             return figure_of(in_state(passed_under(i), Antennas::down), &OverMast::over_mast);
           })
      .margin = margin;
  rows.add("margin", Rounding::up, "wanted over the mast here",
           [](const Item& i) { return i.margin; });
}

/// Of a bridge that opens; fixed ones are always passed, or not, as they stand.
template <class Figure>
auto of_opening(const BridgeFinding& bridge, const Figure& figure) {
  using Result = std::invoke_result_t<const Figure&, const OpeningFinding&>;
  if (!bridge.opening) return Result(not_known("the bridge does not open"));
  return figure(*bridge.opening);
}

Known<OpeningDue> due(const Known<std::optional<OpeningDue>>& next) {
  return join(
      [](const std::optional<OpeningDue>& opening) -> Known<OpeningDue> {
        if (!opening) return not_known("none within 7 days");
        return *opening;
      },
      next);
}

Known<Instant> due_at(const Known<std::optional<OpeningDue>>& next) {
  return join([](const OpeningDue& opening) { return opening.at; }, due(next));
}

void add_openings(FactRows<BridgeFinding>& rows) {
  rows.add("passes", Rounding::nearest,
           "she fits closed, or it opens for her within 7 days and she fits then",
           [](const BridgeFinding& b) { return b.opening ? b.opening->passes : b.fits; });
  rows.add("reached", Rounding::up, "when she comes to it, before any wait",
           [](const BridgeFinding& b) { return b.opening ? b.opening->reached : b.passing.at; });
  rows.add("wait", Rounding::down, "for the bridge, or for the water to fall under it",
           [](const BridgeFinding& b) {
             return b.opening ? b.opening->wait : Known<Interval>(Interval(0));
           });
  rows.add("opens_at", Rounding::nearest, "first opening at or after she comes, notice given",
           [](const BridgeFinding& b) {
             return of_opening(b, [](const OpeningFinding& o) { return due_at(o.next); });
           });
  rows.add("opens_on_signal_at", Rounding::nearest, "the same on signal alone",
           [](const BridgeFinding& b) {
             return of_opening(b, [](const OpeningFinding& o) { return due_at(o.next_on_signal); });
           });
  rows.add("ask_by", Rounding::down, "last time to give notice for that opening",
           [](const BridgeFinding& b) {
             return of_opening(b, [](const OpeningFinding& o) {
               return join(
                   [](const OpeningDue& opening) -> Known<Instant> {
                     if (!opening.ask_by) return not_known("no notice is asked for");
                     return *opening.ask_by;
                   },
                   due(o.next));
             });
           });
  rows.add("under_open_span", Rounding::nearest,
           "she passes through an opening, under a span that opens only so high",
           [](const BridgeFinding& b) { return b.open_span.has_value(); });
  rows.add("hold_off", Rounding::up, "how far short of it to wait", [](const BridgeFinding& b) {
    return of_opening(b, [](const OpeningFinding& o) { return short_of_bridge(o.hold_off); });
  });
  rows.add("wind_onto_bridge", Rounding::up,
           "the part of the wind that blows at it, the most while she waits",
           [](const BridgeFinding& b) {
             return of_opening(b, [](const OpeningFinding& o) { return o.hold_off.wind_toward; });
           })
      .printed_as = PrintedAs::wind;
  rows.add("current_onto_bridge", Rounding::up,
           "the part of the current that runs at it, the most while she waits",
           [](const BridgeFinding& b) {
             return of_opening(b,
                               [](const OpeningFinding& o) { return o.hold_off.current_toward; });
           });
}

}  // namespace

void add_bridge_facts(std::vector<Fact>& table) {
  FactRows<BridgeFinding> rows(table, SubjectKind::bridge, bridge_at);
  add_passing(rows);
  rows.add_words("what", "kind of bridge", {"fixed", "bascule", "swing", "lift", "pontoon"},
                 [](const BridgeFinding& b) { return in_words(b.what); });
  rows.add("opens", Rounding::nearest, "any kind but fixed",
           [](const BridgeFinding& b) { return opens(b.what); });
  rows.add_words("tide", "what the tide does on arrival", {"rising", "falling", "standing"},
                 [](const BridgeFinding& b) { return known_in_words(b.tide_is); });
  add_overhead(rows,
               [](const Findings& f, std::size_t i) { return FactValue(f.bridges[i].margin); });
  rows.add("short_by", Rounding::up, "what is missing to the margin; below zero where it is kept",
           [](const BridgeFinding& b) {
             return join([&](Length over_mast) { return b.margin - over_mast; },
                         figure_of(as_passed(b), &OverMast::over_mast));
           });
  rows.add(
      "mast_touches", Rounding::nearest,
      "with antennas as they leave most room: yes where nothing is left, no where even the least "
      "it could be is enough; between the two not known",
      [](const BridgeFinding& b) {
        const OverMast* best = most_room(passed_under(b));
        return is_below_zero(figure_of(best, &OverMast::over_mast),
                             figure_of(best, &OverMast::over_mast_could_be), kMastCouldTouch);
      });
  rows.add("fits", Rounding::nearest, "closed, in some state of the antennas, margin kept",
           [](const BridgeFinding& b) { return b.fits; });
  rows.add("fits_antennas_up", Rounding::nearest, "closed, antennas up, margin kept",
           fits_antennas_up);
  rows.add_words("antennas", "state in which the margin is kept", {"up", "down"},
                 [](const BridgeFinding& b) { return known_in_words(antennas_passed(b)); });
  rows.add("opening_needed", Rounding::nearest, "she does not fit closed and the bridge opens",
           [](const BridgeFinding& b) { return b.opening_needed; });
  add_openings(rows);
  rows.add("clearance_gauge", Rounding::nearest, "the chart says there is one",
           [](const BridgeFinding& b) { return b.clearance_gauge; });
  rows.add("gauge_reads", Rounding::nearest, "what the clearance gauge should show",
           [](const BridgeFinding& b) { return b.gauge_reads; });
  rows.add("gauge_at_least", Rounding::up, "turn back where the gauge shows less",
           [](const BridgeFinding& b) { return b.gauge_at_least; });
  rows.add("width", Rounding::down, "between fenders",
           [](const BridgeFinding& b) { return b.width; });
  rows.add("beam", Rounding::up, "of the boat", [](const BridgeFinding& b) { return b.beam; });
  rows.add("width_to_spare", Rounding::down, "width less the beam", [](const BridgeFinding& b) {
    return join([&](Length width) { return width - b.beam; }, b.width);
  });
  rows.add("turn_within", Rounding::down,
           "along the track to the nearest turn of 20 degrees or more, or to its start or end",
           turn_within)
      .printed_as = PrintedAs::distance;
  rows.add("wind_astern", Rounding::up,
           "the part of the wind that blows along the course; below zero from ahead",
           [](const BridgeFinding& b, const Findings& f) {
             return astern(b.wind, f.legs[b.passing.leg].course);
           })
      .printed_as = PrintedAs::wind;
  rows.add("current_astern", Rounding::up,
           "the part of the current that runs along the course; below zero from ahead",
           [](const BridgeFinding& b, const Findings& f) {
             return astern(b.current, f.legs[b.passing.leg].course);
           });
  rows.add(
      "radio", Rounding::nearest, "channel on which the bridge answers",
      [](const BridgeFinding& b) { return stated(b.radio, "the waterway file gives no channel"); });
  rows.add("sound_signal", Rounding::nearest, "for an opening", [](const BridgeFinding& b) {
    return stated(b.sound_signal, "the waterway file gives no sound signal");
  });
}

void add_cable_facts(std::vector<Fact>& table) {
  FactRows<CableFinding> rows(table, SubjectKind::cable, cable_at);
  const auto margin = [](const Findings& f, std::size_t i) {
    return FactValue(f.cables[i].margin);
  };
  add_passing(rows);
  rows.add_words("carries", "what it carries", {"power", "telephone", "not stated"},
                 [](const CableFinding& c) -> std::string {
                   switch (c.carries) {
                     case Carries::power:
                       return "power";
                     case Carries::telephone:
                       return "telephone";
                     case Carries::not_stated:
                       return "not stated";
                   }
                   return {};
                 });
  rows.add("voltage", Rounding::up, "of a power cable",
           [](const CableFinding& c) { return c.voltage; });
  rows.add("gap", Rounding::up,
           "to keep below a live wire; zero for telephone and where the chart has taken it off",
           [](const CableFinding& c) { return c.gap; });
  add_overhead(rows, margin);
  rows.add_words("antennas", "up where the margin is kept so, else as low as they go",
                 {"up", "down"}, [](const CableFinding& c) {
                   return join([](Antennas a) { return in_words(a); }, c.antennas);
                 });
  rows.add("to_spare", Rounding::down, "room over the mast less the gap",
           [](const CableFinding& c) { return c.to_spare; })
      .margin = margin;
  rows.add("to_spare_could_be", Rounding::down, "the same, as little as it could be (95 %)",
           [](const CableFinding& c) { return c.to_spare_could_be; })
      .margin = margin;
  rows.add("short_by", Rounding::up, "what is missing to the margin; below zero where it is kept",
           [](const CableFinding& c) {
             return join([&](Length to_spare) { return c.margin - to_spare; }, c.to_spare);
           });
  rows.add("inside_gap", Rounding::nearest,
           "yes where the mast comes inside the gap, no where even the least room it could be is "
           "enough; between the two not known",
           [](const CableFinding& c) {
             return is_below_zero(c.to_spare, c.to_spare_could_be, kWireCouldBeNear);
           });
}

}  // namespace passage_brief
