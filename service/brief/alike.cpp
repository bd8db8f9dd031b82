#include "brief/alike.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "passage/findings.h"
#include "rules/verdict.h"
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

/// Of the whole, not of parts, in a list where no other depth has its name and place.
std::optional<std::size_t> only_depth_like(const Depth& depth, const Findings& findings) {
  const auto like = [&depth](const Depth& other) {
    return other.name == depth.name && other.place == depth.place && !other.part;
  };
  if (depth.part || std::ranges::count_if(findings.depths, like) != 1) return std::nullopt;
  return std::ranges::find_if(findings.depths, like) - findings.depths.begin();
}

std::optional<std::size_t> same_thing(const Subject& subject, const Findings& earlier,
                                      const Findings& later) {
  const std::size_t index = subject.index;
  if (subject.kind == SubjectKind::bridge &&
      same_bridge(earlier.bridges[index], later.bridges[index])) {
    return index;
  }
  if (subject.kind == SubjectKind::cable &&
      same_cable(earlier.cables[index], later.cables[index])) {
    return index;
  }
  if (subject.kind != SubjectKind::reach) return std::nullopt;
  const Depth& here = earlier.depths[index];
  const std::optional<std::size_t> there = only_depth_like(here, later);
  const bool same = only_depth_like(here, earlier) == index && there.has_value() &&
                    same_depth(here, later.depths[*there]);
  return same ? there : std::nullopt;
}

Length along_of(const Subject& subject, const Findings& findings) {
  if (subject.kind == SubjectKind::bridge) return findings.bridges[subject.index].passing.along;
  if (subject.kind == SubjectKind::cable) return findings.cables[subject.index].passing.along;
  return findings.depths[subject.index].passing.along;
}

}  // namespace

bool alike(const Findings& earlier, const Findings& later) {
  const auto same_leg = [](const Leg& a, const Leg& b) {
    return same(a.makes_headway, b.makes_headway) && same(a.holds_line, b.holds_line);
  };
  return std::ranges::equal(earlier.depths, later.depths, same_depth) &&
         std::ranges::equal(earlier.bridges, later.bridges, same_bridge) &&
         std::ranges::equal(earlier.cables, later.cables, same_cable) &&
         std::ranges::equal(earlier.legs, later.legs, same_leg) &&
         std::ranges::equal(earlier.track, later.track, same_piece) &&
         earlier.passage.arrives.has_value() == later.passage.arrives.has_value();
}

std::optional<std::size_t> alike_up_to(const Subject& subject, const Findings& earlier,
                                       const Findings& later) {
  const std::optional<std::size_t> there = same_thing(subject, earlier, later);
  if (!there ||
      !std::ranges::equal(track_up_to(subject, earlier),
                          track_up_to({subject.kind, *there, {}, {}}, later), same_piece)) {
    return std::nullopt;
  }
  const auto passed_before = [&](const BridgeFinding& bridge) {
    return bridge.passing.along <= track_up_to(subject, earlier).back().end;
  };
  for (std::size_t i = 0; i < earlier.bridges.size() && passed_before(earlier.bridges[i]); ++i) {
    if (!same_bridge(earlier.bridges[i], later.bridges[i])) return std::nullopt;
  }
  return there;
}

std::span<const TrackPiece> track_up_to(const Subject& subject, const Findings& findings) {
  const std::span<const TrackPiece> round = track_round(findings, along_of(subject, findings));
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

}  // namespace passage_brief
