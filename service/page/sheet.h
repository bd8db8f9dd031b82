// What a page says, block after block in reading order, before anyone decides how it looks.
//
// Text, PDF and HTML print the same sheet; only the PDF folds. All words are final:
// rounded, in the reader's units, not-known things said with their reason.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "page/page_choice.h"
#include "rules/verdict.h"

namespace passage_brief {

struct Brief;

enum class BlockKind {
  copy_heading,  // whose copy, where it is not the skipper's
  title,         // whose passage, which day
  verdict,       // with its order
  key_figure,    // one of three
  leg,           // heads what is met on it
  marks,
  depth,
  bridge,
  cable,
  to_leeward,  // or where the current sets
  caution,
  way_back,  // its times and figures, then what the rules say of it
  not_checked,
  reason,   // why several things are not known
  weather,  // wind, waves and light on the whole way
  place,    // to turn round, to lie in safety
  section_drawing,
  tide_curve,
  arithmetic,
  look_out,
  base,    // whom to ring
  blanks,  // to fill by hand
  note,    // of the waterway
  source,
  estimate,
  deferring,
  folded,  // what this page leaves out, counted
  working  // of one figure, behind the page of the instructor's copy
};

/// What happens to a block when one page is too small; in this order.
enum class Fold {
  never,
  notice,         // left out, and counted
  drawing,        // made smaller
  leg,            // merged with its neighbours where it stands
  small_letters,  // set as what is not read at the wheel
};

/// Where a reading stands on a page that sets those of the list in columns.
enum class ReadingColumn { to_spare, could_be, should_read, stop_at };

/// A figure to hold against an instrument.
struct Reading {
  std::string what;                          // "sounder should read"
  std::string value;                         // "5.3 ft"
  std::optional<ReadingColumn> column = {};  // of every reading in the list
};

/// terse, where a page is too small: marks by colour and number; bridges passed with room to spare
/// without their width, and several of them together with the gauge of each.
enum class Wording { whole, terse };

struct Block {
  BlockKind kind;
  Fold fold = Fold::never;
  std::string lead = {};                // "10:05", "CAUTION", "Least under the keel"
  std::string main = {};                // the statement itself
  std::vector<std::string> more = {};   // sentences that follow
  std::vector<Reading> readings = {};   // side by side
  std::optional<std::size_t> leg = {};  // where it is met
  std::optional<Grade> grade = {};      // of a caution
  std::size_t told_short = 0;  // how many bridges are in it with less than is known of them
  /// A drawing in words, for a page that has no drawings.
  std::string instead = {};
};

struct Sheet {
  std::string title;         // one line, for a window or a subject
  std::string zone_letters;  // of every time printed without
  std::vector<Block> blocks;
};

[[nodiscard]] Sheet make_sheet(const Brief& brief, PageChoice choice,
                               Wording wording = Wording::whole);

/// Met on the way: belongs under a leg.
[[nodiscard]] bool in_the_list(BlockKind kind);

/// Marks and what lies to leeward (the grave ones are cautions as well), weather, places to turn,
/// notes and the boat's own figures serve a boat under way: a page that says not to leave gives
/// them up before it fails (our rule).
[[nodiscard]] bool serves_only_under_way(const Block& block);

/// The same blocks with the legs first to last (numbers from 0) and what is met on them in one
/// block, where the first stood. Nothing is lost but the legs' wind, current and course.
[[nodiscard]] std::vector<Block> with_legs_merged(const std::vector<Block>& blocks,
                                                  std::size_t first, std::size_t last);

/// With a capital at its start, where that is a letter of ASCII.
[[nodiscard]] std::string capitalised(std::string text);

/// The sentences of a block, to write in.
[[nodiscard]] std::vector<std::string*> texts_of(Block& block);

/// Every piece of text of a block that a printer has to print.
[[nodiscard]] std::vector<std::string> printed_pieces(const Block& block);

}  // namespace passage_brief
