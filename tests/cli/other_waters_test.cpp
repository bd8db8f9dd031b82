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

json example(const std::string& name) {
  return json::parse(given::contents_of(PROJECT_DIR "/examples/" + name));
}

/// A file of its own for a test, gone with it.
class OwnFile {
 public:
  OwnFile(const std::string& name, const json& content)
      : path_(std::filesystem::path(testing::TempDir()) / ("other-waters-" + name)) {
    std::ofstream(path_) << content;
  }
  OwnFile(const OwnFile&) = delete;
  OwnFile& operator=(const OwnFile&) = delete;
  ~OwnFile() { std::filesystem::remove(path_); }
  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

given::ProgramRun make_with(std::vector<given::Option> own) {
  own.insert(own.end(),
             {{"--depart", "2026-06-14T10:00"}, {"--now", "2026-06-14T07:00"}, {"--windows", "0"}});
  return given::run_program(given::demo_arguments("make", own));
}

/// The demo with one of its files moved to another place on Earth.
given::ProgramRun made_with(const std::string& option, const std::string& name, double latitude,
                            double longitude, const std::vector<given::Option>& others = {}) {
  json content = example(name);
  content["position"] = {{"latitude", latitude}, {"longitude", longitude}};
  const OwnFile file(name, content);
  std::vector<given::Option> own = others;
  own.emplace_back(option, file.path());
  return make_with(own);
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
  EXPECT_EQ(tide.status, 2);
  EXPECT_NE(tide.err.find("--tide: the station Tansel Point lies"), std::string::npos) << tide.err;
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

// As published offsets do: a reference station may be of another ocean, where only times and
// heights are taken from it.
TEST(OtherWaters, AReferenceStationMayLieFarOff) {
  json sea = example("tansel_point.tide.json");
  sea["name"] = "Far Sea";
  sea["position"] = {{"latitude", -36.5}, {"longitude", 108.7}};
  json upper = example("upper_tansel.tide.json");
  upper["reference"] = "Far Sea";
  const OwnFile sea_file("sea.json", sea);
  const OwnFile upper_file("upper.json", upper);
  const auto run = make_with({{"--tide", "examples/tansel_point.tide.json"},
                              {"--tide", upper_file.path()},
                              {"--tide", sea_file.path()}});
  EXPECT_EQ(run.status, 0) << run.err;
}

}  // namespace
}  // namespace passage_brief
