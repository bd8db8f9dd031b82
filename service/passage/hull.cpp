#include "passage/hull.h"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "plan/vessel.h"
#include "units/check.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

/// What is taken where the vessel file is silent. Our rules, no source, unless said.
struct HullRule {
  double waterline_of_length;  // short: a short hull squats more
  double canoe_of_draft;       // deep: more volume, more squat
  double block_coefficient;
  std::string_view block_because;
  double windage_of_length_squared;  // large: more leeway
  double lateral_of_box;             // of waterline x draft; small: more leeway
};

constexpr std::string_view kUpperEndTrawler =
    "upper end of the usual 0.45 to 0.60 of a displacement motor hull (common practice, no source)";
constexpr std::string_view kUpperEndPlaning =
    "upper end of the usual 0.40 to 0.50 of a planing hull at rest (common practice, no source)";
constexpr std::string_view kUpperEndFinKeel =
    "upper end of the usual 0.35 to 0.40 of a fin-keel hull without her keel (common practice, no "
    "source)";
constexpr std::string_view kUpperEndLongKeel =
    "upper end of the usual 0.40 to 0.45 of a long-keel hull (common practice, no source)";
constexpr std::string_view kTwoHulls =
    "0.50 in each of two hulls that fill half the beam between them (our rule, no source)";
constexpr std::string_view kLikePlaning =
    "taken as a planing hull at rest, upper end of the usual range (common practice, no source)";

HullRule rule_for(Hull hull) {
  switch (hull) {
    case Hull::motor_displacement:
      return {0.90, 1.0, 0.60, kUpperEndTrawler, 0.23, 0.75};
    case Hull::motor_planing:
      return {0.85, 1.0, 0.50, kUpperEndPlaning, 0.20, 0.65};
    case Hull::sail_fin_keel:
      return {0.80, 0.4, 0.40, kUpperEndFinKeel, 0.14, 0.40};
    case Hull::sail_long_keel:
      return {0.75, 0.6, 0.45, kUpperEndLongKeel, 0.15, 0.65};
    case Hull::catamaran:
      return {0.90, 1.0, 0.25, kTwoHulls, 0.20, 0.60};
    case Hull::open_boat:
      return {0.85, 1.0, 0.50, kLikePlaning, 0.12, 0.60};
  }
  check(false, "every hull has its rule");
  std::unreachable();
}

}  // namespace

HullForm hull_form(const Vessel& vessel) {
  const HullRule rule = rule_for(vessel.hull);
  std::vector<std::string> estimated;
  const auto or_estimate = [&](const auto& stated, auto estimate, std::string how) {
    if (stated.has_value()) return *stated;
    estimated.push_back(std::move(how));
    return estimate;
  };

  const Length waterline =
      or_estimate(vessel.waterline, vessel.length * rule.waterline_of_length,
                  fmt::format("waterline: {:.2f} of the length (our rule, no source)",
                              rule.waterline_of_length));
  Length canoe_draft = vessel.draft;
  if (rule.canoe_of_draft < 1) {
    canoe_draft = vessel.draft * rule.canoe_of_draft;
    estimated.push_back(
        fmt::format("depth of the hull without her keel: {:.1f} of the draft (our rule, no source)",
                    rule.canoe_of_draft));
  }
  const double block_coefficient = or_estimate(
      vessel.block_coefficient, rule.block_coefficient,
      fmt::format("block coefficient {:.2f}: {}", rule.block_coefficient, rule.block_because));
  const Area windage = or_estimate(
      vessel.windage_area, vessel.length * vessel.length * rule.windage_of_length_squared,
      fmt::format("windage area: {:.2f} of the length squared (our rule, no source)",
                  rule.windage_of_length_squared));
  const Area lateral_plane = or_estimate(
      vessel.lateral_plane, waterline * vessel.draft * rule.lateral_of_box,
      fmt::format("lateral plane: {:.2f} of waterline times draft (our rule, no source)",
                  rule.lateral_of_box));
  return {waterline,         vessel.beam, vessel.draft,  canoe_draft,
          block_coefficient, windage,     lateral_plane, std::move(estimated)};
}

}  // namespace passage_brief
