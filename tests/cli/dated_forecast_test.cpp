// What a forecast says counts however old it is, and no forecast or measured draft is from the
// future (found 2026-11: a gale in an old forecast was a departure window; one issued after the
// page was "minus 13 h old").

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

/// The demo's command with one file, that of the option, of the test's own.
given::ProgramRun run(const std::string& command, const std::string& option, const json& content,
                      const std::vector<std::string>& more) {
  const std::filesystem::path file =
      std::filesystem::path(testing::TempDir()) / ("dated-" + command + option + ".json");
  std::ofstream(file) << content;
  std::vector<std::string> arguments =
      given::demo_arguments(command, {{"--now", "2026-06-14T07:00"}, {option, file.string()}});
  arguments.insert(arguments.end(), more.begin(), more.end());
  const given::ProgramRun made = given::run_program(arguments);
  std::filesystem::remove(file);
  return made;
}

json demo_wind() {
  return json::parse(given::contents_of(PROJECT_DIR "/examples/tansel.wind.json"));
}

/// Issued 04:30, by the renters' rules old after 10:30; a gale from 14 h on.
TEST(DatedForecast, AGaleInAnOldOneIsNoWindow) {
  const std::vector<std::string> noon = {"--from", "2026-06-14T11:50", "--to", "2026-06-14T12:40"};
  json wind = demo_wind();
  const given::ProgramRun calm = run("windows", "--wind", wind, noon);
  ASSERT_EQ(calm.status, 0) << calm.err;
  EXPECT_NE(calm.out.find("to 12:40"), std::string::npos) << calm.out;
  EXPECT_NE(calm.out.find("judged on tide and light"), std::string::npos) << calm.out;
  for (json& hour : wind.at("hours")) {
    const std::string at = hour.at("at").get<std::string>().substr(11, 2);
    if (at < "14") continue;
    hour["speed"] = "45 kn";
    hour["gust"] = "60 kn";
  }
  const given::ProgramRun gale = run("windows", "--wind", wind, noon);
  ASSERT_EQ(gale.status, 0) << gale.err;
  EXPECT_EQ(gale.out.find("to 12:40"), std::string::npos) << gale.out;
  EXPECT_NE(gale.out.find("11:50 to 12:"), std::string::npos) << gale.out;
}

TEST(DatedForecast, IssuedAfterThePageIsRefused) {
  json wind = demo_wind();
  wind["issued"] = "2026-06-14T20:30:00-04:00";
  const given::ProgramRun made = run(
      "make", "--wind", wind, {"--depart", "2026-06-14T09:30", "--as", "text", "--windows", "0"});
  EXPECT_EQ(made.status, 2);
  EXPECT_NE(made.err.find("after the time this is made"), std::string::npos) << made.err;
}

/// The time given is read in the zone of the waterway: where that is refused it is not known, and
/// no other stands in for it.
TEST(DatedForecast, IsHeldToNoOtherTimeWhereTheWaterwayIsRefused) {
  std::string later = demo_wind().dump();
  for (std::size_t at = later.find("2026-"); at != std::string::npos; at = later.find("2026-")) {
    later.replace(at, 4, "2036");
  }
  const std::filesystem::path wind =
      std::filesystem::path(testing::TempDir()) / "dated-years-later.json";
  std::ofstream(wind) << later;
  const given::ProgramRun made = run(
      "make", "--waterway", json{{"kind", "waterway"}},
      {"--depart", "2026-06-14T09:30", "--as", "text", "--windows", "0", "--wind", wind.string()});
  std::filesystem::remove(wind);
  EXPECT_EQ(made.status, 2);
  EXPECT_EQ(made.err.find("after the time this is made"), std::string::npos) << made.err;
}

TEST(DatedForecast, MeasuredAfterThePageIsRefused) {
  json vessel = json::parse(given::contents_of(PROJECT_DIR "/examples/sedge_wren.vessel.json"));
  const std::vector<std::string> morning = {"--depart", "2026-06-14T09:30", "--as",
                                            "text",     "--windows",        "0"};
  vessel["measured_on"] = "2026-06-14";
  EXPECT_EQ(run("make", "--vessel", vessel, morning).status, 0);
  vessel["measured_on"] = "2026-06-15";
  const given::ProgramRun made = run("make", "--vessel", vessel, morning);
  EXPECT_EQ(made.status, 2);
  EXPECT_NE(made.err.find("the draft was measured on 2026-06-15, after the day this is made"),
            std::string::npos)
      << made.err;
}

}  // namespace
}  // namespace passage_brief
