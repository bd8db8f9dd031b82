#include "page/way_back_words.h"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/sheet_parts.h"

namespace passage_brief {
namespace {

std::string least_words(const Brief& back, const Reader& reader) {
  if (!back.least_depth) return "";
  const Depth& depth = back.findings.depths.at(*back.least_depth);
  if (!depth.under_keel.has_value()) {
    return fmt::format(" Under the keel in {} {}.", depth.name,
                       not_known_text(depth.under_keel.error()));
  }
  const Length keel = *depth.under_keel;
  const std::string figure =
      keel < metres(0) ? "aground by " + reader.up(-keel) : reader.down(keel) + " under the keel";
  const std::string nearest = nearest_margin_text(back, reader);
  std::string readings;
  if (depth.stop_at.has_value()) {
    readings =
        fmt::format(", sounder {}, stop at {}",
                    or_not_known(depth.sounder_reads, [&](Length r) { return reader.nearest(r); }),
                    reader.up(*depth.stop_at));
  }
  return fmt::format(" Least {} ({}), {} {}{}{}.", figure,
                     could_be_text(depth.under_keel_could_be, reader), depth.name,
                     time_text(depth.passing.at, reader), readings,
                     nearest.empty() ? "" : "; " + nearest);
}

std::string bridge_words(const Brief& back, const Reader& reader) {
  if (!back.lowest_bridge) return "";
  const BridgeFinding& bridge = back.findings.bridges.at(*back.lowest_bridge);
  const OverMast* const mast = as_passed(bridge);
  if (mast == nullptr) return "";
  if (bridge.opening && bridge.opening->through_opening == Known<bool>(true)) {
    return fmt::format(" Lowest bridge {} {}: it must open for her.", bridge.name,
                       time_text(bridge.passing.at, reader));
  }
  if (!mast->over_mast.has_value() && !bridge.fits_with.has_value()) {
    return fmt::format(" Lowest bridge {} {}: {} over the mast.", bridge.name,
                       time_text(bridge.passing.at, reader),
                       instead_of_figure(mast->over_mast.error()));
  }
  const std::string gauge = bridge.gauge_at_least.has_value()
                                ? ", gauge at least " + reader.up(*bridge.gauge_at_least)
                                : std::string();
  return fmt::format(" Lowest bridge {} {}: {} over the mast, antennas {}{}.", bridge.name,
                     time_text(bridge.passing.at, reader),
                     or_not_known(mast->over_mast, [&](Length over) { return reader.down(over); }),
                     in_words(mast->antennas), gauge);
}

/// The berth she lies in through the stay.
std::string stay_words(const Brief& brief, const Reader& reader) {
  if (brief.findings.depths.empty()) return "";
  const Depth& last = brief.findings.depths.back();
  if (last.place != DepthPlace::berth) return "";
  return fmt::format(" {}: {} under the keel.", last.name,
                     or_not_known(last.under_keel, [&](Length keel) { return reader.down(keel); }));
}

/// What the rules say of the way back, but for notices.
std::vector<std::string> said_of(const Brief& back, const Reader& reader) {
  std::vector<std::string> all;
  for (const Block& block : caution_blocks(back.judgement, reader)) {
    if (block.fold != Fold::never) continue;
    const bool limit = block.lead.ends_with(", a limit");
    all.push_back(capitalised(in_words(*block.grade)) + (limit ? ", a limit: " : ": ") +
                  block.main);
  }
  std::string unsettled;
  for (const NotChecked& unchecked : back.judgement.not_checked) {
    if (!unchecked.limit) continue;
    const std::string one = unchecked.id + " (" + unchecked.about.name + ")";
    unsettled += (unsettled.empty() ? "" : "; ") + one;
  }
  if (!unsettled.empty()) all.push_back("Cannot be told on the way back: " + unsettled + ".");
  return all;
}

}  // namespace

std::optional<Block> way_back_block(const Brief& brief, const Reader& reader) {
  if (brief.back == nullptr) return std::nullopt;
  const WayBack& way = *brief.back;
  Block block{.kind = BlockKind::reason, .lead = "Way back"};
  if (!way.brief) {
    block.main =
        "cannot tell: when she leaves again is " + not_known_text(way.leaves.error()) + ".";
    return block;
  }
  const Brief& back = *way.brief;
  block.main =
      fmt::format("after {} leave {}, arrive {}: {}.{}{}{}",
                  interval_text(way.stay, Rounding::nearest), time_text(way.leaves, reader),
                  time_text(back.findings.passage.arrives, reader), in_words(way.verdict),
                  least_words(back, reader), bridge_words(back, reader), stay_words(brief, reader));
  block.more = said_of(back, reader);
  return block;
}

}  // namespace passage_brief
