// The words for each thing met on the way; passing_blocks.cpp sets them in order.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "page/sheet_parts.h"

namespace passage_brief {

[[nodiscard]] Block leg_block(const Brief& brief, std::size_t index, const SaidOnce& said_once);
[[nodiscard]] Block depth_block(const Depth& depth, const SaidOnce& said_once,
                                const Reader& reader);
[[nodiscard]] Block bridge_block(const BridgeFinding& bridge, const Reader& reader);
[[nodiscard]] Block cable_block(const CableFinding& cable, const Reader& reader);
/// One block for all dangers of a leg, at least one: the three reached soonest, the others counted.
[[nodiscard]] Block danger_block(std::vector<const Danger*> dangers, const Reader& reader);

/// A mark on the hand it should be on, which can stand in one sentence with its neighbours.
[[nodiscard]] bool plain(const MarkFinding& mark);
/// "Leave green 11 to port; red 12, red 14 to starboard."
[[nodiscard]] Block marks_block(const std::vector<const MarkFinding*>& plain_ones,
                                const Reader& reader);
/// A mark that needs a sentence of its own: wrong hand, either side, side not known.
[[nodiscard]] Block odd_mark_block(const MarkFinding& mark, const Reader& reader);

/// Whether one text holds the other, capital or small.
[[nodiscard]] bool contains_word(const std::string& text, const std::string& word);

}  // namespace passage_brief
