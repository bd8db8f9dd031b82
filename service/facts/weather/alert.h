// A warning, watch or advisory as its issuer words it; or one of our own where a gauge reads
// another level than was predicted (its issuer is then the gauge's keeper, and the words are ours).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "units/time.h"

namespace passage_brief {

/// CAP 1.2 (OASIS, 2010), element severity.
enum class Severity { extreme, severe, moderate, minor, unknown };

struct Alert {
  std::string event;        // "Gale Warning"
  std::string headline;     // "Gale Warning issued May 14 at 8:46AM PDT until ... by ..."
  std::string instruction;  // may be empty
  std::string issuer;
  Severity severity;
  std::vector<std::string> zones;  // the issuer's own codes: "PZZ545"
  Instant issued;
  Instant begins;
  std::optional<Instant> ends;  // of the event; nothing: until further notice
  std::string link;
  std::string note = {};  // said beside it where the copy is not fresh
  bool operator==(const Alert&) const = default;
};

}  // namespace passage_brief
