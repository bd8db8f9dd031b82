// Whether two departures meet the same things.
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "passage/findings.h"
#include "rules/verdict.h"
#include "units/quantity.h"

namespace passage_brief {

/// Under the same names, over the same ground, and with the same of them known: then index by index
/// what is said of one is said of the other, and of all between.
[[nodiscard]] bool alike(const Findings& earlier, const Findings& later);

/// The same of one bridge, cable or reach and of all that is met up to its end, which makes the
/// time she comes to it: whatever is met beyond. Its place in the later list; nothing where it is
/// not so.
[[nodiscard]] std::optional<std::size_t> alike_up_to(const Subject& subject,
                                                     const Findings& earlier,
                                                     const Findings& later);

/// The pieces of the track up to the end of a subject of alike_up_to().
[[nodiscard]] std::span<const TrackPiece> track_up_to(const Subject& subject,
                                                      const Findings& findings);

/// The pieces of the track through the reach, or the water outside every reach, that lies at a
/// place of it.
[[nodiscard]] std::span<const TrackPiece> track_round(const Findings& findings, Length along);

}  // namespace passage_brief
