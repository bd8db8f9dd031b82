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

/// On each leg the soonest is named, and the soonest on hard ground within this time; the rest are
/// counted (our rule): a helm who is told of seven dangers heeds none. JSON holds them all.
constexpr Interval kFarOff = std::chrono::minutes(30);
constexpr std::size_t kNamedWithoutTime = 2;

/// What holds the least depth, where that is a thing to look out for and not a reach's own figure.
std::string thing_in_control(const Depth& depth) {
  const std::string& by = depth.controlled_by;
  // A berth goes by its name and by when she lies there.
  constexpr std::string_view kDepthOf = "depth of ";
  const bool own = by == depth.name ||
                   (by.starts_with(kDepthOf) && depth.name.starts_with(by.substr(kDepthOf.size())));
  return own || by.starts_with("controlling depth") ? "" : by;
}

/// A figure of which less than nothing is left: what that means stands in words beside it.
std::string left_over(const Known<Length>& figure, const Reader& reader) {
  return or_not_known(figure, [&](Length length) {
    return length < metres(0) ? std::string("none") : reader.down(length);
  });
}

std::string could_be(const Known<Length>& figure, const Reader& reader) {
  return or_not_known(figure, [&](Length length) {
    return length < metres(0) ? std::string("touching") : reader.down(length);
  });
}

std::string nearest(const Known<Length>& figure, const Reader& reader) {
  return or_not_known(figure, [&](Length length) { return reader.nearest(length); });
}

std::string up(const Known<Length>& figure, const Reader& reader) {
  return or_not_known(figure, [&](Length length) { return reader.up(length); });
}

/// The first in the first column, and so on.
std::vector<Reading> in_columns(std::vector<Reading> readings) {
  for (std::size_t i = 0; i < readings.size(); ++i) {
    readings[i].column = static_cast<ReadingColumn>(i);
  }
  return readings;
}

/// She passes the span open; the gauge is read before.
std::string gauge_closed(const BridgeFinding& bridge, const Reader& reader) {
  const std::string reads = nearest(bridge.gauge_reads, reader);
  return reads == kNotKnown ? reads : reads + " closed";
}

/// One sentence with each reason once; nothing where all are known.
template <class... Figures>
void say_why_not_known(Block& block, const std::string& said_elsewhere, const Figures&... figures) {
  NotKnown why;
  (known_detail::add_reasons(why, figures), ...);
  std::erase(why.reasons, said_elsewhere);
  std::erase(why.reasons, kLeftBlank);
  if (!why.reasons.empty()) block.more.push_back(capitalised(not_known_text(why)) + ".");
}

/// Four times "not known" says no more than once.
void say_once_that_none_is_known(Block& block) {
  const auto unknown = [](const Reading& reading) { return reading.value == kNotKnown; };
  if (!std::ranges::all_of(block.readings, unknown)) return;
  block.main += ": " + block.readings.front().what + " not known";
  block.readings.clear();
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
  const std::string what = contains_word(danger.name, danger.what)
                               ? danger.name
                               : danger.name + " (" + danger.what + ")";
  std::string text = what + " to " + in_words(danger.side);
  if (danger.distance > metres(0)) {
    text += ", " + distance_text(danger.distance, Rounding::down, reader.units) + ", " +
            interval_text(danger.reached_in.value(), Rounding::down);
  } else {
    text += ", in or beside the way";
  }
  // Said where it would not hold, or cannot be told.
  if (!danger.anchor_would_hold.has_value()) {
    text += ", anchor " + not_known_text(danger.anchor_would_hold.error());
  } else if (!danger.anchor_would_hold.value()) {
    text += ", rode too short to anchor";
  }
  return text;
}

/// "Bar bend to port, Lump to port, reached in a time not known: ...", in their order.
std::string danger_without_time_text(const std::vector<const Danger*>& dangers) {
  std::vector<std::string> names;
  NotKnown why;
  for (const Danger* danger : dangers) {
    if (names.size() < kNamedWithoutTime) {
      names.push_back(danger->name + " to " + in_words(danger->side));
    }
    known_detail::add_reasons(why, danger->reached_in);
  }
  if (dangers.size() > kNamedWithoutTime) {
    names.push_back(fmt::format("{} more", dangers.size() - kNamedWithoutTime));
  }
  return fmt::format("{}, reached in {}{}", fmt::join(names, ", "),
                     is_left_blank(why) ? "" : "a time ", not_known_text(why));
}

/// By what the boat is carried there; the dangers of one cause stand together.
std::string carried_by(const Danger& danger) {
  if (danger.to_leeward && danger.set_toward) return "To leeward and down current";
  return danger.to_leeward ? "To leeward" : "Down current";
}

/// Of those whose time is known: the soonest, and the soonest on hard ground within kFarOff.
std::vector<const Danger*> near_ones(const std::vector<const Danger*>& dangers) {
  std::vector<const Danger*> timed;
  for (const Danger* danger : dangers) {
    if (danger->reached_in.has_value()) timed.push_back(danger);
  }
  if (timed.empty()) return timed;
  std::ranges::stable_sort(timed, {}, [](const Danger* d) { return d->reached_in.value(); });
  std::vector<const Danger*> near{timed.front()};
  const auto hard = std::ranges::find_if(timed, [](const Danger* d) { return is_hard(d->bottom); });
  if (hard != timed.end() && *hard != near.front() && (*hard)->reached_in.value() <= kFarOff) {
    near.push_back(*hard);
  }
  return near;
}

/// Until when a figure overhead must hold; empty where that is a few minutes and not worth a word.
std::string long_until(const Passing& passing, const Reader& reader) {
  constexpr std::chrono::minutes kWorthAWord{5};
  const Known<Span> span = while_under(passing);
  if (!span.has_value() || span->end - span->begin < kWorthAWord) return "";
  return reader.clock.bare(span->end, Rounding::up);
}

std::string told_until(const std::string& time) {
  return "Told at the highest water up to " + time +
         ": you may be under it, or lie short of it, as long.";
}

}  // namespace

Block depth_block(const Depth& depth, const SaidOnce& said_once, const Reader& reader) {
  Block block{.kind = BlockKind::depth,
              .lead = time_text(depth.passing.at, reader),
              .main = depth.name,
              .readings = in_columns({{"under the keel", left_over(depth.under_keel, reader)},
                                      {"could be", could_be(depth.under_keel_could_be, reader)},
                                      {"sounder should read", nearest(depth.sounder_reads, reader)},
                                      {"stop at", up(depth.stop_at, reader)}}),
              .leg = depth.passing.leg};
  if (const std::string by = thing_in_control(depth); !by.empty()) block.main += " (" + by + ")";
  if (depth.tide_is.has_value()) block.main += ", " + in_words(depth.tide_is.value());
  if (depth.blocked) block.main += ": blocked by what never covers";
  if (depth.under_keel.has_value() && depth.under_keel.value() < metres(0)) {
    block.main += ": aground by " + reader.up(-depth.under_keel.value());
  }
  if (depth.place == DepthPlace::berth && depth.passing.along <= metres(0)) {
    block.more.emplace_back("Before letting go: a shortage here comes off every depth.");
  }
  if (depth.place != DepthPlace::berth && depth.slowed_because.has_value() &&
      (depth.under_keel.has_value() || is_left_blank(depth.under_keel.error()))) {
    block.more.push_back(fmt::format("No faster than {}: {}.",
                                     speed_text(depth.through_water, Rounding::down),
                                     *depth.slowed_because));
  }
  if (depth.squat_left_out) block.more.emplace_back("Squat left out: deep water.");
  say_once_that_none_is_known(block);
  say_why_not_known(block, said_once.sounder, depth.under_keel, depth.under_keel_could_be,
                    depth.tide_is, depth.sounder_reads, depth.stop_at);
  return block;
}

Block bridge_block(const BridgeFinding& bridge, const Reader& reader) {
  Block block{.kind = BlockKind::bridge,
              .lead = time_text(bridge.passing.at, reader),
              .main = bridge.name,
              .leg = bridge.passing.leg};
  const OverMast* const state = as_passed(bridge);
  const Known<Length> over =
      state != nullptr ? state->over_mast : not_known("the vessel file gives no air draft");
  const Known<Length> over_could_be =
      state != nullptr ? state->over_mast_could_be : not_known_as(over);
  // A learner works out the height for the state she passes in.
  const bool antennas_told =
      over.has_value() || (is_left_blank(over.error()) && antennas_passed(bridge).has_value());
  const bool does_not_fit = bridge.fits == Known<bool>(false);
  const bool opens_for_her = bridge.opening.has_value() &&
                             bridge.opening->through_opening == Known<bool>(true) &&
                             bridge.opening->passes == Known<bool>(true);
  if (opens_for_her) {
    block.main += ", through an opening";
    if (bridge.open_span) {
      if (antennas_told) block.main += ", antennas " + in_words(state->antennas);
      block.readings = in_columns({{"over the mast", left_over(over, reader)},
                                   {"could be", could_be(over_could_be, reader)}});
    }
    block.readings.push_back(
        {"gauge should read", gauge_closed(bridge, reader), ReadingColumn::should_read});
  } else {
    block.readings = in_columns({{"over the mast", left_over(over, reader)},
                                 {"could be", could_be(over_could_be, reader)},
                                 {"gauge should read", nearest(bridge.gauge_reads, reader)},
                                 {"turn back below", up(bridge.gauge_at_least, reader)}});
    // She passes as the gauge comes to the reading to turn back below: the expected one, rounded to
    // the nearest, may be less than that rounded up.
    if (waits_for_water_to_fall(bridge)) {
      std::erase_if(block.readings, [](const Reading& reading) {
        return reading.column == ReadingColumn::should_read;
      });
    }
    if (does_not_fit) {
      block.main += opens(bridge.what) ? ": does not fit closed" : ": does not fit";
      if (bridge.over_mast.size() > 1) block.main += ", antennas up or down";
    } else if (antennas_told) {
      block.main += ", antennas " + in_words(state->antennas);
    } else if (const auto counted = antennas_of_gauge(bridge);
               counted && bridge.gauge_at_least.has_value()) {
      block.main += ", antennas " + in_words(*counted);
    }
    if (over.has_value() && over.value() < metres(0)) {
      block.main += (bridge.open_span ? "; open, the mast is " : ": the mast is ") +
                    reader.up(-over.value()) + " too high";
    }
  }
  if (const std::string until = long_until(bridge.passing, reader); !until.empty()) {
    block.more.push_back(opens_for_her ? "You may be under it, or lie short of it, until " + until +
                                             ": ask whether it opens for you then."
                                       : told_until(until));
  }
  for (std::string& sentence : opening_words(bridge, reader)) {
    block.more.push_back(std::move(sentence));
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
  say_once_that_none_is_known(block);
  if (opens_for_her && !bridge.open_span) {
    say_why_not_known(block, "", bridge.gauge_reads, bridge.clearance_gauge);
  } else if (opens_for_her) {
    say_why_not_known(block, "", over, over_could_be, bridge.gauge_reads, bridge.clearance_gauge);
  } else {
    // That she does not fit is known.
    const Known<Antennas> fits_with =
        does_not_fit ? Known<Antennas>(Antennas::down) : bridge.fits_with;
    say_why_not_known(block, "", over, over_could_be, fits_with, bridge.opening_needed,
                      bridge.gauge_reads, bridge.gauge_at_least, bridge.clearance_gauge);
  }
  return block;
}

Block bridges_block(const std::vector<const BridgeFinding*>& bridges, const Reader& reader) {
  const BridgeFinding& first = *bridges.front();
  Length over = metres(0);
  Length could = metres(0);
  Length turn_back = metres(0);
  for (std::size_t i = 0; i < bridges.size(); ++i) {
    const OverMast& mast = *as_passed(*bridges[i]);
    over = i == 0 ? mast.over_mast.value() : std::min(over, mast.over_mast.value());
    could =
        i == 0 ? mast.over_mast_could_be.value() : std::min(could, mast.over_mast_could_be.value());
    turn_back = std::max(turn_back, bridges[i]->gauge_at_least.value());
  }
  return {.kind = BlockKind::bridge,
          .lead = time_text(first.passing.at, reader),
          .main = fmt::format("{} bridges, antennas {}", bridges.size(),
                              in_words(as_passed(first)->antennas)),
          .readings = in_columns({{"over the mast at least", reader.down(over)},
                                  {"could be", reader.down(could)},
                                  {"gauges should read", "below"},
                                  {"turn back below", reader.up(turn_back)}}),
          .leg = first.passing.leg,
          .told_short = bridges.size()};
}

Block cable_block(const CableFinding& cable, const Reader& reader) {
  Block block{.kind = BlockKind::cable,
              .lead = time_text(cable.passing.at, reader),
              .main = "Cable " + cable.name,
              .readings = in_columns({{"to spare", left_over(cable.to_spare, reader)},
                                      {"could be", could_be(cable.to_spare_could_be, reader)}}),
              .leg = cable.passing.leg};
  if (cable.antennas.has_value()) block.main += ", antennas " + in_words(*cable.antennas);
  if (const std::string until = long_until(cable.passing, reader); !until.empty()) {
    block.more.push_back(told_until(until));
  }
  if (cable.to_spare.has_value() && cable.to_spare.value() < metres(0)) {
    block.main += ": the mast comes " + reader.up(-cable.to_spare.value()) + " inside the gap";
  }
  block.more.push_back(capitalised(carried(cable)) + ".");
  if (cable.gap.has_value() && cable.gap.value() > metres(0)) {
    block.more.back().insert(block.more.back().size() - 1,
                             ", to spare beyond the gap of " + reader.up(cable.gap.value()));
  }
  say_once_that_none_is_known(block);
  say_why_not_known(block, "", cable.gap, cable.to_spare, cable.to_spare_could_be);
  return block;
}

Block danger_block(const std::vector<const Danger*>& dangers, const Reader& reader) {
  std::vector<const Danger*> without_time;
  for (const Danger* danger : dangers) {
    if (!danger->reached_in.has_value()) without_time.push_back(danger);
  }
  std::ranges::stable_partition(without_time,
                                [](const Danger* danger) { return is_hard(danger->bottom); });
  const std::vector<const Danger*> near = near_ones(dangers);
  Block block{.kind = BlockKind::to_leeward, .leg = dangers.front()->leg};
  std::string cause;
  const auto say = [&](const Danger& danger, const std::string& text) {
    const std::string now = carried_by(danger);
    if (block.lead.empty()) {
      block.lead = now;
    } else {
      block.main += now == cause ? "; " : ". " + now + ": ";
    }
    cause = now;
    block.main += text;
  };
  for (const Danger* danger : near) say(*danger, danger_text(*danger, reader));
  if (!without_time.empty()) {
    say(*without_time.front(), danger_without_time_text(without_time));
  }
  const std::size_t more = dangers.size() - near.size() - without_time.size();
  if (more > 0) {
    block.main += fmt::format("; {} more later", more);
  }
  block.main += ".";
  return block;
}

}  // namespace passage_brief
