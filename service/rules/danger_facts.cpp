#include <string>

#include "rules/fact_rows.h"

namespace passage_brief {
namespace {

const Danger& danger_at(const Findings& findings, std::size_t index) {
  return findings.dangers[index];
}

const MarkFinding& mark_at(const Findings& findings, std::size_t index) {
  return findings.marks[index];
}

std::string kind_of_danger(const Danger& danger) {
  switch (danger.kind) {
    case DangerKind::hazard:
      return "hazard";
    case DangerKind::shoal_water:
      return "shoal water";
    case DangerKind::bridge:
      return "bridge";
  }
  return {};
}

std::string structure_of(const MarkFinding& mark) {
  switch (mark.structure) {
    case MarkStructure::buoy:
      return "buoy";
    case MarkStructure::piling:
      return "piling";
    case MarkStructure::daybeacon:
      return "daybeacon";
    case MarkStructure::light:
      return "light";
    case MarkStructure::not_stated:
      return "not stated";
  }
  return {};
}

}  // namespace

void add_danger_facts(std::vector<Fact>& table) {
  FactRows<Danger> rows(table, SubjectKind::danger, danger_at);
  add_passing(rows);
  rows.add("what", Rounding::nearest, "as the waterway file describes it",
           [](const Danger& d) { return d.what; });
  rows.add_words("kind", "what there is to hit", {"hazard", "shoal water", "bridge"},
                 kind_of_danger);
  rows.add("leg", Rounding::nearest, "the leg it is reached from soonest",
           [](const Danger& d, const Findings& f) {
             return f.legs[d.leg].from + " to " + f.legs[d.leg].to;
           });
  rows.add_words("side", "of the boat on her course", {"port", "starboard"},
                 [](const Danger& d) { return in_words(d.side); });
  rows.add("to_leeward", Rounding::nearest, "the wind carries her there",
           [](const Danger& d) { return d.to_leeward; });
  rows.add("set_toward", Rounding::nearest, "the current carries her there",
           [](const Danger& d) { return d.set_toward; });
  rows.add("distance", Rounding::down, "from the edge of the corridor, less half a length",
           [](const Danger& d) { return d.distance; })
      .printed_as = PrintedAs::distance;
  rows.add("reached_in", Rounding::down, "with engines stopped",
           [](const Danger& d) { return d.reached_in; });
  rows.add_words("bottom", "what it is made of",
                 {"mud", "sand", "hard sand", "shell", "gravel", "rock", "coral", "not stated"},
                 [](const Danger& d) { return in_words(d.bottom); });
  rows.add("hard", Rounding::nearest,
           "a bridge, or a bottom that is anything but mud and sand; not stated counts as hard",
           [](const Danger& d) { return d.kind == DangerKind::bridge || is_hard(d.bottom); });
  rows.add("anchor_holds_in", Rounding::down, "greatest depth of water the rode holds in",
           [](const Danger& d) { return d.anchor_holds_in; });
  rows.add(
      "anchor_would_hold", Rounding::nearest,
      "the rode is long enough for the water between here and there; room to bite is not looked at",
      [](const Danger& d) { return d.anchor_would_hold; });
}

void add_mark_facts(std::vector<Fact>& table) {
  FactRows<MarkFinding> rows(table, SubjectKind::mark, mark_at);
  add_passing(rows);
  rows.add("colour", Rounding::nearest, "as drawn", [](const MarkFinding& m) {
    return stated(m.colour, "the waterway file gives no colour");
  });
  rows.add("shape", Rounding::nearest, "as drawn", [](const MarkFinding& m) {
    return stated(m.shape, "the waterway file gives no shape");
  });
  rows.add("light", Rounding::nearest, "what it shows at night", [](const MarkFinding& m) {
    return stated(m.light, "the waterway file gives no light");
  });
  rows.add_words("structure", "what stands there",
                 {"buoy", "piling", "daybeacon", "light", "not stated"}, structure_of);
  rows.add_words("kept_by", "who keeps it",
                 {"authority", "private with permit", "unofficial", "not stated"},
                 [](const MarkFinding& m) { return in_words(m.kept_by); });
  rows.add_words("lies_to", "the side it lies on as the track passes", {"port", "starboard"},
                 [](const MarkFinding& m) { return in_words(m.lies_to); });
  rows.add_words("should_lie_to", "the side it should lie on by the buoyage",
                 {"port", "starboard", "either side"},
                 [](const MarkFinding& m) { return in_words(m.should_lie_to, "either side"); });
  rows.add("agrees", Rounding::nearest, "it lies where it should",
           [](const MarkFinding& m) { return m.agrees; });
  rows.add("off", Rounding::down, "distance from the track",
           [](const MarkFinding& m) { return m.off; });
}

}  // namespace passage_brief
