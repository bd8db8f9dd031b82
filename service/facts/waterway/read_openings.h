// The opening rules of a drawbridge, looked through key by key and kept as JSON text.
//
// First match wins, half-open intervals [from, to), wall time in the waterway's zone; where nothing
// matches the bridge opens on signal. What the keys mean: 33 CFR part 117 in the words of
// DEVELOPERS.md.
#pragma once

#include "facts/waterway/bridge.h"
#include "reading/form.h"

namespace passage_brief {

[[nodiscard]] Form<OpeningRules> opening_rules();

}  // namespace passage_brief
