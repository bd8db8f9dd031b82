#include "plan/vessel.h"

#include <optional>
#include <string>

namespace passage_brief {

std::string in_words(Hull hull) {
  switch (hull) {
    case Hull::motor_displacement:
      return "motor displacement";
    case Hull::motor_planing:
      return "motor planing";
    case Hull::sail_fin_keel:
      return "sail fin keel";
    case Hull::sail_long_keel:
      return "sail long keel";
    case Hull::catamaran:
      return "catamaran";
    case Hull::open_boat:
      return "open boat";
  }
  return {};
}

std::string in_words(Antennas antennas) { return antennas == Antennas::up ? "up" : "down"; }

std::string in_words(Basis basis) {
  switch (basis) {
    case Basis::measured:
      return "measured";
    case Basis::told:
      return "told";
    case Basis::estimated:
      return "estimated";
    case Basis::not_stated:
      return "not stated";
  }
  return {};
}

std::string in_words(DesignCategory category) {
  switch (category) {
    case DesignCategory::a:
      return "A";
    case DesignCategory::b:
      return "B";
    case DesignCategory::c:
      return "C";
    case DesignCategory::d:
      return "D";
  }
  return {};
}

std::optional<Speed> wind_ceiling(DesignCategory category) {
  switch (category) {
    case DesignCategory::a:
      return std::nullopt;
    case DesignCategory::b:
      return knots(40);
    case DesignCategory::c:
      return knots(27);
    case DesignCategory::d:
      return knots(16);
  }
  return std::nullopt;
}

std::optional<Length> wave_ceiling(DesignCategory category) {
  switch (category) {
    case DesignCategory::a:
      return std::nullopt;
    case DesignCategory::b:
      return metres(4);
    case DesignCategory::c:
      return metres(2);
    case DesignCategory::d:
      return metres(0.3);
  }
  return std::nullopt;
}

}  // namespace passage_brief
