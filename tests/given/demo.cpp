#include "given/demo.h"

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

namespace passage_brief::given {

InputFiles demo_files(const std::string& rules, const std::string& depart) {
  const std::filesystem::path project(PROJECT_DIR);
  const std::filesystem::path examples = project / "examples";
  return {examples / "sedge_wren.vessel.json",
          examples / "upriver.gpx",
          examples / "tansel.waterway.json",
          {examples / "tansel_point.tide.json", examples / "upper_tansel.tide.json"},
          {examples / "tansel_narrows.current.json", examples / "heron_creek.current.json"},
          {examples / "tansel.wind.json"},
          project / "rules" / (rules + ".json"),
          depart};
}

std::vector<std::string> demo_arguments(const std::string& command,
                                        const std::vector<Option>& own) {
  const std::vector<Option> demo{{"--rules", "rules/renters.json"},
                                 {"--vessel", "examples/sedge_wren.vessel.json"},
                                 {"--route", "examples/upriver.gpx"},
                                 {"--waterway", "examples/tansel.waterway.json"},
                                 {"--wind", "examples/tansel.wind.json"},
                                 {"--tide", "examples/tansel_point.tide.json"},
                                 {"--tide", "examples/upper_tansel.tide.json"},
                                 {"--current", "examples/tansel_narrows.current.json"},
                                 {"--current", "examples/heron_creek.current.json"}};
  std::vector<std::string> arguments{command};
  const auto add = [&arguments](const Option& option) {
    arguments.push_back(option.first);
    arguments.push_back(option.second);
  };
  for (const Option& option : demo) {
    if (std::ranges::find(own, option.first, &Option::first) == own.end()) add(option);
  }
  std::ranges::for_each(own, add);
  return arguments;
}

}  // namespace passage_brief::given
