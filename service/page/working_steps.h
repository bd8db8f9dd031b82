// The working of one figure, step by step, as it is written down by hand.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "page/figures.h"
#include "page/sheet.h"
#include "page/sheet_parts.h"
#include "passage/figure.h"
#include "units/known.h"

namespace passage_brief {

/// A printed figure that later steps go on from, in hundredths of the reader's unit.
using Carried = std::optional<long long>;

/// One term of a sum as it is done by hand.
struct Term {
  std::string name;
  Length value;
  bool taken_away = false;
  Carried carried = {};  // from an earlier step: printed as it was there
};

/// A working that the sheet shows.
struct Worked {
  std::string what;  // "heading to steer"
  const Working* working;
};

/// Where inputs come from, so far as it is the same in every working that uses them: said once, at
/// the end, and not in each.
class SharedSources {
 public:
  explicit SharedSources(const std::vector<Worked>& shown);
  [[nodiscard]] bool tells(const std::string& name, const std::string& source) const;
  /// Nothing where no two workings share a source.
  [[nodiscard]] std::optional<Block> block() const;

 private:
  std::map<std::string, std::string> source_of_;  // empty: not the same everywhere
  std::map<std::string, int> used_;
};

/// The steps of one figure, with two decimals.
class Steps {
 public:
  Steps(std::string lead, const Reader& reader, const SharedSources& shared)
      : reader_(&reader),
        shared_(&shared),
        block_{.kind = BlockKind::working, .lead = std::move(lead)} {}

  /// "Water: charted 3.00 + tide 2.48 = 5.48 ft". The printed terms add up to the printed total,
  /// which is given back; to the first decimal it is what the page prints. Where terms carried from
  /// before would make it another, "rounded off before 0.01" is one of them.
  Carried sum(const std::string& name, const std::vector<Term>& terms, const Known<Length>& total,
              Rounding way);
  /// "Could be": root of the summed squares times 1.645, what is allowed for shoaling and, of a
  /// depth, for parts near it that are less sure (Depth::off_for_parts). The root is of the terms
  /// as printed, to the third decimal, and the rest goes on from it.
  void could_be(const std::string& name, const Term& figure, const Known<Length>& could_be,
                const std::vector<ErrorTerm>& errors, Length for_parts = metres(0));
  void say(std::string step) { block_.more.push_back(std::move(step)); }
  /// Where the inputs come from, and their values but for lengths that the steps show.
  void inputs(const Working& working);
  /// The same with every value, and what it is worked by.
  void all_inputs(const Worked& worked);
  [[nodiscard]] Block take() { return std::move(block_); }

 private:
  [[nodiscard]] std::string number(Length length, Rounding way) const;
  [[nodiscard]] std::string hundredths(Length length, Rounding way) const;
  [[nodiscard]] std::string value_text(const WorkedValue& value) const;
  void say_inputs(const Working& working, bool with_lengths);

  const Reader* reader_;
  const SharedSources* shared_;
  Block block_;
};

}  // namespace passage_brief
