#include "passage/findings.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <vector>

#include "plan/vessel.h"

namespace passage_brief {

bool keeps(Length left, Length wanted) { return left >= wanted - metres(1e-6); }

const OverMast* most_room(const std::vector<OverMast>& states) {
  const auto room = [](const OverMast& state) {
    return state.over_mast.has_value() ? std::optional(state.over_mast.value()) : std::nullopt;
  };
  const auto best = std::ranges::max_element(states, {}, room);
  return best == states.end() ? nullptr : &*best;
}

const OverMast* in_state(const std::vector<OverMast>& states, Antennas antennas) {
  const auto found = std::ranges::find(states, antennas, &OverMast::antennas);
  return found == states.end() ? nullptr : &*found;
}

Known<std::optional<Antennas>> kept_in(const std::vector<OverMast>& states, Length wanted) {
  std::vector<OverMast> highest_first = states;
  std::ranges::sort(highest_first, std::greater{}, &OverMast::air_draft);
  for (const OverMast& state : highest_first) {
    if (!state.over_mast.has_value()) return not_known_as(state.over_mast);
    if (keeps(*state.over_mast, wanted)) return std::optional(state.antennas);
  }
  return std::optional<Antennas>();
}

Known<Antennas> fitting(const Known<std::optional<Antennas>>& kept, const std::string& why_none) {
  return join(
      [&](const std::optional<Antennas>& with) -> Known<Antennas> {
        if (with) return *with;
        return not_known(why_none);
      },
      kept);
}

Known<Length> short_of_bridge(const HoldOff& off) {
  return join([&off](Length) { return off.short_of_bridge; }, off.drift);
}

Length may_lie_within(const HoldOff& off) {
  if (!off.drift.has_value()) return kFarthestHoldOff;
  const Length off_by = std::max(off.short_of_bridge * 2, nautical_miles(0.25));
  return std::max(std::min(off_by, kFarthestHoldOff), off.short_of_bridge);
}

const std::vector<OverMast>& passed_under(const BridgeFinding& bridge) {
  return bridge.open_span ? bridge.open_span->over_mast : bridge.over_mast;
}

const Known<Antennas>& antennas_passed(const BridgeFinding& bridge) {
  return bridge.open_span ? bridge.open_span->fits_with : bridge.fits_with;
}

const Known<Length>& clearance_passed(const BridgeFinding& bridge) {
  return bridge.open_span ? bridge.open_span->clearance : bridge.clearance;
}

const Known<Length>& clearance_could_be_passed(const BridgeFinding& bridge) {
  return bridge.open_span ? bridge.open_span->clearance_could_be : bridge.clearance_could_be;
}

const OverMast* as_passed(const BridgeFinding& bridge) {
  const Known<Antennas>& antennas = antennas_passed(bridge);
  const std::vector<OverMast>& states = passed_under(bridge);
  if (antennas.has_value()) return in_state(states, *antennas);
  const auto lowest = std::ranges::min_element(states, {}, &OverMast::air_draft);
  return lowest == states.end() ? nullptr : &*lowest;
}

Known<Antennas> antennas_under_wire(const std::vector<OverMast>& states, const Known<Length>& gap,
                                    Length margin) {
  const auto lowest = std::ranges::min_element(states, {}, &OverMast::air_draft);
  if (lowest == states.end()) return not_known("the vessel file gives no air draft");
  return join(
      [&](Length keep) {
        return join(
            [&](const std::optional<Antennas>& with) { return with.value_or(lowest->antennas); },
            kept_in(states, margin + keep));
      },
      gap);
}

const std::vector<OverMast>& passed_under(const CableFinding& cable) { return cable.over_mast; }
const Known<Length>& clearance_passed(const CableFinding& cable) { return cable.clearance; }
const Known<Length>& clearance_could_be_passed(const CableFinding& cable) {
  return cable.clearance_could_be;
}

const OverMast* as_passed(const CableFinding& cable) {
  return cable.antennas.has_value() ? in_state(cable.over_mast, *cable.antennas)
                                    : most_room(cable.over_mast);
}

Known<bool> needs_opening(const BridgeFinding& bridge, const OverMast& state) {
  if (!opens(bridge.what)) return false;
  if (bridge.fits == Known<bool>(false)) return true;
  return join([&](Length over) { return !keeps(over, bridge.margin); }, state.over_mast);
}

std::string in_words(BackPlace place) {
  switch (place) {
    case BackPlace::reach:
      return "reach";
    case BackPlace::unnamed_water:
      return "water outside every reach";
    case BackPlace::bar:
      return "bar";
    case BackPlace::berth:
      return "berth";
    case BackPlace::bridge:
      return "bridge";
    case BackPlace::cable:
      return "cable";
    case BackPlace::refuge:
      return "refuge";
    case BackPlace::turning_place:
      return "turning place";
  }
  return {};
}

std::string in_words(BackEnds ends) {
  switch (ends) {
    case BackEnds::not_at_all:
      return "the margin is not kept even as she passes";
    case BackEnds::water_falls:
      return "too little water";
    case BackEnds::water_rises:
      return "too little room overhead";
    case BackEnds::all_day:
      return "nothing within 24 h";
    case BackEnds::prediction_ends:
      return "the tide prediction ends";
    case BackEnds::forecast_ends:
      return "the forecast of waves ends";
  }
  return {};
}

}  // namespace passage_brief
