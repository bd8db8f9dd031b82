// Files that are right each by itself and do not belong together.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "given/csv_table.h"
#include "given/demo.h"
#include "given/run_program.h"

namespace passage_brief {
namespace {

using nlohmann::json;

/// The demo with one of its files moved to another place on Earth.
given::ProgramRun made_with(const std::string& option, const std::string& example, double latitude,
                            double longitude, const std::vector<given::Option>& others = {}) {
  json content = json::parse(given::contents_of(PROJECT_DIR "/examples/" + example));
  content["position"] = {{"latitude", latitude}, {"longitude", longitude}};
  const auto file = std::filesystem::path(testing::TempDir()) / ("moved-" + example);
  std::ofstream(file) << content;
  std::vector<given::Option> own{{"--depart", "2026-06-14T10:00"},
                                 {"--now", "2026-06-14T07:00"},
                                 {"--windows", "0"},
                                 {option, file.string()}};
  own.insert(own.end(), others.begin(), others.end());
  const auto run = given::run_program(given::demo_arguments("make", own));
  std::filesystem::remove(file);
  return run;
}

TEST(OtherWaters, AForecastForAnotherOceanIsRefused) {
  const auto run = made_with("--wind", "tansel.wind.json", -36, 108);
  EXPECT_EQ(run.status, 2);
  EXPECT_NE(run.err.find("--wind: the place of the "), std::string::npos) << run.err;
  EXPECT_NE(run.err.find("nm from the route; further than 100 nm off"), std::string::npos)
      << run.err;
  EXPECT_EQ(made_with("--wind", "tansel.wind.json", 37.5, -71.3).status, 0);  // 60 nm
}

TEST(OtherWaters, AStationAtTheAntipodesIsRefused) {
  const auto tide = made_with("--tide", "tansel_point.tide.json", -36.5, 108.7,
                              {{"--tide", "examples/upper_tansel.tide.json"}});
  // Upper Tansel is subordinate to it: a reference may lie far off, and is not used here itself.
  EXPECT_EQ(tide.err.find("the station Tansel Point lies"), std::string::npos) << tide.err;
  const auto upper = made_with("--tide", "upper_tansel.tide.json", -36.5, 108.7,
                               {{"--tide", "examples/tansel_point.tide.json"}});
  EXPECT_EQ(upper.status, 2);
  EXPECT_NE(upper.err.find("--tide: the station Upper Tansel lies"), std::string::npos)
      << upper.err;
  const auto current = made_with("--current", "tansel_narrows.current.json", -36.5, 108.7,
                                 {{"--current", "examples/heron_creek.current.json"}});
  EXPECT_EQ(current.status, 2);
  EXPECT_NE(current.err.find("--current: the station Tansel Narrows lies"), std::string::npos)
      << current.err;
}

}  // namespace
}  // namespace passage_brief
