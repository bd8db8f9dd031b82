#include "facts/tide/read_tide_station.h"

#include <gtest/gtest.h>

#include <string>

#include "facts/tide/read_current_station.h"
#include "given/stations.h"
#include "reading/describe_table.h"

namespace passage_brief {
namespace {

std::string problems(const std::string& rest) {
  return given::problems_of_tides(
      {R"({"kind": "tide station", "name": "Harbor", "zone": "America/New_York", )" + rest + "}"});
}

std::string with_rows(const std::string& rows) {
  return problems(R"("constituents": {"unit": "m", "phase": "GMT", "rows": )" + rows + "}");
}

TEST(ReadTideStation, ExamplesInTheFieldTablesAreRight) {
  for (const Problem& problem : problems_of_examples(tide_station().inside)) {
    ADD_FAILURE() << in_words(problem);
  }
  for (const Problem& problem : problems_of_examples(current_station().inside)) {
    ADD_FAILURE() << in_words(problem);
  }
}

TEST(ReadTideStation, EveryProblemAtOnce) {
  const std::string all = problems(
      R"("datum": "MLLW", "uncertainty": 0.15, "constituents": {"unit": "yd", "phase": "local",
         "rows": [["M2", 0.5, 10], ["M2", 0.5, 10], ["M9", 1, 2], ["S2", "1 m", 2], ["N2", 1]]})");
  for (const char* place :
       {"station 1.json: /datum: ", "/uncertainty: ", "/constituents/unit: ",
        "/constituents/phase: ", "/constituents/rows/2/0: \"M9\" is none of the constituents",
        "/constituents/rows/3/1: ", "/constituents/rows/4: "}) {
    EXPECT_NE(all.find(place), std::string::npos) << place << "\nin\n" << all;
  }
}

TEST(ReadTideStation, AConstituentStandsOnceAndItsAmplitudeMakesSense) {
  EXPECT_EQ(with_rows(R"([["M2", 0.5, 10], ["S2", 0, 0]])"), "");
  EXPECT_NE(with_rows(R"([["M2", 0.5, 10], ["M2", 0.4, 10]])")
                .find("/constituents/rows/1: the "
                      "constituent M2 stands in the "
                      "list twice"),
            std::string::npos);
  EXPECT_NE(with_rows(R"([["LAM2", 0.5, 10], ["LDA2", 0.4, 10]])").find("twice"),
            std::string::npos);
  EXPECT_NE(with_rows(R"([["M2", -0.5, 10]])").find("/constituents/rows/0/1"), std::string::npos);
  EXPECT_EQ(with_rows(R"([["M2", 25, 10]])"), "");
  EXPECT_NE(with_rows(R"([["M2", 25.1, 10]])").find("too large to be right"), std::string::npos);
}

TEST(ReadTideStation, IsWorkedOutInOneWay) {
  const std::string both = problems(
      R"("heights": {"unit": "m", "rows": [["2026-06-14T00:00Z", 1], ["2026-06-14T00:06Z", 1]]},
                  "constituents": {"unit": "m", "phase": "GMT", "rows": [["M2", 0.5, 10]]})");
  EXPECT_NE(both.find("/heights: the station is worked out from its constituents already"),
            std::string::npos)
      << both;
  const std::string lone = problems(
      R"("offsets": {"high_time": "1 min", "low_time": "1 min", "high": {"ratio": 1}, "low": {"ratio": 1}})");
  EXPECT_NE(lone.find("/offsets: needs the key \"reference\""), std::string::npos) << lone;
}

TEST(ReadTideStation, AnOffsetOfHeightIsARatioOrAnAddition) {
  for (const char* height : {"{}", R"({"ratio": 1, "add": "1 ft"})"}) {
    const std::string words = problems(
        R"("reference": "Sea", "offsets": {"high_time": "1 min", "low_time": "1 min", "low": {"ratio": 1}, "high": )" +
        std::string(height) + "}");
    EXPECT_NE(words.find("/offsets/high: needs either a \"ratio\" or an \"add\""),
              std::string::npos)
        << words;
  }
}

TEST(ReadTideStation, TheChartDatumIsOneOfItsOwn) {
  EXPECT_NE(problems(R"("chart_datum": "MLW", "datums": {"unit": "m", "MLLW": 0, "MSL": 1})")
                .find("/chart_datum: \"MLW\" is not among the station's datums; did you mean "
                      "\"MLLW\"?"),
            std::string::npos);
  EXPECT_EQ(problems(R"("chart_datum": "MLLW", "datums": {"unit": "m", "MLLW": null, "MSL": 1})"),
            "");
  EXPECT_EQ(problems(R"("chart_datum": "MLLW")"), "");
}

TEST(ReadTideStation, RowsStandByRisingTimeAndMayBeNull) {
  const auto series = [](const std::string& rows) {
    return problems(R"("chart_datum": "CD", "heights": {"unit": "m", "rows": )" + rows + "}");
  };
  EXPECT_EQ(series(R"([["2026-06-14T00:00Z", 1], ["2026-06-14T00:06Z", null]])"), "");
  EXPECT_NE(series(R"([["2026-06-14T00:06Z", 1], ["2026-06-14T00:00Z", 2]])")
                .find("/heights/rows/1: its time is not after the one before"),
            std::string::npos);
  EXPECT_NE(series(R"([["2026-06-14T00:00Z", null], ["2026-06-14T00:06Z", null]])")
                .find("/heights/rows: holds no value that is not null"),
            std::string::npos);
  EXPECT_NE(
      series(R"([["2026-06-14T00:00", 1], ["2026-06-14T00:06Z", 1]])").find("/heights/rows/0/0"),
      std::string::npos);  // no offset
  EXPECT_NE(series(R"([["2026-06-14T00:00Z", 1], ["2026-06-14T00:06Z", 99]])")
                .find("/heights/rows/1: the number is too large"),
            std::string::npos);
}

// NOAA CO-OPS, Tidal Datums (from memory): MLLW is the mean of the lower low waters only, MHHW of
// the higher high waters, LAT and HAT the lowest and highest predicted: each step holds by
// definition.
TEST(ReadTideStation, DatumsStandInTheirOrder) {
  const auto datums = [](const std::string& heights) {
    return problems(R"("datums": {"unit": "m", )" + heights + "}");
  };
  EXPECT_EQ(datums(R"("LAT": 1, "MLLW": 1, "MLW": 1, "MSL": 1, "MHW": 1, "MHHW": 1, "HAT": 1)"),
            "");
  EXPECT_EQ(datums(R"("MLLW": 0, "MLW": 0.2, "MSL": 1, "MTL": 0.9, "MHW": 1.6, "NAVD88": 9)"), "");
  // The published half-way plane of a station with one great tide a day may lie under its MLW.
  EXPECT_EQ(datums(R"("MLLW": 0, "MLW": 1.2, "DTL": 1.1, "MHW": 2.1, "MHHW": 2.2)"), "");
  const auto wrong = [&](const std::string& heights, const std::string& words) {
    const std::string said = datums(heights);
    EXPECT_NE(said.find("/datums: " + words), std::string::npos) << heights << "\n" << said;
  };
  wrong(R"("MHW": 9.67, "HAT": 1.227)", "MHW stands 8.443 m above HAT");
  wrong(R"("LAT": 0.1, "MLLW": 0)", "LAT stands 0.100 m above MLLW");
  wrong(R"("MLLW": 0.3, "MLW": 0.2)", "MLLW stands 0.100 m above MLW");
  wrong(R"("MLW": 1.1, "MSL": 1)", "MLW stands 0.100 m above MSL");
  wrong(R"("MTL": 1.1, "MHW": 1)", "MTL stands 0.100 m above MHW");
  wrong(R"("DTL": 1.1, "MHHW": 1)", "DTL stands 0.100 m above MHHW");
  wrong(R"("MHW": 1.1, "MHHW": 1)", "MHW stands 0.100 m above MHHW");
  wrong(R"("MHWN": 1.1, "MHWS": 1)", "MHWN stands 0.100 m above MHWS");
  const std::string once = datums(R"("MHHW": 1.1, "HAT": 1)");
  EXPECT_EQ(once.find("MHHW stands"), once.rfind("MHHW stands")) << once;
}

// 1.15 (0.54 + 0.13) + 0.5 = 1.2705 m on either side of mean level.
TEST(ReadTideStation, DatumsLieWithinReachOfTheConstituents) {
  const auto with = [](const std::string& heights) {
    return problems(R"("datums": {"unit": "m", )" + heights + R"(},
        "constituents": {"unit": "m", "phase": "GMT", "rows": [["M2", 0.54, 10], ["S2", 0.13, 10]]})");
  };
  EXPECT_EQ(with(R"("MLLW": 0.73, "MSL": 2, "MHW": 3.27, "STND": 90)"), "");
  EXPECT_NE(with(R"("MSL": 2, "MHW": 3.28)")
                .find("/datums: MHW lies 1.28 m from MSL, further than the constituents reach "
                      "(1.27 m)"),
            std::string::npos);
  EXPECT_NE(with(R"("MTL": 2, "MLLW": 0.72)").find("MLLW lies 1.28 m from MTL"), std::string::npos);
}

TEST(ReadTideStation, ASpikeInAPublishedSeriesIsRefusedWhereItStands) {
  const std::string words = problems(R"("chart_datum": "CD", "heights": {"unit": "ft", "rows": [
      ["2026-06-14T00:00Z", 3.5], ["2026-06-14T00:06Z", null], ["2026-06-14T00:12Z", 3.6],
      ["2026-06-14T00:18Z", 10.6], ["2026-06-14T00:24Z", 3.6], ["2026-06-14T00:30Z", 3.7]]})");
  EXPECT_EQ(
      words,
      "station 1.json: /heights/rows/3: the height at 2026-06-14T00:18:00Z lies 2.1 m off the "
      "line between the heights before and after it; no tide rises or falls like that\n");
}

TEST(ReadTideStation, HighAndLowWatersAlternate) {
  const std::string words = problems(R"("chart_datum": "CD", "high_low": {"unit": "m", "rows": [
                  ["2026-06-14T00:00Z", 3, "high"], ["2026-06-14T12:00Z", 3.1, "high"]]})");
  EXPECT_NE(
      words.find("/high_low/rows: 2026-06-14T00:00:00Z and 2026-06-14T12:00:00Z are both high "
                 "water"),
      std::string::npos)
      << words;
}

TEST(ReadTideStation, NameAndZoneMustBeGiven) {
  const std::string words = given::problems_of_tides({R"({"kind": "tide station"})"});
  EXPECT_NE(words.find("the key \"name\" is missing"), std::string::npos) << words;
  EXPECT_NE(words.find("the key \"zone\" is missing"), std::string::npos) << words;
}

}  // namespace
}  // namespace passage_brief
