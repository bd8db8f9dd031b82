// The parts a sheet is put together from; sheet.cpp sets their order.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "page/figures.h"
#include "page/sheet.h"
#include "passage/findings.h"
#include "units/known.h"

namespace passage_brief {

struct Brief;
struct Judgement;
struct NotChecked;

/// Who reads the page: units and clock.
struct Reader {
  Units units;
  Clock24 clock;
  Wording wording = Wording::whole;

  [[nodiscard]] std::string down(Length depth) const {
    return depth_text(depth, Rounding::down, units);
  }
  [[nodiscard]] std::string up(Length depth) const {
    return depth_text(depth, Rounding::up, units);
  }
  [[nodiscard]] std::string nearest(Length depth) const {
    return depth_text(depth, Rounding::nearest, units);
  }
};

/// Before she leaves, by the age or the end of its forecast.
[[nodiscard]] bool is_void(const Brief& brief);
/// Brief::void_after as printed, rounded down: no later than the window it lies in, as printed.
[[nodiscard]] Known<Instant> last_to_leave(const Brief& brief);

/// After "least" or "lowest", where some have no figure.
inline constexpr std::string_view kOfWhatIsKnown = " of what is known";
/// How many depths, or bridges, of one way have no figure; one left blank has.
[[nodiscard]] std::size_t depths_not_known(const Findings& found);
[[nodiscard]] std::size_t bridges_not_known(const Findings& found);

/// The way whose least depth, or lowest bridge, the head shows: the lesser of both.
[[nodiscard]] const Brief& way_of_least_depth(const Brief& brief);
[[nodiscard]] const Brief& way_of_lowest_bridge(const Brief& brief);

/// Departure and arrival; least under the keel; lowest bridge or nearest danger. Always three.
[[nodiscard]] std::vector<Block> key_figures(const Brief& brief, const Reader& reader);

/// "nearest its margin: Sound Reach, 10:15 EDT: 4.2 ft, 3.0 ft wanted"; empty where it is the least
/// under the keel.
[[nodiscard]] std::string nearest_margin_text(const Brief& brief, const Reader& reader);

/// "air draft told: measure it"; empty where it was measured.
[[nodiscard]] std::string not_measured_text(const std::string& what, Basis basis);

/// The antennas for which a bridge's gauge reading counts: where she is not known to fit in any
/// state, as low as they go.
[[nodiscard]] std::optional<Antennas> antennas_of_gauge(const BridgeFinding& bridge);

/// She lies short of it until the tide has fallen far enough for the mast.
[[nodiscard]] bool waits_for_water_to_fall(const BridgeFinding& bridge);
/// Whether she does not fit closed, nor under the span at its next opening.
[[nodiscard]] bool is_too_low_open(const BridgeFinding& bridge);
/// The opening that lets her through; null where she needs none, none is known or it does not help.
[[nodiscard]] const OpeningDue* opening_due(const BridgeFinding& bridge);
/// "ask by 19:30 EDT on 555 0142, on signal alone Mon 06:00 EDT"; empty where no notice is asked.
[[nodiscard]] std::string asking_words(const BridgeFinding& bridge, const Reader& reader);
/// What the lowest bridge of a way must not hide, each in words: every other that must open, or is
/// too low open too, and the one passed under with least room, antennas as she passes it, where
/// that is another. The head adds the same of the other way.
[[nodiscard]] std::vector<std::string> beside_lowest_bridge(const Brief& brief,
                                                            const Reader& reader);

/// Leg after leg, and on each what is met, in order of passing.
[[nodiscard]] std::vector<Block> blocks_in_order_of_passing(const Brief& brief,
                                                            const Reader& reader);

/// Whether a leg holds nothing that decides: no figure of the ten seconds, no bridge or cable,
/// nothing above a notice, nothing not known. Such a leg may be merged with its neighbours.
[[nodiscard]] bool controls_nothing(const Brief& brief, std::size_t leg);

/// One block for each rule and grade, in the order of their first.
[[nodiscard]] std::vector<Block> caution_blocks(const Judgement& judgement, const Reader& reader);

/// A text without those of its sentences, the first apart, that another holds too.
[[nodiscard]] std::string without_sentences_of(const std::string& text,
                                               const std::vector<Block>& said);

/// "gale; aground (Upper Reach, Bar Reach)": the whole passage needs no naming, nor places just
/// named.
[[nodiscard]] std::string rules_with_places(const std::vector<const NotChecked*>& rules);

/// What could not be checked: one block for each reason, so that one missing forecast does not fill
/// the page.
[[nodiscard]] std::vector<Block> not_checked_blocks(const Judgement& judgement);

/// Wind, waves and light; places to turn and to lie; the two drawings.
[[nodiscard]] std::vector<Block> blocks_beside_the_list(const Brief& brief, const Reader& reader);

/// What is read before letting go: whom to ring, blanks, notes, sources, what was estimated.
[[nodiscard]] std::vector<Block> blocks_for_the_desk(const Brief& brief, const Reader& reader);

/// The working of every figure that a learner's copy leaves blank and of those that decide: the
/// three key figures and all that a limit broken, or not settled, is about.
[[nodiscard]] std::vector<Block> working_blocks(const Brief& brief, const Reader& reader);

/// "could be as little as 0.3 ft", "could touch", "could be less, by how much is not known: ...".
[[nodiscard]] std::string could_be_text(const Known<Length>& could_be, const Reader& reader);

/// "10:05", or "time not known".
[[nodiscard]] std::string time_text(const Known<Instant>& at, const Reader& reader);

/// "not known: the chart gives no depth here".
[[nodiscard]] std::string not_known_text(const NotKnown& why);

/// "Wind, current not known: no forecast was given." One sentence for each reason.
class MissingFigures {
 public:
  /// Nothing where the figure is known, or its reason is the one said elsewhere.
  template <class T>
  void add(const std::string& name, const Known<T>& figure,
           const std::string& said_elsewhere = "") {
    if (!figure.has_value() && !is_left_blank(figure.error()))
      add_missing(name, in_words(figure.error()), said_elsewhere);
  }
  void say_in(Block& block) const;

 private:
  void add_missing(const std::string& name, const std::string& why,
                   const std::string& said_elsewhere);
  std::vector<std::pair<std::string, std::vector<std::string>>> names_by_reason_;
};

/// What is not known all along the way for one and the same reason: said once and not at each
/// place. Empty: known somewhere, or not known for differing reasons.
struct SaidOnce {
  std::string wind;
  std::string current;
  std::string magnetic;
  std::string sounder;
};
[[nodiscard]] SaidOnce said_once(const Findings& found);

}  // namespace passage_brief
