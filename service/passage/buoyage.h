// The direction of buoyage at a mark: as its file states it, or along the reach it belongs to.
#pragma once

#include "facts/waterway/waterway.h"
#include "units/direction.h"
#include "units/known.h"

namespace passage_brief {

/// From seaward. Not known where none is stated, or the reach is drawn as an area.
[[nodiscard]] Known<TrueBearing> buoyage_at(const Mark& mark, const Waterway& waterway);

}  // namespace passage_brief
