// Findings made by hand, everything known and well within limits: for tests of rules.
#pragma once

#include <functional>
#include <string>

#include "passage/findings.h"

namespace passage_brief::given {

/// 2026-06-14 14:00 UTC and so many minutes.
[[nodiscard]] Instant after(int minutes);

/// Soft, sheltered, rising, 4 ft under the keel of which 3 ft are sure; margin 2 ft.
[[nodiscard]] Depth depth(DepthPlace place, const std::string& name);
/// Fixed, 10 ft over the mast with antennas down, 3 ft with antennas up; margin 2 ft.
[[nodiscard]] BridgeFinding bridge(const std::string& name);
/// 115 kV, gap 20 ft, 10 ft to spare; margin 2 ft.
[[nodiscard]] CableFinding cable(const std::string& name);
/// Rock to port, reached in 40 min, where the anchor would hold.
[[nodiscard]] Danger danger(const std::string& name);
/// Kept by an authority, to starboard where it should lie.
[[nodiscard]] MarkFinding mark(const std::string& name);

/// One leg by day from "Berth" to "Quay", wind 8 kn, with a berth, a reach, a bridge, a cable, a
/// danger and a mark; a bar (and a speed limit everywhere) only where asked for.
[[nodiscard]] Findings findings();
[[nodiscard]] Findings findings_with_bar();

/// Calls `make_not_known` with a name and a function that turns one Known of the findings into "not
/// known", for every Known there is.
void for_each_known(Findings& findings,
                    const std::function<void(const std::string& name,
                                             const std::function<void()>& make_not_known)>& visit);

}  // namespace passage_brief::given
