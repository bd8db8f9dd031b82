#include "facts/weather/read_wind_forecast.h"

#include <gtest/gtest.h>

#include <string>

#include "given/files.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

std::string problems_of_wind(std::string_view patch) {
  const std::string text = given::patched(given::file_text("wind.json"), patch);
  return given::problems_of_reading(read_wind_forecast("wind.json", text));
}

TEST(ReadWindForecast, EveryFieldGoesToItsPlace) {
  const auto winds = read_wind_forecast("wind.json", given::file_text("wind.json"));
  ASSERT_TRUE(winds) << given::listed(winds.error());
  EXPECT_EQ(winds->source().from, "invented");
  EXPECT_EQ(winds->source().issued, parse_instant("2026-06-14T10:00:00Z").value());
  EXPECT_EQ(winds->position(), position_at(45, -40));
  ASSERT_EQ(winds->hours().size(), 3U);
  const WindHour& first = winds->hours().front();
  EXPECT_EQ(first.at, parse_instant("2026-06-14T12:00:00Z").value());
  EXPECT_EQ(first.from->bearing.in_degrees(), 215);
  EXPECT_EQ(first.speed, knots(10));
  EXPECT_EQ(first.gust, knots(15));
  EXPECT_EQ(first.pressure, hectopascals(1012));
  EXPECT_EQ(first.visibility, nautical_miles(5));
  EXPECT_EQ(first.wave, feet(1));
  EXPECT_EQ(first.thunder, 0.1);
  // 09:00 at -05:00 is 14:00 UTC, after the hour before; its nulls are empty.
  EXPECT_EQ(winds->hours().back().at, parse_instant("2026-06-14T14:00:00Z").value());
  EXPECT_FALSE(winds->hours().back().speed || winds->hours().back().from);
}

TEST(ReadWindForecast, HoursRise) {
  EXPECT_EQ(problems_of_wind(
                R"([{"op": "replace", "path": "/hours/1/at", "value": "2026-06-14T12:00:00Z"}])"),
            "/hours/1/at: is the same hour as the one before\n");
  EXPECT_EQ(problems_of_wind(
                R"([{"op": "replace", "path": "/hours/1/at", "value": "2026-06-14T11:00:00Z"}])"),
            "/hours/1/at: is earlier than the hour before; put them in order\n");
}

TEST(ReadWindForecast, FiguresThatCannotBeAreRefused) {
  EXPECT_EQ(problems_of_wind(R"([{"op": "replace", "path": "/hours/0/gust", "value": "9 kn"}])"),
            "/hours/0/gust: is less than the speed\n");
  EXPECT_EQ(problems_of_wind(R"([{"op": "replace", "path": "/hours/0/gust", "value": "10 kn"}])"),
            "");
  EXPECT_NE(problems_of_wind(R"([{"op": "replace", "path": "/hours/0/from", "value": 361}])"), "");
  EXPECT_NE(problems_of_wind(R"([{"op": "replace", "path": "/hours/0/thunder", "value": 30}])"),
            "");
  EXPECT_NE(problems_of_wind(R"([{"op": "replace", "path": "/hours", "value": []}])"), "");
}

TEST(ReadWindForecast, WhatIsNotStatedIsEmpty) {
  const auto winds = read_wind_forecast(
      "w.json", R"({"kind": "wind forecast", "hours": [{"at": "2026-06-14T12:00:00Z"}]})");
  ASSERT_TRUE(winds) << given::listed(winds.error());
  EXPECT_FALSE(winds->source().issued);
  EXPECT_FALSE(winds->position());
}

}  // namespace
}  // namespace passage_brief
