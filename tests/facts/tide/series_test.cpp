// Published series and tables of high and low waters, read between their rows.

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "facts/tide/high_low_curve.h"
#include "facts/tide/series_curve.h"
#include "facts/tide/tide_station.h"
#include "given/csv_table.h"
#include "given/stations.h"
#include "units/check.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::at;
using std::chrono::minutes;

const Instant kBegin = at("2026-06-14T00:00:00Z");

std::vector<SeriesRow> rows_of(const auto& value, const std::vector<int>& at_minutes) {
  std::vector<SeriesRow> rows;
  for (const int m : at_minutes) rows.push_back({kBegin + minutes(m), value(m)});
  return rows;
}

TEST(SeriesCurve, IsExactOnAParabolaWithUnevenSteps) {
  const auto parabola = [](double m) { return 2 + m * (0.03 - 0.0004 * m); };
  const SeriesCurve curve(rows_of(parabola, {0, 10, 30, 60, 66, 100}), 0);
  for (int m = 0; m <= 100; ++m) {
    const CurvePoint point = curve.at(kBegin + minutes(m)).value();
    EXPECT_NEAR(point.value, parabola(m), 1e-12) << m;
    EXPECT_NEAR(point.rate_per_s, (0.03 - 0.0008 * m) / 60, 1e-14) << m;
  }
  // Greatest at m = 0.03 / 0.0008 = 37.5.
  const auto turns = curve.turns({kBegin, kBegin + minutes(100)});
  ASSERT_TRUE(turns);
  ASSERT_EQ(turns->size(), 1u);
  EXPECT_TRUE(turns->front().high);
  EXPECT_LE(std::abs((turns->front().at - (kBegin + std::chrono::seconds(2250))).count()), 2);
  const Extremes extremes = curve.extremes({kBegin + minutes(30), kBegin + minutes(50)}).value();
  EXPECT_NEAR(extremes.greatest, parabola(37.5), 1e-12);
  EXPECT_NEAR(extremes.least, parabola(50), 1e-12);
}

TEST(SeriesCurve, AnHourlyTideIsReadToAFewThousandthsOfItsAmplitude) {
  // A parabola's slope is off by h^2/6 of the third derivative at both rows; the cubic spreads that
  // as h u(1-u)(1-2u), at most 0.0962 h: h^3/62 = 0.506^3 / 62 = 0.0021, and 1/384 of h^4 more.
  const auto tide = [](int m) { return std::cos(28.984104 * m / 60 * std::acos(-1.0) / 180); };
  std::vector<int> hourly;
  for (int m = 0; m <= 1500; m += 60) hourly.push_back(m);
  const SeriesCurve curve(rows_of(tide, hourly), 0);
  double worst = 0;
  for (int m = 60; m <= 1440; ++m) {
    worst = std::max(worst, std::abs(curve.at(kBegin + minutes(m)).value().value - tide(m)));
  }
  EXPECT_LT(worst, 0.0021 + 0.0002);
}

TEST(SeriesCurve, IsNotKnownAcrossAGapOfMoreThanAnHour) {
  const SeriesCurve curve(rows_of([](int m) { return m / 100.0; }, {0, 60, 121, 150}), 0);
  EXPECT_TRUE(curve.at(kBegin + minutes(60)));
  EXPECT_TRUE(curve.at(kBegin + minutes(121)));
  const auto gap = curve.at(kBegin + minutes(61));
  ASSERT_FALSE(gap);
  EXPECT_EQ(
      in_words(gap.error()),
      "its published series has no rows between 2026-06-14T01:00:00Z and 2026-06-14T02:01:00Z");
  EXPECT_FALSE(curve.at(kBegin - Interval(1)));
  EXPECT_TRUE(curve.at(kBegin + minutes(150)));
  EXPECT_FALSE(curve.at(kBegin + minutes(150) + Interval(1)));
  EXPECT_TRUE(curve.turns({kBegin, kBegin + minutes(60)}));
  EXPECT_FALSE(curve.turns({kBegin, kBegin + minutes(130)}));
  EXPECT_FALSE(curve.turns({kBegin + minutes(60), kBegin + minutes(130)}));
  EXPECT_FALSE(curve.extremes({kBegin + minutes(50), kBegin + minutes(70)}));
}

TEST(SeriesCurve, RoundingMakesNoHighWater) {
  // A flat top as tables print it, then a step of 1 mm back up on the way down.
  const std::vector<double> heights{1.120, 1.127, 1.130, 1.130, 1.130,
                                    1.129, 1.127, 1.128, 1.124, 1.118};
  std::vector<SeriesRow> rows;
  for (std::size_t i = 0; i < heights.size(); ++i) {
    rows.push_back({kBegin + minutes(6) * static_cast<int>(i), heights[i]});
  }
  const SeriesCurve curve(rows, 0.002);
  const auto turns = curve.turns({rows.front().at, rows.back().at});
  ASSERT_TRUE(turns);
  ASSERT_EQ(turns->size(), 1u);
  EXPECT_TRUE(turns->front().high);
  EXPECT_NEAR(turns->front().value, 1.130, 0.001);
}

TEST(SeriesCurve, TurnsOfAPublishedSeriesAreThoseOfTheConstants) {
  // San Francisco, June 2018, rows every 6 minutes to 0.001 ft. Tolerance: half a row's step, 3
  // min, for what the rounding does to a flat top (an independent script with another rule of
  // reading found 116 turns within 1.6 min), and 1 mm.
  const auto file = given::reference_file("tides/predictions-9414290-2018-06-6min.json");
  if (!file) return;
  const auto series = nlohmann::json::parse(given::contents_of(*file));
  nlohmann::json rows;
  for (std::size_t i = 0; i < series["values"].size(); ++i) {
    rows.push_back(
        {to_rfc3339(at(series["start"]) + minutes(6) * static_cast<int>(i)), series["values"][i]});
  }
  const nlohmann::json station{{"kind", "tide station"},
                               {"name", "rows"},
                               {"zone", "UTC"},
                               {"chart_datum", "MLLW"},
                               {"heights", {{"unit", "ft"}, {"rows", rows}}}};
  const Span span{at("2018-06-01T01:00:00Z"), at("2018-06-30T23:00:00Z")};
  const auto ours = given::published_tide("san_francisco").high_low(span);
  const auto read = given::tides_of({station.dump()}).front().high_low(span);
  ASSERT_TRUE(ours);
  ASSERT_TRUE(read);
  ASSERT_EQ(ours->size(), read->size());
  EXPECT_GE(ours->size(), 115u);
  for (std::size_t i = 0; i < ours->size(); ++i) {
    EXPECT_EQ((*ours)[i].high, (*read)[i].high) << i;
    EXPECT_LE(std::abs(in_hours((*ours)[i].at - (*read)[i].at)) * 60, 3) << i;
    EXPECT_NEAR(in_metres((*ours)[i].height - (*read)[i].height), 0, 0.001) << i;
  }
}

std::vector<Turn> turns_at(const std::vector<int>& at_hours) {
  std::vector<Turn> turns;
  for (std::size_t i = 0; i < at_hours.size(); ++i) {
    const bool high = i % 2 == 0;
    turns.push_back({kBegin + std::chrono::hours(at_hours[i]), high ? 3.0 : 1.0, high});
  }
  return turns;
}

TEST(SeriesSpikes, StandOffTheLineBetweenTheirNeighbours) {
  // Flat at 1 m but for one row: it is d off the line, each neighbour d / 2.
  const auto spikes_of = [](double d, const std::vector<int>& at_minutes, int where) {
    return spikes(rows_of([&](int m) { return m == where ? 1 + d : 1.0; }, at_minutes),
                  kMostOffLine_m);
  };
  EXPECT_TRUE(spikes_of(1.49, {0, 6, 12, 18, 24}, 12).empty());
  for (const double d : {1.51, -1.51, 8.0}) {
    const auto found = spikes_of(d, {0, 6, 12, 18, 24}, 12);
    ASSERT_EQ(found.size(), 1u) << d;
    EXPECT_EQ(found.front().row, 2u);
    EXPECT_NEAR(found.front().off_line, std::abs(d), 1e-12);
  }
  EXPECT_EQ(spikes_of(8, {0, 60, 120, 180, 240}, 120).size(), 1u);
  EXPECT_TRUE(spikes_of(8, {0, 61, 122}, 61).empty());  // neighbours more than two hours apart
  // At an end the bend shows at the row beside it: half of 8 m.
  ASSERT_EQ(spikes_of(8, {0, 6, 12}, 0).size(), 1u);
  EXPECT_NEAR(spikes_of(8, {0, 6, 12}, 0).front().off_line, 4, 1e-12);
}

// Bay of Fundy, the greatest range on Earth (about 16 m at springs, from memory): hourly heights of
// 8 m cos(28.98 t) lie 8 (1 - cos 28.98 deg) = 1.002 m off the line at the turn.
TEST(SeriesSpikes, NoTideOnEarthIsOne) {
  const auto fundy = [](int m) { return 8 * std::cos(28.984104 * m / 60 * std::acos(-1.0) / 180); };
  std::vector<int> hourly;
  for (int m = 0; m <= 1500; m += 60) hourly.push_back(m);
  EXPECT_TRUE(spikes(rows_of(fundy, hourly), kMostOffLine_m).empty());
  EXPECT_FALSE(spikes(rows_of(fundy, hourly), 0.99).empty());
}

TEST(HighLowCurve, AHalfCosineBetweenEvents) {
  const auto curve = HighLowCurve::through(turns_at({0, 6, 12}), HighLowCurve::Complete::perhaps);
  ASSERT_TRUE(curve);
  EXPECT_NEAR(curve->at(kBegin).value().value, 3, 1e-12);
  EXPECT_NEAR(curve->at(kBegin + minutes(120)).value().value, 2.5, 1e-12);  // cos 60
  EXPECT_NEAR(curve->at(kBegin + minutes(180)).value().value, 2, 1e-12);
  EXPECT_NEAR(curve->at(kBegin + minutes(180)).value().rate_per_s, -std::acos(-1.0) / 6 / 3600,
              1e-12);
  EXPECT_NEAR(curve->at(kBegin + minutes(720)).value().value, 3, 1e-12);
  EXPECT_FALSE(curve->at(kBegin + minutes(720) + Interval(1)));
}

TEST(HighLowCurve, AHoleInTheTableIsNotRead) {
  // Usual stretch 6 h; a pair is missing between 12 and 30 h: 18 h is more than 2.5 times 6 h. In a
  // table known to be complete the same stretch is read.
  const std::vector<Turn> holed = turns_at({0, 6, 12, 30, 36, 42});
  const auto table = HighLowCurve::through(holed, HighLowCurve::Complete::perhaps);
  ASSERT_TRUE(table);
  const auto hole = table->at(kBegin + std::chrono::hours(20));
  ASSERT_FALSE(hole);
  EXPECT_EQ(in_words(hole.error()),
            "its table has no high or low water between 2026-06-14T12:00:00Z and "
            "2026-06-15T06:00:00Z");
  EXPECT_TRUE(table->at(kBegin + std::chrono::hours(33)));
  EXPECT_TRUE(table->turns({kBegin, kBegin + std::chrono::hours(12)}));
  EXPECT_FALSE(table->turns({kBegin, kBegin + std::chrono::hours(33)}));
  const auto complete = HighLowCurve::through(holed, HighLowCurve::Complete::yes);
  ASSERT_TRUE(complete);
  EXPECT_TRUE(complete->at(kBegin + std::chrono::hours(20)));
}

TEST(HighLowCurve, RefusesATableThatCannotBe) {
  const auto refused = [](std::vector<Turn> turns) {
    const auto curve = HighLowCurve::through(std::move(turns), HighLowCurve::Complete::perhaps);
    return curve ? "" : curve.error();
  };
  std::vector<Turn> turns = turns_at({0, 6, 12});
  turns[1].high = true;
  EXPECT_EQ(refused(turns), "2026-06-14T00:00:00Z and 2026-06-14T06:00:00Z are both high water");
  turns = turns_at({0, 6, 6});
  EXPECT_EQ(refused(turns),
            "2026-06-14T06:00:00Z and 2026-06-14T06:00:00Z do not follow each other in time");
  turns = turns_at({0, 6, 12});
  turns[1].value = 3.5;
  EXPECT_EQ(refused(turns),
            "2026-06-14T00:00:00Z and 2026-06-14T06:00:00Z have their high water below their low "
            "water");
  EXPECT_EQ(refused(turns_at({0})), "fewer than two high and low waters");
}

}  // namespace
}  // namespace passage_brief
