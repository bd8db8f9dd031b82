// Every hull there is.
#pragma once

#include <array>

#include "plan/vessel.h"

namespace passage_brief::given {

inline constexpr std::array kHulls = {Hull::motor_displacement, Hull::motor_planing,
                                      Hull::sail_fin_keel,      Hull::sail_long_keel,
                                      Hull::catamaran,          Hull::open_boat};

}  // namespace passage_brief::given
