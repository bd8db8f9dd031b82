#include "brief/alike.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "passage/findings.h"
#include "rules/fact_table.h"
#include "rules/verdict.h"
#include "units/check.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

/// Alike, whatever the reasons where neither is known.
bool same(const Known<bool>& a, const Known<bool>& b) {
  return a.has_value() ? a == b : !b.has_value();
}

bool same_depth(const Depth& a, const Depth& b) {
  return a.name == b.name && a.place == b.place && a.surveyed == b.surveyed &&
         a.survey_quality == b.survey_quality && a.tide_station == b.tide_station &&
         a.bottom == b.bottom && a.open_water == b.open_water && a.margin == b.margin &&
         a.blocked == b.blocked && a.under_keel.has_value() == b.under_keel.has_value();
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

bool same_cable(const CableFinding& a, const CableFinding& b) {
  return a.name == b.name && a.to_spare.has_value() == b.to_spare.has_value();
}

/// The whole first. At every departure each reach, bar and berth of the way is told (depths.h).
std::vector<std::size_t> told_of(SubjectKind kind, std::size_t number, const Findings& findings) {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < findings.depths.size(); ++i) {
    const Depth& depth = findings.depths[i];
    if (subject_kind_of(depth.place) == kind && depth.number == number) all.push_back(i);
  }
  std::ranges::stable_partition(all, [&](std::size_t i) { return !findings.depths[i].part; });
  check(!all.empty(), "every place of the way is told of at every departure");
  return all;
}

std::optional<std::size_t> same_thing(const Subject& subject, const Findings& earlier,
                                      const Findings& later) {
  const std::size_t index = subject.index;
  if (subject.kind == SubjectKind::bridge) {
    const bool same = same_bridge(earlier.bridges[index], later.bridges[index]);
    return same ? std::optional(index) : std::nullopt;
  }
  if (subject.kind == SubjectKind::cable) {
    const bool same = same_cable(earlier.cables[index], later.cables[index]);
    return same ? std::optional(index) : std::nullopt;
  }
  if (subject.kind != SubjectKind::reach) return std::nullopt;
  const Depth& here = earlier.depths[index];
  const std::size_t there = told_of(subject.kind, here.number, later).front();
  const bool same = !here.part && same_depth(here, later.depths[there]);
  return same ? std::optional(there) : std::nullopt;
}

Length along_of(SubjectKind kind, std::size_t index, const Findings& findings) {
  if (kind == SubjectKind::bridge) return findings.bridges[index].passing.along;
  if (kind == SubjectKind::cable) return findings.cables[index].passing.along;
  return findings.depths[index].passing.along;
}

}  // namespace

bool alike_but_for_depths(const Findings& earlier, const Findings& later) {
  const auto same_leg = [](const Leg& a, const Leg& b) {
    return same(a.makes_headway, b.makes_headway) && same(a.holds_line, b.holds_line);
  };
  return std::ranges::equal(earlier.bridges, later.bridges, same_bridge) &&
         std::ranges::equal(earlier.cables, later.cables, same_cable) &&
         std::ranges::equal(earlier.legs, later.legs, same_leg) &&
         earlier.passage.arrives.has_value() == later.passage.arrives.has_value();
}

std::vector<PlaceOfBoth> places_of(const Findings& earlier, const Findings& later) {
  std::vector<PlaceOfBoth> places;
  for (const Depth& depth : earlier.depths) {
    if (depth.part) continue;
    const SubjectKind kind = subject_kind_of(depth.place);
    places.push_back(
        {kind, told_of(kind, depth.number, earlier), told_of(kind, depth.number, later)});
  }
  return places;
}

bool alike_at(const PlaceOfBoth& place, const Findings& earlier, const Findings& later) {
  const bool same_told = std::ranges::equal(
      place.earlier, place.later,
      [&](std::size_t a, std::size_t b) { return same_depth(earlier.depths[a], later.depths[b]); });
  if (!same_told || place.kind == SubjectKind::berth) return same_told;
  const Length along = earlier.depths[place.earlier.front()].passing.along;
  return std::ranges::equal(track_round(earlier, along), track_round(later, along), same_piece);
}

bool alike(const Findings& earlier, const Findings& later) {
  return alike_but_for_depths(earlier, later) &&
         std::ranges::equal(earlier.depths, later.depths, same_depth) &&
         std::ranges::equal(earlier.track, later.track, same_piece);
}

std::optional<std::size_t> alike_up_to(const Subject& subject, const Findings& earlier,
                                       const Findings& later) {
  const std::optional<std::size_t> there = same_thing(subject, earlier, later);
  if (!there) return std::nullopt;
  const auto pieces = track_up_to(subject.kind, subject.index, earlier);
  if (!std::ranges::equal(pieces, track_up_to(subject.kind, *there, later), same_piece)) {
    return std::nullopt;
  }
  for (std::size_t i = 0; i < earlier.bridges.size(); ++i) {
    if (earlier.bridges[i].passing.along > pieces.back().end) break;
    if (!same_bridge(earlier.bridges[i], later.bridges[i])) return std::nullopt;
  }
  return there;
}

std::vector<const BridgeFinding*> drawbridges_beyond(const std::string& name,
                                                     const Passing& passing,
                                                     const Findings& findings) {
  std::vector<const BridgeFinding*> all;
  for (const BridgeFinding& bridge : findings.bridges) {
    const Length beyond = bridge.passing.along - passing.along;
    const bool itself = beyond == metres(0) && bridge.name == name;
    const bool too_far = beyond - passing.length > kNobodyHoldsOffFarther;
    if (bridge.opening && !itself && beyond >= metres(0) && !too_far) all.push_back(&bridge);
  }
  return all;
}

std::span<const TrackPiece> track_up_to(SubjectKind kind, std::size_t index,
                                        const Findings& findings) {
  Length along = along_of(kind, index, findings);
  const auto beyond = [&](const auto& thing) {
    along += thing.passing.length;
    for (const BridgeFinding* bridge : drawbridges_beyond(thing.name, thing.passing, findings)) {
      along = std::max(along, bridge->passing.along);
    }
  };
  if (kind == SubjectKind::bridge) beyond(findings.bridges[index]);
  if (kind == SubjectKind::cable) beyond(findings.cables[index]);
  const std::span<const TrackPiece> round = track_round(findings, along);
  return {findings.track.data(), &round.back() + 1};
}

std::span<const TrackPiece> track_round(const Findings& findings, Length along) {
  const std::vector<TrackPiece>& track = findings.track;
  auto there =
      std::ranges::find_if(track, [along](const TrackPiece& piece) { return along < piece.end; });
  if (there == track.end()) --there;
  auto first = there;
  auto last = there;
  while (first != track.begin() && (first - 1)->reach == there->reach) --first;
  while (last + 1 != track.end() && (last + 1)->reach == there->reach) ++last;
  return {first, last + 1};
}

std::vector<std::pair<const TrackPiece*, const TrackPiece*>> side_by_side(
    std::span<const TrackPiece> earlier, std::span<const TrackPiece> later) {
  constexpr Length kRounding = metres(1e-3);
  std::vector<std::pair<const TrackPiece*, const TrackPiece*>> pairs;
  auto b = later.begin();
  for (const TrackPiece& a : earlier) {
    while (b != later.end() && b->end <= a.begin + kRounding) ++b;
    for (auto beside = b; beside != later.end() && beside->begin + kRounding < a.end; ++beside) {
      pairs.emplace_back(&a, &*beside);
    }
  }
  return pairs;
}

}  // namespace passage_brief
