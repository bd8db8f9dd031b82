#include "plan/read_vessel.h"

#include <gtest/gtest.h>

#include <chrono>
#include <string>

#include "given/files.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using std::chrono::year_month_day;

std::string problems_of_vessel(std::string_view patch) {
  const std::string text = given::patched(given::file_text("vessel.json"), patch);
  return given::problems_of_reading(read_vessel("vessel.json", text));
}

TEST(ReadVessel, EveryFieldGoesToItsPlace) {
  const auto vessel = read_vessel("vessel.json", given::file_text("vessel.json"));
  ASSERT_TRUE(vessel) << given::listed(vessel.error());
  EXPECT_EQ(vessel->name, "Plover");
  EXPECT_EQ(vessel->hull, Hull::motor_displacement);
  EXPECT_EQ(vessel->engines, 1);
  EXPECT_EQ(vessel->length, feet(30));
  EXPECT_EQ(vessel->waterline, feet(27) + inches(6));
  EXPECT_EQ(vessel->beam, feet(10));
  EXPECT_EQ(vessel->draft, feet(3));
  EXPECT_EQ(vessel->draft_is.basis, Basis::measured);
  EXPECT_EQ(vessel->draft_is.measured_on, year_month_day(std::chrono::March / 1 / 2026));
  EXPECT_EQ(vessel->deepest_part, "skeg");
  EXPECT_EQ(vessel->block_coefficient, 0.45);
  ASSERT_EQ(vessel->air_draft.size(), 2U);
  EXPECT_EQ(vessel->air_draft[1].antennas, Antennas::down);
  EXPECT_EQ(vessel->air_draft[1].height, feet(14) + inches(6));
  EXPECT_EQ(vessel->air_draft_is.basis, Basis::told);
  EXPECT_EQ(vessel->air_draft_is.measured_on, std::nullopt);  // a date is for what is measured
  EXPECT_EQ(vessel->windage_area, square_metres(22));
  EXPECT_EQ(vessel->lateral_plane, square_metres(7));
  EXPECT_EQ(vessel->slow, knots(4));
  EXPECT_EQ(vessel->cruise, knots(7));
  ASSERT_TRUE(vessel->sounder);
  EXPECT_EQ(vessel->sounder->measures_from, SounderZero::transducer);
  EXPECT_EQ(vessel->sounder->below_waterline, feet(1) + inches(6));
  ASSERT_TRUE(vessel->anchor);
  EXPECT_EQ(vessel->anchor->rode, metres(40));
  EXPECT_EQ(vessel->anchor->of, RodeOf::chain);
  EXPECT_EQ(vessel->anchor->bow_roller, feet(4));
  ASSERT_EQ(vessel->deviation.size(), 2U);
  EXPECT_EQ(vessel->deviation[1].heading.in_degrees(), 180);
  EXPECT_EQ(vessel->deviation[1].deviation.east.in_degrees(), -1.5);
  EXPECT_EQ(vessel->design_category, DesignCategory::c);
  ASSERT_TRUE(vessel->base);
  EXPECT_EQ(vessel->base->channel, "VHF 72");
}

TEST(ReadVessel, WhatMayBeLeftOutIsEmptyNotZero) {
  const auto vessel = read_vessel("v.json", R"({"kind": "vessel", "name": "Plover",
    "hull": "open boat", "engines": 0, "length": "5 m", "beam": "2 m", "draft": "30 cm",
    "air_draft": [{"antennas": "up", "height": "2 m"}], "waterline": null, "deviation": null,
    "speeds": {"slow": "2 kn", "cruise": "2 kn"}})");
  ASSERT_TRUE(vessel) << given::listed(vessel.error());
  EXPECT_FALSE(vessel->waterline || vessel->block_coefficient || vessel->windage_area ||
               vessel->lateral_plane || vessel->sounder || vessel->anchor || vessel->base);
  EXPECT_EQ(vessel->draft_is.basis, Basis::not_stated);
  EXPECT_TRUE(vessel->deviation.empty());
}

TEST(ReadVessel, WhatHasNoDefaultMustBeThere) {
  for (const char* key :
       {"name", "hull", "engines", "length", "beam", "draft", "air_draft", "speeds", "kind"}) {
    const std::string words =
        problems_of_vessel(R"([{"op": "remove", "path": "/)" + std::string(key) + "\"}]");
    EXPECT_EQ(words.rfind("the key \"" + std::string(key) + "\" is missing", 0), 0U) << words;
    const std::string of_null = problems_of_vessel(R"([{"op": "replace", "path": "/)" +
                                                   std::string(key) + R"(", "value": null}])");
    EXPECT_EQ(of_null.rfind("/" + std::string(key) + ": found null", 0), 0U) << of_null;
  }
}

TEST(ReadVessel, FiguresMustAgreeWithOneAnother) {
  EXPECT_EQ(problems_of_vessel(R"([{"op": "replace", "path": "/waterline", "value": "31 ft"},
                               {"op": "replace", "path": "/beam", "value": "31 ft"}])"),
            "/waterline: is more than the length\n/beam: is more than the length\n");
  EXPECT_EQ(problems_of_vessel(R"([{"op": "replace", "path": "/waterline", "value": "30 ft"}])"),
            "");
  EXPECT_EQ(problems_of_vessel(R"([{"op": "replace", "path": "/speeds/slow", "value": "7.1 kn"}])"),
            "/speeds/slow: is more than cruise\n");
  EXPECT_EQ(problems_of_vessel(R"([{"op": "replace", "path": "/speeds/slow", "value": "7 kn"}])"),
            "");
  EXPECT_EQ(
      problems_of_vessel(R"([{"op": "replace", "path": "/air_draft/1/height", "value": "21 ft"}])"),
      "/air_draft: is higher with antennas down than up\n");
  EXPECT_EQ(
      problems_of_vessel(R"([{"op": "replace", "path": "/air_draft/1/antennas", "value": "up"}])"),
      "/air_draft: gives antennas up twice; give one height with them up and one with them "
      "down\n");
  EXPECT_EQ(problems_of_vessel(
                R"([{"op": "replace", "path": "/sounder/below_waterline", "value": "4 ft"}])"),
            "/sounder: its transducer is deeper than the draft\n");
  EXPECT_EQ(
      problems_of_vessel(R"([{"op": "replace", "path": "/deviation/1/heading", "value": 360}])"),
      "/deviation: headings must rise from row to row (360 counts as 0)\n");
  EXPECT_EQ(problems_of_vessel(
                R"([{"op": "add", "path": "/air_draft_measured_on", "value": "2026-03-02"}])"),
            "/air_draft_measured_on: a date of measuring needs \"air_draft_is\": \"measured\"\n");
}

TEST(ReadVessel, ASounderSaysWhereItMeasuresFrom) {
  EXPECT_EQ(problems_of_vessel(R"([{"op": "remove", "path": "/sounder/below_waterline"}])"),
            "/sounder: a sounder that measures from the transducer needs \"below_waterline\", for "
            "example \"2 ft\"\n");
  EXPECT_EQ(
      problems_of_vessel(
          R"([{"op": "replace", "path": "/sounder/measures_from", "value": "keel"}])"),
      "/sounder/below_waterline: belongs to a sounder that measures from the transducer; leave "
      "it out\n");
}

}  // namespace
}  // namespace passage_brief
