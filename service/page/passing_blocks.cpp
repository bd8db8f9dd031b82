#include <fmt/format.h>

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

/// Something met on a leg. At one place the rank decides: mark, depth, bridge, cable.
struct MetOnLeg {
  Length along;
  int rank;
  std::variant<const MarkFinding*, const BridgeFinding*, Block> what;
};

Block with_mast_doubted(Block block, const Findings& found) {
  const std::string text = not_measured_text("air draft", found.passage.air_draft_is);
  if (!text.empty()) block.more.push_back(capitalised(text) + ".");
  return block;
}

std::vector<MetOnLeg> met_on(const Findings& found, std::size_t leg, const SaidOnce& once,
                             const Reader& reader) {
  std::vector<MetOnLeg> met;
  const auto add = [&](const auto& list, int rank, const auto& to_block) {
    for (const auto& item : list) {
      if (item.passing.leg == leg) met.push_back({item.passing.along, rank, to_block(item)});
    }
  };
  add(found.marks, 0, [](const MarkFinding& mark) { return &mark; });
  add(found.depths, 1, [&](const Depth& depth) { return depth_block(depth, once, reader); });
  add(found.bridges, 2, [](const BridgeFinding& bridge) { return &bridge; });
  add(found.cables, 3, [&](const CableFinding& cable) {
    return with_mast_doubted(cable_block(cable, reader), found);
  });
  std::ranges::stable_sort(met, [](const MetOnLeg& a, const MetOnLeg& b) {
    return a.along != b.along ? a.along < b.along : a.rank < b.rank;
  });
  return met;
}

/// Closed, in some state of the antennas, with the margin kept, twice the beam between the fenders
/// and a gauge to see it by; everything known, nothing graver than a notice said of it, and not the
/// lowest of all.
bool has_room_to_spare(const BridgeFinding& bridge, const Brief& brief) {
  const auto index = static_cast<std::size_t>(&bridge - brief.findings.bridges.data());
  const auto about_it = [&](const Subject& about) {
    return about.kind == SubjectKind::bridge && about.index == index;
  };
  const Judgement& judged = brief.judgement;
  const OverMast* const mast = as_passed(bridge);
  return brief.lowest_bridge != index && mast != nullptr && mast->over_mast.has_value() &&
         mast->over_mast_could_be.has_value() && mast->over_mast_could_be.value() >= metres(0) &&
         bridge.fits.value_or(false) && bridge.fits_with.has_value() &&
         (!bridge.opening || bridge.opening->fits_on_arrival == Known<bool>(true)) &&
         !bridge.opening_needed.value_or(true) && bridge.clearance_gauge.value_or(false) &&
         bridge.gauge_reads.has_value() && bridge.gauge_at_least.has_value() &&
         bridge.width.has_value() && bridge.width.value() >= bridge.beam * 2 &&
         std::ranges::none_of(judged.cautions,
                              [&](const Caution& caution) {
                                return caution.grade != Grade::notice && about_it(caution.about);
                              }) &&
         std::ranges::none_of(judged.not_checked,
                              [&](const NotChecked& rule) { return about_it(rule.about); });
}

/// Adds what is met to the list, in its order.
class PassingList {
 public:
  PassingList(const Brief& brief, bool in_daylight, const Reader& reader,
              std::vector<Block>& blocks)
      : brief_(&brief), in_daylight_(in_daylight), reader_(&reader), blocks_(&blocks) {}

  void add(const std::vector<MetOnLeg>& met) {
    for (std::size_t i = 0; i < met.size();) {
      const std::size_t together = reader_->wording == Wording::terse ? run_from(met, i) : 0;
      if (together > 0) {
        say_marks();
        say_run(met, i, i + together);
        i += together;
      } else {
        add_one(met[i]);
        ++i;
      }
    }
    say_marks();
  }

 private:
  static const BridgeFinding* bridge_of(const MetOnLeg& met) {
    const auto* const bridge = std::get_if<const BridgeFinding*>(&met.what);
    return bridge != nullptr ? *bridge : nullptr;
  }
  static const MarkFinding* mark_of(const MetOnLeg& met) {
    const auto* const mark = std::get_if<const MarkFinding*>(&met.what);
    return mark != nullptr ? *mark : nullptr;
  }

  /// How many from here on are bridges with room to spare, the antennas alike, and marks on their
  /// proper hands; two bridges at least, else none.
  [[nodiscard]] std::size_t run_from(const std::vector<MetOnLeg>& met, std::size_t begin) const {
    constexpr std::size_t kWorthIt = 2;
    const BridgeFinding* first = nullptr;
    std::size_t bridges = 0;
    std::size_t end = begin;
    for (; end < met.size(); ++end) {
      if (const BridgeFinding* bridge = bridge_of(met[end])) {
        if (first == nullptr) first = bridge;
        if (!has_room_to_spare(*bridge, *brief_) || bridge->fits_with != first->fits_with) break;
        ++bridges;
      } else if (mark_of(met[end]) == nullptr ||
                 saying_of(*mark_of(met[end])) != MarkSaying::leave) {
        break;
      }
    }
    return bridges >= kWorthIt ? end - begin : 0;
  }

  void say_run(const std::vector<MetOnLeg>& met, std::size_t begin, std::size_t end) {
    std::vector<const BridgeFinding*> bridges;
    std::vector<const MarkFinding*> marks;
    for (std::size_t i = begin; i < end; ++i) {
      if (const MarkFinding* mark = mark_of(met[i])) marks.push_back(mark);
    }
    const std::optional<std::string> hands = hands_of_colours(marks);
    std::string order = fmt::format("In order, gauges in {}", depth_unit(reader_->units));
    if (hands.has_value() && !marks.empty()) order += ", leave " + *hands;
    order += ":";
    for (std::size_t i = begin; i < end; ++i) {
      if (i > begin) order += ",";
      if (const BridgeFinding* bridge = bridge_of(met[i])) {
        bridges.push_back(bridge);
        order += " " + bridge->name + " " +
                 depth_number(bridge->gauge_reads.value(), Rounding::nearest, reader_->units);
      } else {
        order += (hands.has_value() ? " " : " leave ") +
                 mark_in_list(*mark_of(met[i]), in_daylight_, !hands.has_value());
      }
    }
    blocks_->push_back(bridges_block(bridges, *reader_));
    blocks_->push_back(
        {.kind = BlockKind::marks, .main = order + ".", .leg = bridges.front()->passing.leg});
  }

  void add_one(const MetOnLeg& one) {
    if (const MarkFinding* mark = mark_of(one)) {
      // Marks of one saying that follow each other with nothing between them share one line.
      const MarkSaying saying = saying_of(*mark);
      if (!alike_.empty() &&
          (saying == MarkSaying::alone || saying != saying_of(*alike_.front()))) {
        say_marks();
      }
      alike_.push_back(mark);
      return;
    }
    say_marks();
    if (const BridgeFinding* bridge = bridge_of(one)) {
      blocks_->push_back(with_mast_doubted(bridge_block(*bridge, *reader_), brief_->findings));
      if (reader_->wording == Wording::terse && has_room_to_spare(*bridge, *brief_)) {
        blocks_->back().more.clear();
        blocks_->back().told_short = 1;
      }
    } else {
      blocks_->push_back(std::get<Block>(one.what));
    }
  }

  void say_marks() {
    if (!alike_.empty()) blocks_->push_back(marks_block(alike_, in_daylight_, *reader_));
    alike_.clear();
  }

  const Brief* brief_;
  bool in_daylight_;
  const Reader* reader_;
  std::vector<Block>* blocks_;
  std::vector<const MarkFinding*> alike_;
};

}  // namespace

std::vector<Block> blocks_in_order_of_passing(const Brief& brief, const Reader& reader) {
  const Findings& found = brief.findings;
  const SaidOnce once = said_once(found);
  std::vector<Block> blocks;
  for (std::size_t leg = 0; leg < found.legs.size(); ++leg) {
    blocks.push_back(leg_block(brief, leg, once, reader));
    std::vector<const Danger*> dangers;
    for (const Danger& danger : found.dangers) {
      if (danger.leg == leg) dangers.push_back(&danger);
    }
    // Said at the leg's start, right after the wind or current that carries the boat there.
    if (!dangers.empty()) blocks.push_back(danger_block(dangers, reader));
    const Known<Light>& light = found.legs[leg].light;
    PassingList(brief, light.has_value() && light.value() == Light::day, reader, blocks)
        .add(met_on(found, leg, once, reader));
  }
  return blocks;
}

bool controls_nothing(const Brief& brief, std::size_t leg) {
  const Findings& found = brief.findings;
  const auto here = [leg](const auto& item) { return item.passing.leg == leg; };
  if (std::ranges::any_of(found.bridges, here) || std::ranges::any_of(found.cables, here)) {
    return false;
  }
  for (const auto& deciding : {brief.least_depth, brief.nearest_margin}) {
    if (deciding && here(found.depths.at(*deciding))) return false;
  }
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
