// The demo's boat, water and weather (examples/) as arguments of the program.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace passage_brief::given {

using Option = std::pair<std::string, std::string>;

/// The command with the demo's vessel, route, waterway, stations, forecast and the renters' rules;
/// `own` come after them, and in the place of those of their name.
[[nodiscard]] std::vector<std::string> demo_arguments(const std::string& command,
                                                      const std::vector<Option>& own);

}  // namespace passage_brief::given
