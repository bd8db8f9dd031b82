#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "given/demo.h"
#include "given/run_program.h"

namespace passage_brief {
namespace {

TEST(CommandLine, HelpExitsZeroAndAnUnknownWordTwo) {
  const auto help = given::run_program({"--help"});
  EXPECT_EQ(help.status, 0) << help.err;
  EXPECT_FALSE(help.out.empty());
  const auto unknown = given::run_program({"frobnicate"});
  EXPECT_EQ(unknown.status, 2);
  EXPECT_FALSE(unknown.err.empty());
}

TEST(CommandLine, WhatCouldNotBeWrittenIsAFailure) {
  const std::vector<given::Option> leave{{"--depart", "2026-06-14T10:00"}, {"--windows", "0"}};
  const std::vector<std::vector<std::string>> commands{
      {"--help"},
      {"check", "examples/sedge_wren.vessel.json"},
      {"check", "--schema", "vessel"},
      {"heights", "--tide", "examples/tansel_point.tide.json", "--at", "Tansel Point", "--from",
       "2026-06-14T00:00", "--to", "2026-06-15T00:00", "--every", "6h"},
      {"currents", "--current", "examples/tansel_narrows.current.json", "--at", "Tansel Narrows",
       "--from", "2026-06-14T00:00", "--to", "2026-06-15T00:00", "--every", "6h"},
      {"sun", "--at", "36.5,-71.3", "--on", "2026-06-14"},
      {"variation", "--at", "36.5,-71.3", "--on", "2026-06-14"},
      {"station", "--co-ops", "9999001", "--reply", "tests/given/replies/co_ops_station.json"},
      given::demo_arguments("make", leave)};
  for (const std::vector<std::string>& command : commands) {
    EXPECT_EQ(given::run_program(command).status, 0) << command.front();
    const auto full = given::run_program_on_a_full_disk(command);
    EXPECT_EQ(full.status, 1) << command.front();
    EXPECT_NE(full.err.find("passage-brief failed: "), std::string::npos) << full.err;
  }
}

}  // namespace
}  // namespace passage_brief
