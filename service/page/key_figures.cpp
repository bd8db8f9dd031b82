#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <iterator>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "brief/brief.h"
#include "page/sheet_parts.h"
#include "page/window_words.h"

namespace passage_brief {
namespace {

std::string at_place(const std::string& name, const Passing& passing, const Reader& reader) {
  return passing.at.has_value()
             ? name + ", " + reader.clock.with_zone(passing.at.value(), Rounding::nearest)
             : name + ", time not known";
}

/// "shut by Tansel Bar: under the margin, not rising"
std::string shut_by(const WindowEdge& edge) {
  const bool broken = edge.state == LimitState::broken;
  return edge.about.name + ": " + (broken ? "" : "cannot tell of ") + edge.limit;
}

/// Between when and when, or when next.
void say_window(Block& block, const Brief& brief, const Reader& reader) {
  if (brief.window && (brief.judgement.verdict > Verdict::cautions || is_void(brief))) {
    block.more.push_back("by tide and light alone " + window_times(*brief.window, reader.clock));
    return;
  }
  if (brief.window) {
    const Window& window = *brief.window;
    block.lead = "Leave between, " + reader.clock.letters();
    block.more.insert(block.more.begin(), "for this page " + block.main);
    block.main = window_times(window, reader.clock);
    if (std::ranges::any_of(brief.findings.bridges, [&](const BridgeFinding& bridge) {
          return !asking_words(bridge, reader).empty();
        })) {
      block.more.emplace_back("each time asks for an opening of its own");
    }
    if (window.closed_by) block.more.push_back("then shut by " + shut_by(*window.closed_by));
    if (window.judged_on == JudgedOn::tide_and_light) {
      block.more.emplace_back("judged on tide and light only: get a new forecast");
    }
    return;
  }
  if (!brief.windows_in) return;
  const auto next = std::ranges::find_if(brief.windows, [&](const Window& window) {
    return window.opens > brief.findings.passage.departs;
  });
  if (next != brief.windows.end()) {
    block.more.push_back("next window " + window_told(*next, reader.clock));
  } else {
    block.more.push_back(
        fmt::format("no {} up to {}", brief.windows.empty() ? "window" : "later window",
                    reader.clock.with_zone(brief.windows_in->end, Rounding::down)));
  }
}

Block departs_and_arrives(const Brief& brief, const Reader& reader) {
  const PassageFinding& passage = brief.findings.passage;
  Block block{.kind = BlockKind::key_figure,
              .lead = "Departs and arrives, " + reader.clock.letters()};
  const std::string departs = reader.clock.bare(passage.departs, Rounding::nearest);
  std::string way = miles_text(passage.distance, Rounding::nearest);
  if (passage.arrives.has_value()) {
    const Instant arrives = passage.arrives.value();
    block.main = departs + " to " + reader.clock.bare(arrives, Rounding::nearest);
    way += " in " + interval_text(arrives - passage.departs, Rounding::nearest);
  } else {
    block.main = departs + ", arrival not known";
    block.more.push_back("because " + in_words(passage.arrives.error()));
  }
  block.more.push_back(std::move(way));
  say_window(block, brief, reader);
  if (brief.judgement.verdict > Verdict::cautions) return block;
  const Known<Instant> last = last_to_leave(brief);
  block.more.push_back("do not leave by this page after " +
                       (last.has_value() ? reader.clock.bare(*last, Rounding::down)
                                         : "a time that is " + not_known_text(last.error())));
  return block;
}

bool has_figure(const Known<Length>& figure) {
  return figure.has_value() || is_left_blank(figure.error());
}

bool has_height(const BridgeFinding& bridge) {
  const OverMast* const mast = as_passed(bridge);
  return mast != nullptr && has_figure(mast->over_mast);
}

std::string not_known_at(std::size_t count, const std::string& what) {
  return fmt::format("not known at {} {}{}", count, what, count == 1 ? "" : "s");
}

/// `not_known`: at so many places of both ways.
Block least_under_keel(const Brief& brief, std::size_t not_known, const Reader& reader) {
  Block block{.kind = BlockKind::key_figure, .lead = "Least under the keel"};
  if (!brief.least_depth.has_value()) {
    block.main = kNotKnown;
    block.more.emplace_back("because no depth was worked out on this passage");
    return block;
  }
  const Depth& depth = brief.findings.depths.at(*brief.least_depth);
  block.leg = depth.passing.leg;
  block.more.push_back(at_place(depth.name, depth.passing, reader));
  if (depth.tide_is.has_value()) block.more.back() += ", " + in_words(depth.tide_is.value());
  if (depth.blocked) {
    block.main = "Blocked";
    block.more.back() += ": " + depth.controlled_by + " never covers";
  } else if (!depth.under_keel.has_value()) {
    block.main = instead_of_figure(depth.under_keel.error());
    if (is_left_blank(depth.under_keel.error())) {
      block.more.push_back(could_be_text(depth.under_keel_could_be, reader));
    } else {
      block.more.back() += ", because " + in_words(depth.under_keel.error());
    }
  } else {
    const Length keel = depth.under_keel.value();
    block.main = keel < metres(0) ? "Aground by " + reader.up(-keel) : reader.down(keel);
    block.more.push_back(could_be_text(depth.under_keel_could_be, reader));
  }
  if (not_known > 0 && has_figure(depth.under_keel)) {
    block.lead += kOfWhatIsKnown;
    block.more.push_back(not_known_at(not_known, "place"));
  }
  if (const auto nearest = nearest_margin_text(brief, reader); !nearest.empty()) {
    block.more.push_back(nearest);
  }
  if (const std::string text = not_measured_text("draft", brief.findings.passage.draft_is);
      !text.empty()) {
    block.more.push_back(text);
  }
  const auto nearest = [&](Length reading) { return reader.nearest(reading); };
  const auto up = [&](Length reading) { return reader.up(reading); };
  const auto neither = [](const auto& a, const auto& b) {
    return !a.has_value() && !b.has_value() && !is_left_blank(a.error()) &&
           !is_left_blank(b.error());
  };
  if (neither(depth.sounder_reads, depth.stop_at)) return block;
  block.readings.push_back({"sounder reads", or_not_known(depth.sounder_reads, nearest)});
  block.readings.push_back({"stop at", or_not_known(depth.stop_at, up)});
  return block;
}

bool has_to_open(const BridgeFinding& bridge) { return bridge.opening_needed.value_or(false); }

/// What on either way is passed with the antennas down, each once; a wire whose gap leaves it open
/// too.
std::vector<std::string> passed_antennas_down(const Brief& brief) {
  std::vector<std::string> names;
  const auto add = [&names](const std::string& name) {
    if (std::ranges::find(names, name) == names.end()) names.push_back(name);
  };
  const auto add_all = [&add](const Findings& found) {
    for (const BridgeFinding& bridge : found.bridges) {
      if (antennas_passed(bridge) == Known<Antennas>(Antennas::down)) add(bridge.name);
    }
    for (const CableFinding& cable : found.cables) {
      if (in_state(cable.over_mast, Antennas::down) != nullptr &&
          cable.antennas.value_or(Antennas::down) == Antennas::down) {
        add("cable " + cable.name);
      }
    }
  };
  add_all(brief.findings);
  if (brief.back != nullptr && brief.back->brief) add_all(brief.back->brief->findings);
  return names;
}

/// "Sound Road Bridge, High Road Bridge and 3 more": the list has them all.
std::string first_named(std::vector<std::string> names) {
  constexpr std::size_t kNamed = 2;
  const std::size_t more = names.size() - std::min(names.size(), kNamed);
  names.resize(names.size() - more);
  return fmt::format("{}{}", fmt::join(names, ", "),
                     more == 0 ? "" : fmt::format(" and {} more", more));
}

/// "antennas down", "antennas up here, down for Mill Road Bridge". `here`: empty where none is
/// told.
std::string antennas_text(std::optional<Antennas> here, const std::vector<std::string>& down) {
  const std::string others = first_named(down);
  if (others.empty()) return here ? "antennas " + in_words(*here) : "";
  if (!here) return "antennas down for " + others;
  return *here == Antennas::down ? "antennas down, for " + others + " too"
                                 : "antennas up here, down for " + others;
}

/// "10:00"; empty where no opening is known.
std::string opening_time_text(const BridgeFinding& bridge, const Reader& reader) {
  const OpeningDue* const due = opening_due(bridge);
  return due != nullptr ? reader.clock.bare(due->at, Rounding::up) : "";
}

Block lowest_bridge(const Brief& brief, std::size_t not_known, std::vector<std::string> down,
                    const Reader& reader) {
  const BridgeFinding& bridge = brief.findings.bridges.at(*brief.lowest_bridge);
  const bool lowest_of_some = not_known > 0 && has_height(bridge);
  Block block{.kind = BlockKind::key_figure,
              .lead = fmt::format("Lowest bridge{}", lowest_of_some ? kOfWhatIsKnown : ""),
              .leg = bridge.passing.leg};
  block.more.push_back(at_place(bridge.name, bridge.passing, reader));
  std::optional<Antennas> here;
  if (is_too_low_open(bridge)) {
    block.main = "Does not fit, open or closed";
  } else if (has_to_open(bridge)) {
    block.main = "Must open";
    if (const OpeningDue* const due = opening_due(bridge)) {
      block.main += " " + opening_time_text(bridge, reader);
      if (due->ask_by) block.more.push_back(asking_words(bridge, reader));
    }
    if (bridge.open_span && bridge.open_span->fits_with.has_value()) {
      here = *bridge.open_span->fits_with;
    }
  } else if (bridge.fits.has_value() && !bridge.fits.value()) {
    block.main = "Does not fit";
  } else if (bridge.gauge_at_least.has_value() || is_left_blank(bridge.gauge_at_least.error())) {
    block.lead += ", gauge at least";
    block.main =
        or_not_known(bridge.gauge_at_least, [&](Length reading) { return reader.up(reading); });
    here = antennas_of_gauge(bridge);
    if (!bridge.fits_with.has_value()) {
      block.more.back() += ", room not known, because " + in_words(bridge.fits_with.error());
    }
  } else {
    block.lead += ", gauge at least";
    block.main = kNotKnown;
    const NotKnown& why =
        !bridge.clearance.has_value() ? bridge.clearance.error() : bridge.gauge_at_least.error();
    block.more.back() += ", because " + in_words(why);
  }
  if (here == Antennas::down) std::erase(down, bridge.name);
  if (const std::string text = antennas_text(here, down); !text.empty()) block.more.push_back(text);
  for (std::string& words : beside_lowest_bridge(brief, reader)) {
    block.more.push_back(std::move(words));
  }
  if (lowest_of_some) block.more.push_back(not_known_at(not_known, "bridge"));
  if (const std::string text = not_measured_text("air draft", brief.findings.passage.air_draft_is);
      !text.empty()) {
    block.more.push_back(text);
  }
  if (bridge.clearance_gauge.has_value() && !bridge.clearance_gauge.value()) {
    block.more.emplace_back("no clearance gauge is charted");
  }
  if (!bridge.gauge_reads.has_value() && !bridge.clearance.has_value() &&
      !is_left_blank(bridge.clearance.error())) {
    return block;
  }
  if (!waits_for_water_to_fall(bridge)) {
    block.readings.push_back({"gauge reads", or_not_known(bridge.gauge_reads, [&](Length r) {
                                return reader.nearest(r);
                              })});
  }
  const auto down_to = [&](Length clearance) { return reader.down(clearance); };
  block.readings.push_back({"clearance", or_not_known(bridge.clearance, down_to)});
  const Known<Length>& could_be = bridge.clearance_could_be;
  if (could_be.has_value() || (bridge.clearance.has_value() && !is_left_blank(could_be.error()))) {
    block.readings.push_back({"could be", or_not_known(could_be, down_to)});
  }
  return block;
}

Block nearest_danger(const Brief& brief, const Reader& reader) {
  Block block{.kind = BlockKind::key_figure, .lead = "Nearest danger, engines stopped"};
  if (brief.nearest_danger.has_value()) {
    const Danger& danger = brief.findings.dangers.at(*brief.nearest_danger);
    block.leg = danger.leg;
    block.main = or_not_known(danger.reached_in,
                              [](Interval time) { return interval_text(time, Rounding::down); });
    block.more.push_back(fmt::format("{} to {}, {} off", danger.name, in_words(danger.side),
                                     distance_text(danger.distance, Rounding::down, reader.units)));
    if (!danger.reached_in.has_value() && !is_left_blank(danger.reached_in.error())) {
      block.more.push_back("because " + in_words(danger.reached_in.error()));
    }
    block.more.push_back(
        at_place("from leg " + std::to_string(danger.leg + 1), danger.passing, reader));
    return block;
  }
  for (const Leg& leg : brief.findings.legs) {
    if (leg.wind.has_value()) continue;
    block.main = kNotKnown;
    block.more.push_back("because " + in_words(leg.wind.error()));
    return block;
  }
  block.main = "None found";
  block.more.emplace_back("and no bridge on the way");
  return block;
}

/// The least known room that she passes under, closed span or open, antennas as she passes; null
/// where none is known.
const BridgeFinding* tightest_of(const std::vector<BridgeFinding>& bridges) {
  const BridgeFinding* tightest = nullptr;
  for (const BridgeFinding& bridge : bridges) {
    const OverMast* const mast = as_passed(bridge);
    if (mast == nullptr || !mast->over_mast.has_value()) continue;
    if (is_too_low_open(bridge)) continue;
    if (has_to_open(bridge) && !bridge.open_span) continue;  // clear of every mast
    if (tightest == nullptr || *mast->over_mast < *as_passed(*tightest)->over_mast) {
      tightest = &bridge;
    }
  }
  return tightest;
}

std::string least_room_text(const BridgeFinding& bridge, const Reader& reader) {
  std::string text = "least room: " + at_place(bridge.name, bridge.passing, reader) + ": ";
  if (has_to_open(bridge) || !bridge.gauge_at_least.has_value()) {
    text += reader.down(*as_passed(bridge)->over_mast) + " over the mast";
  } else if (bridge.fits == Known<bool>(false)) {
    text += "does not fit";
  } else {
    text += "gauge at least " + reader.up(*bridge.gauge_at_least);
  }
  if (antennas_passed(bridge) == Known<Antennas>(Antennas::up)) text += ", antennas up";
  return text;
}

/// What the head, which shows `lowest`, must not hide of the bridges of its way or the other.
std::vector<std::string> beside_bridge(const BridgeFinding& lowest,
                                       const std::vector<BridgeFinding>& bridges,
                                       const Reader& reader) {
  std::vector<std::string> said;
  std::vector<std::string> open_too;
  for (const BridgeFinding& bridge : bridges) {
    if (&bridge == &lowest || !has_to_open(bridge)) continue;
    if (is_too_low_open(bridge)) {
      said.push_back(at_place(bridge.name, bridge.passing, reader) +
                     ": does not fit, open or closed");
      continue;
    }
    const std::string at = opening_time_text(bridge, reader);
    const std::string asking = asking_words(bridge, reader);
    open_too.push_back(bridge.name + (at.empty() ? "" : " " + at));
    if (!asking.empty()) said.push_back(bridge.name + ": " + asking);
  }
  if (!open_too.empty()) said.push_back("must open too: " + first_named(open_too));
  const BridgeFinding* const tightest = tightest_of(bridges);
  if (tightest != nullptr && tightest != &lowest) {
    const OverMast* const there = as_passed(lowest);
    const bool lowest_told = !has_to_open(lowest) || lowest.open_span;
    if (!lowest_told || there == nullptr || !there->over_mast.has_value() ||
        *as_passed(*tightest)->over_mast < *there->over_mast) {
      said.push_back(least_room_text(*tightest, reader));
    }
  }
  return said;
}

/// Out and back, the same of the way whose lowest bridge the head does not show.
std::vector<std::string> beside_on_other_way(const Brief& brief, const Reader& reader) {
  if (brief.back == nullptr || !brief.back->brief) return {};
  const Brief& shown = way_of_lowest_bridge(brief);
  const bool other_is_out = &shown != &brief;
  const Brief& other = other_is_out ? brief : *brief.back->brief;
  std::vector<std::string> said = beside_bridge(shown.findings.bridges.at(*shown.lowest_bridge),
                                                other.findings.bridges, reader);
  for (std::string& words : said) words.insert(0, other_is_out ? "way out: " : "way back: ");
  return said;
}

}  // namespace

Known<Instant> last_to_leave(const Brief& brief) {
  return join(
      [&brief](Instant at) {
        const auto within = std::ranges::find_if(brief.windows, [at](const Window& window) {
          return window.opens <= at && at <= window.closes;
        });
        const Instant minute = std::chrono::floor<std::chrono::minutes>(at);
        return within == brief.windows.end() ? minute : std::min(minute, printed_span(*within).end);
      },
      brief.void_after);
}

std::string nearest_margin_text(const Brief& brief, const Reader& reader) {
  if (!brief.nearest_margin) return "";
  const Depth& depth = brief.findings.depths.at(*brief.nearest_margin);
  if (!depth.under_keel.has_value()) return "";
  return "nearest its margin: " + at_place(depth.name, depth.passing, reader) + ": " +
         reader.down(*depth.under_keel) + ", " + reader.up(depth.margin) + " wanted";
}

std::string not_measured_text(const std::string& what, Basis basis) {
  return basis == Basis::measured ? "" : what + " " + in_words(basis) + ": measure it";
}

std::optional<Antennas> antennas_of_gauge(const BridgeFinding& bridge) {
  if (bridge.fits_with.has_value()) return *bridge.fits_with;
  const auto lowest = std::ranges::min_element(bridge.over_mast, {}, &OverMast::air_draft);
  return lowest == bridge.over_mast.end() ? std::nullopt : std::optional(lowest->antennas);
}

bool is_too_low_open(const BridgeFinding& bridge) {
  if (!bridge.opening || bridge.opening->passes != Known<bool>(false)) return false;
  return bridge.opening->next.has_value() && *bridge.opening->next;
}

const OpeningDue* opening_due(const BridgeFinding& bridge) {
  if (!has_to_open(bridge) || !bridge.opening || is_too_low_open(bridge)) return nullptr;
  const Known<std::optional<OpeningDue>>& next = bridge.opening->next;
  return next.has_value() && *next ? &**next : nullptr;
}

std::vector<std::string> beside_lowest_bridge(const Brief& brief, const Reader& reader) {
  if (!brief.lowest_bridge) return {};
  const std::vector<BridgeFinding>& bridges = brief.findings.bridges;
  return beside_bridge(bridges.at(*brief.lowest_bridge), bridges, reader);
}

std::size_t depths_not_known(const Findings& found) {
  return static_cast<std::size_t>(std::ranges::count_if(
      found.depths, [](const Depth& depth) { return !has_figure(depth.under_keel); }));
}

std::size_t bridges_not_known(const Findings& found) {
  return static_cast<std::size_t>(std::ranges::count_if(
      found.bridges, [](const BridgeFinding& bridge) { return !has_height(bridge); }));
}

const Brief& way_of_least_depth(const Brief& brief) {
  const WayBack* const back = brief.back.get();
  return back != nullptr && back->brief && back->has_least_depth ? *back->brief : brief;
}

const Brief& way_of_lowest_bridge(const Brief& brief) {
  const WayBack* const back = brief.back.get();
  return back != nullptr && back->brief && back->has_lowest_bridge ? *back->brief : brief;
}

std::vector<Block> key_figures(const Brief& brief, const Reader& reader) {
  std::vector<Block> figures{departs_and_arrives(brief, reader)};
  const auto on_both_ways = [&](const auto& count_in) {
    const bool returns = brief.back != nullptr && brief.back->brief.has_value();
    return count_in(brief.findings) + (returns ? count_in(brief.back->brief->findings) : 0);
  };
  const auto add = [&](const Brief& way, Block block) {
    const bool on_the_way_back = &way != &brief;
    if (brief.back != nullptr) block.lead += on_the_way_back ? ", way back" : ", way out";
    if (on_the_way_back) block.leg.reset();
    figures.push_back(std::move(block));
  };
  const Brief& shoalest = way_of_least_depth(brief);
  add(shoalest, least_under_keel(shoalest, on_both_ways(depths_not_known), reader));
  const Brief& lowest = way_of_lowest_bridge(brief);
  std::vector<std::string> down = passed_antennas_down(brief);
  if (lowest.lowest_bridge) {
    Block block = lowest_bridge(lowest, on_both_ways(bridges_not_known), std::move(down), reader);
    std::ranges::move(beside_on_other_way(brief, reader), std::back_inserter(block.more));
    add(lowest, std::move(block));
  } else {
    Block danger = nearest_danger(brief, reader);
    if (!down.empty()) danger.more.push_back(antennas_text(std::nullopt, down));
    add(brief, std::move(danger));
  }
  return figures;
}

}  // namespace passage_brief
