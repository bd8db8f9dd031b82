#include "units/check.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>
#include <type_traits>

namespace passage_brief {
namespace {

static_assert(std::is_base_of_v<std::logic_error, BrokenPromise>);

TEST(Check, APromiseKeptIsNotHeardOf) { EXPECT_NO_THROW(check(true, "kept")); }

TEST(Check, ABrokenPromiseSaysWhichAndWhere) {
  const int line = __LINE__ + 2;
  try {
    check(1 > 2, "one is more than two");
    FAIL() << "nothing was thrown";
  } catch (const BrokenPromise& broken) {
    const std::string words = broken.what();
    EXPECT_NE(words.find("check_test.cpp:" + std::to_string(line) + ": one is more than two"),
              std::string::npos)
        << words;
  }
  EXPECT_THROW(broken_promise("never reached"), BrokenPromise);
}

}  // namespace
}  // namespace passage_brief
