#include "brief/alike.h"

#include <algorithm>
#include <vector>

#include "passage/findings.h"
#include "units/known.h"

namespace passage_brief {
namespace {

template <class Item, class Same>
bool same_lists(const std::vector<Item>& a, const std::vector<Item>& b, const Same& same) {
  return std::ranges::equal(a, b, same);
}

/// Alike, whatever the reasons where neither is known.
bool same(const Known<bool>& a, const Known<bool>& b) {
  return a.has_value() ? a == b : !b.has_value();
}

bool same_depth(const Depth& a, const Depth& b) {
  return a.name == b.name && a.place == b.place && a.controlled_by == b.controlled_by &&
         a.tide_station == b.tide_station && a.bottom == b.bottom && a.open_water == b.open_water &&
         a.margin == b.margin && a.blocked == b.blocked &&
         a.under_keel.has_value() == b.under_keel.has_value();
}

bool same_bridge(const BridgeFinding& a, const BridgeFinding& b) {
  if (a.name != b.name || !same(a.fits, b.fits) || a.opening.has_value() != b.opening.has_value()) {
    return false;
  }
  return !a.opening || (same(a.opening->through_opening, b.opening->through_opening) &&
                        same(a.opening->passes, b.opening->passes));
}

bool same_piece(const TrackPiece& a, const TrackPiece& b) {
  return a.begin == b.begin && a.end == b.end && a.leeward_step == b.leeward_step &&
         a.charted.has_value() == b.charted.has_value() &&
         a.begins.has_value() == b.begins.has_value();
}

}  // namespace

bool alike(const Findings& earlier, const Findings& later) {
  const auto same_cable = [](const CableFinding& a, const CableFinding& b) {
    return a.name == b.name && a.to_spare.has_value() == b.to_spare.has_value();
  };
  const auto same_leg = [](const Leg& a, const Leg& b) {
    return same(a.makes_headway, b.makes_headway) && same(a.holds_line, b.holds_line);
  };
  return same_lists(earlier.depths, later.depths, same_depth) &&
         same_lists(earlier.bridges, later.bridges, same_bridge) &&
         same_lists(earlier.cables, later.cables, same_cable) &&
         same_lists(earlier.legs, later.legs, same_leg) &&
         same_lists(earlier.track, later.track, same_piece) &&
         earlier.passage.arrives.has_value() == later.passage.arrives.has_value();
}

}  // namespace passage_brief
