// The place that controls a depth: of all that is charted there, the one with least under the keel
// as the hull goes over it, with what is told of it.
#pragma once

#include <string>
#include <vector>

#include "passage/corridor_depths.h"
#include "passage/figure.h"
#include "passage/parts_told.h"
#include "passage/timeline.h"
#include "passage/under_keel.h"
#include "plan/vessel.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

/// With all its figures.
struct ControllingDepth {
  DepthSource source;
  Length along;
  Known<Span> while_over;
  Known<bool> time_is_sure;
  Known<Length> half_wave;
  const TimedPiece* piece;
  KeelAnswer answer;
  bool open_water;
  Length off_for_parts = metres(0);  // of what it could be
};

[[nodiscard]] Working working_of(const std::string& name, const ControllingDepth& c,
                                 const Vessel& vessel);

/// What a sounder shows there, over smooth water; `offset`: from the keel to where it measures.
[[nodiscard]] Known<Length> sounder_shows(const ControllingDepth& c, const Known<Length>& offset);

/// Which parts of one reach are told, of those whose figure is known.
[[nodiscard]] std::vector<ToldPart> parts_told_of(const std::vector<ControllingDepth>& parts);
/// What a part is told to be as little as, for itself and those near it.
void take_could_be(const ToldPart& told, ControllingDepth& part);
/// The ground, in words of its own for each kind that more or less is asked of.
[[nodiscard]] std::string ground_in_words(const ControllingDepth& c);

}  // namespace passage_brief
