#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "brief/brief.h"
#include "page/passing_words.h"

namespace passage_brief {
namespace {

/// Something met on a leg. At one place the rank decides: mark, depth, bridge, cable.
struct Met {
  Length along;
  int rank;
  std::variant<const MarkFinding*, Block> what;
};

std::vector<Met> met_on(const Findings& found, std::size_t leg, const SaidOnce& once,
                        const Reader& reader) {
  std::vector<Met> met;
  const auto add = [&](const auto& list, int rank, const auto& to_block) {
    for (const auto& item : list) {
      if (item.passing.leg == leg) met.push_back({item.passing.along, rank, to_block(item)});
    }
  };
  add(found.marks, 0, [](const MarkFinding& mark) { return &mark; });
  add(found.depths, 1, [&](const Depth& depth) { return depth_block(depth, once, reader); });
  add(found.bridges, 2, [&](const BridgeFinding& b) { return bridge_block(b, reader); });
  add(found.cables, 3, [&](const CableFinding& cable) { return cable_block(cable, reader); });
  std::ranges::stable_sort(met, [](const Met& a, const Met& b) {
    return a.along != b.along ? a.along < b.along : a.rank < b.rank;
  });
  return met;
}

/// Marks of one saying that follow each other with nothing between them share one line.
void append_in_order(std::vector<Block>& blocks, std::vector<Met> met, bool in_daylight,
                     const Reader& reader) {
  std::vector<const MarkFinding*> alike;
  const auto say_marks = [&] {
    if (!alike.empty()) blocks.push_back(marks_block(alike, in_daylight, reader));
    alike.clear();
  };
  for (Met& one : met) {
    const auto* const mark = std::get_if<const MarkFinding*>(&one.what);
    if (mark == nullptr) {
      say_marks();
      blocks.push_back(std::get<Block>(std::move(one.what)));
      continue;
    }
    const MarkSaying saying = saying_of(**mark);
    if (!alike.empty() && (saying == MarkSaying::alone || saying != saying_of(*alike.front()))) {
      say_marks();
    }
    alike.push_back(*mark);
  }
  say_marks();
}

std::optional<std::size_t> leg_of(const Findings& found, const Subject& about) {
  const auto passing_leg = [&](const auto& list) -> std::optional<std::size_t> {
    if (about.index >= list.size()) return std::nullopt;
    return list[about.index].passing.leg;
  };
  switch (about.kind) {
    case SubjectKind::passage:
    case SubjectKind::light:
      return std::nullopt;
    case SubjectKind::leg:
      return about.index;
    case SubjectKind::berth:
    case SubjectKind::reach:
    case SubjectKind::bar:
      return passing_leg(found.depths);
    case SubjectKind::bridge:
      return passing_leg(found.bridges);
    case SubjectKind::cable:
      return passing_leg(found.cables);
    case SubjectKind::danger:
      return passing_leg(found.dangers);
    case SubjectKind::mark:
      return passing_leg(found.marks);
  }
  return std::nullopt;
}

}  // namespace

std::vector<Block> blocks_in_order_of_passing(const Brief& brief, const Reader& reader) {
  const Findings& found = brief.findings;
  const SaidOnce once = said_once(found);
  std::vector<Block> blocks;
  for (std::size_t leg = 0; leg < found.legs.size(); ++leg) {
    blocks.push_back(leg_block(brief, leg, once));
    std::vector<const Danger*> dangers;
    for (const Danger& danger : found.dangers) {
      if (danger.leg == leg) dangers.push_back(&danger);
    }
    // Said at the leg's start, right after the wind or current that carries the boat there.
    if (!dangers.empty()) blocks.push_back(danger_block(dangers, reader));
    const Known<Light>& light = found.legs[leg].light;
    append_in_order(blocks, met_on(found, leg, once, reader),
                    light.has_value() && light.value() == Light::day, reader);
  }
  return blocks;
}

bool controls_nothing(const Brief& brief, std::size_t leg) {
  const Findings& found = brief.findings;
  const auto here = [leg](const auto& item) { return item.passing.leg == leg; };
  if (std::ranges::any_of(found.bridges, here) || std::ranges::any_of(found.cables, here)) {
    return false;
  }
  if (brief.least_depth && here(found.depths.at(*brief.least_depth))) return false;
  if (brief.nearest_danger && found.dangers.at(*brief.nearest_danger).leg == leg) return false;
  const auto undecided = [&](const Depth& depth) {
    return here(depth) && (depth.blocked || !depth.under_keel.has_value());
  };
  if (std::ranges::any_of(found.depths, undecided)) return false;
  const auto wrong = [&](const MarkFinding& mark) {
    return here(mark) && saying_of(mark) == MarkSaying::alone;
  };
  if (std::ranges::any_of(found.marks, wrong)) return false;
  const Leg& itself = found.legs.at(leg);
  if (!itself.ends.has_value() || !itself.makes_headway.value_or(true) ||
      !itself.holds_line.value_or(true)) {
    return false;
  }
  const auto about_it = [&](const auto& said) { return leg_of(found, said.about) == leg; };
  const auto grave = [&](const Caution& caution) {
    return caution.grade != Grade::notice && about_it(caution);
  };
  return std::ranges::none_of(brief.judgement.cautions, grave) &&
         std::ranges::none_of(brief.judgement.not_checked, about_it);
}

}  // namespace passage_brief
