#include "facts/tide/current_station.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "facts/tide/read_current_station.h"
#include "given/csv_table.h"
#include "given/stations.h"
#include "given/units.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::at;
using given::why;

struct PublishedEvent {
  Instant at;
  double speed_kn;
  std::string what;
};

/// Every published event has one of ours of its kind: speed within 0.054 kn (printed to 0.1),
/// slacks within 3.2 min and 1.8 min RMS (printed to 6).
void expect_agreement(const std::vector<PublishedEvent>& published, bool complete) {
  const CurrentStation station = given::published_current("hell_gate");
  const auto ours = station.slack_max(
      {published.front().at - std::chrono::hours(1), published.back().at + std::chrono::hours(1)});
  ASSERT_TRUE(ours);
  if (complete) {
    EXPECT_EQ(ours->size(), published.size());
  }
  double worst_kn = 0;
  double worst_min = 0;
  double sum_of_squares = 0;
  int slacks = 0;
  for (const PublishedEvent& event : published) {
    const auto nearest = std::ranges::min_element(*ours, {}, [&](const CurrentEvent& own) {
      const double apart = std::abs(in_hours(own.at - event.at));
      return in_words(own.kind) == event.what ? apart : 1000;
    });
    ASSERT_LT(std::abs(in_hours(nearest->at - event.at)), 1) << to_rfc3339(event.at);
    worst_kn = std::max(worst_kn, std::abs(in_knots(nearest->along_flood) - event.speed_kn));
    if (nearest->kind != CurrentEventKind::slack) continue;
    const double minutes = 60 * in_hours(nearest->at - event.at);
    EXPECT_LE(std::abs(minutes), 3.2) << to_rfc3339(event.at);
    worst_min = std::max(worst_min, std::abs(minutes));
    sum_of_squares += minutes * minutes;
    ++slacks;
  }
  const double rms = std::sqrt(sum_of_squares / slacks);
  std::cout << fmt::format("{} events: speed max {:.3f} kn, slack max {:.2f} min, RMS {:.2f} min\n",
                           published.size(), worst_kn, worst_min, rms);
  EXPECT_LE(worst_kn, 0.054);
  EXPECT_LE(rms, 1.8);
}

TEST(PublishedCurrent, HellGateAgrees) {
  std::vector<PublishedEvent> published;
  for (const given::CsvRow& row : given::csv_table("current_hell_gate_2023.csv")) {
    published.push_back({at(row.text("time")), row.number("speed_kn"), row.text("what")});
  }
  expect_agreement(published, true);
}

TEST(PublishedCurrent, TheWholeQuarterAgrees) {
  const auto file = given::reference_file("tides/current-NYH1924-2023-jan-mar.json");
  if (!file) return;
  const auto table = nlohmann::json::parse(given::contents_of(*file));
  std::vector<PublishedEvent> published;
  for (const auto& event : table["published"]["events"]) {
    published.push_back({at(event["t"]), event["v"], event["type"]});
  }
  EXPECT_EQ(published.size(), 693u);
  expect_agreement(published, false);  // the hours round the change of clocks are left out
}

/// 0.5 kn + 2 kn cos(30 t): flood 2.5 kn at 00 and 12, ebb 1.5 kn at 06 and 18.
std::string station_text(const std::string& rest) {
  return R"({"kind": "current station", "name": "Gut", "zone": "UTC", )" + rest + "}";
}
const std::string kCurrentOfS2 =
    R"("flood_toward": 30, "ebb_toward": 200, "mean": "0.5 kn",
       "constituents": {"unit": "kn", "phase": "GMT", "rows": [["S2", 2.0, 0]]})";

CurrentStation read_gut(const std::string& rest) {
  const auto station = read_current_station("gut.json", station_text(rest));
  if (!station) throw std::runtime_error(in_words(station.error().front()));
  return *station;
}

TEST(CurrentStation, FloodAndEbbHaveTheirOwnDirections) {
  const CurrentStation gut = read_gut(kCurrentOfS2);
  const Current flood = gut.at(at("2026-06-14T12:00:00Z")).value();
  EXPECT_NEAR(in_knots(flood.speed), 2.5, 1e-9);
  EXPECT_EQ(flood.toward.bearing.in_degrees(), 30);
  const Current ebb = gut.at(at("2026-06-14T06:00:00Z")).value();
  EXPECT_NEAR(in_knots(ebb.speed), 1.5, 1e-9);
  EXPECT_EQ(ebb.toward.bearing.in_degrees(), 200);
  EXPECT_NEAR(in_knots(gut.along_flood(at("2026-06-14T06:00:00Z")).value()), -1.5, 1e-9);
}

TEST(CurrentStation, SlacksAndGreatestFlowsInOrder) {
  // Zero where cos(30 t) = -0.25: 104.4775 deg, 3.482583 h after high: 03:28:57.3; again
  // at 8.517417 h.
  const auto events =
      read_gut(kCurrentOfS2).slack_max({at("2026-06-14T01:00:00Z"), at("2026-06-14T13:00:00Z")});
  ASSERT_TRUE(events);
  const std::vector<std::pair<const char*, CurrentEventKind>> by_hand{
      {"2026-06-14T03:28:57.300Z", CurrentEventKind::slack},
      {"2026-06-14T06:00:00Z", CurrentEventKind::ebb},
      {"2026-06-14T08:31:02.700Z", CurrentEventKind::slack},
      {"2026-06-14T12:00:00Z", CurrentEventKind::flood}};
  ASSERT_EQ(events->size(), by_hand.size());
  for (std::size_t i = 0; i < by_hand.size(); ++i) {
    EXPECT_LE(std::abs(((*events)[i].at - at(by_hand[i].first)).count()), 50) << i;
    EXPECT_EQ((*events)[i].kind, by_hand[i].second) << i;
  }
}

TEST(CurrentStation, ALullThatDoesNotReachSlackIsNoEvent) {
  // 3 kn + 2 kn cos: never below 1 kn, so every flood is an event and no lull is.
  const auto events = read_gut(R"("flood_toward": 30, "ebb_toward": 200, "mean": "3 kn",
      "constituents": {"unit": "kn", "phase": "GMT", "rows": [["S2", 2.0, 0]]})")
                          .slack_max({at("2026-06-14T01:00:00Z"), at("2026-06-15T01:00:00Z")});
  ASSERT_TRUE(events);
  ASSERT_EQ(events->size(), 2u);
  for (const CurrentEvent& event : *events) EXPECT_EQ(event.kind, CurrentEventKind::flood);
}

TEST(CurrentStation, WhatTheFileLeavesOutIsNotKnown) {
  const Instant noon = at("2026-06-14T12:00:00Z");
  const std::string rows =
      R"("constituents": {"unit": "kn", "phase": "GMT", "rows": [["S2", 2.0, 0]]})";
  EXPECT_EQ(why(read_gut(rows).along_flood(noon)),
            "current station Gut: the current station file gives no mean for Gut");
  const CurrentStation no_way = read_gut(R"("mean": "0 kn", "ebb_toward": 10, )" + rows);
  EXPECT_TRUE(no_way.along_flood(noon));
  EXPECT_EQ(why(no_way.at(noon)),
            "current station Gut: the current station file gives no flood toward for Gut");
  EXPECT_EQ(why(read_gut(R"("mean": "0 kn")").along_flood(noon)),
            "current station Gut: the current station file gives no constituents and no speeds for "
            "Gut");
  EXPECT_EQ(
      why(read_gut(kCurrentOfS2).along_flood(at("2038-01-01T00:00:00Z"))),
      "current station Gut: harmonic constants are worked out for the years 1900 to 2037 only");
  EXPECT_EQ(why(no_way.uncertainty()), "the current station file gives no uncertainty for Gut");
}

TEST(CurrentStation, ReadsAPublishedSeries) {
  const CurrentStation gut = read_gut(R"("flood_toward": 30, "ebb_toward": 210,
      "speeds": {"unit": "kn", "rows": [["2026-06-14T00:00Z", 1.0], ["2026-06-14T00:30Z", 0.0],
                                        ["2026-06-14T01:00Z", -1.0]]})");
  EXPECT_NEAR(in_knots(gut.along_flood(at("2026-06-14T00:15:00Z")).value()), 0.5, 1e-9);
  const auto events = gut.slack_max({at("2026-06-14T00:00:00Z"), at("2026-06-14T01:00:00Z")});
  ASSERT_TRUE(events);
  ASSERT_EQ(events->size(), 1u);
  EXPECT_EQ(events->front().kind, CurrentEventKind::slack);
  EXPECT_LE(std::abs((events->front().at - at("2026-06-14T00:30:00Z")).count()), 2);
  EXPECT_FALSE(gut.at(at("2026-06-14T01:01:00Z")));
}

TEST(CurrentStation, ASeriesAndConstituentsTogetherAreRefused) {
  const auto both =
      read_current_station("gut.json", station_text(kCurrentOfS2 + R"(, "speeds": {"unit": "kn",
          "rows": [["2026-06-14T00:00Z", 1.0], ["2026-06-14T00:30Z", 0.0]]})"));
  ASSERT_FALSE(both);
  EXPECT_EQ(both.error().size(), 2u);
  EXPECT_EQ(both.error().front().place, "/constituents");
}

}  // namespace
}  // namespace passage_brief
