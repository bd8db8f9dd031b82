#include "facts/facts.h"

#include <gtest/gtest.h>

#include <string>
#include <utility>

#include "facts/tide/current_station.h"
#include "facts/tide/tide_station.h"
#include "given/units.h"
#include "units/known.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

using given::why;

TideStation tide_station_named(std::string name) {
  return TideStation({.name = std::move(name),
                      .position = not_known("not stated"),
                      .zone = Zone::utc(),
                      .source = {.what = "tide", .from = "nobody", .issued = {}},
                      .uncertainty = not_known("not stated"),
                      .chart_datum = not_known("not stated"),
                      .datums = {},
                      .why_no_datum = {},
                      .curve = not_known("not stated")});
}

CurrentStation current_station_named(std::string name) {
  return CurrentStation({.name = std::move(name),
                         .position = not_known("not stated"),
                         .zone = Zone::utc(),
                         .source = {.what = "current", .from = "nobody", .issued = {}},
                         .uncertainty = not_known("not stated"),
                         .flood_toward = not_known("not stated"),
                         .ebb_toward = not_known("not stated"),
                         .curve = not_known("not stated")});
}

Facts given_facts() {
  return {.waterway = {.name = "Test",
                       .zone = Zone::utc(),
                       .source = {.what = "waterway", .from = "nobody", .issued = {}},
                       .notices_read = not_known("not stated"),
                       .stations = {},
                       .reaches = {},
                       .depth_areas = {},
                       .soundings = {},
                       .hazards = {},
                       .bars = {},
                       .bridges = {},
                       .cables = {},
                       .marks = {},
                       .berths = {},
                       .refuges = {},
                       .turning_places = {},
                       .notes = {}},
          .tides = {tide_station_named("Town Landing"), tide_station_named("Mill Pond")},
          .currents = {current_station_named("Town Landing")},
          .winds = {}};
}

TEST(Facts, StationsAreFoundByTheirName) {
  const Facts facts = given_facts();
  ASSERT_TRUE(facts.tide("Mill Pond").has_value());
  EXPECT_EQ(facts.tide("Mill Pond").value(), &facts.tides[1]);
  ASSERT_TRUE(facts.current("Town Landing").has_value());
  EXPECT_EQ(facts.current("Town Landing").value(), &facts.currents[0]);
}

TEST(Facts, StationWithoutNameOrFileIsNotKnownAndSaysWhy) {
  const Facts facts = given_facts();
  EXPECT_EQ(why(facts.tide("")), "the waterway file names no tide station here");
  EXPECT_EQ(why(facts.tide("Mill")), "no file of the tide station \"Mill\" was given");
  EXPECT_EQ(why(facts.current("")), "the waterway file names no current station here");
  EXPECT_EQ(why(facts.current("Mill Pond")),
            "no file of the current station \"Mill Pond\" was given");
}

}  // namespace
}  // namespace passage_brief
