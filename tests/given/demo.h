// The demo's boat, water and weather (examples/) as arguments of the program.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/input_files.h"

namespace passage_brief::given {

using Option = std::pair<std::string, std::string>;

/// The demo's files, with rules/NAME.json of the project.
[[nodiscard]] InputFiles demo_files(const std::string& rules, const std::string& depart);

/// The command with the demo's vessel, route, waterway, stations, forecast and the renters' rules;
/// `own` come after them, and in the place of those of their name.
[[nodiscard]] std::vector<std::string> demo_arguments(const std::string& command,
                                                      const std::vector<Option>& own);

}  // namespace passage_brief::given
