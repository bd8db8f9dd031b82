#include "fetch/grib2_packing.h"

#include <gtest/gtest.h>

#include <cstddef>
#include <cstdint>
#include <string>

namespace passage_brief {
namespace {

/// Octets counted from 1, as in the manual.
void put(std::string& section, std::size_t first, std::size_t last, std::uint64_t value) {
  for (std::size_t i = last; i >= first; --i, value >>= 8U) {
    section[i - 1] = static_cast<char>(value & 0xFFU);
  }
}

std::string section(char number, std::size_t octets) {
  std::string made(octets, '\0');
  put(made, 1, 4, octets);
  made[4] = number;
  return made;
}

/// Three values in two groups (template 5.2), by hand: references of 8 bits (2 octets), widths 3
/// and 0 in 4 bits each (1 octet), lengths 2 and "last" in 4 bits each (1 octet), and two values of
/// 3 bits (1 octet).
struct Message {
  std::string packing = section(5, 47);
  std::string values = section(7, 5 + 5);
  Message() {
    put(packing, 6, 9, 3);    // values
    put(packing, 10, 11, 2);  // template
    put(packing, 20, 20, 8);
    put(packing, 32, 35, 2);  // groups
    put(packing, 37, 37, 4);
    put(packing, 42, 42, 1);
    put(packing, 43, 46, 1);  // length of the last group
    put(packing, 47, 47, 4);
    values[5 + 2] = 0x30;
    values[5 + 3] = 0x20;
  }
  [[nodiscard]] bool holds() const {
    return holds_what_it_packs("GRIB............" + packing + values + "7777");
  }
};

TEST(GribPacking, GroupsThatFitAreBelieved) { EXPECT_TRUE(Message().holds()); }

TEST(GribPacking, OneOctetTooFewIsNot) {
  Message message;
  message.values = message.values.substr(0, 9);
  put(message.values, 1, 4, 9);
  EXPECT_FALSE(message.holds());
}

TEST(GribPacking, NumbersThatDoNotAgreeAreNot) {
  struct Change {
    std::size_t first, last;
    std::uint64_t value;
  };
  for (const Change& change :
       {Change{6, 9, 4}, Change{6, 9, 2}, Change{32, 35, 0}, Change{32, 35, 3},
        Change{32, 35, 0x01000002}, Change{43, 46, 2}, Change{36, 36, 2}, Change{37, 37, 200},
        Change{20, 20, 255}, Change{38, 41, 0xFFFFFFFF}, Change{1, 4, 48}, Change{1, 4, 0}}) {
    Message message;
    put(message.packing, change.first, change.last, change.value);
    EXPECT_FALSE(message.holds()) << change.first << " " << change.value;
  }
}

TEST(GribPacking, SimplePackingNeedsItsBits) {
  Message message;
  put(message.packing, 10, 11, 0);
  put(message.packing, 20, 20, 13);  // 3 of 13 bits are 39 of 40
  EXPECT_TRUE(message.holds());
  put(message.packing, 20, 20, 14);
  EXPECT_FALSE(message.holds());
}

TEST(GribPacking, ValuesBeforeTheirPackingAreNotBelieved) {
  const Message message;
  EXPECT_FALSE(holds_what_it_packs("GRIB............" + message.values + message.packing + "7777"));
  EXPECT_FALSE(holds_what_it_packs("GRIB"));
}

}  // namespace
}  // namespace passage_brief
