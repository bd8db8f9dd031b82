// Which minutes of a span are good, without judging every one: equal to judge_every_minute in all
// but `left`.
#pragma once

#include <vector>

#include "brief/departure_judge.h"
#include "brief/departure_windows.h"

namespace passage_brief {

[[nodiscard]] std::vector<MinuteFound> scan_minutes(const DepartureJudge& judge,
                                                    const Minutes& minutes);

}  // namespace passage_brief
