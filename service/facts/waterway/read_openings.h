// The opening rules of a drawbridge in a waterway file. What the keys mean: openings.h, and 33 CFR
// part 117 in the words of DEVELOPERS.md.
#pragma once

#include "facts/waterway/openings.h"
#include "reading/form.h"

namespace passage_brief {

[[nodiscard]] Form<Openings> opening_rules();

}  // namespace passage_brief
