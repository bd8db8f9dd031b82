// Where a fact comes from and how old it is.
#pragma once

#include <optional>
#include <string>

#include "units/time.h"

namespace passage_brief {

struct Source {
  std::string what;               // "tide at Town Landing", "wind forecast"
  std::string from;               // publisher or author, as the file says
  std::optional<Instant> issued;  // when it was issued (not fetched); nothing: not stated
  std::string note = {};  // said beside it: "kept from 09:40Z; a newer one could not be fetched"
  bool operator==(const Source&) const = default;
};

}  // namespace passage_brief
