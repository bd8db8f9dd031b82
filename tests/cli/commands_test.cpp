#include <gtest/gtest.h>

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

}  // namespace
}  // namespace passage_brief
