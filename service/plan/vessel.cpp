#include "plan/vessel.h"

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

}  // namespace passage_brief
