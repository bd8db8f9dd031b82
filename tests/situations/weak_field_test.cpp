// Where the earth's field is too weak along the ground to turn a compass.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "given/passage_case.h"
#include "given/pdf_text.h"

namespace passage_brief {
namespace {

// Found 2026-11-26: at 75 N 95 W the page said "steer 016 M" as anywhere else.
/// World Magnetic Model 2025: caution zone below 6000 nT of horizontal field, as all the waters
/// north of Somerset Island are (WMM2025 technical report, chart of the zones; from memory).
TEST(WeakField, NoMagneticHeadingIsGivenThere) {
  given::PassageCase passage = given::straight_channel_at({75, -95});
  passage.departs = "2026-06-14T12:00";
  passage.now = "2026-06-14T10:00:00Z";
  const given::PassageRun run = passage.make();
  ASSERT_EQ(run.program.status, 0) << run.program.err;
  const nlohmann::json& leg = run.brief.at("legs").at(0);
  EXPECT_TRUE(leg.at("steer_magnetic_deg").is_null());
  const std::string text = given::with_single_blanks(run.text);
  EXPECT_NE(text.find("steer 000 T"), std::string::npos) << run.text;
  EXPECT_NE(text.find("the compass is not to be trusted here"), std::string::npos) << run.text;
}

TEST(WeakField, AMagneticHeadingIsGivenElsewhere) {
  const given::PassageRun run = given::straight_channel().make();
  EXPECT_FALSE(run.brief.at("legs").at(0).at("steer_magnetic_deg").is_null());
}

}  // namespace
}  // namespace passage_brief
