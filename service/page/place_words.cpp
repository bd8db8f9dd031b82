#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "page/figures.h"
#include "page/passing_words.h"

namespace passage_brief {
namespace {

/// Dangers that take longer to reach are counted, not named (our rule): by then there is an anchor
/// down or a tow. The soonest of a leg is named whatever it takes.
constexpr Interval kFarOff = std::chrono::minutes(30);

bool later_than(const Danger& danger, Interval time) {
  return danger.reached_in.has_value() && danger.reached_in.value() > time;
}

/// What holds the least depth, where that is not the place itself.
std::string controlled_elsewhere(const Depth& depth) {
  std::string by = depth.controlled_by;
  for (const std::string_view start : {"controlling depth of ", "depth of "}) {
    if (by.starts_with(start)) by.erase(0, start.size());
  }
  return by == depth.name || by == "controlling depth" ? "" : by;
}

/// A figure of which less than nothing is left: what that means stands in words beside it.
std::string left_over(const Known<Length>& figure, const Reader& reader) {
  return or_not_known(figure, [&](Length length) {
    return length < metres(0) ? std::string("none") : reader.down(length);
  });
}

std::string could_be(const Known<Length>& figure, const Reader& reader) {
  return or_not_known(figure, [&](Length length) {
    return length < metres(0) ? std::string("could touch") : reader.down(length);
  });
}

std::string nearest(const Known<Length>& figure, const Reader& reader) {
  return or_not_known(figure, [&](Length length) { return reader.nearest(length); });
}

std::string up(const Known<Length>& figure, const Reader& reader) {
  return or_not_known(figure, [&](Length length) { return reader.up(length); });
}

/// One sentence with each reason once; nothing where all are known.
template <class... Figures>
void say_why_not_known(Block& block, const std::string& said_elsewhere, const Figures&... figures) {
  NotKnown why;
  (known_detail::add_reasons(why, figures), ...);
  std::erase(why.reasons, said_elsewhere);
  if (!why.reasons.empty()) block.more.push_back(capitalised(not_known_text(why)) + ".");
}

const OverMast* chosen_state(const std::vector<OverMast>& states, const Known<Antennas>& antennas) {
  const OverMast* lowest = nullptr;
  for (const OverMast& state : states) {
    if (antennas.has_value() && state.antennas == antennas.value()) return &state;
    if (lowest == nullptr || state.air_draft < lowest->air_draft) lowest = &state;
  }
  return lowest;
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

/// Said only where it would not hold, or cannot be told.
std::string anchor_text(const Danger& danger) {
  if (!danger.anchor_would_hold.has_value()) {
    return "anchor " + not_known_text(danger.anchor_would_hold.error());
  }
  return danger.anchor_would_hold.value() ? "" : "anchor would not hold";
}

std::string danger_text(const Danger& danger, const Reader& reader) {
  const std::string time = danger.reached_in.has_value()
                               ? interval_text(danger.reached_in.value(), Rounding::down)
                               : "time " + not_known_text(danger.reached_in.error());
  const std::string what = contains_word(danger.name, danger.what)
                               ? danger.name
                               : danger.name + " (" + danger.what + ")";
  const std::string anchor = anchor_text(danger);
  return fmt::format("{} to {}, {}, {}{}{}", what, in_words(danger.side),
                     distance_text(danger.distance, Rounding::down, reader.units), time,
                     anchor.empty() ? "" : ", ", anchor);
}

/// By what the boat is carried there; the dangers of one cause stand together.
std::string carried_by(const Danger& danger) {
  if (danger.to_leeward && danger.set_toward) return "To leeward and down current";
  return danger.to_leeward ? "To leeward" : "Down current";
}

bool sooner(const Danger* a, const Danger* b) {
  if (a->reached_in.has_value() != b->reached_in.has_value()) return !a->reached_in.has_value();
  if (!a->reached_in.has_value()) return false;
  return a->reached_in.value() < b->reached_in.value();
}

}  // namespace

Block depth_block(const Depth& depth, const SaidOnce& said_once, const Reader& reader) {
  Block block{.kind = BlockKind::depth,
              .lead = time_text(depth.passing.at, reader),
              .main = depth.name,
              .readings = {{"under the keel", left_over(depth.under_keel, reader)},
                           {"could be", could_be(depth.under_keel_could_be, reader)},
                           {"sounder should read", nearest(depth.sounder_reads, reader)},
                           {"stop at", up(depth.stop_at, reader)}},
              .leg = depth.passing.leg};
  if (const std::string by = controlled_elsewhere(depth); !by.empty())
    block.main += " (" + by + ")";
  if (depth.tide_is.has_value()) block.main += ", " + in_words(depth.tide_is.value());
  if (depth.blocked) block.main += ": blocked by what never covers";
  if (depth.under_keel.has_value() && depth.under_keel.value() < metres(0)) {
    block.main += ": aground by " + reader.up(-depth.under_keel.value());
  }
  if (depth.place == DepthPlace::berth && depth.passing.along <= metres(0)) {
    block.more.emplace_back("Before letting go: a shortage here comes off every depth.");
  }
  if (depth.place != DepthPlace::berth && depth.slowed_because.has_value()) {
    block.more.push_back(fmt::format("No faster than {}: {}.",
                                     speed_text(depth.through_water, Rounding::down),
                                     *depth.slowed_because));
  }
  if (depth.squat_left_out) block.more.emplace_back("Squat left out: deep water.");
  say_why_not_known(block, said_once.sounder, depth.under_keel, depth.under_keel_could_be,
                    depth.tide_is, depth.sounder_reads, depth.stop_at);
  return block;
}

Block bridge_block(const BridgeFinding& bridge, const Reader& reader) {
  Block block{.kind = BlockKind::bridge,
              .lead = time_text(bridge.passing.at, reader),
              .main = bridge.name,
              .leg = bridge.passing.leg};
  const OverMast* const state = chosen_state(bridge.over_mast, bridge.fits_with);
  const Known<Length> over =
      state != nullptr ? state->over_mast : not_known("the vessel file gives no air draft");
  const Known<Length> over_could_be =
      state != nullptr ? state->over_mast_could_be : not_known_as(over);
  block.readings = {{"over the mast", left_over(over, reader)},
                    {"could be", could_be(over_could_be, reader)},
                    {"gauge should read", nearest(bridge.gauge_reads, reader)},
                    {"turn back below", up(bridge.gauge_at_least, reader)}};
  if (state != nullptr) block.main += ", antennas " + in_words(state->antennas);
  if (over.has_value() && over.value() < metres(0)) {
    block.main += ": the mast is " + reader.up(-over.value()) + " too high";
  }
  if (bridge.opening_needed.value_or(false)) {
    std::string text = "Opening needed";
    if (bridge.radio.has_value()) text += ", call on " + *bridge.radio;
    if (bridge.sound_signal.has_value()) text += ", sound " + *bridge.sound_signal;
    block.more.push_back(text + ". Beyond here this page cannot tell.");
  }
  const std::string kind = capitalised(in_words(bridge.what)) + " span";
  if (bridge.width.has_value()) {
    block.more.push_back(fmt::format(
        "{}, {} between fenders, beam {}.", kind,
        distance_text(bridge.width.value(), Rounding::down, reader.units), reader.up(bridge.beam)));
  } else {
    block.more.push_back(kind + ", width between fenders " + not_known_text(bridge.width.error()) +
                         ".");
  }
  if (!bridge.clearance_gauge.value_or(true)) {
    block.more.emplace_back("No clearance gauge is charted.");
  }
  say_why_not_known(block, "", over, over_could_be, bridge.fits_with, bridge.opening_needed,
                    bridge.gauge_reads, bridge.gauge_at_least, bridge.clearance_gauge);
  return block;
}

Block cable_block(const CableFinding& cable, const Reader& reader) {
  Block block{.kind = BlockKind::cable,
              .lead = time_text(cable.passing.at, reader),
              .main = "Cable " + cable.name,
              .readings = {{"to spare", left_over(cable.to_spare, reader)},
                           {"could be", could_be(cable.to_spare_could_be, reader)}},
              .leg = cable.passing.leg};
  if (cable.to_spare.has_value() && cable.to_spare.value() < metres(0)) {
    block.main += ": the mast comes " + reader.up(-cable.to_spare.value()) + " inside the gap";
  }
  block.more.push_back(capitalised(carried(cable)) + ".");
  if (cable.gap.has_value() && cable.gap.value() > metres(0)) {
    block.more.back().insert(block.more.back().size() - 1,
                             ", to spare beyond the gap of " + reader.up(cable.gap.value()));
  }
  say_why_not_known(block, "", cable.gap, cable.to_spare, cable.to_spare_could_be);
  return block;
}

Block danger_block(std::vector<const Danger*> dangers, const Reader& reader) {
  std::ranges::stable_sort(dangers, sooner);
  std::string lead;
  std::string main;
  std::string cause;
  std::size_t said = 0;
  for (std::size_t i = 0; i < dangers.size(); ++i) {
    if (i > 0 && later_than(*dangers[i], kFarOff)) break;
    ++said;
    const std::string now = carried_by(*dangers[i]);
    if (i == 0) {
      lead = now;
    } else {
      main += now == cause ? "; " : ". " + now + ": ";
    }
    cause = now;
    main += danger_text(*dangers[i], reader);
  }
  if (said < dangers.size()) {
    main += fmt::format("; {} more after {}", dangers.size() - said,
                        interval_text(kFarOff, Rounding::nearest));
  }
  return {
      .kind = BlockKind::to_leeward, .lead = lead, .main = main + ".", .leg = dangers.front()->leg};
}

}  // namespace passage_brief
