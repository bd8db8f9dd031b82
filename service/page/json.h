// The whole of a brief as JSON: what every other door and every machine reads.
//
// Units stand in the keys (`_m`, `_nm`, `_kn`, `_deg`, `_s`), decimals are fixed (0.1 mm, so that
// whole feet and inches come out exactly), times are RFC 3339 with the waterway's own offset. A
// figure that is not known is null, and `not_known` in the same object says why under the same key.
// Where an object holds a total and its terms the printed digits add up. The schema is
// brief.schema.json beside this file. Same brief, same bytes.
#pragma once

#include <string>

#include "page/page_choice.h"

namespace passage_brief {

struct Brief;

/// `units` are those of the figures inside sentences; elsewhere the key names the unit.
[[nodiscard]] std::string brief_as_json(const Brief& brief, Units units);

}  // namespace passage_brief
