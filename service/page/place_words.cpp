#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string>
#include <vector>

#include "page/figures.h"
#include "page/passing_words.h"

namespace passage_brief {
namespace {

std::string keel_text(const Depth& depth, const Reader& reader) {
  if (depth.blocked) return "blocked by " + depth.controlled_by + ", which never covers";
  if (!depth.under_keel.has_value()) {
    return "under the keel " + not_known_text(depth.under_keel.error());
  }
  const Length keel = depth.under_keel.value();
  if (keel < metres(0)) return "aground by " + reader.up(-keel);
  return reader.down(keel) + " under the keel, " + could_be_text(depth.under_keel_could_be, reader);
}

const OverMast* chosen_state(const std::vector<OverMast>& states, const Known<Antennas>& antennas) {
  const OverMast* lowest = nullptr;
  for (const OverMast& state : states) {
    if (antennas.has_value() && state.antennas == antennas.value()) return &state;
    if (lowest == nullptr || state.air_draft < lowest->air_draft) lowest = &state;
  }
  return lowest;
}

std::string over_mast_text(const BridgeFinding& bridge, const Reader& reader) {
  const OverMast* const state = chosen_state(bridge.over_mast, bridge.fits_with);
  if (state == nullptr) return "no air draft is given";
  const std::string antennas = ", antennas " + in_words(state->antennas);
  if (!state->over_mast.has_value()) {
    return "over the mast " + not_known_text(state->over_mast.error()) + antennas;
  }
  const Length over = state->over_mast.value();
  if (over < metres(0)) return "the mast is " + reader.up(-over) + " too high" + antennas;
  return reader.down(over) + " over the mast, " + could_be_text(state->over_mast_could_be, reader) +
         antennas;
}

std::string carried(const CableFinding& cable) {
  switch (cable.carries) {
    case Carries::power:
      return cable.voltage.has_value()
                 ? "power, " + rounded(in_kilovolts(cable.voltage.value()), 0, Rounding::up) + " kV"
                 : "power, voltage " + not_known_text(cable.voltage.error());
    case Carries::telephone:
      return "telephone";
    case Carries::not_stated:
      return "what it carries is not known";
  }
  return "";
}

std::string danger_text(const Danger& danger, const Reader& reader) {
  const std::string time = danger.reached_in.has_value()
                               ? interval_text(danger.reached_in.value(), Rounding::down)
                               : "time " + not_known_text(danger.reached_in.error());
  const std::string what = contains_word(danger.name, danger.what)
                               ? danger.name
                               : danger.name + " (" + danger.what + ")";
  return fmt::format("{} to {}, {} off, {}", what, in_words(danger.side),
                     distance_text(danger.distance, Rounding::down, reader.units), time);
}

std::string carried_by(const Danger& danger) {
  if (danger.to_leeward && danger.set_toward) return "To leeward, and the current sets there";
  return danger.to_leeward ? "To leeward" : "The current sets toward";
}

std::string anchor_text(const Danger& danger) {
  if (!danger.anchor_would_hold.has_value()) {
    return "Whether the anchor would hold is " + not_known_text(danger.anchor_would_hold.error()) +
           ".";
  }
  return danger.anchor_would_hold.value() ? "The anchor would hold." : "Too deep for the anchor.";
}

bool sooner(const Danger* a, const Danger* b) {
  if (a->reached_in.has_value() != b->reached_in.has_value()) return !a->reached_in.has_value();
  if (!a->reached_in.has_value()) return false;
  return a->reached_in.value() < b->reached_in.value();
}

}  // namespace

Block depth_block(const Depth& depth, const Reader& reader) {
  Block block{.kind = BlockKind::depth,
              .lead = time_text(depth.passing.at, reader),
              .leg = depth.passing.leg};
  std::string place = depth.name;
  if (depth.controlled_by != "controlling depth" && depth.controlled_by != depth.name &&
      !depth.controlled_by.empty() && !depth.blocked) {
    place += " (" + depth.controlled_by + ")";
  }
  block.main = place + ": " + keel_text(depth, reader);
  if (depth.tide_is.has_value()) block.main += ", " + in_words(depth.tide_is.value());
  block.main += ".";
  if (depth.place == DepthPlace::berth) {
    if (depth.passing.along <= metres(0)) {
      block.more.emplace_back("Before letting go: a shortage here comes off every depth.");
    }
  } else if (depth.slowed_because.has_value()) {
    block.more.push_back(fmt::format("No faster than {}: {}.",
                                     speed_text(depth.through_water, Rounding::down),
                                     *depth.slowed_because));
  }
  if (depth.squat_left_out) block.more.emplace_back("Squat left out: deep water.");
  if (depth.spare_width.has_value()) {
    block.more.push_back(distance_text(depth.spare_width.value(), Rounding::down, reader.units) +
                         " of width to spare.");
  }
  block.readings.push_back(
      {"sounder should read",
       or_not_known(depth.sounder_reads, [&](Length reading) { return reader.nearest(reading); })});
  block.readings.push_back(
      {"stop at", or_not_known(depth.stop_at, [&](Length reading) { return reader.up(reading); })});
  return block;
}

Block bridge_block(const BridgeFinding& bridge, const Reader& reader) {
  Block block{.kind = BlockKind::bridge,
              .lead = time_text(bridge.passing.at, reader),
              .main = fmt::format("{} ({}): {}.", bridge.name, in_words(bridge.what),
                                  over_mast_text(bridge, reader)),
              .leg = bridge.passing.leg};
  if (bridge.opening_needed.has_value() && bridge.opening_needed.value()) {
    std::string text = "Opening needed";
    if (bridge.radio.has_value()) text += ", call on " + *bridge.radio;
    if (bridge.sound_signal.has_value()) text += ", sound " + *bridge.sound_signal;
    block.more.push_back(text + ". Beyond here this page cannot tell.");
  } else if (!bridge.opening_needed.has_value() && opens(bridge.what)) {
    block.more.push_back("Whether it must open is " +
                         not_known_text(bridge.opening_needed.error()) + ".");
  }
  if (bridge.width.has_value()) {
    block.more.push_back(fmt::format(
        "{} between fenders, beam {}.",
        distance_text(bridge.width.value(), Rounding::down, reader.units), reader.up(bridge.beam)));
  } else {
    block.more.push_back("Width between fenders " + not_known_text(bridge.width.error()) + ".");
  }
  if (bridge.clearance_gauge.has_value() && !bridge.clearance_gauge.value()) {
    block.more.emplace_back("No clearance gauge is charted.");
  }
  block.readings.push_back({"gauge should read", or_not_known(bridge.gauge_reads, [&](Length r) {
                              return reader.nearest(r);
                            })});
  block.readings.push_back({"turn back below", or_not_known(bridge.gauge_at_least, [&](Length r) {
                              return reader.up(r);
                            })});
  return block;
}

Block cable_block(const CableFinding& cable, const Reader& reader) {
  Block block{.kind = BlockKind::cable,
              .lead = time_text(cable.passing.at, reader),
              .leg = cable.passing.leg};
  std::string spare;
  if (!cable.to_spare.has_value()) {
    spare = "room to spare " + not_known_text(cable.to_spare.error());
  } else if (cable.to_spare.value() < metres(0)) {
    spare = "the mast comes " + reader.up(-cable.to_spare.value()) + " inside the gap to be kept";
  } else {
    spare = reader.down(cable.to_spare.value()) + " to spare, " +
            could_be_text(cable.to_spare_could_be, reader);
    if (cable.gap.has_value() && cable.gap.value() > metres(0)) {
      spare += ", beyond the gap of " + reader.up(cable.gap.value());
    }
  }
  block.main = fmt::format("Cable {} ({}): {}.", cable.name, carried(cable), spare);
  return block;
}

Block danger_block(std::vector<const Danger*> dangers, const Reader& reader) {
  std::ranges::stable_sort(dangers, sooner);
  const Danger& first = *dangers.front();
  Block block{.kind = BlockKind::to_leeward,
              .main = fmt::format("{}: {} with engines stopped. {}", carried_by(first),
                                  danger_text(first, reader), anchor_text(first)),
              .leg = first.leg};
  std::vector<std::string> others;
  for (std::size_t i = 1; i < dangers.size(); ++i) {
    others.push_back(danger_text(*dangers[i], reader));
  }
  if (!others.empty()) block.more.push_back(fmt::format("Also {}.", fmt::join(others, "; ")));
  return block;
}

}  // namespace passage_brief
