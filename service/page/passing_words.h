// The words for each thing met on the way; passing_blocks.cpp sets them in order.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "page/sheet_parts.h"

namespace passage_brief {

[[nodiscard]] Block leg_block(const Brief& brief, std::size_t index, const SaidOnce& said_once,
                              const Reader& reader);
[[nodiscard]] Block depth_block(const Depth& depth, const SaidOnce& said_once,
                                const Reader& reader);
[[nodiscard]] Block bridge_block(const BridgeFinding& bridge, const Reader& reader);
/// Several bridges in one block, each passed with room to spare and the antennas in one state: the
/// least room, and the gauge reading to turn back below at any of them. One or more.
[[nodiscard]] Block bridges_block(const std::vector<const BridgeFinding*>& bridges,
                                  const Reader& reader);
/// Whether and when it opens, and what to do until then; nothing for a bridge she fits under.
[[nodiscard]] std::vector<std::string> opening_words(const BridgeFinding& bridge,
                                                     const Reader& reader);
[[nodiscard]] Block cable_block(const CableFinding& cable, const Reader& reader);
/// One block for all dangers of a leg, at least one: the soonest reached first, those far
/// off counted.
[[nodiscard]] Block danger_block(const std::vector<const Danger*>& dangers, const Reader& reader);

/// How a mark is said: neighbours of the first two sayings share a sentence with their like.
enum class MarkSaying {
  leave,           // on the hand it should be on
  proves_nothing,  // unofficial
  alone            // wrong hand, either side, side not known
};
[[nodiscard]] MarkSaying saying_of(const MarkFinding& mark);
/// "Leave green 11 to port; red 12, red 14 to starboard." At least one mark, all of one saying; of
/// those said alone, one.
[[nodiscard]] Block marks_block(const std::vector<const MarkFinding*>& alike, bool in_daylight,
                                const Reader& reader);

/// "green to port, red to starboard", where each colour keeps to one hand; else nothing.
[[nodiscard]] std::optional<std::string> hands_of_colours(
    const std::vector<const MarkFinding*>& marks);
/// "green 11 to port", or "11" where hands_of_colours() is said; for a list of what is passed.
[[nodiscard]] std::string mark_in_list(const MarkFinding& mark, bool in_daylight, bool with_hand);

/// Whether one text holds the other as a word or words, capital or small.
[[nodiscard]] bool contains_word(const std::string& text, const std::string& word);

}  // namespace passage_brief
