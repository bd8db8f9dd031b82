// A published tide carried through the whole program: the page prints NOAA's figure for that
// minute.
//
// Station 9414290, San Francisco (Golden Gate): constants and datums of NOAA CO-OPS (US Government
// work, public domain), in tests/given/stations. The published series is NOAA's prediction for June
// 2018, 6-minute steps, above MLLW, in feet, GMT. The water, the boat and the wind are invented and
// prove nothing about the real place.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "given/csv_table.h"
#include "given/passage_case.h"

namespace passage_brief {
namespace {

using given::kFoot_m;
using given::PassageCase;
using given::PassageRun;
using nlohmann::json;

/// The straight channel, moved to the station and to the day.
PassageCase at_san_francisco() {
  PassageCase passage = given::straight_channel_at({37.8063, -122.4659});
  passage.waterway["zone"] = "America/Los_Angeles";
  passage.feature("Straight Channel")["tide"] = "San Francisco";
  passage.feature("Straight Channel")["current"] = "none";
  passage.tides = {json::parse(
      given::contents_of(std::string(TESTS_DIR) + "/given/stations/san_francisco.tide.json"))};
  passage.tides.at(0)["name"] = "San Francisco";
  for (json& hour : passage.winds.at(0).at("hours")) {
    hour["at"] = "2018-06-20" + hour.at("at").get<std::string>().substr(10);
  }
  passage.winds.at(0)["issued"] = "2018-06-20T06:00:00Z";
  passage.vessel["measured_on"] = "2018-05-01";
  return passage;
}

/// Rising tide, so that the least water is found at the very start, at the minute of departure.
TEST(PublishedStation, HeightOfTideIsThePublishersFigure) {
  struct Minute {
    std::string departs;     // published for this minute
    double published_ft;     // the publisher's figure
    std::string printed_ft;  // rounded down, as depths are
  };
  for (const Minute& minute :
       {Minute{"2018-06-20T10:06:00Z", 3.537, "3.5"}, Minute{"2018-06-20T09:06:00Z", 2.861, "2.8"},
        Minute{"2018-06-20T08:12:00Z", 2.350, "2.3"}}) {
    PassageCase passage = at_san_francisco();
    passage.departs = minute.departs;
    passage.now = "2018-06-20T07:00:00Z";
    const PassageRun run = passage.make();
    ASSERT_EQ(run.program.status, 0) << run.program.err;
    const json& depth = run.named("depths", "Straight Channel");
    // 1 mm, the goal of the method, and half of the publisher's last digit (0.15 mm).
    EXPECT_NEAR(depth.at("height_of_tide_m").get<double>(), minute.published_ft * kFoot_m, 0.0012)
        << depth;
    EXPECT_EQ(depth.at("tide_is"), "rising") << depth;
    EXPECT_NE(run.text.find(minute.printed_ft), std::string::npos)
        << "not printed: " << minute.printed_ft << "\n"
        << run.text;
  }
}

}  // namespace
}  // namespace passage_brief
