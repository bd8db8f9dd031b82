// Sayings of one rule about several places, in one breath.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "given/brief.h"
#include "page/sheet.h"
#include "page/sheet_parts.h"

namespace passage_brief {
namespace {

std::string in_one_block(const std::vector<std::string>& sayings) {
  Judgement judgement{};
  for (const std::string& words : sayings) {
    judgement.cautions.push_back(given::caution(Grade::warning, words));
  }
  const Zone zone = Zone::named("America/New_York").value();
  const std::vector<Block> blocks = caution_blocks(
      judgement, {Units::us, Clock24(zone, given::estuary_time("2026-06-14T10:00"))});
  EXPECT_EQ(blocks.size(), 1U);
  return blocks.empty() ? "" : blocks.front().main;
}

TEST(CautionBlocks, WhatIsSoOfAllIsSaidOnce) {
  EXPECT_EQ(in_one_block({"Upper Reach: surveyed 6 years ago. Dead slow.",
                          "Quay: surveyed 6 years ago. Dead slow."}),
            "Upper Reach; Quay: surveyed 6 years ago. Dead slow.");
}

/// Found 2026-11-26: the colon of "(bottom: mud)" was taken for that before what is so of all.
TEST(CautionBlocks, NothingIsBrokenInsideABracket) {
  EXPECT_EQ(in_one_block({"Upper Reach: 1.2 ft at 10:03 (bottom: mud). Wait.",
                          "Quay: 0.3 ft at 10:50 (bottom: mud). Wait."}),
            "Upper Reach: 1.2 ft at 10:03 (bottom: mud). Quay: 0.3 ft at 10:50 (bottom: mud). "
            "Wait.");
  EXPECT_EQ(in_one_block({"Upper Reach (approx. 3 m) is shoal.", "Quay (approx. 3 m) is shoal."}),
            "Upper Reach (approx. 3 m) is shoal. Quay (approx. 3 m) is shoal.");
}

TEST(CautionBlocks, WhatIsSoOfSomeInARowIsSaidOnce) {
  EXPECT_EQ(in_one_block({"Lump: no forecast there. Anchor ready.",
                          "Flats: no forecast there. Anchor ready.",
                          "Quay: you are on it in 7 min. Anchor ready."}),
            "Lump; Flats: no forecast there. Quay: you are on it in 7 min. Anchor ready.");
}

TEST(CautionBlocks, OneNameIsSaidOnce) {
  EXPECT_EQ(in_one_block({"Flats: 1.2 ft at 10:03 (bottom: mud). Wait.",
                          "Flats: 0.3 ft at 10:50 (bottom: mud). Wait.",
                          "Quay: 0.1 ft at 11:19 (bottom: mud). Wait."}),
            "Flats: 1.2 ft at 10:03 (bottom: mud); 0.3 ft at 10:50 (bottom: mud). "
            "Quay: 0.1 ft at 11:19 (bottom: mud). Wait.");
  EXPECT_EQ(in_one_block({"Flats: surveyed 6 years ago.", "Flats: surveyed 6 years ago.",
                          "Quay: surveyed 6 years ago."}),
            "Flats; Quay: surveyed 6 years ago.");
  EXPECT_EQ(in_one_block({"Flats: shoal. Go slow.", "Flats: shoal. Go slow."}),
            "Flats: shoal. Go slow.");
}

TEST(CautionBlocks, APlaceNotCheckedIsNamedOnce) {
  Judgement judgement{};
  for (int i = 0; i < 3; ++i) {
    judgement.not_checked.push_back(
        {"aground", {SubjectKind::reach, 0, "Flats", std::nullopt}, {{"no depth on file"}}, true});
  }
  ASSERT_EQ(not_checked_blocks(judgement).size(), 1U);
  EXPECT_EQ(not_checked_blocks(judgement).front().main,
            "limits: aground (Flats); because no depth on file.");
}

}  // namespace
}  // namespace passage_brief
