#include "page/way_back_words.h"

#include <fmt/format.h>

#include <string>
#include <utility>
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
  return fmt::format(
      " Least{} {} ({}), {} {}{}{}.", depths_not_known(back.findings) > 0 ? kOfWhatIsKnown : "",
      figure, could_be_text(depth.under_keel_could_be, reader), depth.name,
      time_text(depth.passing.at, reader), readings, nearest.empty() ? "" : "; " + nearest);
}

std::string bridge_words(const Brief& back, const Reader& reader) {
  if (!back.lowest_bridge) return "";
  const BridgeFinding& bridge = back.findings.bridges.at(*back.lowest_bridge);
  const OverMast* const mast = as_passed(bridge);
  if (mast == nullptr) return "";
  const bool lowest_of_some = mast->over_mast.has_value() && bridges_not_known(back.findings) > 0;
  const std::string lowest =
      fmt::format(" Lowest bridge{} {} {}", lowest_of_some ? kOfWhatIsKnown : "", bridge.name,
                  time_text(bridge.passing.at, reader));
  std::string beside;
  for (const std::string& words : beside_lowest_bridge(back, reader)) {
    beside += " " + capitalised(words) + ".";
  }
  if (is_too_low_open(bridge)) return lowest + ": it does not fit, open or closed." + beside;
  if (bridge.opening && bridge.opening->through_opening == Known<bool>(true)) {
    const std::string asking = asking_words(bridge, reader);
    return lowest + ": it must open for her" + (asking.empty() ? "" : ", " + asking) + "." + beside;
  }
  if (bridge.fits == Known<bool>(false)) {
    return lowest + ": it does not fit" + (opens(bridge.what) ? " closed." : ".") + beside;
  }
  if (!mast->over_mast.has_value() && !bridge.fits_with.has_value()) {
    return fmt::format("{}: {} over the mast.{}", lowest,
                       instead_of_figure(mast->over_mast.error()), beside);
  }
  const std::string gauge = bridge.gauge_at_least.has_value()
                                ? ", gauge at least " + reader.up(*bridge.gauge_at_least)
                                : std::string();
  return fmt::format("{}: {} over the mast, antennas {}{}.{}", lowest,
                     or_not_known(mast->over_mast, [&](Length over) { return reader.down(over); }),
                     in_words(mast->antennas), gauge, beside);
}

/// What the rules say of the way back, but for notices.
std::vector<Block> said_of(const Brief& back, const std::vector<Block>& said_of_way_out,
                           const Reader& reader) {
  std::vector<Block> all;
  for (Block& block : caution_blocks(back.judgement, reader)) {
    if (block.fold != Fold::never) continue;
    const bool limit = block.lead.ends_with(", a limit");
    const bool lesser = block.grade == Grade::caution && !limit;
    all.push_back({.kind = BlockKind::way_back,
                   .fold = lesser ? Fold::small_letters : Fold::never,
                   .lead = block.lead + ", way back",
                   .main = without_sentences_of(block.main, said_of_way_out),
                   .grade = block.grade});
  }
  std::vector<const NotChecked*> unsettled;
  for (const NotChecked& unchecked : back.judgement.not_checked) {
    if (unchecked.limit) unsettled.push_back(&unchecked);
  }
  if (!unsettled.empty()) {
    all.push_back({.kind = BlockKind::way_back,
                   .lead = "Way back, cannot be told",
                   .main = rules_with_places(unsettled) + "."});
  }
  return all;
}

}  // namespace

std::vector<Block> way_back_blocks(const Brief& brief, const Reader& reader) {
  if (brief.back == nullptr) return {};
  const WayBack& way = *brief.back;
  Block block{.kind = BlockKind::way_back, .lead = "Way back"};
  if (!way.brief) {
    block.main =
        "cannot tell: when she leaves again is " + not_known_text(way.leaves.error()) + ".";
    return {block};
  }
  const Brief& back = *way.brief;
  block.main =
      fmt::format("after {} leave {}, arrive {}: {}.{}{}",
                  interval_text(way.stay, Rounding::nearest), time_text(way.leaves, reader),
                  time_text(back.findings.passage.arrives, reader), in_words(way.verdict),
                  way.has_least_depth ? "" : least_words(back, reader), bridge_words(back, reader));
  std::vector<Block> told_of_way_out = caution_blocks(brief.judgement, reader);
  std::erase_if(told_of_way_out, [](const Block& said) { return said.fold != Fold::never; });
  std::vector<Block> blocks = said_of(back, told_of_way_out, reader);
  blocks.insert(blocks.begin(), std::move(block));
  return blocks;
}

}  // namespace passage_brief
