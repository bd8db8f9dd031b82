// Whether two departures meet the same things.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "passage/findings.h"
#include "rules/verdict.h"
#include "units/quantity.h"

namespace passage_brief {

/// Under the same names, and with the same of them known at both ends: all but depths. What is so
/// between them is for swings.h to say.
[[nodiscard]] bool alike_but_for_depths(const Findings& earlier, const Findings& later);

/// The depths told of one reach, bar or berth: the whole, then the parts beside it. Indexes into
/// Findings::depths.
struct PlaceOfBoth {
  SubjectKind kind;
  std::vector<std::size_t> earlier;
  std::vector<std::size_t> later;
};
[[nodiscard]] std::vector<PlaceOfBoth> places_of(const Findings& earlier, const Findings& later);

/// The same is told of a place, over the same corridor: then its depths go together one by one.
[[nodiscard]] bool alike_at(const PlaceOfBoth& place, const Findings& earlier,
                            const Findings& later);

/// The same, and depth by depth and piece by piece of the track too.
[[nodiscard]] bool alike(const Findings& earlier, const Findings& later);

/// Where a bridge, cable or whole reach stands in the later list; nothing where it is not told
/// alike in both, or what is met up to its far end is not, which makes the time she comes to it.
/// Parts, bars and berths: nothing.
[[nodiscard]] std::optional<std::size_t> alike_up_to(const Subject& subject,
                                                     const Findings& earlier,
                                                     const Findings& later);

/// The drawbridges so near beyond the end of a bridge or a cable that she may lie short of both.
[[nodiscard]] std::vector<const BridgeFinding*> drawbridges_beyond(const std::string& name,
                                                                   const Passing& passing,
                                                                   const Findings& findings);

/// The pieces of the track up to the far end of the reach that a bridge, a cable or a depth ends
/// in, or the last of the drawbridges beyond.
[[nodiscard]] std::span<const TrackPiece> track_up_to(SubjectKind kind, std::size_t index,
                                                      const Findings& findings);

/// The pieces of the track through the reach, or the water outside every reach, that lies at a
/// place of it; reaches of one name that join count as one.
[[nodiscard]] std::span<const TrackPiece> track_round(const Findings& findings, Length along);

/// Of two tracks along the same route, all pieces with the pieces of the other beside them.
[[nodiscard]] std::vector<std::pair<const TrackPiece*, const TrackPiece*>> side_by_side(
    std::span<const TrackPiece> earlier, std::span<const TrackPiece> later);

}  // namespace passage_brief
