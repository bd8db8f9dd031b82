#include "facts/tide/seen_level.h"

#include <string>

namespace passage_brief {

std::string in_words(ObservedBy by) {
  switch (by) {
    case ObservedBy::sounder:
      return "sounder";
    case ObservedBy::clearance_gauge:
      return "clearance gauge";
    case ObservedBy::water_level:
      return "water level";
  }
  return {};
}

bool may_favour(const SeenLevel& seen) {
  return seen.by != ObservedBy::sounder && seen.above_predicted <= metres(1) &&
         seen.above_predicted >= metres(-1);
}

}  // namespace passage_brief
